package opening_test

import (
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

var kinds = []opening.Kind{
	opening.Coving, opening.Socket, opening.Switch, opening.Radiator, opening.Pipe, opening.Slope, opening.Vent,
	opening.Flue, opening.Meter, opening.Boiler, opening.FuseBox, opening.Stopcock, opening.Alarm,
}

func TestEveryKindHasARemedy(t *testing.T) {
	never := "vent flue meter boiler fuse board stopcock alarm"
	for _, kind := range kinds {
		s := survey()
		s.InTheWay = []opening.Thing{{Kind: kind, From: mm(1000), To: mm(1100), Bottom: mm(300), Top: mm(400), StandsOut: mm(30)}}
		var f opening.Finding
		for _, g := range measure(t, s).Findings {
			if g.Place == "opening.in_the_way[0]" {
				f = g
			}
		}
		boxed := strings.Contains(never, string(kind))
		if f.Severity != opening.Warn || f.Remedy == "" || !strings.Contains(f.Message, "1000 mm to 1100 mm") {
			t.Errorf("%s: %+v", kind, f)
		}
		if boxed != (f.Code == opening.CodeNeverBoxIn) || boxed != strings.HasPrefix(f.Remedy, "never box it in") {
			t.Errorf("%s: %+v", kind, f)
		}
		if (kind == opening.Slope) != (f.Code == opening.CodeSlopingCeiling) {
			t.Errorf("%s: %+v", kind, f)
		}
	}
}

func TestThingsAtTheWalls(t *testing.T) {
	// The widest reading is 2405.
	for _, c := range []struct {
		name     string
		thing    opening.Thing
		severity opening.Severity
		remedy   string
	}{
		{"beyond the wall", opening.Thing{Kind: opening.Socket, From: mm(2405), To: mm(2500)}, "", ""},
		{"just inside", opening.Thing{Kind: opening.Socket, From: mm(2404), To: mm(2500)}, opening.Note, "electrician"},
		{"flush", opening.Thing{Kind: opening.Socket, From: 0, To: mm(80)}, opening.Note, "electrician"},
		{"flush coving", opening.Thing{Kind: opening.Coving, From: 0, To: mm(80)}, opening.Warn, "packer"},
		{"flush meter", opening.Thing{Kind: opening.Meter, From: 0, To: mm(80)}, opening.Warn, "never box it in"},
		{"left", opening.Thing{Kind: opening.Socket, From: mm(9), To: mm(9), StandsOut: mm(9)}, opening.Warn, "at least 9 mm thick at the left"},
		{"not quite left", opening.Thing{Kind: opening.Socket, From: mm(10), To: mm(10), StandsOut: mm(9)}, opening.Warn, "end panel out past it"},
		{"right", opening.Thing{Kind: opening.Pipe, From: mm(2300), To: mm(2380), StandsOut: mm(25)}, opening.Warn, "at least 25 mm thick at the right"},
		{"not quite right", opening.Thing{Kind: opening.Pipe, From: mm(2300), To: mm(2379), StandsOut: mm(25)}, opening.Warn, "got at"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := survey()
			s.InTheWay = []opening.Thing{c.thing}
			var f opening.Finding
			for _, g := range measure(t, s).Findings {
				if g.Place == "opening.in_the_way[0]" {
					f = g
				}
			}
			if f.Severity != c.severity || !strings.HasSuffix(f.Remedy, c.remedy) && !strings.Contains(f.Remedy, c.remedy) {
				t.Errorf("%+v", f)
			}
			if c.remedy == "end panel out past it" && !strings.HasSuffix(f.Remedy, c.remedy) {
				t.Errorf("%+v", f)
			}
		})
	}
}

// A slope from 2300 down to 1300 over the first 1000 at the left, and its mirror image at the right.
func TestHeightOver(t *testing.T) {
	s := survey()
	s.Widths, s.Heights = widthsOf(mm(2400)), heightsOf(mm(2300))
	left := opening.Thing{Kind: opening.Slope, From: 0, To: mm(1000), Bottom: mm(1300), Top: mm(2300)}
	right := opening.Thing{Kind: opening.Slope, From: mm(1400), To: mm(2400), Bottom: mm(1300), Top: mm(2300)}
	socket := opening.Thing{Kind: opening.Socket, From: 0, To: mm(2400), Bottom: mm(100), Top: mm(200)}
	for _, c := range []struct {
		things         []opening.Thing
		from, to, want int64
	}{
		{nil, 0, 2400, 2300},
		{[]opening.Thing{socket}, 0, 2400, 2300},
		{[]opening.Thing{left}, 0, 600, 1300},
		{[]opening.Thing{left}, 600, 1200, 1900},
		{[]opening.Thing{left}, 999, 1200, 2299},
		{[]opening.Thing{left}, 1000, 1600, 2300},
		{[]opening.Thing{right}, 800, 1400, 2300},
		{[]opening.Thing{right}, 800, 1401, 2299},
		{[]opening.Thing{right}, 1200, 1800, 1900},
		{[]opening.Thing{right}, 1800, 2400, 1300},
		{[]opening.Thing{left, right}, 600, 1800, 1900},
		{[]opening.Thing{{Kind: opening.Slope, From: mm(500), To: mm(500), Bottom: mm(1300), Top: mm(2300)}}, 0, 1000, 1300},
	} {
		s.InTheWay = c.things
		v := measure(t, s).Variants[0]
		if got := s.HeightOver(v, mm(c.from), mm(c.to)); got != mm(c.want) {
			t.Errorf("%d to %d: %s, want %d", c.from, c.to, got, c.want)
		}
	}
	s.InTheWay, s.CarpetToCome = []opening.Thing{left}, mm(12)
	if got := s.HeightOver(measure(t, s).Variants[0], 0, mm(600)); got != mm(1288) {
		t.Errorf("over a carpet: %s", got)
	}
	if got := (opening.Survey{InTheWay: s.InTheWay}).HeightOver(opening.Clear{Height: 5}, 0, mm(600)); got != units.Length(5) {
		t.Errorf("without widths: %s", got)
	}
}
