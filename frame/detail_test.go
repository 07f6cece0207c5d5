package frame_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
)

// site is an opening of 2440 under a bulkhead, with a fitter's timber.
func site(t *testing.T, levels []opening.Level, packed bool) (frame.Layout, *doors.Timber) {
	t.Helper()
	wood := timber(40*mm, 0, 3000*mm)
	head := frame.Head{Width: 2440 * mm, Gap: 280 * mm, Levels: levels, PackedLevel: packed}
	b, err := frame.SetOut(head, wood)
	if err != nil {
		t.Fatal(err)
	}
	return frame.Layout{
		Head: head, ClearHeight: 2300 * mm, Height: 2020 * mm, Line: 560 * mm, Depth: 80 * mm, Bulkhead: &b,
	}, &wood
}

func detail(t *testing.T, l frame.Layout, wood *doors.Timber, o frame.Options) (frame.Details, opening.Findings) {
	t.Helper()
	d, found, err := frame.Detail(l, wood, o)
	if err != nil {
		t.Fatal(err)
	}
	return d, found
}

// Nothing that is not asked for, and not a finding.
func TestDetailOfNothingAsked(t *testing.T) {
	l, wood := site(t, nil, false)
	d, found := detail(t, l, wood, frame.Options{})
	if d.Packing != nil || d.Fixings != nil || d.Stiffness != nil || found != nil {
		t.Errorf("%+v, %v", d, found)
	}
	if len(d.Ends) != 2 || d.Ends[0].Kind != frame.AtWall || d.Ends[1].Kind != frame.AtWall || len(d.Marks) == 0 {
		t.Errorf("ends %+v and %d marks", d.Ends, len(d.Marks))
	}
	want, err := frame.Marks(l)
	if diff := cmp.Diff(want, d.Marks); diff != "" || err != nil {
		t.Errorf("%v: marks (-want +got):\n%s", err, diff)
	}
}

func TestDetailWithoutABulkhead(t *testing.T) {
	l := frame.Layout{
		Head:        frame.Head{Width: 2400 * mm, Levels: fallen()},
		ClearHeight: 2300 * mm, Height: 2230 * mm, Stack: 70 * mm, Line: 560 * mm, Depth: 80 * mm, Joists: []units.Length{300 * mm, 900 * mm, 1500 * mm, 2100 * mm},
	}
	d, found := detail(t, l, nil, frame.Options{Lining: 12 * mm, LeftWall: frame.Masonry, Stiffness: &frame.StiffnessAsked{Grade: "C16", Limit: 300}})
	if d.Ends != nil || d.Stiffness != nil || found != nil {
		t.Errorf("%+v, %v: want no ends, no stiffness", d, found)
	}
	if d.Packing == nil || len(d.Packing.UnderRail) != 1 || len(d.Packing.AboveTrack) != 2 {
		t.Fatalf("packing %+v", d.Packing)
	}
	// 70 of packer, 10 of packing at its thickest, 12 of board, 40 into the joist.
	if len(d.Fixings) != 1 || d.Fixings[0].What != "packer and track" || d.Fixings[0].Each[0].Least != 132*mm {
		t.Errorf("fixings %+v", d.Fixings)
	}
	l.Stack = 0
	if d, _ := detail(t, l, nil, frame.Options{}); d.Fixings[0].What != "track" || d.Fixings[0].Each[0].Least != 50*mm {
		t.Errorf("fixings %+v", d.Fixings)
	}
	l.Depth = 0
	if d, _ := detail(t, l, nil, frame.Options{}); d.Fixings != nil {
		t.Errorf("fixings of a track of no known depth: %+v", d.Fixings)
	}
}

