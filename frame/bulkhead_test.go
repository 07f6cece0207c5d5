package frame_test

import (
	"errors"
	"math/big"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// timber is timber of a thickness, in one stock length.
func timber(thickness, spacing, stock units.Length) doors.Timber {
	return doors.Timber{
		Thickness: thickness, Width: 2 * thickness, StudSpacing: spacing,
		Lengths: []doors.StockLength{{Length: stock}},
	}
}

func TestSetOutReference(t *testing.T) {
	table.Each(t, "frame_bulkhead.csv", func(t *testing.T, r row) {
		head := frame.Head{Width: r.Length(t, "width"), Gap: r.Length(t, "gap"), From: r.Length(t, "from")}
		b, err := frame.SetOut(head, timber(r.Length(t, "thickness"), r.Length(t, "spacing"), 5*units.Metre))
		if err != nil {
			t.Fatal(err)
		}
		if got := int64(len(b.Studs)); got != r.Number(t, "studs") {
			t.Fatalf("%d studs, want %s", got, r["studs"])
		}
		if got, want := b.Studs[0].At, head.From+r.Length(t, "thickness")/2; got != want {
			t.Errorf("first stud at %v, want %v", got, want)
		}
		if got, want := b.Studs[1].At, r.Length(t, "second"); got != want {
			t.Errorf("second stud at %v, want %v", got, want)
		}
		if got, want := b.Studs[len(b.Studs)-1].At, r.Length(t, "last"); got != want {
			t.Errorf("last stud at %v, want %v", got, want)
		}
		for _, s := range b.Studs {
			if want := r.Length(t, "stud"); s.Length != want {
				t.Errorf("stud at %v is %v long, want %v", s.At, s.Length, want)
			}
		}
		if want := []units.Length{head.Width, head.Width}; !cmp.Equal(b.Plates, want) || b.Joints != nil {
			t.Errorf("plates %v joined at %v, want %v in one piece", b.Plates, b.Joints, want)
		}
	})
}

// Either plate may be the one that goes round the other.
func TestJointsReference(t *testing.T) {
	table.Each(t, "frame_joints.csv", func(t *testing.T, r row) {
		b, err := frame.SetOut(
			frame.Head{Width: r.Length(t, "width"), Gap: 300 * mm},
			timber(r.Length(t, "thickness"), r.Length(t, "spacing"), r.Length(t, "longest")))
		if err != nil {
			t.Fatal(err)
		}
		bottom, top := split(t, b, r.Length(t, "width"))
		got := []string{sum(bottom), sum(top)}
		want := strings.Split(r["plates"], " | ")
		slices.Sort(got)
		slices.Sort(want)
		if !cmp.Equal(got, want) {
			t.Errorf("plates %v, want %v", got, want)
		}
	})
}

// split parts the pieces of a bulkhead into its two plates.
func split(t require, b frame.Bulkhead, width units.Length) (bottom, top []units.Length) {
	var laid units.Length
	for i, p := range b.Plates {
		laid += p
		if laid == width {
			return b.Plates[:i+1], b.Plates[i+1:]
		}
	}
	t.Fatalf("plates %v never come to %v", b.Plates, width)
	return nil, nil
}

type require interface {
	Errorf(string, ...any)
	Fatalf(string, ...any)
}

func TestStudsUnderACeilingThatRunsOut(t *testing.T) {
	// Level line at 1000 above the lowest ceiling on the left, 30 more at 2400: the
	// reading in the middle is the least.
	levels := []opening.Level{
		{At: 2400 * mm, Floor: 1, Ceiling: 1030 * mm},
		{At: 0, Floor: 1, Ceiling: 1010 * mm},
		{At: 1200 * mm, Floor: 1, Ceiling: 1000 * mm},
	}
	tests := []struct {
		name   string
		head   frame.Head
		levels []opening.Level
		want   []units.Length
	}{
		{"no levels", frame.Head{Width: 2440 * mm, Gap: 280 * mm}, nil, []units.Length{200 * mm, 200 * mm, 200 * mm, 200 * mm}},
		// Centres 20, 820, 1620, 2420: 10 − 10·20/1200 = 9.8333333; 10 − 10·820/1200 = 3.1666666;
		// 30·420/1200 = 10.5; past the last station 30.
		{"levels", frame.Head{Width: 2440 * mm, Gap: 280 * mm}, levels,
			[]units.Length{209_833_333, 203_166_666, 210_500_000, 230_000_000}},
		// From 1200 on, 40 further: centres 1260, 2060, 2860, 3660.
		{"from an end panel", frame.Head{Width: 2440 * mm, Gap: 280 * mm, From: 1240 * mm}, levels,
			[]units.Length{201_500_000, 221_500_000, 230_000_000, 230_000_000}},
		{"one level", frame.Head{Width: 2440 * mm, Gap: 280 * mm}, levels[:1], []units.Length{200 * mm, 200 * mm, 200 * mm, 200 * mm}},
		{"two at one place, the nearer counts", frame.Head{Width: 840 * mm, Gap: 280 * mm},
			[]opening.Level{{At: 0, Ceiling: 1020 * mm}, {At: 0, Ceiling: 1004 * mm}, {At: 2000 * mm, Ceiling: 1000 * mm}},
			[]units.Length{203_960_000, 202_360_000}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.head.Levels = tt.levels
			before := slices.Clone(tt.levels)
			b, err := frame.SetOut(tt.head, timber(40*mm, 0, 3*units.Metre))
			if err != nil {
				t.Fatal(err)
			}
			var got []units.Length
			for _, s := range b.Studs {
				got = append(got, s.Length)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("studs (-want +got):\n%s", diff)
			}
			if !cmp.Equal(before, tt.levels) {
				t.Error("the levels given were moved")
			}
		})
	}
}

