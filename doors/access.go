package doors

import (
	"cmp"
	"slices"

	"example.com/lapspan/units"
)

// Gap is a clear gap between the doors parked at the left and those parked at
// the right, measured from the left end of the opening.
type Gap struct {
	From units.Length `json:"from"` // its left end
	To   units.Length `json:"to"`   // its right end
}

// Width is the width of the gap.
func (g Gap) Width() units.Length { return g.To - g.From }

// holds reports whether the stretch lies inside the gap.
func (g Gap) holds(stretch Gap) bool { return g.From <= stretch.From && stretch.To <= g.To }

// Parking is a way to park the doors of a run: some at the left, the others at the right.
type Parking struct {
	// Left is how many doors of each track stand at the left.
	Left [MaxTracks]int `json:"left"`
	Gap  Gap            `json:"gap"` // what it leaves clear
}

// better reports whether the parking leaves a wider gap, or one as wide further left.
func (p Parking) better(o Parking) bool {
	return cmp.Or(cmp.Compare(o.Gap.Width(), p.Gap.Width()), cmp.Compare(p.Gap.From, o.Gap.From)) < 0
}

// WithShowing returns the run with doors that keep so much of themselves out
// from behind each neighbour they slide past, as Gear.Showing says. A length
// below zero is zero.
func (r Run) WithShowing(showing units.Length) Run {
	r.showing = max(showing, 0)
	return r
}

// Access returns the widest clear gap that any parking of the doors leaves in
// an opening; of gaps equally wide the leftmost. Doors on one track keep their
// order, doors on different tracks pass. Parking some doors of each track at
// the left and the rest at the right, the gap is the opening less the longest
// stack at the left and the longest at the right. Doors wider than the opening
// leave no gap: the zero Gap.
func (r Run) Access(opening units.Length) Gap {
	// The two stacks of a track hold all its doors, so no parking leaves more
	// than all doors at one end do.
	right := r.stacker()
	for i := r.count - 1; i >= 0; i-- {
		right.add(r.doors[i])
	}
	return Gap{0, max(opening-right.longest(), 0)}
}

// Clears reports whether some parking leaves the stretch of the opening clear:
// its left stacks end at or before from, its right stacks begin at or after to.
func (r Run) Clears(opening units.Length, stretch Gap) bool {
	clear := false
	r.parkings(opening, func(p Parking) bool {
		clear = p.Gap.holds(stretch)
		return !clear
	})
	return clear
}

// Park returns the parking that leaves the stretch of the opening clear, of
// several the one with the widest gap, of those the one whose gap is leftmost.
// It is false when none does.
func (r Run) Park(opening units.Length, stretch Gap) (Parking, bool) {
	var best Parking
	found := false
	r.parkings(opening, func(p Parking) bool {
		if p.Gap.holds(stretch) && (!found || p.better(best)) {
			best, found = p, true
		}
		return true
	})
	return best, found
}

// Blind returns the stretches of the opening that no parking clears, from left
// to right.
func (r Run) Blind(opening units.Length) []Gap {
	var blind []Gap
	seen := units.Length(0)
	for _, g := range r.gaps(opening) {
		if g.From > seen {
			blind = append(blind, Gap{seen, g.From})
		}
		seen = max(seen, g.To)
	}
	if seen < opening {
		blind = append(blind, Gap{seen, opening})
	}
	return blind
}

// gaps are the clear gaps of the parkings, from left to right, without those
// that lie inside another: at most MaxDoors+1.
func (r Run) gaps(opening units.Length) []Gap {
	all := make([]Gap, 0, MaxDoors+1)
	r.parkings(opening, func(p Parking) bool {
		if p.Gap.Width() > 0 {
			all = append(all, p.Gap)
		}
		return true
	})
	slices.SortFunc(all, func(a, b Gap) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(b.To, a.To)) })
	kept := all[:0]
	for _, g := range all {
		if len(kept) == 0 || g.To > kept[len(kept)-1].To {
			kept = append(kept, g)
		}
	}
	return kept
}