func TestDetailPacksUnderTheRailOfABulkhead(t *testing.T) {
	for _, packed := range []bool{false, true} {
		l, wood := site(t, fallen(), packed)
		d, _ := detail(t, l, wood, frame.Options{Ceiling: frame.Masonry})
		if d.Packing == nil || d.Packing.UnderRail == nil || d.Packing.AboveTrack != nil {
			t.Errorf("packing %+v: want it under the rail alone", d.Packing)
		}
		// 40 of plate, 50 into masonry, and packing up to 10 where there is any.
		want := 90 * mm
		if packed {
			want += 10 * mm
		}
		if got := d.Fixings[0].Each[0].Least; got != want {
			t.Errorf("packed %v: screws of %v, want %v", packed, got, want)
		}
	}
	// A ceiling that falls with a level floor leaves nothing to pack under the rail.
	ceiling := []opening.Level{{At: 0, Floor: mm, Ceiling: mm}, {At: 2400 * mm, Floor: mm, Ceiling: 9 * mm}}
	l, wood := site(t, ceiling, false)
	if d, _ := detail(t, l, wood, frame.Options{}); d.Packing != nil {
		t.Errorf("packing %+v", d.Packing)
	}
}

func TestDetailFixesToTheCeiling(t *testing.T) {
	l, wood := site(t, nil, false)
	tests := []struct {
		name    string
		change  func(*frame.Layout)
		ceiling frame.Backing
		into    []frame.Backing
		place   string // of the finding; empty: none
	}{
		{"joists that cross", func(l *frame.Layout) {
			l.Joists = []units.Length{300 * mm, 900 * mm, 1500 * mm, 2140 * mm}
		}, frame.Masonry, []frame.Backing{frame.Joist, frame.BoardOnly}, ""},
		{"joists along", func(l *frame.Layout) { l.JoistsAlong = true }, "", []frame.Backing{frame.BoardOnly}, "opening.joists"},
		{"masonry", func(*frame.Layout) {}, frame.Masonry, []frame.Backing{frame.Masonry}, ""},
		{"board", func(*frame.Layout) {}, frame.BoardOnly, []frame.Backing{frame.BoardOnly}, "frame.ceiling"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := l
			tt.change(&l)
			d, found := detail(t, l, wood, frame.Options{Ceiling: tt.ceiling})
			var into []frame.Backing
			for _, f := range d.Fixings[0].Each {
				into = append(into, f.Into)
			}
			if d.Fixings[0].What != "top plate" || !slices.Equal(into, tt.into) {
				t.Errorf("fixings %+v, want into %v", d.Fixings, tt.into)
			}
			switch {
			case tt.place == "" && found != nil:
				t.Errorf("findings %v", found)
			case tt.place != "" && (len(found) != 1 || found[0].Place != tt.place || found[0].Code != frame.CodeBoardOnly):
				t.Errorf("findings %v, want one at %s", found, tt.place)
			}
			last := d.Marks[len(d.Marks)-1]
			if !strings.HasPrefix(last.What, "top plate: ") {
				t.Errorf("the last mark is %+v, want the fixings", last)
			}
		})
	}
}

// A joined top plate is fixed piece by piece.
func TestDetailFixesEachPiece(t *testing.T) {
	wood := timber(40*mm, 0, 1700*mm)
	head := frame.Head{Width: 2440 * mm, Gap: 280 * mm}
	b, err := frame.SetOut(head, wood)
	if err != nil {
		t.Fatal(err)
	}
	_, found := detail(t, frame.Layout{Head: head, ClearHeight: 2300 * mm, Height: 2020 * mm, Bulkhead: &b}, &wood, frame.Options{Ceiling: frame.BoardOnly})
	if len(found) != 2 || !strings.Contains(found[0].Message, "piece 1 of 2") || !strings.Contains(found[1].Message, "piece 2 of 2") {
		t.Errorf("findings %v: want one for each piece", found)
	}
}

