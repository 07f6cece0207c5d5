package opening_test

import (
	"fmt"
	"math/big"
	"slices"
	"sort"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// anyLength draws lengths that matter: whole millimetres of a room, odd ones, and nonsense.
func anyLength() *rapid.Generator[units.Length] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(2290, 2310), mm),
		rapid.Map(rapid.Int64Range(900, 6100), mm),
		rapid.Map(rapid.Int64Range(-10, 700), mm),
		rapid.Map(rapid.Int64Range(int64(-units.MaxLength)-1, int64(units.MaxLength)+1), func(n int64) units.Length { return units.Length(n) }),
	)
}

func anyLean() *rapid.Generator[opening.Lean] {
	return rapid.Custom(func(t *rapid.T) opening.Lean {
		return opening.Lean{At: anyLength().Draw(t, "at"), Size: anyLength().Draw(t, "size")}
	})
}

func anySurvey() *rapid.Generator[opening.Survey] {
	return rapid.Custom(func(t *rapid.T) opening.Survey {
		skirting := rapid.Ptr(rapid.Custom(func(t *rapid.T) opening.Skirting {
			return opening.Skirting{
				Thickness: anyLength().Draw(t, "thickness"), Height: anyLength().Draw(t, "height"),
				Treatment: rapid.SampledFrom([]opening.Treatment{"", opening.CutBack, opening.EndPanel, "paint"}).Draw(t, "treatment"),
			}
		}), true)
		return opening.Survey{
			Widths: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) opening.Width {
				return opening.Width{
					At: anyLength().Draw(t, "at"), Size: anyLength().Draw(t, "size"), Checked: rapid.Bool().Draw(t, "checked"),
					Between: rapid.SampledFrom([]opening.Between{"", opening.Walls, opening.Skirtings}).Draw(t, "between"),
				}
			}), 0, 6).Draw(t, "widths"),
			Heights: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) opening.Height {
				return opening.Height{At: anyLength().Draw(t, "at"), Size: anyLength().Draw(t, "size"), Checked: rapid.Bool().Draw(t, "checked")}
			}), 0, 6).Draw(t, "heights"),
			Depths: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) opening.Depth {
				return opening.Depth{At: anyLength().Draw(t, "at"), Size: anyLength().Draw(t, "size")}
			}), 0, 3).Draw(t, "depths"),
			Levels: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) opening.Level {
				return opening.Level{At: anyLength().Draw(t, "at"), Floor: anyLength().Draw(t, "floor"), Ceiling: anyLength().Draw(t, "ceiling")}
			}), 0, 4).Draw(t, "levels"),
			Skirting:     opening.Sides{Left: skirting.Draw(t, "left"), Right: skirting.Draw(t, "right")},
			EndPanel:     anyLength().Draw(t, "end panel"),
			CarpetToCome: anyLength().Draw(t, "carpet"),
			Accuracy:     anyLength().Draw(t, "accuracy"),
			CarpetNow:    anyLength().Draw(t, "carpet now"),
			CarpetAtRail: rapid.Bool().Draw(t, "at rail"),
			Leans: opening.Leans{
				Left:  rapid.SliceOfN(anyLean(), 0, 4).Draw(t, "left leans"),
				Right: rapid.SliceOfN(anyLean(), 0, 4).Draw(t, "right leans"),
			},
			Diagonals: rapid.Ptr(rapid.Custom(func(t *rapid.T) opening.Diagonals {
				return opening.Diagonals{Rising: anyLength().Draw(t, "rising"), Falling: anyLength().Draw(t, "falling")}
			}), true).Draw(t, "diagonals"),
			Joists: rapid.Ptr(rapid.Custom(func(t *rapid.T) opening.Joists {
				return opening.Joists{
					Centres: rapid.SliceOfN(anyLength(), 0, 6).Draw(t, "centres"),
					Run:     rapid.SampledFrom([]opening.Direction{opening.FrontToBack, opening.AlongDoors}).Draw(t, "run"),
				}
			}), true).Draw(t, "joists"),
			InTheWay: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) opening.Thing {
				return opening.Thing{
					Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
					From: anyLength().Draw(t, "from"), To: anyLength().Draw(t, "to"),
					Bottom: anyLength().Draw(t, "bottom"), Top: anyLength().Draw(t, "top"), StandsOut: anyLength().Draw(t, "stands out"),
				}
			}), 0, 3).Draw(t, "in the way"),
		}
	})
}

