package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

func TestFloorCoverings(t *testing.T) {
	for _, c := range []struct {
		name          string
		now, come     int64
		atRail        bool
		height, strip int64
		sum           string
		want          opening.Code
	}{
		{"bare", 0, 0, false, 2300, 0, "2300", ""},
		{"to come", 0, 12, false, 2288, 12, "2300 − 12", ""},
		{"to come, cut to the rail", 0, 12, true, 2300, 0, "2300", opening.CodeCarpetToRail},
		{"there now", 10, 0, false, 2300, 10, "2300", opening.CodeCarpetNow},
		{"replaced", 10, 12, false, 2298, 12, "2300 + 10 − 12", ""},
		{"replaced by one as thick", 12, 12, false, 2300, 12, "2300 + 12 − 12", ""},
		{"replaced, cut to the rail", 10, 12, true, 2310, 0, "2300 + 10", opening.CodeCarpetToRail},
		{"cut to the rail but none", 0, 0, true, 2300, 0, "2300", opening.CodeCarpetNone},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := survey()
			s.Heights = heightsOf(mm(2300), mm(2300), mm(2300))
			s.CarpetNow, s.CarpetToCome, s.CarpetAtRail = mm(c.now), mm(c.come), c.atRail
			m := measure(t, s)
			v := m.Variants[0]
			if v.Height != mm(c.height) || s.StripThickness() != mm(c.strip) {
				t.Errorf("%s high, a strip of %s", v.Height, s.StripThickness())
			}
			if got := s.Working(v, 2, 0)[2]; got.Sum != c.sum || got.Is != mm(c.height).Millimetres() {
				t.Errorf("%+v", got)
			}
			for _, code := range []opening.Code{opening.CodeCarpetNow, opening.CodeCarpetToRail, opening.CodeCarpetNone} {
				if m.Findings.Has(code) != (code == c.want) {
					t.Errorf("%s: %v", code, m.Findings.Has(code))
				}
			}
		})
	}
	if got := (opening.Survey{}).StripThickness(); got != units.Length(0) {
		t.Error(got)
	}
}