func TestDetailFixesToTheWalls(t *testing.T) {
	l, wood := site(t, nil, false)
	l.RightPanel, l.Strip = 18*mm, 5*mm
	d, found := detail(t, l, wood, frame.Options{LeftWall: frame.Masonry, RightWall: frame.WallStud, Lining: 10 * mm})
	if found != nil || len(d.Fixings) != 2 {
		t.Fatalf("%+v, %v", d.Fixings, found)
	}
	// The studs stand on the bottom plate, 5 + 2020 + 40 up, and are 200 long.
	if f := d.Fixings[0]; f.What != "left end stud" || !slices.Equal(f.Each[0].Places, []units.Length{2115 * mm, 2215 * mm}) || f.Each[0].Least != 100*mm {
		t.Errorf("left %+v", f)
	}
	// Through the panel as well: 40 + 18 + 10 + 40.
	if f := d.Fixings[1]; f.What != "right end stud" || f.Each[0].Into != frame.WallStud || f.Each[0].Least != 108*mm {
		t.Errorf("right %+v", f)
	}
	if d.Ends[1].Kind != frame.AtPanel {
		t.Errorf("right end %+v, want the end panel", d.Ends[1])
	}
	// A free end has no wall to be fixed to.
	d, found = detail(t, l, wood, frame.Options{LeftWall: frame.Masonry, LeftEnd: frame.FreePost, RightEnd: frame.FreePanel})
	if d.Fixings != nil || d.Ends[0].Kind != frame.FreePost || d.Ends[1].Kind != frame.FreePanel || len(found) != 2 {
		t.Errorf("%+v, %v: want two free ends and no fixings", d, found)
	}
	// Board alone warns at the side that says so.
	_, found = detail(t, l, wood, frame.Options{RightWall: frame.BoardOnly})
	if len(found) != 1 || found[0].Place != "frame.right_wall" {
		t.Errorf("%v: want one at frame.right_wall", found)
	}
}

func TestDetailOfStiffness(t *testing.T) {
	l, wood := site(t, nil, false) // studs 800 apart, timber 40 × 80
	tests := []struct {
		name       string
		span       units.Length
		onEdge     bool
		wantSpan   units.Length
		deflection units.Length
	}{
		// 500·800³/(48·8000·80·40³/12) and, on edge, a quarter of that.
		{"flat between studs", 0, false, 800 * mm, 1_562_500},
		{"on edge", 0, true, 800 * mm, 390_625},
		{"another span", 1600 * mm, false, 1600 * mm, 12_500_000},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, found := detail(t, l, wood, frame.Options{Stiffness: &frame.StiffnessAsked{
				Grade: "C16", Limit: 300, Load: frame.Load{Centre: 500 * frame.Newton}, Span: tt.span, OnEdge: tt.onEdge}})
			if s := d.Stiffness; s == nil || s.Span != tt.wantSpan || s.Deflection != tt.deflection || s.Allowed != tt.wantSpan/300 || found != nil {
				t.Errorf("%+v, %v", s, found)
			}
		})
	}
	pair := func(at units.Length) frame.Options {
		return frame.Options{Stiffness: &frame.StiffnessAsked{Grade: "C16", Limit: 300, Load: frame.Load{Pair: frame.Newton, PairAt: at}}}
	}
	detail(t, l, wood, pair(400*mm))
	var input *opening.InputError
	if _, _, err := frame.Detail(l, wood, pair(400*mm+1)); !errors.As(err, &input) || input.Place != "frame.stiffness.load.pair_at" {
		t.Errorf("a pair past the middle: error %v", err)
	}
}

