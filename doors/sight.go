package doors

import (
	"slices"

	"example.com/lapspan/units"
)

// Sight is how a closed run looks from the room.
type Sight struct {
	// Visible is the width of each door that is seen, from left to right. With
	// the gaps between doors that meet they sum to the opening.
	Visible []units.Length `json:"visible"`
	// Uneven is the largest less the smallest of them: 0 looks even.
	Uneven units.Length `json:"uneven"`
}

// Sight returns what is seen of each door when the run closes the opening: its
// width less the overlaps with neighbours on a track nearer to the room, which
// hide it. Where the run stands and no door is narrower than an overlap, no
// other door hides it. The overlaps are those of OverlapsIn, with its errors.
func (r Run) Sight(g Gear, opening units.Length) (Sight, error) {
	overlaps, err := r.OverlapsIn(g, opening)
	if err != nil {
		return Sight{}, err
	}
	s := Sight{Visible: make([]units.Length, r.count)}
	for i, d := range r.doors[:r.count] {
		s.Visible[i] = d.Width
		if i > 0 && r.doors[i-1].Track < d.Track {
			s.Visible[i] -= overlaps[i-1]
		}
		if i+1 < r.count && r.doors[i+1].Track < d.Track {
			s.Visible[i] -= overlaps[i]
		}
	}
	s.Uneven = slices.Max(s.Visible) - slices.Min(s.Visible)
	return s, nil
}
