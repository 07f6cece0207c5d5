package opening_test

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

// codes lists the findings as "place code severity".
func codes(found opening.Findings) []string {
	var list []string
	for _, f := range found {
		list = append(list, fmt.Sprintf("%s %s %s", strings.TrimPrefix(f.Place, "opening."), f.Code, f.Severity))
	}
	return list
}

func TestZeroSurveySaysWhatIsMissing(t *testing.T) {
	m := measure(t, opening.Survey{})
	want := []string{"heights no-readings stop", "leans no-plumb note", "levels no-level note", "widths no-readings stop"}
	if diff := cmp.Diff(want, codes(m.Findings)); diff != "" || m.Variants != nil {
		t.Error(diff, m.Variants)
	}
}

// Every stop is returned, and with it what else there is to mend.
func TestAllFindingsAreReturned(t *testing.T) {
	s := opening.Survey{
		Widths: widthsOf(mm(2400), mm(2150)),
		Depths: []opening.Depth{{Size: mm(650)}, {At: mm(2000)}},
		Levels: []opening.Level{{Floor: mm(0), Ceiling: mm(-1)}},
	}
	want := []string{
		"depths[1].size not-positive stop",
		"heights no-readings stop",
		"leans no-plumb note",
		"levels[0].ceiling not-positive stop",
		"levels[0].floor not-positive stop",
		"widths few-readings warn",
		"widths[1].size outlier stop",
	}
	if diff := cmp.Diff(want, codes(measure(t, s).Findings)); diff != "" {
		t.Error(diff)
	}
}

func TestEveryFindingHasARemedy(t *testing.T) {
	s := survey()
	s.Widths = append(s.Widths, opening.Width{At: 10, Size: mm(240)}, opening.Width{At: 10, Size: mm(-3), Between: opening.Skirtings})
	s.Heights = heightsOf(mm(230), mm(231))
	for _, f := range measure(t, s).Findings {
		if !f.Severity.IsValid() || f.Code == "" || f.Place == "" || f.Message == "" || f.Remedy == "" || strings.Contains(f.Message, "%!") {
			t.Errorf("%+v", f)
		}
	}
}

func TestFewReadings(t *testing.T) {
	for n, want := range map[int]bool{1: true, 2: true, 3: false, 4: false} {
		s := survey()
		s.Widths = widthsOf(slices.Repeat([]units.Length{mm(2400)}, n)...)
		if got := brief2(measure(t, s).Findings, "widths"); (got == "few-readings") != want {
			t.Errorf("%d widths: %q", n, got)
		}
		s = survey()
		s.Heights = heightsOf(slices.Repeat([]units.Length{mm(2300)}, n)...)
		if got := brief2(measure(t, s).Findings, "heights"); (got == "few-readings") != want {
			t.Errorf("%d heights: %q", n, got)
		}
	}
}

// brief2 is the codes of the findings at a place.
func brief2(found opening.Findings, place string) string {
	var list []string
	for _, f := range found {
		if f.Place == "opening."+place {
			list = append(list, string(f.Code))
		}
	}
	return strings.Join(list, ";")
}

