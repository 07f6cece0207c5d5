package doors

import "example.com/lapspan/units"

// Arrangement says which tracks the doors of a run may stand on, left to right.
// The zero value means Alternate.
type Arrangement string

const (
	Alternate Arrangement = "alternate" // 0, 1, 0, 1, …
	Stepped   Arrangement = "stepped"   // 0, 1, 2, … to the last track and back
	Any       Arrangement = "any"       // every assignment whose neighbours are at most one track apart
)

// pattern is the tracks of a run's doors.
type pattern struct {
	tracks   [MaxDoors]int8
	doors    int
	overlaps int // junctions that overlap
}

// patterns returns the tracks that doors may stand on, in a fixed order (number
// by number), each with at least one overlapping junction. Unless the sides are
// told apart, of two that mirror each other only the first is returned. There
// are at most MaxTracks × 3^(MaxDoors-1) of them.
func (a Arrangement) patterns(doors, tracks int, sidesDiffer bool) []pattern {
	switch a {
	case "", Alternate:
		tracks = 2
		fallthrough
	case Stepped:
		p := pattern{doors: doors, overlaps: doors - 1}
		turn := 2 * (tracks - 1)
		for i := range doors {
			p.tracks[i] = int8(min(i%turn, turn-i%turn))
		}
		return []pattern{p}
	}
	var all []pattern
	var place func(p pattern)
	place = func(p pattern) {
		if p.doors == doors {
			if p.overlaps > 0 && (sidesDiffer || !p.mirroredEarlier()) {
				all = append(all, p)
			}
			return
		}
		for t := range int8(tracks) {
			next := p
			next.tracks[p.doors] = t
			next.doors++
			if p.doors > 0 {
				step := t - p.tracks[p.doors-1]
				if step < -1 || step > 1 {
					continue
				}
				if step != 0 {
					next.overlaps++
				}
			}
			place(next)
		}
	}
	place(pattern{})
	return all
}

// mirroredEarlier reports whether the mirror image comes first number by number.
func (p pattern) mirroredEarlier() bool {
	for i := range p.doors {
		if d := p.tracks[p.doors-1-i] - p.tracks[i]; d != 0 {
			return d < 0
		}
	}
	return false
}

// bestOrder returns the order of the widths (ascending) on the pattern's tracks
// that gives the widest access in the narrowest reading, ties by the larger
// door leftmost, among the orders that can stand closed. It is false when none
// can. It returns how many doors it tried too: at most MaxDoors! orders.
func (p pattern) bestOrder(widths []units.Length, g Gear, narrowest units.Length) (run Run, ok bool, steps int) {
	if g.Showing > 0 {
		return p.showingOrder(widths, g, narrowest)
	}
	run.count = p.doors
	for i := range p.doors {
		run.doors[i].Track = int(p.tracks[i])
	}
	if widths[0] == widths[len(widths)-1] {
		for i, w := range widths {
			run.doors[i].Width = w
		}
		return run, run.Stands(g, narrowest), p.doors
	}
	o := p.ordering(widths, g, narrowest)
	run, ok = o.widest(p.leastLongest(widths))
	return run, ok, o.steps
}

// leastLongest is the least width that the doors of the longest track can have
// together, whatever the order of the widths (ascending). At most MaxDoors! ways
// to give the tracks their doors are tried.
func (p *pattern) leastLongest(widths []units.Length) units.Length {
	l := longestTrack{widths: widths}
	tracks := units.Length(0)
	for _, t := range p.tracks[:p.doors] {
		if l.room[t] == 0 {
			tracks++
		}
		l.room[t]++
	}
	for _, w := range widths {
		l.least += w
	}
	// Some track holds its share of all the doors, and some the widest door.
	l.floor = max(widths[len(widths)-1], (l.least+tracks-1)/tracks)
	l.give(len(widths)-1, 0, 0)
	return l.least
}

// longestTrack hands doors to tracks.
type longestTrack struct {
	widths       []units.Length
	room         [MaxTracks]int
	total        [MaxTracks]units.Length
	least, floor units.Length
}

// give hands door i and the narrower ones to the tracks, none of which may come
// to as much as the least so far. Doors alike go to the tracks in order: another
// order is the same.
func (l *longestTrack) give(i, from int, longest units.Length) {
	if i < 0 {
		l.least = longest
		return
	}
	w := l.widths[i]
	for t := from; t < MaxTracks && l.least > l.floor; t++ {
		if l.room[t] == 0 || l.total[t]+w >= l.least {
			continue
		}
		l.room[t]--
		l.total[t] += w
		next := 0
		if i > 0 && l.widths[i-1] == w {
			next = t
		}
		l.give(i-1, next, max(longest, l.total[t]))
		l.total[t] -= w
		l.room[t]++
	}
}
