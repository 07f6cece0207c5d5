package opening_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Each row changes one thing of a good survey; an empty place means it is still good.
func TestValidate(t *testing.T) {
	over := units.MaxLength + 1
	skirting := func(change func(*opening.Skirting)) *opening.Skirting {
		k := &opening.Skirting{Thickness: mm(18), Height: mm(120)}
		change(k)
		return k
	}
	for _, c := range []struct {
		name   string
		change func(*opening.Survey)
		place  string
	}{
		{"good", func(*opening.Survey) {}, ""},
		{"zero", func(s *opening.Survey) { *s = opening.Survey{} }, ""},
		{"at zero", func(s *opening.Survey) { s.Widths[0].At, s.Heights[0].At, s.Depths[0].At, s.Levels[0].At = 0, 0, 0, 0 }, ""},
		{"at most", func(s *opening.Survey) { s.Widths[0].At = units.MaxLength }, ""},
		{"width at", func(s *opening.Survey) { s.Widths[1].At = -1 }, "opening.widths[1].at"},
		{"width at far", func(s *opening.Survey) { s.Widths[1].At = over }, "opening.widths[1].at"},
		{"width zero", func(s *opening.Survey) { s.Widths[1].Size = 0 }, ""},
		{"width negative", func(s *opening.Survey) { s.Widths[1].Size = -units.MaxLength }, ""},
		{"width most", func(s *opening.Survey) { s.Widths[1].Size = units.MaxLength }, ""},
		{"width over", func(s *opening.Survey) { s.Widths[1].Size = over }, "opening.widths[1].size"},
		{"width under", func(s *opening.Survey) { s.Widths[1].Size = -over }, "opening.widths[1].size"},
		{"between walls", func(s *opening.Survey) { s.Widths[1].Between = opening.Walls }, ""},
		{"between skirtings", func(s *opening.Survey) { s.Widths[1].Between = opening.Skirtings }, ""},
		{"between", func(s *opening.Survey) { s.Widths[1].Between = "doors" }, "opening.widths[1].between"},
		{"height at", func(s *opening.Survey) { s.Heights[2].At = -1 }, "opening.heights[2].at"},
		{"height over", func(s *opening.Survey) { s.Heights[2].Size = over }, "opening.heights[2].size"},
		{"depth at", func(s *opening.Survey) { s.Depths[0].At = -1 }, "opening.depths[0].at"},
		{"depth over", func(s *opening.Survey) { s.Depths[0].Size = over }, "opening.depths[0].size"},
		{"level at", func(s *opening.Survey) { s.Levels[0].At = -1 }, "opening.levels[0].at"},
		{"floor", func(s *opening.Survey) { s.Levels[0].Floor = over }, "opening.levels[0].floor"},
		{"ceiling", func(s *opening.Survey) { s.Levels[0].Ceiling = over }, "opening.levels[0].ceiling"},
		{"floor zero", func(s *opening.Survey) { s.Levels[0].Floor = 0 }, ""},
		{"left thickness", func(s *opening.Survey) {
			s.Skirting.Left = skirting(func(k *opening.Skirting) { k.Thickness = 0 })
		}, "opening.skirting.left.thickness"},
		{"left height", func(s *opening.Survey) {
			s.Skirting.Left = skirting(func(k *opening.Skirting) { k.Height = 0 })
		}, "opening.skirting.left.height"},
		{"left thinnest", func(s *opening.Survey) {
			s.Skirting.Left = skirting(func(k *opening.Skirting) { k.Thickness, k.Height = 1, 1 })
		}, ""},
		{"right height", func(s *opening.Survey) {
			s.Skirting.Right = skirting(func(k *opening.Skirting) { k.Height = over })
		}, "opening.skirting.right.height"},
		{"cut back", func(s *opening.Survey) {
			s.Skirting.Left = skirting(func(k *opening.Skirting) { k.Treatment = opening.CutBack })
			s.Skirting.Right = skirting(func(k *opening.Skirting) { k.Treatment = opening.EndPanel })
		}, ""},
		{"treatment", func(s *opening.Survey) {
			s.Skirting.Right = skirting(func(k *opening.Skirting) { k.Treatment = opening.NoSkirting })
		}, "opening.skirting.right.treatment"},
		{"end panel", func(s *opening.Survey) { s.EndPanel = -1 }, "opening.end_panel"},
		{"end panel over", func(s *opening.Survey) { s.EndPanel = over }, "opening.end_panel"},
		{"carpet", func(s *opening.Survey) { s.CarpetToCome = -1 }, "opening.carpet_to_come"},
		{"accuracy", func(s *opening.Survey) { s.Accuracy = -1 }, "opening.accuracy"},
		{"accuracy least", func(s *opening.Survey) { s.Accuracy = 1 }, ""},
		{"as many as can be", func(s *opening.Survey) { s.Widths = make([]opening.Width, opening.MaxReadings) }, ""},
		{"widths", func(s *opening.Survey) { s.Widths = make([]opening.Width, opening.MaxReadings+1) }, "opening.widths"},
		{"heights", func(s *opening.Survey) { s.Heights = make([]opening.Height, opening.MaxReadings+1) }, "opening.heights"},
		{"depths", func(s *opening.Survey) { s.Depths = make([]opening.Depth, opening.MaxReadings+1) }, "opening.depths"},
		{"carpet now", func(s *opening.Survey) { s.CarpetNow = -1 }, "opening.carpet_now"},
		{"carpet thinnest", func(s *opening.Survey) { s.CarpetNow, s.CarpetToCome, s.EndPanel = 1, 1, 1 }, ""},
		{"leans", func(s *opening.Survey) {
			s.Leans = opening.Leans{Left: []opening.Lean{{Size: -units.MaxLength}}, Right: make([]opening.Lean, opening.MaxReadings)}
		}, ""},
		{"lean at", func(s *opening.Survey) { s.Leans.Left = []opening.Lean{{}, {At: -1}} }, "opening.leans.left[1].at"},
		{"lean over", func(s *opening.Survey) { s.Leans.Right = []opening.Lean{{Size: over}} }, "opening.leans.right[0].size"},
		{"many leans", func(s *opening.Survey) { s.Leans.Right = make([]opening.Lean, opening.MaxReadings+1) }, "opening.leans.right"},
		{"diagonals", func(s *opening.Survey) { s.Diagonals = &opening.Diagonals{Rising: 0, Falling: -5} }, ""},
		{"rising", func(s *opening.Survey) { s.Diagonals = &opening.Diagonals{Rising: over, Falling: 5} }, "opening.diagonals.rising"},
		{"falling", func(s *opening.Survey) { s.Diagonals = &opening.Diagonals{Rising: 5, Falling: -over} }, "opening.diagonals.falling"},
		{"joists", func(s *opening.Survey) {
			s.Joists = &opening.Joists{Centres: make([]units.Length, opening.MaxReadings), Run: opening.FrontToBack}
		}, ""},
		{"joist", func(s *opening.Survey) {
			s.Joists = &opening.Joists{Centres: []units.Length{0, -1}, Run: opening.AlongDoors}
		}, "opening.joists.centres[1]"},
		{"many joists", func(s *opening.Survey) {
			s.Joists = &opening.Joists{Centres: make([]units.Length, opening.MaxReadings+1), Run: opening.AlongDoors}
		}, "opening.joists.centres"},
		{"run", func(s *opening.Survey) { s.Joists = &opening.Joists{} }, "opening.joists.run"},
		{"thing", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: opening.Vent}} }, ""},
		{"things", func(s *opening.Survey) {
			s.InTheWay = slices.Repeat([]opening.Thing{{Kind: opening.Vent}}, opening.MaxReadings)
		}, ""},
		{"many things", func(s *opening.Survey) {
			s.InTheWay = slices.Repeat([]opening.Thing{{Kind: opening.Vent}}, opening.MaxReadings+1)
		}, "opening.in_the_way"},
		{"kind", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: "cat"}} }, "opening.in_the_way[0].kind"},
		{"no kind", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{}} }, "opening.in_the_way[0].kind"},
		{"thing from", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: opening.Vent, From: -1}} }, "opening.in_the_way[0].from"},
		{"thing to", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: opening.Vent, From: 2, To: 1}} }, "opening.in_the_way[0].to"},
		{"thing bottom", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: opening.Vent, Bottom: -1}} }, "opening.in_the_way[0].bottom"},
		{"thing top", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: opening.Vent, Bottom: 2, Top: 1}} }, "opening.in_the_way[0].top"},
		{"thing out", func(s *opening.Survey) { s.InTheWay = []opening.Thing{{Kind: opening.Vent, StandsOut: -1}} }, "opening.in_the_way[0].stands_out"},
		{"levels", func(s *opening.Survey) { s.Levels = make([]opening.Level, opening.MaxReadings+1) }, "opening.levels"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := survey()
			s.Depths = []opening.Depth{{At: 0, Size: mm(650)}}
			s.Levels = []opening.Level{{At: 0, Floor: mm(1000), Ceiling: mm(1300)}}
			c.change(&s)
			err := s.Validate()
			var refused *opening.InputError
			if c.place == "" && err != nil || c.place != "" && (!errors.As(err, &refused) || refused.Place != c.place) {
				t.Errorf("%v, want it refused at %q", err, c.place)
			}
			if _, again := opening.Measure(s); (again == nil) != (err == nil) {
				t.Errorf("Measure says %v, Validate %v", again, err)
			}
		})
	}
}

func TestQuoteBoundary(t *testing.T) {
	for n, want := range map[int]string{39: strings.Repeat("é", 39), 40: strings.Repeat("é", 40), 41: strings.Repeat("é", 40) + "…"} {
		if got := opening.Quote(strings.Repeat("é", n)); got != `"`+want+`"` {
			t.Errorf("%d characters: %s", n, got)
		}
	}
}

func TestChecksAtTheirBounds(t *testing.T) {
	most := units.MaxLength
	for _, c := range []struct {
		l                     units.Length
		size, position, bound bool
	}{
		{1, true, true, true}, {0, false, true, true}, {-1, false, false, true},
		{most, true, true, true}, {most + 1, false, false, false},
		{-most, false, false, true}, {-most - 1, false, false, false},
	} {
		got := []bool{opening.CheckSize("p", c.l) == nil, opening.CheckPosition("p", c.l) == nil, opening.CheckBound("p", c.l) == nil}
		if !slices.Equal(got, []bool{c.size, c.position, c.bound}) {
			t.Errorf("%s passes as size, position, bound: %v", c.l, got)
		}
	}
}