func TestReadingsAgainstTheSkirting(t *testing.T) {
	skirting := func(height int64) *opening.Skirting {
		if height == 0 {
			return nil
		}
		return &opening.Skirting{Thickness: mm(18), Height: mm(height)}
	}
	for _, c := range []struct {
		left, right, at int64
		between         opening.Between
		want            opening.Code
	}{
		{120, 120, 119, opening.Walls, opening.CodeBelowSkirting},
		{120, 120, 119, "", opening.CodeBelowSkirting},
		{120, 120, 120, opening.Walls, ""},
		{120, 120, 119, opening.Skirtings, ""},
		{120, 120, 120, opening.Skirtings, opening.CodeAboveSkirting},
		{100, 150, 120, opening.Walls, opening.CodeBelowSkirting},
		{150, 100, 149, opening.Walls, opening.CodeBelowSkirting},
		{150, 100, 150, opening.Walls, ""},
		{100, 150, 120, opening.Skirtings, opening.CodeAboveSkirting},
		{150, 100, 100, opening.Skirtings, opening.CodeAboveSkirting},
		{150, 100, 99, opening.Skirtings, ""},
		{120, 0, 119, opening.Skirtings, ""},
		{120, 0, 120, opening.Skirtings, opening.CodeAboveSkirting},
		{0, 120, 119, opening.Skirtings, ""},
		{0, 120, 119, opening.Walls, opening.CodeBelowSkirting},
		{0, 0, 10, opening.Skirtings, opening.CodeNoSkirting},
		{0, 0, 0, opening.Walls, ""},
	} {
		s := survey()
		s.Skirting = opening.Sides{Left: skirting(c.left), Right: skirting(c.right)}
		s.Widths[0].At, s.Widths[0].Between = mm(c.at), c.between
		if got := brief2(measure(t, s).Findings, "widths[0].between"); got != string(c.want) {
			t.Errorf("skirtings %d and %d, %q at %d: %q, want %q", c.left, c.right, c.between, c.at, got, c.want)
		}
	}
}

// What decides a figure is the reading it comes from, the first of equal ones.
func TestDeciding(t *testing.T) {
	s := survey()
	s.Accuracy = mm(3)
	s.Widths = widthsOf(mm(2405), mm(2398), mm(2405), mm(2398))
	s.Heights = heightsOf(mm(2304), mm(2300), mm(2300))
	c := measure(t, s).Variants[0]
	want := opening.Clear{
		Left: opening.NoSkirting, Right: opening.NoSkirting,
		Width: units.Span{Min: mm(2398), Max: mm(2405)}, Height: mm(2300),
		Narrowest: opening.Deciding{Places: []string{"opening.widths[1].size"}, Uncertainty: mm(3)},
		Widest:    opening.Deciding{Places: []string{"opening.widths[0].size"}, Uncertainty: mm(3)},
		Lowest:    opening.Deciding{Places: []string{"opening.heights[1].size"}, Uncertainty: mm(3)},
	}
	if diff := cmp.Diff(want, c); diff != "" {
		t.Error(diff)
	}
	s.Accuracy = 0
	s.Levels = []opening.Level{
		{At: 0, Floor: mm(1002), Ceiling: mm(1302)},
		{At: mm(1200), Floor: mm(1000), Ceiling: mm(1301)},
		{At: mm(2400), Floor: mm(1000), Ceiling: mm(1301)},
	}
	lowest := opening.Deciding{
		Places:      []string{"opening.levels[1].floor", "opening.levels[1].ceiling"},
		Uncertainty: 2_828_428, // √8 = 2.8284271…, rounded up
	}
	if diff := cmp.Diff(lowest, measure(t, s).Variants[0].Lowest); diff != "" {
		t.Error(diff)
	}
}

// Between two end panels the narrowest reading decides both ends.
func TestDecidingBetweenEndPanels(t *testing.T) {
	c := measure(t, alcove()).Variants[1]
	want := opening.Deciding{Places: []string{"opening.widths[2].size"}, Uncertainty: opening.DefaultAccuracy}
	if diff := cmp.Diff([]opening.Deciding{want, want}, []opening.Deciding{c.Narrowest, c.Widest}); diff != "" {
		t.Error(diff)
	}
	if c.LeftOff != mm(22) || c.RightOff != mm(22) {
		t.Error(c.LeftOff, c.RightOff)
	}
}