func TestOptionsValidate(t *testing.T) {
	stiff := func(change func(*frame.StiffnessAsked)) frame.Options {
		s := frame.StiffnessAsked{Grade: "C24", Limit: 300}
		change(&s)
		return frame.Options{Stiffness: &s}
	}
	tests := []struct {
		options frame.Options
		place   string // empty: it can be used
	}{
		{frame.Options{}, ""},
		{frame.Options{Ceiling: frame.Joist, LeftWall: frame.WallStud, RightWall: frame.BoardOnly, LeftEnd: frame.FreePost, RightEnd: frame.FreePanel}, ""},
		{frame.Options{Ceiling: "straw"}, "frame.ceiling"},
		{frame.Options{LeftWall: "straw"}, "frame.left_wall"},
		{frame.Options{RightWall: "straw"}, "frame.right_wall"},
		{frame.Options{Lining: -1}, "frame.lining"},
		{frame.Options{LeftEnd: frame.AtPanel}, "frame.left_end"},
		{frame.Options{RightEnd: "door"}, "frame.right_end"},
		{stiff(func(*frame.StiffnessAsked) {}), ""},
		{stiff(func(s *frame.StiffnessAsked) { s.Grade = "C25" }), "frame.stiffness.grade"},
		{stiff(func(s *frame.StiffnessAsked) { s.Limit = 0 }), "frame.stiffness.limit"},
		{stiff(func(s *frame.StiffnessAsked) { s.Limit = 1 }), ""},
		{stiff(func(s *frame.StiffnessAsked) { s.Limit = frame.MaxLimit }), ""},
		{stiff(func(s *frame.StiffnessAsked) { s.Limit = frame.MaxLimit + 1 }), "frame.stiffness.limit"},
		{stiff(func(s *frame.StiffnessAsked) { s.Load.Uniform = -1 }), "frame.stiffness.load.uniform"},
		{stiff(func(s *frame.StiffnessAsked) { s.Load.Centre = frame.MaxForce }), ""},
		{stiff(func(s *frame.StiffnessAsked) { s.Load.Centre = frame.MaxForce + 1 }), "frame.stiffness.load.centre"},
		{stiff(func(s *frame.StiffnessAsked) { s.Load.Pair = -1 }), "frame.stiffness.load.pair"},
		{stiff(func(s *frame.StiffnessAsked) { s.Load.PairAt = -1 }), "frame.stiffness.load.pair_at"},
		{stiff(func(s *frame.StiffnessAsked) { s.Span = -1 }), "frame.stiffness.span"},
	}
	l, wood := site(t, nil, false)
	for _, tt := range tests {
		err := tt.options.Validate()
		var input *opening.InputError
		if tt.place == "" && err != nil || tt.place != "" && (!errors.As(err, &input) || input.Place != tt.place) {
			t.Errorf("%+v: error %v, want one at %q", tt.options, err, tt.place)
		}
		if tt.place != "" {
			if _, _, err := frame.Detail(l, wood, tt.options); !errors.As(err, &input) {
				t.Errorf("%+v: Detail does not refuse it: %v", tt.options, err)
			}
		}
	}
}

func TestDetailRefuses(t *testing.T) {
	l, wood := site(t, nil, false)
	if _, _, err := frame.Detail(l, nil, frame.Options{}); !errors.Is(err, units.ErrRange) {
		t.Errorf("a bulkhead without timber: error %v", err)
	}
	l.Height = 0
	if d, found, err := frame.Detail(l, wood, frame.Options{}); !errors.Is(err, units.ErrRange) || d.Marks != nil || found != nil {
		t.Errorf("no height: %+v, %v, %v", d, found, err)
	}
	// Timber that comes in no length packs nothing.
	l, _ = site(t, fallen(), false)
	if _, _, err := frame.Detail(l, &doors.Timber{Thickness: 40 * mm, Width: 80 * mm}, frame.Options{}); !errors.Is(err, units.ErrRange) {
		t.Errorf("no lengths: error %v", err)
	}
	// What cannot be fixed is refused, not left out.
	l, wood = site(t, nil, false)
	l.Bulkhead.Plates = nil
	if _, _, err := frame.Detail(l, wood, frame.Options{Ceiling: frame.Masonry}); !errors.Is(err, units.ErrRange) {
		t.Errorf("no plates: error %v", err)
	}
	// A bulkhead without studs has nothing to fix to the walls and no span.
	l.Bulkhead.Studs = nil
	if d, _, err := frame.Detail(l, wood, frame.Options{LeftWall: frame.Masonry}); err != nil || d.Fixings != nil {
		t.Errorf("no studs: %+v, %v", d.Fixings, err)
	}
	if _, _, err := frame.Detail(l, wood, frame.Options{Stiffness: &frame.StiffnessAsked{Grade: "C16", Limit: 300}}); !errors.Is(err, units.ErrRange) {
		t.Errorf("no span: error %v", err)
	}
}