// Whatever the survey, Measure answers: refused, stopped, or with spans that
// are spans; its findings are sorted, whole and at most one a cause.
func measureAnswers(t *rapid.T) {
	s := anySurvey().Draw(t, "survey")
	m, err := opening.Measure(s)
	if err != nil {
		if s.Validate() == nil {
			t.Fatal("Validate passes what Measure refuses", err)
		}
		return
	}
	if diff := cmp.Diff(m.Findings.Sorted(), m.Findings); diff != "" {
		t.Fatal("not sorted", diff)
	}
	stops := map[string]int{}
	for _, f := range m.Findings {
		if !f.Severity.IsValid() || f.Place == "" || f.Message == "" || f.Remedy == "" {
			t.Fatalf("%+v", f)
		}
		if f.Severity == opening.Stop {
			if stops[f.Place]++; stops[f.Place] > 1 {
				t.Fatalf("two stops at %s: %v", f.Place, m.Findings)
			}
		}
	}
	if m.Findings.Stops() != (m.Findings.Err() != nil) || m.Findings.Stops() && len(m.Variants) > 0 {
		t.Fatal(m)
	}
	if !m.Findings.Stops() && len(m.Variants) == 0 && !m.Findings.Has(opening.CodeNothingLeft) {
		t.Fatal("no opening and no reason", m)
	}
	for _, c := range m.Variants {
		for _, side := range []opening.Side{opening.Left, opening.Right} {
			if d, err := s.EndDoor(c, side, mm(650), mm(2200), mm(8)); err == nil && (d.Raise < 0 || d.Taken > d.Raise) {
				t.Fatalf("%+v", d)
			}
		}
		if in := s.ClearFor(c, 3, mm(2200)); in.Width.Validate() != nil || in.Narrowest.Uncertainty <= 0 || len(in.Widest.Places) == 0 {
			t.Fatalf("%+v", in)
		}
		if h := s.HeightOver(c, mm(100), mm(700)); h > c.Height {
			t.Fatal(h)
		}
		if w := s.SideWorks(c, mm(540), mm(84)); w[0].String() == "" {
			t.Fatal(w)
		}
		if c.Width.Validate() != nil || c.Width.Min <= 0 || c.Height <= 0 || len(s.Working(c, 2, 0)) != 3 {
			t.Fatalf("%+v", c)
		}
	}
	again, _ := opening.Measure(s)
	if diff := cmp.Diff(m, again); diff != "" {
		t.Fatal("not the same again", diff)
	}
}

func TestMeasureAnswers(t *testing.T) { rapid.Check(t, measureAnswers) }
func FuzzMeasureAnswers(f *testing.F) { f.Fuzz(rapid.MakeFuzz(measureAnswers)) }

// tested is the rule in rational numbers: further from the median of the others
// than the larger of 30 mm and 1.5 % of that median.
func tested(reading units.Length, others []units.Length) bool {
	sorted := slices.Clone(others)
	sort.Slice(sorted, func(i, j int) bool { return sorted[i] < sorted[j] })
	n := len(sorted)
	median := big.NewRat(int64(sorted[n/2]), 1)
	if n%2 == 0 {
		median = big.NewRat(int64(sorted[n/2-1])+int64(sorted[n/2]), 2)
	}
	limit := new(big.Rat).Mul(median, big.NewRat(15, 1000))
	if least := big.NewRat(int64(mm(30)), 1); limit.Cmp(least) < 0 {
		limit = least
	}
	off := new(big.Rat).Sub(big.NewRat(int64(reading), 1), median)
	return off.Abs(off).Cmp(limit) > 0
}

// One reading moved in an otherwise honest room is named if and only if the rule
// tests it, and no honest reading is named with it.
func oneSlipIsNamed(t *rapid.T) {
	nominal := rapid.Int64Range(1000, 5000).Draw(t, "nominal")
	var sizes []units.Length
	for range rapid.IntRange(3, 7).Draw(t, "readings") {
		sizes = append(sizes, mm(nominal+rapid.Int64Range(-7, 7).Draw(t, "off")))
	}
	at := rapid.IntRange(0, len(sizes)-1).Draw(t, "at")
	sizes[at] += units.Length(rapid.OneOf(
		rapid.Int64Range(-90_000_000, 90_000_000),
		rapid.Int64Range(-500_000_000, 500_000_000),
	).Draw(t, "slip"))
	others := slices.Delete(slices.Clone(sizes), at, at+1)
	s := survey()
	s.Widths = widthsOf(sizes...)
	m := measure2(t, s)
	var named []string
	for _, f := range m.Findings {
		if f.Severity == opening.Stop {
			named = append(named, f.Place)
		}
	}
	var want []string
	if tested(sizes[at], others) {
		want = []string{fmt.Sprintf("opening.widths[%d].size", at)}
	}
	if diff := cmp.Diff(want, named); diff != "" {
		t.Fatalf("%v: %s", sizes, diff)
	}
}

