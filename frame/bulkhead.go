package frame

import (
	"cmp"
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
	ErrTooMany  = errors.New("more studs than can be set out")
	ErrNoJoint  = errors.New("no stock length reaches from stud to stud")
)

// Head is the place that a bulkhead fills.
type Head struct {
	Width units.Length // the narrowest clear width
	Gap   units.Length // from the underside of the bottom plate to the lowest point of the ceiling
	// From is the distance of the clear opening from the left wall: what an end panel takes there.
	From units.Length
	// Levels give the fall of the ceiling; none: it is taken as level.
	Levels []opening.Level
}

// Bulkhead is a framed bulkhead: a plate under the ceiling, one over the track, and studs between.
type Bulkhead struct {
	// Plates are the pieces of the bottom plate and then of the top plate, from the left.
	Plates []units.Length `json:"plates"`
	Studs  []Stud         `json:"studs"`
	Joints []Joint        `json:"joints,omitzero"` // of plates longer than the stock
}

// Stud is one upright of a bulkhead.
type Stud struct {
	At     units.Length `json:"at"` // its centre, from the left wall
	Length units.Length `json:"length"`
}

// Joint is where two pieces of a plate meet, on a stud.
type Joint struct {
	Plate Plate        `json:"plate"`
	At    units.Length `json:"at"` // from the left wall
}

// Plate names one of the two plates.
type Plate string

const (
	BottomPlate Plate = "bottom"
	TopPlate    Plate = "top"
)

// SetOut sets out a bulkhead. With W the width, t the thickness of the timber
// and c its widest spacing of centres:
//
//	studs         ⌈(W − t)/c⌉ + 1, the end ones flush, centres evenly spaced
//	stud length   local gap − 2t, the ceiling taken as straight between two levels
//	plates        as long as W; longer than the stock: joined on studs, fewest pieces
//	              first, the joints of the two plates on different studs where they can be
//
// The errors are ErrTooShort, ErrTooMany and ErrNoJoint, for errors.Is.
func SetOut(h Head, t doors.Timber) (Bulkhead, error) {
	reach := h.Width - t.Thickness
	if reach <= 0 || h.Gap <= 2*t.Thickness {
		return Bulkhead{}, fmt.Errorf("frame: a bulkhead %s wide in a gap of %s: %w", h.Width, h.Gap, ErrTooShort)
	}
	bays := int64((reach + t.Spacing() - 1) / t.Spacing())
	if bays >= MaxStuds {
		return Bulkhead{}, fmt.Errorf("frame: %d studs, at most %d: %w", bays+1, MaxStuds, ErrTooMany)
	}
	spacings, err := units.Split(reach, int(bays))
	if err != nil {
		return Bulkhead{}, fmt.Errorf("frame: %w", err)
	}
	ceiling := newSlope(h.Levels)
	var b Bulkhead
	centres := make([]units.Length, 0, bays+1) // from the left end of the plates
	centre := t.Thickness / 2
	for i := range bays + 1 {
		at := h.From + centre
		centres = append(centres, centre)
		b.Studs = append(b.Studs, Stud{At: at, Length: h.Gap + ceiling.above(at) - 2*t.Thickness})
		if i < bays {
			centre += spacings[i]
		}
	}
	longest := units.Length(0)
	for _, l := range t.Lengths {
		longest = max(longest, l.Length)
	}
	bottom, top, err := joints(h.Width, longest, centres)
	if err != nil {
		return Bulkhead{}, err
	}
	for _, p := range []struct {
		plate Plate
		on    []int
	}{{BottomPlate, bottom}, {TopPlate, top}} {
		var from units.Length
		for _, stud := range p.on {
			b.Plates = append(b.Plates, centres[stud]-from)
			b.Joints = append(b.Joints, Joint{p.plate, h.From + centres[stud]})
			from = centres[stud]
		}
		b.Plates = append(b.Plates, h.Width-from)
	}
	return b, nil
}

// joints returns the studs on which the two plates are joined: the fewest
// pieces, and where they can be on different studs.
func joints(width, longest units.Length, centres []units.Length) (bottom, top []int, err error) {
	if width <= longest {
		return nil, nil, nil
	}
	// Each plate is laid with pieces as long as they come: one from the left,
	// the other from the right. Where that brings two joints onto one stud, the
	// second plate goes round the first.
	bottom = joined(width, longest, centres, nil)
	if bottom == nil {
		return nil, nil, fmt.Errorf("frame: plates of %s from stock of %s: %w", width, longest, ErrNoJoint)
	}
	mirrored := make([]units.Length, len(centres))
	for i, c := range centres {
		mirrored[len(centres)-1-i] = width - c
	}
	top = joined(width, longest, mirrored, nil)
	for i, stud := range top {
		top[i] = len(centres) - 1 - stud
	}
	slices.Sort(top)
	if slices.ContainsFunc(top, func(stud int) bool { return slices.Contains(bottom, stud) }) {
		if round := joined(width, longest, centres, bottom); round != nil {
			top = round
		}
	}
	return bottom, top, nil
}

// joined returns the fewest studs on which pieces of at most longest make up
// the width, none of them barred; nil when there is no such way. Reaching as far
// as it goes each time is best: a shorter piece never gets further later.
func joined(width, longest units.Length, centres []units.Length, barred []int) []int {
	on := []int{}
	var from units.Length
	for width-from > longest {
		next := -1
		for i, c := range centres {
			if c > from && c-from <= longest && !slices.Contains(barred, i) {
				next = i
			}
		}
		if next < 0 {
			return nil
		}
		on = append(on, next)
		from = centres[next]
	}
	return on
}

// slope is a ceiling as levels give it.
type slope struct {
	levels []opening.Level // by place
	least  units.Length
}

func newSlope(levels []opening.Level) slope {
	s := slope{levels: slices.Clone(levels)}
	slices.SortStableFunc(s.levels, func(a, b opening.Level) int { return cmp.Compare(a.At, b.At) })
	for i, l := range s.levels {
		if i == 0 || l.Ceiling < s.least {
			s.least = l.Ceiling
		}
	}
	return s
}

// above is how far the ceiling at a place stands above its lowest point:
// straight between two levels, level beyond the outermost, rounded down to a nanometre.
func (s slope) above(at units.Length) units.Length {
	if len(s.levels) == 0 {
		return 0
	}
	i := slices.IndexFunc(s.levels, func(l opening.Level) bool { return l.At >= at })
	switch i {
	case -1:
		return s.levels[len(s.levels)-1].Ceiling - s.least
	case 0:
		return s.levels[0].Ceiling - s.least
	}
	a, b := s.levels[i-1], s.levels[i]
	rise, err := (b.Ceiling - a.Ceiling).MulDiv(int64(at-a.At), int64(b.At-a.At), units.Down)
	if err != nil {
		rise = 0
	}
	return a.Ceiling + rise - s.least
}
