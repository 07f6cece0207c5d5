package doors_test

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

// buildOf reads the build of a row: bars top, bottom, between; shares and panels that may be cut.
func buildOf(r row, t *testing.T) *doors.Build {
	t.Helper()
	bars := lengthsOf(r, t, "bars")
	b := &doors.Build{TopBar: bars[0], BottomBar: bars[1], Bar: bars[2], LeastPanel: r.Length(t, "least")}
	for i, share := range strings.Fields(r["shares"]) {
		n, err := strconv.Atoi(share)
		if err != nil {
			t.Fatal(err)
		}
		b.Panels = append(b.Panels, doors.Panel{Share: doors.Share(n) * doors.OneShare, CutOnSite: r["cuttable"][i] == '1'})
	}
	return b
}

func TestCutTable(t *testing.T) {
	table.Each(t, "doors_cuts.csv", func(t *testing.T, r row) {
		b, height := buildOf(r, t), r.Length(t, "height")
		c := doors.Cutting{Split: doors.Split(r["split"]), Step: r.Length(t, "step")}
		cuts, err := doors.PanelCuts(b, c, height, r.Length(t, "cut"))
		if got := millimetres(cuts); err != nil || got != r["cuts"] {
			t.Errorf("PanelCuts = %s, %v, want %s", got, err, r["cuts"])
		}
		deepest, err := doors.DeepestCut(b, c, height)
		if err != nil || deepest != r.Length(t, "deepest") {
			t.Errorf("DeepestCut = %s, %v, want %s", deepest, err, r["deepest"])
		}
		if _, err := doors.PanelCuts(b, c, height, deepest); err != nil {
			t.Errorf("the deepest cut: %v", err)
		}
		if _, err := doors.PanelCuts(b, c, height, deepest+c.Step); !errors.Is(err, doors.ErrTooDeep) {
			t.Errorf("a step deeper than the deepest: %v", err)
		}
	})
}

func twoPanels() *doors.Build {
	return &doors.Build{
		TopBar: 45 * mm, BottomBar: 60 * mm, Bar: 25 * mm,
		Panels: []doors.Panel{{Share: doors.OneShare, CutOnSite: true}, {Share: doors.OneShare, CutOnSite: true}},
	}
}

