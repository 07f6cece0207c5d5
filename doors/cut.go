package doors

import (
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Cutting is how doors are cut down on site.
type Cutting struct {
	Split Split `json:"cut_split,omitzero"` // zero: ByPair
	// Step is the step of the saw; zero: DefaultStep.
	Step units.Length `json:"step,omitzero"`
	// Deepest is the deepest cut the caller allows; nil: as deep as the build allows.
	Deepest *units.Length `json:"deepest_cut,omitzero"`
}

// Split says which panels a cut comes out of. The zero value means ByPair.
type Split string

const (
	ByPanel  Split = "panel"  // one: the tallest that may be cut, topmost in a tie
	ByPair   Split = "pair"   // two: the top and the bottom one that may be cut
	Evenly   Split = "even"   // all that may be cut, alike
	ByShares Split = "shares" // all that may be cut, in proportion to their shares
)

// What makes a cut impossible.
var (
	ErrNoPanel = errors.New("no panel height is left")
	ErrNoCut   = errors.New("no panel may be cut on site")
	ErrTooDeep = errors.New("the cut is deeper than the door allows")
)

func (c Cutting) step() units.Length {
	if c.Step == 0 {
		return DefaultStep
	}
	return c.Step
}

// Validate refuses a cutting rule that cannot be used, with the place.
func (c Cutting) Validate() error {
	switch c.Split {
	case "", ByPanel, ByPair, Evenly, ByShares:
	default:
		return opening.Refuse("trim.cut_split", "%s is not panel, pair, even or shares", opening.Quote(string(c.Split)))
	}
	if err := opening.CheckSize("trim.step", c.step()); err != nil {
		return err
	}
	if c.Deepest != nil {
		return opening.CheckPosition("trim.deepest_cut", *c.Deepest)
	}
	return nil
}

// PanelCuts returns what a cut takes out of each panel of a door of the given
// height, from the bottom up, 0 where a panel is not cut. The shares are whole
// saw steps and sum to the cut. What pair and even leave over goes to the lowest
// panel that is cut, the highest, the next to the lowest and so on, a step each;
// what shares leaves over goes to the largest remainders, of equal ones the
// lowest. Each panel keeps Build.LeastPanel. A build is needed, and a cut of whole steps.
//
// Errors: ErrNoPanel, ErrNoCut, ErrTooDeep, units.ErrStep for a cut that is not
// whole steps, and *opening.InputError for a rule that Validate refuses.
func PanelCuts(b *Build, c Cutting, door, cut units.Length) ([]units.Length, error) {
	t, err := newCutter(b, c, door)
	if err != nil {
		return nil, err
	}
	if cut < 0 || cut%t.step != 0 {
		return nil, fmt.Errorf("doors: a cut of %s in steps of %s: %w", cut, t.step, units.ErrStep)
	}
	shares := t.shares(int64(cut / t.step))
	cuts := make([]units.Length, len(b.Panels))
	for k, i := range t.panels {
		if shares[k] > t.room[k] {
			return nil, fmt.Errorf("doors: a cut of %s: panel %d keeps less than its least height: %w", cut, i+1, ErrTooDeep)
		}
		cuts[i] = units.Length(shares[k]) * t.step
	}
	return cuts, nil
}

// DeepestCut returns the deepest cut of whole saw steps that a door of the given
// height allows, such that every shallower one is allowed as well. The error is
// as of PanelCuts.
func DeepestCut(b *Build, c Cutting, door units.Length) (units.Length, error) {
	t, err := newCutter(b, c, door)
	if err != nil {
		return 0, err
	}
	return units.Length(t.deepest()) * t.step, nil
}

// cutter shares saw steps among the panels of one door that take a cut.
type cutter struct {
	step   units.Length
	split  Split
	panels []int   // indexes of the panels that take the cut, from the bottom up
	weight []int64 // their shares
	room   []int64 // how many steps each may lose
}

func newCutter(b *Build, c Cutting, door units.Length) (cutter, error) {
	if err := c.Validate(); err != nil {
		return cutter{}, err
	}
	heights, err := b.PanelHeights(door)
	if err != nil {
		return cutter{}, err
	}
	t := cutter{step: c.step(), split: c.Split, panels: make([]int, 0, len(b.Panels))}
	for i, p := range b.Panels {
		if p.CutOnSite {
			t.panels = append(t.panels, i)
		}
	}
	if len(t.panels) == 0 {
		return cutter{}, fmt.Errorf("doors: %w", ErrNoCut)
	}
	switch c.Split {
	case ByPanel:
		// Shares, not heights: those differ by a nanometre where a share does not come out even.
		tallest := t.panels[0]
		for _, i := range t.panels {
			if b.Panels[i].Share >= b.Panels[tallest].Share {
				tallest = i
			}
		}
		t.panels = []int{tallest}
	case "", ByPair:
		if last := len(t.panels) - 1; last > 0 {
			t.panels = []int{t.panels[0], t.panels[last]}
		}
	}
	t.room, t.weight = make([]int64, 0, len(t.panels)), make([]int64, 0, len(t.panels))
	for _, i := range t.panels {
		// A panel keeps its least height, and some height in any case.
		spare := max(heights[i]-max(b.LeastPanel, units.Nanometre), 0)
		t.room = append(t.room, int64(spare/t.step))
		t.weight = append(t.weight, int64(b.Panels[i].Share))
	}
	return t, nil
}

// shares splits steps among the panels that take the cut.
func (t cutter) shares(steps int64) []int64 {
	n := len(t.panels)
	out := make([]int64, n)
	if t.split == ByShares {
		// The steps stand for lengths: both are whole numbers of one unit. The
		// split fails only for more steps than any length has, and those fit no panel.
		parts, err := units.SplitShares(units.Length(steps), 1, t.weight)
		for i := range out {
			out[i] = steps
			if err == nil {
				out[i] = int64(parts[i])
			}
		}
		return out
	}
	for i := range out {
		out[i] = steps / int64(n)
	}
	// From both ends inwards: so a deeper cut never takes less out of any panel.
	odd := int(steps % int64(n))
	for i := range odd {
		if i%2 == 0 {
			out[i/2]++
		} else {
			out[n-1-i/2]++
		}
	}
	return out
}

func (t cutter) allows(steps int64) bool {
	for i, s := range t.shares(steps) {
		if s > t.room[i] {
			return false
		}
	}
	return true
}

// deepest counts up from a number of steps that is surely allowed, as no panel's
// exact part of it is more than the panel's room. One step more for each
// multiple of the least weight in the sum of all, and that panel's exact part
// has grown by a step: there the count ends, at units.MaxPieces in any case.
func (t cutter) deepest() int64 {
	weight := t.weight
	if t.split != ByShares {
		weight = slices.Repeat([]int64{1}, len(t.panels))
	}
	var sum int64
	for _, w := range weight {
		sum += w
	}
	sure := int64(units.MaxLength)
	for i, w := range weight {
		// MulDiv fails only out of range, where another panel decides.
		if most, err := units.Length(t.room[i]).MulDiv(sum, w, units.Down); err == nil {
			sure = min(sure, int64(most))
		}
	}
	for more := 0; more < units.MaxPieces && t.allows(sure+1); more++ {
		sure++
	}
	return sure
}