func TestSetOutRefuses(t *testing.T) {
	good := timber(40*mm, 0, 2400*mm)
	tests := []struct {
		name   string
		head   frame.Head
		timber doors.Timber
		want   error // nil: it can be built
	}{
		{"a stud of a nanometre", frame.Head{Width: 1000 * mm, Gap: 80*mm + 1}, good, nil},
		{"no stud", frame.Head{Width: 1000 * mm, Gap: 80 * mm}, good, frame.ErrTooShort},
		{"two studs touch", frame.Head{Width: 40*mm + 1, Gap: 280 * mm}, good, nil},
		{"one stud wide", frame.Head{Width: 40 * mm, Gap: 280 * mm}, good, frame.ErrTooShort},
		{"no width", frame.Head{Gap: 280 * mm}, good, frame.ErrTooShort},
		{"a stud as long as the stock", frame.Head{Width: 1000 * mm, Gap: 2480 * mm}, good, nil},
		{"a stud longer than the stock", frame.Head{Width: 1000 * mm, Gap: 2480*mm + 1}, good, frame.ErrTooLong},
		{"as many studs as can be", frame.Head{Width: 999*50*mm + 40*mm, Gap: 280 * mm}, timber(40*mm, 50*mm, 60*units.Metre), nil},
		{"one stud more", frame.Head{Width: 999*50*mm + 40*mm + 1, Gap: 280 * mm}, timber(40*mm, 50*mm, 60*units.Metre), frame.ErrTooMany},
		{"stock shorter than a bay", frame.Head{Width: 2840 * mm, Gap: 280 * mm}, timber(40*mm, 0, 900*mm), frame.ErrNoJoint},
		{"joined on the middle stud", frame.Head{Width: 1840 * mm, Gap: 280 * mm}, timber(40*mm, 0, 920*mm), nil},
		{"stock short of the middle stud", frame.Head{Width: 1840 * mm, Gap: 280 * mm}, timber(40*mm, 0, 920*mm-1), frame.ErrNoJoint},
		{"no inner stud", frame.Head{Width: 1000 * mm, Gap: 280 * mm}, timber(40*mm, 0, 990*mm), frame.ErrNoJoint},
		{"width below zero", frame.Head{Width: -1, Gap: 280 * mm}, good, units.ErrRange},
		{"gap below zero", frame.Head{Width: 1000 * mm, Gap: -1}, good, units.ErrRange},
		{"from below zero", frame.Head{Width: 1000 * mm, Gap: 280 * mm, From: -1}, good, units.ErrRange},
		{"width beyond all", frame.Head{Width: 1 << 62, Gap: 280 * mm}, good, units.ErrRange},
		{"a ceiling beyond all", frame.Head{Width: 1000 * mm, Gap: 280 * mm, Levels: []opening.Level{{Ceiling: 1 << 62}}}, good, units.ErrRange},
		{"a place beyond all", frame.Head{Width: 1000 * mm, Gap: 280 * mm, Levels: []opening.Level{{At: -1 << 62}}}, good, units.ErrRange},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, err := frame.SetOut(tt.head, tt.timber)
			if !errors.Is(err, tt.want) {
				t.Fatalf("error %v, want %v", err, tt.want)
			}
			if (err == nil) != (len(b.Studs) > 0) {
				t.Errorf("%d studs with error %v", len(b.Studs), err)
			}
		})
	}
}

