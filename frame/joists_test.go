package frame_test

import (
	"cmp"
	"errors"
	"slices"
	"testing"

	"example.com/lapspan/frame"
	"example.com/lapspan/units"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestStudsOntoJoists(t *testing.T) {
	// Timber of 40 in 2440: studs at 20, 820, 1620, 2420, which may be 1000 apart.
	tests := []struct {
		name   string
		from   units.Length
		joists []units.Length
		want   []units.Length
		on     []bool
	}{
		{"none", 0, nil, []units.Length{20, 820, 1620, 2420}, []bool{false, false, false, false}},
		{"the nearer joist", 0, []units.Length{700, 900, 1600}, []units.Length{20, 900, 1600, 2420}, []bool{false, true, true, false}},
		// 620 needs the next one by 1620, its even place.
		{"as far as the spacing goes", 0, []units.Length{620}, []units.Length{20, 620, 1620, 2420}, []bool{false, true, false, false}},
		{"too far", 0, []units.Length{619}, []units.Length{20, 820, 1620, 2420}, []bool{false, false, false, false}},
		{"one moves so that another can", 0, []units.Length{500, 1500}, []units.Length{20, 500, 1500, 2420}, []bool{false, true, true, false}},
		// 1020 is the furthest from the first stud.
		{"a joist for either", 0, []units.Length{1020}, []units.Length{20, 1020, 1620, 2420}, []bool{false, true, false, false}},
		{"the left one of two as near", 0, []units.Length{920, 720}, []units.Length{20, 720, 1620, 2420}, []bool{false, true, false, false}},
		{"the even place is on a joist", 0, []units.Length{820}, []units.Length{20, 820, 1620, 2420}, []bool{false, true, false, false}},
		{"an end stud stays", 0, []units.Length{20, 60, 2420}, []units.Length{20, 820, 1620, 2420}, []bool{true, false, false, true}},
		{"from an end panel", 18, []units.Length{918}, []units.Length{38, 918, 1638, 2438}, []bool{false, true, false, false}},
		{"outside the opening", 0, []units.Length{3000, 9000}, []units.Length{20, 820, 1620, 2420}, []bool{false, false, false, false}},
		{"out of order and twice", 0, []units.Length{1600, 900, 1600}, []units.Length{20, 900, 1600, 2420}, []bool{false, true, true, false}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			joists := slices.Clone(tt.joists)
			for i := range joists {
				joists[i] *= mm
			}
			before := slices.Clone(joists)
			b, err := frame.SetOut(frame.Head{Width: 2440 * mm, Gap: 280 * mm, From: tt.from * mm, Joists: joists}, timber(40*mm, 0, 3*units.Metre))
			if err != nil {
				t.Fatal(err)
			}
			var at []units.Length
			var on []bool
			for _, s := range b.Studs {
				at, on = append(at, s.At/mm), append(on, s.OnJoist)
			}
			if !slices.Equal(at, tt.want) || !slices.Equal(on, tt.on) {
				t.Errorf("studs at %v, on joists %v: want %v, %v", at, on, tt.want, tt.on)
			}
			if !slices.Equal(joists, before) {
				t.Error("the joists given were moved")
			}
		})
	}
}

func TestJoistsAreBounded(t *testing.T) {
	joists := make([]units.Length, frame.MaxJoists+1)
	head := frame.Head{Width: 2440 * mm, Gap: 280 * mm}
	for _, tt := range []struct {
		joists []units.Length
		want   error
	}{
		{joists[:frame.MaxJoists], nil}, {joists, units.ErrRange},
		{[]units.Length{-1}, units.ErrRange}, {[]units.Length{units.MaxLength + 1}, units.ErrRange},
	} {
		head.Joists = tt.joists
		if _, err := frame.SetOut(head, timber(40*mm, 0, 3*units.Metre)); !errors.Is(err, tt.want) {
			t.Errorf("%d joists: error %v, want %v", len(tt.joists), err, tt.want)
		}
	}
}

// A stud may come as near to the next as the timber is thick, and no nearer.
func TestStudsDoNotOverlap(t *testing.T) {
	for joist, want := range map[units.Length]units.Length{60 * mm: 60 * mm, 60*mm - 1: 120 * mm, 180 * mm: 180 * mm, 180*mm + 1: 120 * mm} {
		b, err := frame.SetOut(frame.Head{Width: 240 * mm, Gap: 280 * mm, Joists: []units.Length{joist}}, timber(40*mm, 160*mm+1, 3*units.Metre))
		if err != nil || len(b.Studs) != 3 || b.Studs[1].At != want {
			t.Errorf("joist at %v: %+v, %v: want the middle stud at %v", joist, b.Studs, err, want)
		}
	}
}