func TestFront(t *testing.T) {
	head := frame.Head{Width: 2440 * mm, Gap: 280 * mm, Levels: fallen()}
	b, err := frame.SetOut(head, timber(40*mm, 0, 3000*mm))
	if err != nil {
		t.Fatal(err)
	}
	got, err := frame.Front(head, b)
	if err != nil {
		t.Fatal(err)
	}
	// Levels at 0, 1200 and 2400; studs at 20, 820, 1620 and 2420.
	want := []frame.FrontAt{
		{At: 0, Height: 290 * mm},
		{At: 20 * mm, Height: 289_833_333, Stud: true},
		{At: 820 * mm, Height: 283_166_666, Stud: true},
		{At: 1200 * mm, Height: 280 * mm},
		{At: 1620 * mm, Height: 281_400_000, Stud: true},
		{At: 2400 * mm, Height: 284 * mm},
		{At: 2420 * mm, Height: 284 * mm, Stud: true},
		{At: 2440 * mm, Height: 284 * mm},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	// A stud at a level's place is one place; one outside the front is none.
	b.Studs = []frame.Stud{{At: 1200 * mm}, {At: -1}, {At: 0}, {At: 2440 * mm}, {At: 3000 * mm}}
	head.Levels = head.Levels[1:2]
	got, err = frame.Front(head, b)
	want = []frame.FrontAt{{At: 0, Height: 280 * mm, Stud: true}, {At: 1200 * mm, Height: 280 * mm, Stud: true}, {At: 2440 * mm, Height: 280 * mm, Stud: true}}
	if diff := cmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
	for _, head := range []frame.Head{{}, {Width: -1}} {
		if got, err := frame.Front(head, b); !errors.Is(err, units.ErrRange) || got != nil {
			t.Errorf("%+v: %v, %v", head, got, err)
		}
	}
}

// Many at once give what one gives, and leave what they were given as it was.
func TestDetailIsTheSameEveryTime(t *testing.T) {
	l, wood := site(t, fallen(), true)
	l.Joists = []units.Length{2100 * mm, 300 * mm, 900 * mm}
	o := frame.Options{LeftWall: frame.Masonry, RightEnd: frame.FreePost, Stiffness: &frame.StiffnessAsked{Grade: "C16", Limit: 300}}
	type answer struct {
		details  frame.Details
		findings opening.Findings
		err      error
	}
	work := func() answer {
		d, found, err := frame.Detail(l, wood, o)
		return answer{d, found, err}
	}
	want := work()
	answers := make(chan answer)
	const runs = 20
	for range runs {
		go func() { answers <- work() }()
	}
	for range runs {
		got := <-answers
		if got.err != nil || !cmp.Equal(got.details, want.details) || !cmp.Equal(got.findings, want.findings) {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	if l.Joists[0] != 2100*mm || l.Head.Levels[0].At != 0 {
		t.Errorf("the layout was changed: %+v", l)
	}
}

func BenchmarkDetail(b *testing.B) {
	wood := timber(40*mm, 0, 3000*mm)
	head := frame.Head{Width: 2440 * mm, Gap: 280 * mm, Levels: fallen()}
	bulkhead, err := frame.SetOut(head, wood)
	if err != nil {
		b.Fatal(err)
	}
	l := frame.Layout{
		Head: head, ClearHeight: 2300 * mm, Height: 2020 * mm, Line: 560 * mm, Depth: 80 * mm, Bulkhead: &bulkhead,
		Joists: []units.Length{300 * mm, 900 * mm, 1500 * mm, 2100 * mm},
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := frame.Detail(l, &wood, frame.Options{LeftWall: frame.Masonry}); err != nil {
			b.Fatal(err)
		}
	}
}
