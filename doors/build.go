package doors

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Build is how a door is made: two stiles over its whole height, a top bar, a
// bottom bar, and panels between them with a bar between each two.
type Build struct {
	TopBar    units.Length `json:"top_bar"`    // height of the top bar
	BottomBar units.Length `json:"bottom_bar"` // height of the bottom bar
	Bar       units.Length `json:"bar"`        // height of each bar between two panels
	// LeastPanel is the least height a panel keeps when the door is cut down; zero: some height.
	LeastPanel units.Length `json:"least_panel,omitzero"`
	Panels     []Panel      `json:"panels"` // from the bottom up
	// StileWidth is the face width of a stile; zero: not known.
	StileWidth units.Length `json:"stile_width,omitzero"`
	// StileMass and BarMass are the masses of a metre of them; nil: not known.
	StileMass *units.Mass `json:"stile_mass,omitzero"`
	BarMass   *units.Mass `json:"bar_mass,omitzero"` // likewise, of a bar
}

// Panel is one panel of a door.
type Panel struct {
	// Share is the part of the height between the bars that the panel takes,
	// against the other panels' shares.
	Share Share `json:"share"`
	// CutOnSite says that the panel may be cut on site. Glass and mirror never may.
	CutOnSite bool `json:"cut_on_site,omitzero"`
	// Material and Thickness tell what the panel weighs; both or neither.
	Material  Material     `json:"material,omitzero"`
	Thickness units.Length `json:"thickness,omitzero"` // of the panel; zero: not known
	// Density is the mass of a cubic metre of a panel of OtherBoard.
	Density *units.Mass `json:"density,omitzero"`
}

// MaxPanels bounds the panels of a door.
const MaxPanels = 20

func (b *Build) validate(place string) error {
	if b == nil {
		return nil
	}
	if err := cmp.Or(
		opening.CheckPosition(".top_bar", b.TopBar),
		opening.CheckPosition(".bottom_bar", b.BottomBar),
		opening.CheckPosition(".bar", b.Bar),
		opening.CheckPosition(".least_panel", b.LeastPanel),
		opening.CheckPosition(".stile_width", b.StileWidth),
	); err != nil {
		return under(place, err)
	}
	if len(b.Panels) == 0 || len(b.Panels) > MaxPanels {
		return opening.Refuse(place+".panels", "a door has 1 to %d panels, not %d", MaxPanels, len(b.Panels))
	}
	for i, p := range b.Panels {
		if err := p.validate(); err != nil {
			return under(fmt.Sprintf("%s.panels[%d]", place, i), err)
		}
	}
	return nil
}

func (p *Panel) validate() error {
	if p.Share <= 0 || p.Share > MaxShare {
		return opening.Refuse(".share", "%s is not more than 0 and at most %s", p.Share, MaxShare)
	}
	return p.validateMass()
}

// bars is the height that the bars take.
func (b *Build) bars() units.Length {
	return b.TopBar + b.BottomBar + units.Length(len(b.Panels)-1)*b.Bar
}

// PanelHeights returns the heights of the panels of a door of the given height,
// from the bottom up: the height less the bars, shared out so that they sum
// exactly to the nanometre. It is an error (errors.Is ErrNoPanel) when there is
// no build, or a panel is left without height.
func (b *Build) PanelHeights(door units.Length) ([]units.Length, error) {
	if b == nil {
		return nil, fmt.Errorf("doors: a door without a build: %w", ErrNoPanel)
	}
	rest := door - b.bars()
	if rest < units.Length(len(b.Panels)) {
		return nil, fmt.Errorf("doors: a door of %s with bars of %s: %w", door, b.bars(), ErrNoPanel)
	}
	shares := make([]int64, len(b.Panels))
	for i, p := range b.Panels {
		shares[i] = int64(p.Share)
	}
	heights, err := units.SplitShares(rest, units.Nanometre, shares)
	if err != nil {
		return nil, fmt.Errorf("doors: %w", err)
	}
	if i := slices.Index(heights, 0); i >= 0 {
		return nil, fmt.Errorf("doors: panel %d of a door of %s: %w", i+1, door, ErrNoPanel)
	}
	return heights, nil
}
