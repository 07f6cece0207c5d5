package frame

import (
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// MaxStuds bounds the studs of a bulkhead.
const MaxStuds = 1000

// What makes a bulkhead impossible.
var (
	ErrTooShort = errors.New("no stud is left between the plates")
	ErrTooLong  = errors.New("a stud is longer than the stock")
	ErrTooMany  = errors.New("more studs than can be set out")
	ErrNoJoint  = errors.New("no stock length reaches from stud to stud")
)

// Head is the place that a bulkhead fills.
type Head struct {
	Width units.Length // the narrowest clear width
	Gap   units.Length // from the underside of the bottom plate to the lowest point of the ceiling
	// From is the distance of the clear opening from the left wall: what an end panel takes there.
	From units.Length
	// Levels give the fall of the floor and the ceiling; none: they are taken as level.
	Levels []opening.Level
	// PackedLevel packs the top plate down to a level line, so that all studs are
	// alike; else each stud is as long as the ceiling above it asks.
	PackedLevel bool
	// Joists are the centres, from the left wall, of the joists that cross the
	// plates. Studs are moved onto them where the spacing allows; none: they are not.
	Joists []units.Length
}

// MaxJoists bounds the joists over an opening.
const MaxJoists = 100

// Bulkhead is a framed bulkhead: a plate under the ceiling, one over the track, and studs between.
type Bulkhead struct {
	// Plates are the pieces of the bottom plate and then of the top plate, each from the left.
	Plates []units.Length `json:"plates"`
	Studs  []Stud         `json:"studs"`           // from the left
	Joints []Joint        `json:"joints,omitzero"` // of plates longer than the stock
	// Packing is what lies between a top plate packed level and the ceiling.
	Packing []Wedge `json:"packing,omitzero"`
}

// Stud is one upright of a bulkhead.
type Stud struct {
	At     units.Length `json:"at"`     // its centre, from the left wall
	Length units.Length `json:"length"` // from plate to plate
	// OnJoist says that a joist crosses the plates right there.
	OnJoist bool `json:"on_joist,omitzero"`
}

// Joint is where two pieces of a plate meet, on a stud.
type Joint struct {
	Plate Plate        `json:"plate"` // which of the two
	At    units.Length `json:"at"`    // from the left wall
}

// Plate names one of the two plates.
type Plate string

// The plates of a bulkhead.
const (
	BottomPlate Plate = "bottom" // over the track
	TopPlate    Plate = "top"    // under the ceiling
)

// SetOut sets out a bulkhead. With W the width, t the thickness of the timber
// and c its widest spacing of centres:
//
//	studs         ⌈(W − t)/c⌉ + 1, the end ones flush, centres evenly spaced; with
//	              joists, as many of the others on a joist as c allows
//	stud length   local gap − 2t, the ceiling taken as straight between two levels;
//	              gap − 2t for all where the top plate is packed level
//	plates        as long as W; longer than the stock: joined on studs between the
//	              end ones, the two plates on different studs where they can be,
//	              fewest pieces first
//
// A centre is the nearest nanometre to its exact place; a stud's length rounds down.
//
// The error is an *opening.InputError for timber that cannot be used,
// units.ErrRange for a head beyond units.MaxLength, or one of ErrTooShort,
// ErrTooLong, ErrTooMany and ErrNoJoint, all for errors.Is.
func SetOut(h Head, t doors.Timber) (Bulkhead, error) {
	if err := t.Validate(); err != nil {
		return Bulkhead{}, err
	}
	if err := h.check(); err != nil {
		return Bulkhead{}, err
	}
	reach, stud := h.Width-t.Thickness, h.Gap-2*t.Thickness
	if reach <= 0 || stud <= 0 {
		return Bulkhead{}, fmt.Errorf("frame: a bulkhead %s wide in a gap of %s: %w", h.Width, h.Gap, ErrTooShort)
	}
	bays := int64((reach + t.Spacing() - 1) / t.Spacing())
	if bays >= MaxStuds {
		return Bulkhead{}, fmt.Errorf("frame: %d studs, at most %d: %w", bays+1, MaxStuds, ErrTooMany)
	}
	centres := even(reach, bays, t.Thickness/2)
	joists := make([]units.Length, len(h.Joists))
	for i, j := range h.Joists {
		joists[i] = j - h.From
	}
	centres = ontoJoists(centres, joists, t.Thickness, t.Spacing())
	longest := longestOf(t.Lengths)
	ceiling := ceilingFall(h.Levels)
	b := Bulkhead{Studs: make([]Stud, len(centres))}
	if h.PackedLevel {
		packing, err := h.wedges(ceiling, longest)
		if err != nil {
			return Bulkhead{}, err
		}
		b.Packing = packing
		ceiling = nil
	}
	for i, c := range centres {
		b.Studs[i] = Stud{At: h.From + c, Length: stud + ceiling.at(h.From+c), OnJoist: slices.Contains(joists, c)}
		if b.Studs[i].Length > longest {
			return Bulkhead{}, fmt.Errorf("frame: a stud of %s from stock of %s: %w", b.Studs[i].Length, longest, ErrTooLong)
		}
	}
	bottom, top, ok := joints(h.Width, longest, centres)
	if !ok {
		return Bulkhead{}, fmt.Errorf("frame: plates of %s from stock of %s: %w", h.Width, longest, ErrNoJoint)
	}
	b.lay(h, BottomPlate, bottom, centres)
	b.lay(h, TopPlate, top, centres)
	return b, nil
}

func (h Head) check() error {
	if len(h.Joists) > MaxJoists {
		return fmt.Errorf("frame: %d joists, at most %d: %w", len(h.Joists), MaxJoists, units.ErrRange)
	}
	for _, j := range h.Joists {
		if opening.CheckPosition("", j) != nil {
			return fmt.Errorf("frame: a joist at %s: %w", j, units.ErrRange)
		}
	}
	for _, l := range []units.Length{h.Width, h.Gap, h.From} {
		if opening.CheckPosition("", l) != nil {
			return fmt.Errorf("frame: a head of %s by %s, %s from the wall: %w", h.Width, h.Gap, h.From, units.ErrRange)
		}
	}
	for _, l := range h.Levels {
		for _, at := range []units.Length{l.At, l.Floor, l.Ceiling} {
			if opening.CheckBound("", at) != nil {
				return fmt.Errorf("frame: a level of %s: %w", at, units.ErrRange)
			}
		}
	}
	return nil
}

// even returns bays+1 places spread evenly over a reach, each the nearest nanometre.
func even(reach units.Length, bays int64, first units.Length) []units.Length {
	places := make([]units.Length, bays+1)
	for i := range places {
		// A part of a bounded length cannot be out of range.
		off, _ := reach.MulDiv(int64(i), bays, units.HalfEven)
		places[i] = first + off
	}
	return places
}

func longestOf(lengths []doors.StockLength) units.Length {
	var longest units.Length
	for _, l := range lengths {
		longest = max(longest, l.Length)
	}
	return longest
}

// lay adds the pieces and the joints of one plate, joined on the studs given.
func (b *Bulkhead) lay(h Head, plate Plate, on []int, centres []units.Length) {
	var from units.Length
	for _, stud := range on {
		b.Plates = append(b.Plates, centres[stud]-from)
		b.Joints = append(b.Joints, Joint{plate, h.From + centres[stud]})
		from = centres[stud]
	}
	b.Plates = append(b.Plates, h.Width-from)
}