func measure2(t *rapid.T, s opening.Survey) opening.Measured {
	m, err := opening.Measure(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestOneSlipIsNamed(t *testing.T) { rapid.Check(t, oneSlipIsNamed) }
func FuzzOneSlipIsNamed(f *testing.F) { f.Fuzz(rapid.MakeFuzz(oneSlipIsNamed)) }

// A slip of the unit or of two neighbouring digits is named for what it is.
func TestNamedTruth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		truth := mm(rapid.Int64Range(1100, 3900).Draw(t, "truth"))
		sizes := []units.Length{truth, truth + mm(rapid.Int64Range(-5, 5).Draw(t, "off")), truth}
		i := rapid.IntRange(0, 4).Draw(t, "slip")
		want := opening.CodeUnitSlip
		switch i {
		case 0:
			sizes[2] = 10 * truth
		case 1:
			sizes[2] = truth / 10
		case 2:
			sizes[2] = truth * 254 / 10
		case 3:
			sizes[2] = truth * 10 / 254
		case 4:
			n := int64(truth / units.Millimetre)
			power := rapid.SampledFrom([]int64{1, 10, 100}).Draw(t, "power")
			low, high := n/power%10, n/(10*power)%10
			sizes[2] = mm(n + (low-high)*9*power)
			if sizes[2] < mm(1000) || !tested(sizes[2], sizes[:2]) {
				t.Skip("too near to be tested, or a tenth as well")
			}
			want = opening.CodeSwappedDigits
		}
		s := survey()
		s.Widths = widthsOf(sizes...)
		if got := brief(measure2(t, s).Findings, "widths"); got != "2 "+string(want)+" stop" {
			t.Fatalf("%v: %s", sizes, got)
		}
	})
}

// The clear opening against one worked out reading by reading, side by side.
func TestClearOpening(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nominal := rapid.Int64Range(1000, 5000).Draw(t, "nominal")
		off := func() int64 { return rapid.Int64Range(-8, 8).Draw(t, "off") }
		s := survey()
		left, right := rapid.Int64Range(5, 30).Draw(t, "left"), rapid.Int64Range(5, 30).Draw(t, "right")
		panel := rapid.Int64Range(1, 40).Draw(t, "panel")
		s.Skirting = opening.Sides{
			Left:  &opening.Skirting{Thickness: mm(left), Height: mm(120)},
			Right: &opening.Skirting{Thickness: mm(right), Height: mm(120)},
		}
		s.EndPanel = mm(panel)
		var walls []int64
		s.Widths = nil
		for range rapid.IntRange(1, 6).Draw(t, "readings") {
			wall := nominal + off()
			walls = append(walls, wall)
			w := opening.Width{At: mm(60), Size: mm(wall)}
			if rapid.Bool().Draw(t, "between") {
				w.Size, w.Between = mm(wall-left-right), opening.Skirtings
			}
			s.Widths = append(s.Widths, w)
		}
		off2 := max(left, panel) + max(right, panel)
		want := []units.Span{
			{Min: mm(slices.Min(walls)), Max: mm(slices.Max(walls))},
			{Min: mm(slices.Min(walls) - off2), Max: mm(slices.Min(walls) - off2)},
		}
		var got []units.Span
		for _, c := range measure2(t, s).Variants {
			got = append(got, c.Width)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatal(diff)
		}
	})
}

// Between level planes there is never more than the tape finds anywhere, and the
// planes touch floor and ceiling.
func TestLevelPlanes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := survey()
		s.Heights, s.Levels = nil, nil
		var sums, floors, ceilings []int64
		for i := range rapid.Int64Range(1, 6).Draw(t, "stations") {
			floor, ceiling := 1000+rapid.Int64Range(-8, 8).Draw(t, "floor"), 1300+rapid.Int64Range(-8, 8).Draw(t, "ceiling")
			floors, ceilings, sums = append(floors, floor), append(ceilings, ceiling), append(sums, floor+ceiling)
			s.Levels = append(s.Levels, opening.Level{At: mm(600 * i), Floor: mm(floor), Ceiling: mm(ceiling)})
			s.Heights = append(s.Heights, opening.Height{At: mm(600 * i), Size: mm(floor + ceiling)})
		}
		m := measure2(t, s)
		c := m.Variants[0]
		if c.Height > mm(slices.Min(sums)) || c.Height != mm(slices.Min(floors)+slices.Min(ceilings)) {
			t.Fatal(c.Height)
		}
		if m.Findings.Has(opening.CodeLevelsDisagree) {
			t.Fatal("tape and levels agree to the millimetre", m.Findings)
		}
	})
}
