package doors

import (
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Door is one door of a run: its width, and the track it stands on, 0 at the room side.
type Door struct {
	Width units.Length `json:"width"` // over all
	Track int          `json:"track"` // 0 at the room side
}

// Run is a run of closed doors from left to right. It is a small value that can
// be copied; the zero value has no doors.
type Run struct {
	doors   [MaxDoors]Door
	count   int
	showing units.Length // see WithShowing
}

// NewRun returns the run of the given doors, left to right. MinDoors to
// MaxDoors doors are needed, each of a width above zero and within
// units.MaxLength, on tracks 0 to MaxTracks-1; the error is an *opening.InputError.
func NewRun(doors ...Door) (Run, error) {
	if len(doors) < MinDoors || len(doors) > MaxDoors {
		return Run{}, opening.Refuse("doors", "a run has %d to %d doors, not %d", MinDoors, MaxDoors, len(doors))
	}
	var r Run
	for i, d := range doors {
		place := fmt.Sprintf("doors[%d]", i)
		if err := opening.CheckSize(place+".width", d.Width); err != nil {
			return Run{}, err
		}
		if d.Track < 0 || d.Track >= MaxTracks {
			return Run{}, opening.Refuse(place+".track", "%d is not 0 to %d", d.Track, MaxTracks-1)
		}
		r.doors[i] = d
	}
	r.count = len(doors)
	return r, nil
}

// Len is the number of doors.
func (r Run) Len() int { return r.count }

// Doors returns the doors from left to right.
func (r Run) Doors() []Door { return append([]Door(nil), r.doors[:r.count]...) }

// At returns door i from the left, 0 first; no door for an i outside the run.
func (r Run) At(i int) Door {
	if i < 0 || i >= r.count {
		return Door{}
	}
	return r.doors[i]
}

// Width is the sum of the doors' widths.
func (r Run) Width() units.Length {
	var sum units.Length
	for _, d := range r.doors[:r.count] {
		sum += d.Width
	}
	return sum
}

// Overlaps is L, the number of junctions that overlap: neighbours on different tracks.
func (r Run) Overlaps() int { return max(r.count-1, 0) - r.Meetings() }

// Meetings is the number of junctions where neighbours meet on one track.
func (r Run) Meetings() int {
	n := 0
	for i := 1; i < r.count; i++ {
		if r.doors[i].Track == r.doors[i-1].Track {
			n++
		}
	}
	return n
}

// spread is the width of the doors and the gaps where they meet: what they
// would span if no junction overlapped.
func (r Run) spread(g Gear) units.Length {
	return r.Width() + units.Length(r.Meetings())*g.meetingGap()
}

// Cover is the widest opening that the run closes: Σw + meeting gaps − L × least overlap.
func (r Run) Cover(g Gear) units.Length {
	return r.spread(g) - units.Length(r.Overlaps())*g.Overlap.Min
}

// Least is the narrowest opening that the run closes: Σw + meeting gaps − L × greatest overlap.
func (r Run) Least(g Gear) units.Length {
	return r.spread(g) - units.Length(r.Overlaps())*g.Overlap.Max
}

// OverlapsIn returns the overlap at each junction when the run closes the
// opening: (Σw + meeting gaps − opening)/L, shared so that the overlaps sum
// exactly, to the nanometre with the larger ones at the left; 0 where doors
// meet. It is an error (errors.Is units.ErrRange) when the overlaps would be
// negative or no junction overlaps.
func (r Run) OverlapsIn(g Gear, opening units.Length) ([]units.Length, error) {
	shares, err := units.Split(r.spread(g)-opening, r.Overlaps())
	if err != nil {
		return nil, fmt.Errorf("doors: overlaps in %s: %w", opening, err)
	}
	overlaps := make([]units.Length, 0, r.count-1)
	for i := 1; i < r.count; i++ {
		var o units.Length
		if r.doors[i].Track != r.doors[i-1].Track {
			o, shares = shares[0], shares[1:]
		}
		overlaps = append(overlaps, o)
	}
	return overlaps, nil
}

// Stands reports whether the run can stand closed in the opening: no door
// reaches past a wall, no two doors on one track share a place, and each door
// keeps Gear.Showing out from behind each neighbour it overlaps.
func (r Run) Stands(g Gear, opening units.Length) bool {
	junctions := units.Length(r.Overlaps())
	if junctions == 0 {
		return false
	}
	over := r.spread(g) - opening // junctions × the overlap in place
	// Positions are kept multiplied by the junctions, so that the share is exact.
	var left [MaxDoors]units.Length
	for i := 1; i < r.count; i++ {
		before := r.doors[i-1]
		left[i] = left[i-1] + junctions*before.Width
		if r.doors[i].Track == before.Track {
			left[i] += junctions * g.meetingGap()
		} else {
			left[i] -= over
			if !g.shows(before.Width, int(junctions), over) || !g.shows(r.doors[i].Width, int(junctions), over) {
				return false
			}
		}
	}
	for i, d := range r.doors[:r.count] {
		right := left[i] + junctions*d.Width
		if left[i] < 0 || right > junctions*opening {
			return false
		}
		for j := i + 1; j < r.count; j++ {
			if r.doors[j].Track == d.Track && left[j] < right {
				return false
			}
		}
	}
	return true
}