// Studs that come too near to each other in their even places stay there.
func TestStudsThatTouchStay(t *testing.T) {
	b, err := frame.SetOut(frame.Head{Width: 100 * mm, Gap: 280 * mm, Joists: []units.Length{50 * mm}}, timber(40*mm, 30*mm, 3*units.Metre))
	if err != nil || len(b.Studs) != 3 || b.Studs[1].At != 50*mm || !b.Studs[1].OnJoist {
		t.Errorf("%+v, %v: want the middle stud where it is", b.Studs, err)
	}
}

// joistsHold tries every place for every stud.
func joistsHold(t *rapid.T) {
	thickness := units.Length(rapid.Int64Range(20, 60).Draw(t, "thickness")) * 2 * mm
	spacing := units.Length(rapid.Int64Range(200, 1000).Draw(t, "spacing")) * mm
	bays := rapid.Int64Range(2, 5).Draw(t, "bays")
	width := thickness + spacing*units.Length(bays-1) + units.Length(rapid.Int64Range(1, int64(spacing/mm)).Draw(t, "last bay"))*mm
	head := frame.Head{Width: width, Gap: 500 * mm}
	even, err := frame.SetOut(head, timber(thickness, spacing, 9*units.Metre))
	if err != nil {
		t.Fatal(err)
	}
	for range rapid.IntRange(0, 6).Draw(t, "joists") {
		head.Joists = append(head.Joists, units.Length(rapid.Int64Range(0, int64(width/mm)).Draw(t, "joist"))*mm)
	}
	b, err := frame.SetOut(head, timber(thickness, spacing, 9*units.Metre))
	if err != nil {
		t.Fatal(err)
	}

	best := []int64{1 << 40, 0}
	var place func(i int, last units.Length, off, by int64)
	end := even.Studs[len(even.Studs)-1].At
	place = func(i int, last units.Length, off, by int64) {
		if i == len(even.Studs)-1 {
			if end-last >= thickness && end-last <= spacing {
				best = slices.MinFunc([][]int64{best, {off, by}}, slices.Compare)
			}
			return
		}
		for _, at := range append([]units.Length{even.Studs[i].At}, head.Joists...) {
			if at-last < thickness || at-last > spacing {
				continue
			}
			o := off
			if !slices.Contains(head.Joists, at) {
				o++
			}
			place(i+1, at, o, by+int64((at-even.Studs[i].At).Abs()))
		}
	}
	place(1, even.Studs[0].At, 0, 0)

	got := []int64{0, 0}
	for i, s := range b.Studs {
		on := slices.Contains(head.Joists, s.At)
		if on != s.OnJoist {
			t.Errorf("stud %+v with joists %v", s, head.Joists)
		}
		if i > 0 && i < len(b.Studs)-1 && !on {
			got[0]++
		}
		got[1] += int64((s.At - even.Studs[i].At).Abs())
		if i > 0 {
			if apart := s.At - b.Studs[i-1].At; apart > spacing || best[0] < 1<<40 && apart < thickness {
				t.Errorf("studs %v apart, at most %v", apart, spacing)
			}
		}
	}
	if len(b.Studs) != len(even.Studs) || best[0] < 1<<40 && cmp.Compare(0, slices.Compare(got, best)) != 0 {
		t.Errorf("studs %+v, off joists and moved %v, best %v", b.Studs, got, best)
	}
}

func TestJoistsHold(t *testing.T) { rapid.Check(t, joistsHold) }

// Studs that stand unevenly are joined on as well as even ones.
func TestJointsOnMovedStuds(t *testing.T) {
	// Studs of 40 in 3640: 20, 920 -> 800, 1820, 2720 -> 2800, 3620.
	b, err := frame.SetOut(
		frame.Head{Width: 3640 * mm, Gap: 280 * mm, Joists: []units.Length{800 * mm, 1820 * mm, 2800 * mm}},
		timber(40*mm, 1100*mm, 2840*mm))
	if err != nil {
		t.Fatal(err)
	}
	want := []units.Length{2800 * mm, 840 * mm, 800 * mm, 2840 * mm}
	if diff := gocmp.Diff(want, b.Plates); diff != "" {
		t.Errorf("plates (-want +got):\n%s", diff)
	}
}
