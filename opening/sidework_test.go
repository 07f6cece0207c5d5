package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

func TestSideWorks(t *testing.T) {
	s := alcove()
	v := measure(t, s).Variants
	for _, c := range []struct {
		name      string
		clear     opening.Clear
		line      units.Length
		gear      units.Length
		want      [2]opening.SideWork
		firstLine string
	}{
		{"cut back", v[0], mm(540), mm(84), [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.CutBack, CutBack: &opening.Cutout{From: mm(535), Length: mm(94)}},
			{Side: opening.Right, Treatment: opening.CutBack, CutBack: &opening.Cutout{From: mm(535), Length: mm(94)}},
		}, "left: cut 94 mm of skirting back, from 535 mm off the back wall"},
		{"cut back at the back wall", v[0], mm(3), mm(84), [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.CutBack, CutBack: &opening.Cutout{From: 0, Length: mm(92)}},
			{Side: opening.Right, Treatment: opening.CutBack, CutBack: &opening.Cutout{From: 0, Length: mm(92)}},
		}, "left: cut 92 mm of skirting back"},
		{"no line", v[0], 0, mm(84), [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.CutBack, CutBack: &opening.Cutout{Length: mm(94)}},
			{Side: opening.Right, Treatment: opening.CutBack, CutBack: &opening.Cutout{Length: mm(94)}},
		}, "left: cut 94 mm of skirting back"},
		{"end panels", v[1], mm(540), mm(84), [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.EndPanel, Panel: &opening.Panel{Thickness: mm(22), Depth: mm(634), Height: mm(2341), Scribe: mm(10)}},
			{Side: opening.Right, Treatment: opening.EndPanel, Panel: &opening.Panel{Thickness: mm(22), Depth: mm(634), Height: mm(2331), Scribe: mm(10)}},
		}, "left: end panel 634 × 2341 × 22 mm, of which 10 mm to scribe"},
		{"no gear", v[1], mm(540), 0, [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.EndPanel}, {Side: opening.Right, Treatment: opening.EndPanel},
		}, "left: end panel"},
		{"behind the back wall", v[1], -1, mm(84), [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.EndPanel}, {Side: opening.Right, Treatment: opening.EndPanel},
		}, "left: end panel"},
		{"none", opening.Clear{Left: opening.NoSkirting, Right: opening.NoSkirting}, mm(540), mm(84), [2]opening.SideWork{
			{Side: opening.Left, Treatment: opening.NoSkirting}, {Side: opening.Right, Treatment: opening.NoSkirting},
		}, "left: none"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := s.SideWorks(c.clear, c.line, c.gear)
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
			if got[0].String() != c.firstLine {
				t.Error(got[0])
			}
		})
	}
}

// A panel stands plumb: a wall that is out by 14 leaves as much to scribe and to pack.
func TestPanelAgainstALeaningWall(t *testing.T) {
	s := alcove()
	s.CarpetToCome = mm(12)
	s.Leans = opening.Leans{
		Left:  []opening.Lean{{At: 0, Size: mm(40)}, {At: mm(1100), Size: mm(46)}, {At: mm(2200), Size: mm(54)}},
		Right: []opening.Lean{{At: 0, Size: mm(40)}, {At: mm(2200), Size: mm(42)}},
	}
	s.Levels = levels([2]int64{1000, 1336}, [2]int64{1000, 1326}, [2]int64{1000, 1311})
	got := s.SideWorks(measure(t, s).Variants[1], mm(540), mm(84))
	want := [2]opening.SideWork{
		{Side: opening.Left, Treatment: opening.EndPanel, Panel: &opening.Panel{Thickness: mm(22), Depth: mm(638), Height: mm(2338), Scribe: mm(14), Packing: mm(14)}},
		{Side: opening.Right, Treatment: opening.EndPanel, Panel: &opening.Panel{Thickness: mm(22), Depth: mm(629), Height: mm(2314), Scribe: mm(5), Packing: mm(2)}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
