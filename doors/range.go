package doors

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Range is the doors on sale.
type Range struct {
	Sizes         []Size         `json:"sizes"`                    // each once, at most MaxSizes
	MadeToMeasure *MadeToMeasure `json:"made_to_measure,omitzero"` // nil: stock alone
	// MaxDoors bounds the doors of a run, MinDoors to MaxDoors; zero: DefaultMaxDoors.
	MaxDoors int `json:"max_doors,omitzero"`
	// MixedWidths lets doors of different widths stand in one run.
	MixedWidths bool        `json:"mixed_widths,omitzero"`
	Arrangement Arrangement `json:"arrangement,omitzero"` // zero: Alternate
	Build       *Build      `json:"build,omitzero"`       // nil: not known
}

// How many doors a run may have.
const (
	MinDoors        = 2
	MaxDoors        = 8
	DefaultMaxDoors = 6
)

// Size is a door on sale.
type Size struct {
	Width  units.Length `json:"width"`           // of the door
	Height units.Length `json:"height"`          // of the door as bought
	Price  *units.Money `json:"price,omitempty"` // for one door; nil: not known
}

// What a range may hold at most.
const (
	MaxSizes   = units.MaxPieces
	MaxHeights = 64 // different heights
)

func (r Range) maxDoors() int {
	if r.MaxDoors == 0 {
		return DefaultMaxDoors
	}
	return r.MaxDoors
}

// Validate refuses a range that cannot be used, with the place.
func (r Range) Validate() error {
	if len(r.Sizes) == 0 && r.MadeToMeasure == nil {
		return opening.Refuse("doors.sizes", "there are no doors to choose from")
	}
	if len(r.Sizes) > MaxSizes {
		return opening.Refuse("doors.sizes", "%d sizes; at most %d can be used", len(r.Sizes), MaxSizes)
	}
	seen := make(map[[2]units.Length]int, len(r.Sizes))
	for i, s := range r.Sizes {
		if err := cmp.Or(
			opening.CheckSize(".width", s.Width),
			opening.CheckSize(".height", s.Height),
		); err != nil {
			return under(fmt.Sprintf("doors.sizes[%d]", i), err)
		}
		if first, again := seen[[2]units.Length{s.Width, s.Height}]; again {
			return opening.Refuse(fmt.Sprintf("doors.sizes[%d]", i), "repeats doors.sizes[%d]", first)
		}
		seen[[2]units.Length{s.Width, s.Height}] = i
	}
	if len(r.Sizes) > MaxHeights { // fewer sizes have no more heights
		if n := len(r.Heights()); n > MaxHeights {
			return opening.Refuse("doors.sizes", "%d different heights; at most %d can be used", n, MaxHeights)
		}
	}
	if m := r.MadeToMeasure; m != nil {
		if err := m.validate("doors.made_to_measure"); err != nil {
			return err
		}
	}
	if n := r.maxDoors(); n < MinDoors || n > MaxDoors {
		return opening.Refuse("doors.max_doors", "%d is not %d to %d", n, MinDoors, MaxDoors)
	}
	switch r.Arrangement {
	case "", Alternate, Stepped, Any:
	default:
		return opening.Refuse("doors.arrangement", "%s is not alternate, stepped or any", opening.Quote(string(r.Arrangement)))
	}
	return r.Build.validate("doors.build")
}

// Heights returns the different heights on sale, tallest first.
func (r Range) Heights() []units.Length {
	heights := make([]units.Length, len(r.Sizes))
	for i, s := range r.Sizes {
		heights[i] = s.Height
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	slices.Reverse(heights)
	return heights
}
