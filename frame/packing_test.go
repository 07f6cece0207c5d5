package frame_test

import (
	"errors"
	"testing"

	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// fallen is a floor that falls 20 to the right and a ceiling that is lowest in the middle.
func fallen() []opening.Level {
	return []opening.Level{
		{At: 0, Floor: 1000 * mm, Ceiling: 1310 * mm},
		{At: 1200 * mm, Floor: 1000 * mm, Ceiling: 1300 * mm},
		{At: 2400 * mm, Floor: 1020 * mm, Ceiling: 1304 * mm},
	}
}

func TestPack(t *testing.T) {
	got, err := frame.Pack(frame.Head{Width: 2364 * mm, From: 18 * mm, Levels: fallen()}, 2400*mm)
	if err != nil {
		t.Fatal(err)
	}
	// At 18: 10 − 10·18/1200 = 9.85. At 2382: 20·1182/1200 = 19.7 and 4·1182/1200 = 3.94.
	want := frame.Packing{
		Stations: []frame.PackingAt{
			{At: 18 * mm, UnderRail: 0, AboveTrack: 9_850_000},
			{At: 1200 * mm, UnderRail: 0, AboveTrack: 0},
			{At: 2382 * mm, UnderRail: 19_700_000, AboveTrack: 3_940_000},
		},
		UnderRail: []frame.Wedge{{From: 1200 * mm, To: 2382 * mm, Left: 0, Right: 19_700_000}},
		AboveTrack: []frame.Wedge{
			{From: 18 * mm, To: 1200 * mm, Left: 9_850_000, Right: 0},
			{From: 1200 * mm, To: 2382 * mm, Left: 0, Right: 3_940_000},
		},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestPackFromShortStock(t *testing.T) {
	got, err := frame.Pack(frame.Head{Width: 2400 * mm, Levels: fallen()}, 600*mm)
	if err != nil {
		t.Fatal(err)
	}
	want := []frame.Wedge{
		{From: 1200 * mm, To: 1800 * mm, Left: 0, Right: 10 * mm},
		{From: 1800 * mm, To: 2400 * mm, Left: 10 * mm, Right: 20 * mm},
	}
	if diff := cmp.Diff(want, got.UnderRail); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestPackWhereNothingIsToPack(t *testing.T) {
	for name, levels := range map[string][]opening.Level{
		"no levels":  nil,
		"all level":  {{At: 0, Floor: mm, Ceiling: mm}, {At: 1000 * mm, Floor: mm, Ceiling: mm}},
		"one level":  {{At: 500 * mm, Floor: mm, Ceiling: mm}},
		"at the end": {{At: 2400 * mm, Floor: mm, Ceiling: mm}, {At: 2500 * mm, Floor: 2 * mm, Ceiling: 2 * mm}},
	} {
		got, err := frame.Pack(frame.Head{Width: 2400 * mm, Levels: levels}, 2400*mm)
		if err != nil || got.UnderRail != nil || got.AboveTrack != nil {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
		if (levels == nil) != (got.Stations == nil) {
			t.Errorf("%s: stations %v", name, got.Stations)
		}
	}
}

func TestPackRefuses(t *testing.T) {
	for name, tt := range map[string]struct {
		head  frame.Head
		stock units.Length
	}{
		"no width":            {frame.Head{Levels: fallen()}, 2400 * mm},
		"no stock":            {frame.Head{Width: 2400 * mm, Levels: fallen()}, 0},
		"width beyond":        {frame.Head{Width: units.MaxLength + 1}, 2400 * mm},
		"endless wedge":       {frame.Head{Width: 2400 * mm, Levels: fallen()}, 1},
		"endless wedge above": {frame.Head{Width: 2400 * mm, Levels: []opening.Level{{At: 0, Ceiling: mm}, {At: 2400 * mm}}}, 1},
	} {
		if got, err := frame.Pack(tt.head, tt.stock); !errors.Is(err, units.ErrRange) || !cmp.Equal(got, frame.Packing{}) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}

// packingHolds: pieces lie end to end where there is anything to pack, taper evenly, and
// with the packing on, floor and ceiling are level.
func packingHolds(t *rapid.T) {
	head, _ := bulkheads(t)
	longest := units.Length(rapid.Int64Range(int64(200*mm), int64(3*units.Metre)).Draw(t, "longest"))
	p, err := frame.Pack(head, longest)
	if err != nil {
		t.Fatal(err)
	}
	for _, surface := range []struct {
		name   string
		wedges []frame.Wedge
		levels []opening.Level // as a ceiling
	}{{"floor", p.UnderRail, asCeiling(head.Levels)}, {"ceiling", p.AboveTrack, head.Levels}} {
		at := head.From
		flat := func(to units.Length) {
			for _, place := range []units.Length{at, at + (to-at)/2, to} {
				if off := ceilingAbove(surface.levels, place); off > 1 {
					t.Errorf("%s: nothing at %v, where %v are to pack", surface.name, place, off)
				}
			}
		}
		for _, w := range surface.wedges {
			if w.From > at {
				flat(w.From)
			}
			if w.From < at || w.To <= w.From || w.To-w.From > longest {
				t.Errorf("%s: piece %+v after %v", surface.name, w, at)
			}
			if w.Left != ceilingAbove(surface.levels, w.From) || w.Right != ceilingAbove(surface.levels, w.To) || w.Left+w.Right == 0 {
				t.Errorf("%s: piece %+v is not as thick as the gap", surface.name, w)
			}
			middle := w.From + (w.To-w.From)/2
			if off := ceilingAbove(surface.levels, middle) - (w.Left+w.Right)/2; (w.To-w.From)%2 == 0 && off.Abs() > 3 {
				t.Errorf("%s: piece %+v leaves %v in its middle", surface.name, w, off)
			}
			at = w.To
		}
		if end := head.From + head.Width; at < end {
			flat(end)
		} else if at > end {
			t.Errorf("%s: pieces end at %v", surface.name, at)
		}
	}
	for _, s := range p.Stations {
		if s.UnderRail != ceilingAbove(asCeiling(head.Levels), s.At) || s.AboveTrack != ceilingAbove(head.Levels, s.At) {
			t.Errorf("station %+v", s)
		}
	}
}

// asCeiling turns a floor upside down.
func asCeiling(levels []opening.Level) []opening.Level {
	var out []opening.Level
	for _, l := range levels {
		out = append(out, opening.Level{At: l.At, Ceiling: l.Floor})
	}
	return out
}

func TestPackingHolds(t *testing.T) { rapid.Check(t, packingHolds) }
func FuzzPack(f *testing.F)         { f.Fuzz(rapid.MakeFuzz(packingHolds)) }

func TestTopPlatePackedLevel(t *testing.T) {
	head := frame.Head{Width: 2440 * mm, Gap: 280 * mm, Levels: fallen(), PackedLevel: true}
	b, err := frame.SetOut(head, timber(40*mm, 0, 2440*mm))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range b.Studs {
		if s.Length != 200*mm {
			t.Errorf("stud %+v, want all 200 long", s)
		}
	}
	p, err := frame.Pack(head, 2440*mm)
	if diff := cmp.Diff(p.AboveTrack, b.Packing); diff != "" || err != nil || len(b.Packing) == 0 {
		t.Errorf("%v: packing (-above the track +on the plate):\n%s", err, diff)
	}
	if _, err := frame.SetOut(head, timber(40*mm, 0, 1)); !errors.Is(err, units.ErrRange) {
		t.Errorf("packing without end: error %v", err)
	}
	head.PackedLevel = false
	if b, err := frame.SetOut(head, timber(40*mm, 0, 2440*mm)); err != nil || b.Packing != nil {
		t.Errorf("not packed: %v, %v", b.Packing, err)
	}
}