func TestSetOutSaysHowManyStuds(t *testing.T) {
	_, err := frame.SetOut(frame.Head{Width: 1000*50*mm + 40*mm, Gap: 280 * mm}, timber(40*mm, 50*mm, 60*units.Metre))
	if err == nil || !strings.Contains(err.Error(), "1001 studs, at most 1000") {
		t.Errorf("error %v, want 1001 studs named", err)
	}
}

func TestSetOutRefusesTimberWithItsPlace(t *testing.T) {
	_, err := frame.SetOut(frame.Head{Width: 1000 * mm, Gap: 280 * mm}, doors.Timber{})
	var input *opening.InputError
	if !errors.As(err, &input) || input.Place != "timber.thickness" {
		t.Errorf("error %v, want one at timber.thickness", err)
	}
}

// bulkheads is any bulkhead that can be set out, small enough to be joined in every way there is.
func bulkheads(t *rapid.T) (frame.Head, doors.Timber) {
	thickness := units.Length(rapid.Int64Range(int64(20*mm), int64(60*mm)).Draw(t, "thickness"))
	spacing := units.Length(rapid.Int64Range(int64(100*mm), int64(1000*mm)).Draw(t, "spacing"))
	bays := rapid.Int64Range(1, 9).Draw(t, "bays")
	head := frame.Head{
		Width: thickness + spacing*units.Length(bays-1) + units.Length(rapid.Int64Range(1, int64(spacing)).Draw(t, "last bay")),
		Gap:   2*thickness + units.Length(rapid.Int64Range(1, int64(500*mm)).Draw(t, "stud")),
		From:  units.Length(rapid.Int64Range(0, int64(50*mm)).Draw(t, "from")),
	}
	for range rapid.IntRange(0, 4).Draw(t, "levels") {
		head.Levels = append(head.Levels, opening.Level{
			At:      units.Length(rapid.Int64Range(0, int64(9*units.Metre)).Draw(t, "at")),
			Floor:   units.Length(rapid.Int64Range(1, int64(60*mm)).Draw(t, "floor")),
			Ceiling: units.Length(rapid.Int64Range(1, int64(60*mm)).Draw(t, "ceiling")),
		})
	}
	stock := units.Length(rapid.Int64Range(int64(head.Width/8)+1, int64(head.Width+100*mm)).Draw(t, "stock"))
	return head, timber(thickness, spacing, stock)
}

// setOutHolds is the rule in full, by ways so slow that they are plain.
func setOutHolds(t *rapid.T) {
	head, timber := bulkheads(t)
	b, err := frame.SetOut(head, timber)
	longest := timber.Lengths[0].Length

	// Studs: the fewest whose even spacing keeps the limit.
	reach := head.Width - timber.Thickness
	bays := int64(1)
	for int64(reach) > bays*int64(timber.StudSpacing) {
		bays++
	}
	centres := make([]units.Length, bays+1)
	short := false
	lengths := make([]units.Length, bays+1)
	for i := range centres {
		centres[i] = timber.Thickness/2 + nearest(big.NewRat(int64(reach)*int64(i), bays))
		lengths[i] = head.Gap - 2*timber.Thickness + ceilingAbove(head.Levels, head.From+centres[i])
		short = short || lengths[i] > longest
	}
	ways := waysToJoin(head.Width, longest, centres)
	switch {
	case short:
		if !errors.Is(err, frame.ErrTooLong) {
			t.Fatalf("error %v with studs %v from %v", err, lengths, longest)
		}
		return
	case len(ways) == 0:
		if !errors.Is(err, frame.ErrNoJoint) {
			t.Fatalf("error %v, and there is no way to join the plates", err)
		}
		return
	case err != nil:
		t.Fatal(err)
	}
	for i := range centres {
		if got := b.Studs[i]; got.At != head.From+centres[i] || got.Length != lengths[i] {
			t.Errorf("stud %d is %+v, want at %v, %v long", i, got, head.From+centres[i], lengths[i])
		}
	}
	if len(b.Studs) != len(centres) {
		t.Errorf("%d studs, want %d", len(b.Studs), len(centres))
	}

	// Plates: each makes up the width, its joints on inner studs.
	bottom, top := split(t, b, head.Width)
	joints := map[frame.Plate][]units.Length{}
	for _, j := range b.Joints {
		joints[j.Plate] = append(joints[j.Plate], j.At-head.From)
	}
	shared := 0
	for plate, pieces := range map[frame.Plate][]units.Length{frame.BottomPlate: bottom, frame.TopPlate: top} {
		var end units.Length
		for i, p := range pieces {
			if p <= 0 || p > longest {
				t.Errorf("%s plate has a piece of %v from stock of %v", plate, p, longest)
			}
			end += p
			if i == len(pieces)-1 {
				break
			}
			if !slices.Contains(centres[1:len(centres)-1], end) || joints[plate][i] != end {
				t.Errorf("%s plate is joined at %v (%v), not on an inner stud of %v", plate, end, joints[plate], centres)
			}
			if plate == frame.TopPlate && slices.Contains(joints[frame.BottomPlate], end) {
				shared++
			}
		}
		if end != head.Width || len(joints[plate]) != len(pieces)-1 {
			t.Errorf("%s plate comes to %v in %d pieces with %d joints", plate, end, len(pieces), len(joints[plate]))
		}
	}

	// Of every pair of ways: apart before shared, then the fewest pieces, then the fewest shared studs.
	best := []int{1 << 30, 0, 0}
	for _, x := range ways {
		for _, y := range ways {
			common := 0
			for _, j := range x {
				if slices.Contains(y, j) {
					common++
				}
			}
			best = slices.MinFunc([][]int{best, {min(common, 1), len(x) + len(y), common}}, slices.Compare)
		}
	}
	if got := []int{min(shared, 1), len(b.Joints), shared}; !slices.Equal(got, best) {
		t.Errorf("joints %v: shared, count, studs shared %v, best %v", b.Joints, got, best)
	}
}

