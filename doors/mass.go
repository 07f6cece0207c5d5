package doors

import (
	"errors"
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Material is what a panel is made of. The zero value is not known.
type Material string

const (
	FloatGlass Material = "float glass" // mirrors too
	Aluminium  Material = "aluminium"   // sheet
	OtherBoard Material = "board"       // of the panel's own density
)

// Density is the mass of a cubic metre: float glass 2500 kg (EN 572-1),
// aluminium 2700 kg (EN 1991-1-1 table A.4). It is false for a material that has
// no density of its own.
func (m Material) Density() (units.Mass, bool) {
	switch m {
	case FloatGlass:
		return units.MustMass("2500"), true
	case Aluminium:
		return units.MustMass("2700"), true
	}
	return units.Mass{}, false
}

// ErrMassUnknown says that a build does not tell what a door weighs.
var ErrMassUnknown = errors.New("the mass is not known")

// density is the mass of a cubic metre of the panel.
func (p *Panel) density() (units.Mass, bool) {
	if p.Density != nil {
		return *p.Density, true
	}
	return p.Material.Density()
}

func (p *Panel) validateMass() error {
	_, known := p.Material.Density()
	switch {
	case p.Material == FloatGlass && p.CutOnSite:
		return opening.Refuse(".cut_on_site", "glass and mirror are never cut on site")
	case p.Material != "" && p.Material != OtherBoard && !known:
		return opening.Refuse(".material", "%s is not float glass, aluminium or board", opening.Quote(string(p.Material)))
	case p.Material != "" && p.Thickness == 0:
		return opening.Refuse(".thickness", "a panel of %s needs its thickness", p.Material)
	case p.Material == "" && p.Thickness != 0:
		return opening.Refuse(".material", "a panel with a thickness needs its material")
	case p.Material == OtherBoard && p.Density == nil:
		return opening.Refuse(".density", "a board needs its density in kg/m³")
	case p.Material != OtherBoard && p.Density != nil:
		return opening.Refuse(".density", "only a board has a density of its own")
	case p.Density != nil && p.Density.Equal(units.Mass{}):
		return opening.Refuse(".density", "0 kg is not more than 0")
	}
	return opening.CheckPosition(".thickness", p.Thickness)
}

// Mass returns the mass of a door of the given width and height, exactly: two
// stiles over its height, bars between them (a bar without height is none), and
// panels between the stiles. cuts are what comes out of each panel, as PanelCuts
// returns them; nil for a door that is not cut.
//
// Where no stile width is given the bars and panels are reckoned over the whole
// width, a little too heavy. Errors: ErrMassUnknown when there is no build, a
// panel without material, or no mass of stile or bar; ErrNoPanel.
func (b *Build) Mass(width, height units.Length, cuts []units.Length) (units.Mass, error) {
	if b == nil || b.StileMass == nil || b.BarMass == nil {
		return units.Mass{}, fmt.Errorf("doors: stiles and bars: %w", ErrMassUnknown)
	}
	heights, err := b.PanelHeights(height)
	if err != nil {
		return units.Mass{}, err
	}
	between := width - 2*b.StileWidth
	if between <= 0 {
		return units.Mass{}, fmt.Errorf("doors: a door %s wide with stiles of %s: %w", width, b.StileWidth, ErrNoPanel)
	}
	var mass units.Mass
	for i, h := range heights {
		density, known := b.Panels[i].density()
		if !known {
			return units.Mass{}, fmt.Errorf("doors: panel %d: %w", i+1, ErrMassUnknown)
		}
		if i < len(cuts) {
			h -= cuts[i]
			height -= cuts[i]
		}
		if h <= 0 {
			return units.Mass{}, fmt.Errorf("doors: panel %d after its cut: %w", i+1, ErrNoPanel)
		}
		mass = mass.Add(units.SheetMass(units.AreaOf(between, h), b.Panels[i].Thickness, density))
	}
	mass = mass.Add(units.BarMass(2*height, *b.StileMass))
	return mass.Add(units.BarMass(between, *b.BarMass).Mul(b.barCount())), nil
}

// barCount is the number of bars of a door.
func (b *Build) barCount() int64 {
	n := int64(0)
	if b.TopBar > 0 {
		n++
	}
	if b.BottomBar > 0 {
		n++
	}
	if b.Bar > 0 {
		n += int64(len(b.Panels) - 1)
	}
	return n
}