func TestCutErrors(t *testing.T) {
	glass := twoPanels()
	glass.Panels[0].CutOnSite, glass.Panels[1].CutOnSite = false, false
	var input *opening.InputError
	for _, c := range []struct {
		name string
		b    *doors.Build
		rule doors.Cutting
		door units.Length
		cut  units.Length
		want error
	}{
		{"no build", nil, doors.Cutting{}, 2400 * mm, mm, doors.ErrNoPanel},
		{"no panels", &doors.Build{}, doors.Cutting{}, 2400 * mm, mm, units.ErrRange},
		{"bars take all", twoPanels(), doors.Cutting{}, 130 * mm, mm, doors.ErrNoPanel},
		{"a nanometre for two panels", twoPanels(), doors.Cutting{}, 130*mm + 1, mm, doors.ErrNoPanel},
		{"glass", glass, doors.Cutting{}, 2400 * mm, mm, doors.ErrNoCut},
		{"below nothing", twoPanels(), doors.Cutting{}, 2400 * mm, -mm, units.ErrStep},
		{"half a step", twoPanels(), doors.Cutting{}, 2400 * mm, mm / 2, units.ErrStep},
		{"half a saw step", twoPanels(), doors.Cutting{Step: 2 * mm}, 2400 * mm, mm, units.ErrStep},
		{"too deep", twoPanels(), doors.Cutting{}, 2400 * mm, 2400 * mm, doors.ErrTooDeep},
	} {
		if _, err := doors.PanelCuts(c.b, c.rule, c.door, c.cut); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
	for _, rule := range []doors.Cutting{{Split: "half"}, {Step: -1}, {Step: units.MaxLength + 1}, {Deepest: new(units.Length(-1))}} {
		if err := rule.Validate(); !errors.As(err, &input) {
			t.Errorf("%v is valid: %v", rule, err)
		}
		if _, err := doors.DeepestCut(twoPanels(), rule, 2400*mm); !errors.As(err, &input) {
			t.Errorf("%v is used: %v", rule, err)
		}
	}
	for _, rule := range []doors.Cutting{
		{}, {Split: doors.ByPanel}, {Split: doors.ByPair}, {Split: doors.Evenly}, {Split: doors.ByShares},
		{Step: 1}, {Deepest: new(units.Length(0))},
	} {
		if err := rule.Validate(); err != nil {
			t.Error(err)
		}
	}
	if cuts, err := doors.PanelCuts(twoPanels(), doors.Cutting{}, 2400*mm, 0); err != nil || cuts[0] != 0 || cuts[1] != 0 {
		t.Errorf("a cut of nothing: %v, %v", cuts, err)
	}
}

func TestPanelNeedsAWholeNanometre(t *testing.T) {
	b := twoPanels()
	if h, err := b.PanelHeights(130*mm + 2); err != nil || h[0] != 1 || h[1] != 1 {
		t.Errorf("%v, %v", h, err)
	}
	b.Panels[1].Share = doors.MaxShare
	b.Panels[0].Share = 1
	if _, err := b.PanelHeights(2400 * mm); !errors.Is(err, doors.ErrNoPanel) {
		t.Errorf("a panel of nothing: %v", err)
	}
}

// Panels are numbered from the bottom, 1 up, in what is refused too.
func TestPanelsAreNamedFromOne(t *testing.T) {
	uneven := twoPanels()
	uneven.Panels[0].Share, uneven.Panels[1].Share = doors.MaxShare, 1
	_, noHeight := uneven.PanelHeights(2400 * mm)
	short := twoPanels()
	short.Panels[0].Share = 3 * doors.OneShare
	_, tooDeep := doors.PanelCuts(short, doors.Cutting{}, 2400*mm, 1200*mm)
	plain := weighed()
	plain.Panels[1].Material, plain.Panels[1].Density = "", nil
	_, unknown := plain.Mass(700*mm, 2300*mm, nil)
	_, cutAway := weighed().Mass(700*mm, 2300*mm, []units.Length{0, 2000 * mm})
	for name, err := range map[string]error{"no height": noHeight, "too deep": tooDeep, "unknown": unknown, "cut away": cutAway} {
		if err == nil || !strings.Contains(err.Error(), "panel 2") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Cuts sum to the cut and differ by no more than their rule allows, no panel
// keeps less than its least height, and exactly the cuts up to the deepest are
// allowed, counted one by one.
func TestCutsAgainstCounting(t *testing.T) { rapid.Check(t, cutProperty) }

func cutProperty(t *rapid.T) {
	b := &doors.Build{
		TopBar: mm * units.Length(rapid.IntRange(0, 20).Draw(t, "top")), BottomBar: 10 * mm, Bar: 5 * mm,
		LeastPanel: mm * units.Length(rapid.IntRange(0, 80).Draw(t, "least")),
	}
	for range rapid.IntRange(1, 5).Draw(t, "panels") {
		b.Panels = append(b.Panels, doors.Panel{
			Share:     doors.Share(rapid.IntRange(1, 6).Draw(t, "share")) * doors.OneShare / 2,
			CutOnSite: rapid.Bool().Draw(t, "cut"),
		})
	}
	c := doors.Cutting{
		Split: rapid.SampledFrom([]doors.Split{"", doors.ByPanel, doors.ByPair, doors.Evenly, doors.ByShares}).Draw(t, "split"),
		Step:  mm * units.Length(rapid.IntRange(1, 9).Draw(t, "step")) / 2,
	}
	door := mm * units.Length(rapid.IntRange(60, 700).Draw(t, "door"))
	heights, err := b.PanelHeights(door)
	if err != nil {
		t.Skip("no such door")
	}
	sum := b.TopBar + b.BottomBar + units.Length(len(b.Panels)-1)*b.Bar
	for _, h := range heights {
		sum += h
	}
	if sum != door {
		t.Fatalf("bars and panels are %s of %s", sum, door)
	}
	deepest, err := doors.DeepestCut(b, c, door)
	if errors.Is(err, doors.ErrNoCut) {
		for _, p := range b.Panels {
			if p.CutOnSite {
				t.Fatal(err)
			}
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	for cut := units.Length(0); cut <= deepest+c.Step; cut += c.Step {
		cuts, err := doors.PanelCuts(b, c, door, cut)
		if cut > deepest {
			if !errors.Is(err, doors.ErrTooDeep) {
				t.Fatalf("a cut of %s, past the deepest %s: %v", cut, deepest, err)
			}
			return
		}
		if err != nil {
			t.Fatalf("a cut of %s, up to the deepest %s: %v", cut, deepest, err)
		}
		checkCuts(t, b, c, heights, cuts, cut)
	}
}

func checkCuts(t *rapid.T, b *doors.Build, c doors.Cutting, heights, cuts []units.Length, cut units.Length) {
	var sum, shares units.Length
	var given []int
	for i, p := range b.Panels {
		sum += cuts[i]
		if cuts[i] != 0 && (!p.CutOnSite || heights[i]-cuts[i] < max(b.LeastPanel, 1)) {
			t.Fatalf("panel %d of %s gives %s", i, heights[i], cuts[i])
		}
		if cuts[i]%c.Step != 0 || cuts[i] < 0 {
			t.Fatalf("panel %d gives %s, not whole steps", i, cuts[i])
		}
		if p.CutOnSite {
			given = append(given, i)
			shares += units.Length(p.Share)
		}
	}
	if sum != cut {
		t.Fatalf("%v do not sum to %s", cuts, cut)
	}
	low, high := given[0], given[len(given)-1]
	switch c.Split {
	case doors.ByPanel:
		for _, i := range given {
			for _, o := range given {
				if cuts[i] != 0 && (b.Panels[o].Share > b.Panels[i].Share || b.Panels[o].Share == b.Panels[i].Share && o > i) {
					t.Fatalf("panel %d is cut before panel %d", i, o)
				}
			}
		}
	case doors.ByShares:
		for _, i := range given {
			// |cut − exact part| < a step, in cross products.
			if off := (cuts[i]*shares - cut*units.Length(b.Panels[i].Share)).Abs(); off >= c.Step*shares {
				t.Fatalf("panel %d gives %s of %s", i, cuts[i], cut)
			}
		}
	case doors.Evenly:
		for k, i := range given {
			mirror := given[len(given)-1-k]
			if k < len(given)/2 && (cuts[i] < cuts[mirror] || cuts[i]-cuts[mirror] > c.Step) || cuts[low]-cuts[i] > c.Step {
				t.Fatalf("panels %d and %d give %v", i, mirror, cuts)
			}
		}
	default:
		if low != high && cuts[low]-cuts[high] != cut%(2*c.Step) || low != high && cuts[low]+cuts[high] != cut {
			t.Fatalf("the pair gives %v", cuts)
		}
	}
}