// nearest rounds half even.
func nearest(r *big.Rat) units.Length {
	for n := int64(0); ; n++ {
		if n == 0 {
			n = new(big.Int).Quo(r.Num(), r.Denom()).Int64()
		}
		off := new(big.Rat).Sub(r, big.NewRat(n, 1))
		switch c := off.Cmp(big.NewRat(1, 2)); {
		case c < 0, c == 0 && n%2 == 0:
			return units.Length(n)
		}
	}
}

// ceilingAbove looks for the two stations around a place among all pairs.
func ceilingAbove(levels []opening.Level, place units.Length) units.Length {
	if len(levels) == 0 {
		return 0
	}
	least := levels[0].Ceiling
	at := map[units.Length]units.Length{}
	for _, l := range levels {
		least = min(least, l.Ceiling)
		if c, ok := at[l.At]; !ok || l.Ceiling < c {
			at[l.At] = l.Ceiling
		}
	}
	left, right := units.Length(-1), units.Length(-1)
	for a := range at {
		if a <= place && (left < 0 || a > left) {
			left = a
		}
		if a >= place && (right < 0 || a < right) {
			right = a
		}
	}
	switch {
	case left < 0:
		return at[right] - least
	case right < 0, left == right:
		return at[left] - least
	}
	part := big.NewRat(int64(place-left), int64(right-left))
	rise := part.Mul(part, big.NewRat(int64(at[right]-at[left]), 1))
	down := new(big.Int).Div(rise.Num(), rise.Denom()) // towards −∞, as the divisor is positive
	return at[left] - least + units.Length(down.Int64())
}

// waysToJoin lists every set of inner studs that parts the width into pieces of at most longest.
func waysToJoin(width, longest units.Length, centres []units.Length) [][]units.Length {
	var ways [][]units.Length
	inner := centres[1 : len(centres)-1]
	for set := range 1 << len(inner) {
		var way []units.Length
		var from units.Length
		fits := true
		for i, c := range inner {
			if set>>i&1 == 1 {
				fits = fits && c-from <= longest
				way, from = append(way, c), c
			}
		}
		if fits && width-from <= longest {
			ways = append(ways, way)
		}
	}
	return ways
}

func TestSetOutHolds(t *testing.T) { rapid.Check(t, setOutHolds) }
func FuzzSetOut(f *testing.F)      { f.Fuzz(rapid.MakeFuzz(setOutHolds)) }

func BenchmarkSetOut(b *testing.B) {
	head := frame.Head{Width: 5440 * mm, Gap: 270 * mm, Levels: []opening.Level{
		{At: 0, Floor: 1000 * mm, Ceiling: 1300 * mm}, {At: 5440 * mm, Floor: 1000 * mm, Ceiling: 1312 * mm},
	}}
	for _, bench := range []struct {
		name  string
		stock units.Length
	}{{"one piece", 6000 * mm}, {"joined", 3000 * mm}} {
		b.Run(bench.name, func(b *testing.B) {
			timber := timber(40*mm, 0, bench.stock)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := frame.SetOut(head, timber); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
