package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

// levels are stations at 0, 1200, 2400 … with a floor and a ceiling each.
func levels(pairs ...[2]int64) []opening.Level {
	var list []opening.Level
	for i, p := range pairs {
		list = append(list, opening.Level{At: mm(1200 * int64(i)), Floor: mm(p[0]), Ceiling: mm(p[1])})
	}
	return list
}

// A floor that is far out of level is no slip while the tape bears it out.
func TestLevelSlips(t *testing.T) {
	for _, c := range []struct {
		name   string
		levels []opening.Level
		tape   []int64
		want   string
	}{
		{"steep floor", levels([2]int64{1000, 1300}, [2]int64{1010, 1290}, [2]int64{1060, 1240}), []int64{2300, 2300, 2300}, ""},
		{"slip in the floor", levels([2]int64{1000, 1300}, [2]int64{1001, 1299}, [2]int64{1036, 1300}), []int64{2300, 2300, 2300}, "2 outlier stop"},
		{"slip in the ceiling", levels([2]int64{1000, 1346}, [2]int64{1000, 1300}, [2]int64{1000, 1300}), []int64{2300, 2300, 2300}, "0 outlier stop"},
		{"swapped", levels([2]int64{1013, 1287}, [2]int64{1013, 1287}, [2]int64{1103, 1287}), []int64{2300, 2300, 2300}, "2 swapped-digits stop"},
		{"centimetres", levels([2]int64{1000, 1300}, [2]int64{100, 1300}, [2]int64{1000, 1300}), []int64{2300, 2300, 2300}, "1 unit-slip stop"},
		{"below the limit", levels([2]int64{1000, 1300}, [2]int64{1000, 1300}, [2]int64{1030, 1300}), []int64{2300, 2300, 2300}, "2 levels-disagree warn"},
		{"over the limit", levels([2]int64{1000, 1300}, [2]int64{1000, 1300}, [2]int64{1031, 1300}), []int64{2300, 2300, 2300}, "2 swapped-digits stop"},
		{"all in centimetres", levels([2]int64{100, 130}, [2]int64{100, 130}), []int64{2300, 2300, 2300}, "series unit-slip stop"},
		{"a metre is high enough", levels([2]int64{500, 500}, [2]int64{500, 500}), []int64{1400, 1400, 1400}, "0 levels-disagree warn;1 levels-disagree warn"},
		{"less is not", levels([2]int64{500, 499}, [2]int64{500, 499}), []int64{1400, 1400, 1400}, "series unit-slip stop"},
		{"borne out by 15", levels([2]int64{1000, 1300}, [2]int64{1000, 1300}, [2]int64{1049, 1300}), []int64{2300, 2300, 2334}, "2 levels-disagree warn"},
		{"not borne out by 16", levels([2]int64{1000, 1300}, [2]int64{1000, 1300}, [2]int64{1050, 1300}), []int64{2300, 2300, 2334}, "2 swapped-digits stop"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := survey()
			s.Levels = c.levels
			s.Heights = heightsOf(mm(c.tape[0]), mm(c.tape[1]), mm(c.tape[2]))
			if got := brief(measure(t, s).Findings, "levels"); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

// With heights that cannot be used there is nothing to hold levels against.
func TestLevelsNeedHeights(t *testing.T) {
	for _, heights := range [][]opening.Height{nil, heightsOf(0), heightsOf(mm(2300), mm(2300), 0), heightsOf(mm(2300), mm(2300), mm(230))} {
		s := survey()
		s.Heights = heights
		s.Levels = levels([2]int64{1000, 1300}, [2]int64{100, 1300}, [2]int64{1000, 1300})
		m := measure(t, s)
		if got := brief(m.Findings, "levels"); got != "" || !m.Findings.Stops() {
			t.Errorf("heights %v: %q", heights, got)
		}
	}
}

// √3 × 2 = 3.4641016151…: a nanometre more is a disagreement, a nanometre less is not.
func TestLevelsDisagreePastRootThree(t *testing.T) {
	for apart, want := range map[units.Length]bool{3_464_101: false, 3_464_102: true, -3_464_101: false, -3_464_102: true} {
		s := survey()
		s.Levels = []opening.Level{{At: 0, Floor: mm(1000), Ceiling: mm(1300)}}
		s.Heights[0].Size = mm(2300) + apart
		if got := measure(t, s).Findings.Has(opening.CodeLevelsDisagree); got != want {
			t.Errorf("%s apart: %v", apart, got)
		}
	}
}

func TestLevelsAreHeldAgainstTheNearestHeight(t *testing.T) {
	s := survey()
	s.Heights = []opening.Height{{At: 0, Size: mm(2300)}, {At: mm(1000), Size: mm(2305)}, {At: mm(2000), Size: mm(2330)}}
	// A ceiling that rises 50 at 1501 and 1499: the tape at 2000 bears it out, that at 1000 does not.
	for at, want := range map[int64]string{1501: "", 1500: "2 outlier stop", 1499: "2 outlier stop"} {
		s.Levels = levels([2]int64{1000, 1300}, [2]int64{1000, 1300}, [2]int64{1000, 1345})
		s.Levels[1].At, s.Levels[2].At = mm(100), mm(at)
		if diff := cmp.Diff(want, brief(measure(t, s).Findings, "levels")); diff != "" {
			t.Errorf("at %d: %s", at, diff)
		}
	}
}