func TestNothingLeft(t *testing.T) {
	s := alcove()
	s.Widths = widthsOf(mm(300), mm(300), mm(300))
	for panel, left := range map[int64]int{149: 2, 150: 1, 151: 1} {
		s.EndPanel = mm(panel)
		m := measure(t, s)
		if got := brief2(m.Findings, "end_panel"); len(m.Variants) != left || (got == "nothing-left") != (left == 1) {
			t.Errorf("panels of %d in 300: %d variants, %q", panel, len(m.Variants), got)
		}
	}
	s = survey()
	for carpet, left := range map[int64]int{2299: 1, 2300: 0} {
		s.CarpetToCome = mm(carpet)
		m := measure(t, s)
		if got := brief2(m.Findings, "carpet_to_come"); len(m.Variants) != left || (got == "nothing-left") != (left == 0) {
			t.Errorf("a carpet of %d under 2300: %d variants, %q", carpet, len(m.Variants), got)
		}
	}
}

func TestWorking(t *testing.T) {
	s := alcove()
	s.Widths[0].Size = mm(2360)
	s.CarpetToCome = mm(12)
	s.Skirting.Right = nil
	lines := s.Working(measure(t, s).Variants[1], 2, 0)
	want := []units.Line{
		{What: "clear width, narrowest", Sum: "2360 + 18 − 22", Is: "2356"},
		{What: "clear width, widest", Sum: "2418 − 22", Is: "2396"},
		{What: "clear height", Sum: "2321 − 12", Is: "2309"},
	}
	if diff := cmp.Diff(want, lines); diff != "" {
		t.Error(diff)
	}
	s.Levels = []opening.Level{{Floor: mm(1001), Ceiling: mm(1300)}, {At: mm(2400), Floor: mm(1000), Ceiling: mm(1301)}}
	lines = s.Working(measure(t, s).Variants[0], 2, 0)
	if last := lines[2]; last.Sum != "1000 + 1300 − 12" || last.Is != "2288" {
		t.Error(last)
	}
	for _, none := range []opening.Survey{{}, {Widths: s.Widths}, {Heights: s.Heights}} {
		if got := none.Working(opening.Clear{}, 2, 0); got != nil {
			t.Error(got)
		}
	}
}

// One survey gives one answer, however often and from wherever it is asked.
func TestMeasureIsStable(t *testing.T) {
	s := alcove()
	s.Widths = append(s.Widths, opening.Width{At: mm(300), Size: mm(240)}, opening.Width{At: mm(300), Size: mm(2140)})
	want := measure(t, s)
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 20 {
				got, err := opening.Measure(s)
				if diff := cmp.Diff(want, got); err != nil || diff != "" {
					t.Error(err, diff)
				}
			}
		})
	}
	wait.Wait()
}

// Over the height of three doors the sum is that of the plumb lines: 2400 apart at
// the floor, the left wall 6 further out at 2000, the right one 4 further in.
func TestWorkingOverTheHeightOfTheDoors(t *testing.T) {
	const mm = units.Millimetre
	s := opening.Survey{
		Widths:  []opening.Width{{At: 0, Size: 2400 * mm}, {At: 1000 * mm, Size: 2401 * mm}, {At: 2000 * mm, Size: 2402 * mm}},
		Heights: []opening.Height{{Size: 2300 * mm}, {At: 1, Size: 2300 * mm}, {At: 2, Size: 2300 * mm}},
		Leans: opening.Leans{
			Left:  []opening.Lean{{At: 0, Size: 0}, {At: 2000 * mm, Size: 6 * mm}},
			Right: []opening.Lean{{At: 0, Size: 0}, {At: 2000 * mm, Size: -4 * mm}},
		},
	}
	c := s.ClearFor(measure(t, s).Variants[0], 3, 2000*mm)
	lines := s.Working(c, 3, 2000*mm)
	for i, want := range []units.Line{
		{What: "clear width, narrowest", Sum: "2400 + 0 − 4", Is: "2396"},
		{What: "clear width, widest", Sum: "2400 + 6 + 0", Is: "2406"},
	} {
		if lines[i] != want {
			t.Errorf("got %v, want %v", lines[i], want)
		}
	}
}