// Parked returns where the left edge of each door is when the doors are parked,
// each stack pushed to its end of the opening, measured from the left end. A
// parking that counts more doors than a track has, or fewer than none, parks all
// or none of them at the left.
func (r Run) Parked(opening units.Length, p Parking) []units.Length {
	at := make([]units.Length, r.count)
	var placed [MaxTracks]int
	left := r.stacker()
	for i, d := range r.doors[:r.count] {
		if placed[d.Track] < p.Left[d.Track] {
			at[i] = left.add(d)
			placed[d.Track]++
		}
	}
	right := r.stacker()
	for i := r.count - 1; i >= 0; i-- {
		d := r.doors[i]
		if r.before(i, d.Track) >= p.Left[d.Track] {
			at[i] = opening - right.add(d) - d.Width
		}
	}
	return at
}

// before is how many doors of a track stand left of door i.
func (r *Run) before(i, track int) int {
	n := 0
	for _, d := range r.doors[:i] {
		if d.Track == track {
			n++
		}
	}
	return n
}

// stacker pushes doors to one end of the opening, the outermost first.
type stacker struct {
	showing  units.Length
	ends     [MaxTracks]units.Length
	any      bool // a door was added: lastDoor, at lastAt
	lastDoor Door
	lastAt   units.Length
}

func (r *Run) stacker() stacker { return stacker{showing: r.showing} }

// add pushes a door as far as it goes and returns its distance from
// the end. Doors of one track stop each other. Where doors keep some of
// themselves showing, both edges of a neighbour on another track stay that much
// further out than those of the door before it.
func (s *stacker) add(d Door) units.Length {
	at := s.ends[d.Track]
	if s.showing > 0 && s.any && s.lastDoor.Track != d.Track {
		at = max(at, s.lastAt+s.showing, s.lastAt+s.lastDoor.Width+s.showing-d.Width)
	}
	s.ends[d.Track] = at + d.Width
	s.any, s.lastDoor, s.lastAt = true, d, at
	return at
}

// longest is how far the stack reaches.
func (s *stacker) longest() units.Length { return slices.Max(s.ends[:]) }

// parkings yields parkings of which no other leaves more room: at most
// MaxDoors+1. Doors wider than the opening leave gaps of no or negative width.
func (r *Run) parkings(opening units.Length, yield func(Parking) bool) {
	if r.showing > 0 {
		r.prefixes(opening, yield)
		return
	}
	// For every length a left stack can have, each track parks as many doors at
	// the left as fit beside it.
	var stacks [MaxDoors + 1]units.Length // stacks[0] = 0: nothing at the left
	n := 1
	var sum [MaxTracks]units.Length
	for _, d := range r.doors[:r.count] {
		sum[d.Track] += d.Width
		stacks[n] = sum[d.Track]
		n++
	}
	for _, limit := range stacks[:n] {
		var p Parking
		var parked, rest [MaxTracks]units.Length
		var left, right units.Length
		for _, d := range r.doors[:r.count] {
			if parked[d.Track]+d.Width <= limit && rest[d.Track] == 0 {
				parked[d.Track] += d.Width
				p.Left[d.Track]++
				left = max(left, parked[d.Track])
			} else {
				rest[d.Track] += d.Width
				right = max(right, rest[d.Track])
			}
		}
		p.Gap = Gap{left, opening - right}
		if !yield(p) {
			return
		}
	}
}

// prefixes yields the parkings of doors that cannot pass each other: the first
// so many at the left.
func (r *Run) prefixes(opening units.Length, yield func(Parking) bool) {
	var rights [MaxDoors + 1]units.Length // by the number of doors at the left
	right := r.stacker()
	for i := r.count - 1; i >= 0; i-- {
		right.add(r.doors[i])
		rights[i] = right.longest()
	}
	left := r.stacker()
	var p Parking
	for i := 0; ; i++ {
		p.Gap = Gap{left.longest(), opening - rights[i]}
		if !yield(p) || i == r.count {
			return
		}
		left.add(r.doors[i])
		p.Left[r.doors[i].Track]++
	}
}
