package doors

import (
	"slices"

	"example.com/lapspan/units"
)

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
// can. At most MaxDoors! orders are tried.
func (p pattern) bestOrder(widths []units.Length, g Gear, narrowest units.Length) (Run, bool) {
	run := Run{count: p.doors}
	for i := range p.doors {
		run.doors[i].Track = int(p.tracks[i])
	}
	if widths[0] == widths[len(widths)-1] {
		for i, w := range widths {
			run.doors[i].Width = w
		}
		return run, run.Stands(g, narrowest)
	}
	var best Run
	widest := units.Length(-1)
	bound := narrowest - p.leastStacks(widths)
	left := slices.Clone(widths)
	// Larger doors are placed first, so the first order that gives the widest
	// access is the one with the larger door leftmost.
	var place func(i int) bool
	place = func(i int) bool {
		if i == p.doors {
			if access := run.Access(narrowest).Width(); access > widest && run.Stands(g, narrowest) {
				best, widest = run, access
			}
			return widest < bound
		}
		var tried units.Length
		for k := len(left) - 1; k >= 0; k-- {
			w := left[k]
			if w == 0 || w == tried {
				continue
			}
			tried = w
			run.doors[i].Width, left[k] = w, 0
			more := place(i + 1)
			left[k] = w
			if !more {
				return false
			}
		}
		return true
	}
	place(0)
	return best, widest >= 0
}

// leastStacks is the least that the longest left stack and the longest right
// stack can take together, whatever the order: for every way to give each track
// its doors and to park some of each track's doors at the left. At most
// MaxDoors! / (2!)^MaxTracks × 2^MaxDoors sums are compared.
func (p pattern) leastStacks(widths []units.Length) units.Length {
	var room [MaxTracks]int
	for _, t := range p.tracks[:p.doors] {
		room[t]++
	}
	var least units.Length
	for _, w := range widths {
		least += w
	}
	if w := widths[0]; w == widths[len(widths)-1] {
		// Doors all alike: park at most so many of each track at the left.
		for parked := range p.doors {
			rest := 0
			for _, n := range room {
				rest = max(rest, n-parked)
			}
			least = min(least, units.Length(parked+rest)*w)
		}
		return least
	}
	// The two stacks of the fullest track hold its doors, and some track holds its share of them all.
	tracks := 0
	for _, n := range room {
		if n > 0 {
			tracks++
		}
	}
	floor := max(widths[len(widths)-1], (least+units.Length(tracks)-1)/units.Length(tracks))

	var held [MaxTracks][MaxDoors]units.Length
	var give func(i int)
	give = func(i int) {
		if least <= floor {
			return
		}
		if i < 0 {
			least = min(least, park(&held, &room))
			return
		}
		for t := range MaxTracks {
			n := 0
			for n < room[t] && held[t][n] != 0 {
				n++
			}
			if n == room[t] {
				continue
			}
			held[t][n] = widths[i]
			give(i - 1)
			held[t][n] = 0
		}
	}
	give(len(widths) - 1)
	return least
}

// park is the least sum of longest left and longest right stack once each track has its doors.
func park(held *[MaxTracks][MaxDoors]units.Length, room *[MaxTracks]int) units.Length {
	var lefts [MaxTracks][1 << MaxDoors]units.Length
	var total [MaxTracks]units.Length
	for t, n := range room {
		for i, w := range held[t][:n] {
			total[t] += w
			for set := range 1 << i {
				lefts[t][set|1<<i] = lefts[t][set] + w
			}
		}
	}
	least := units.Length(0)
	for t := range room {
		least += total[t]
	}
	for t, n := range room {
		for _, limit := range lefts[t][:1<<n] {
			// limit is the longest left stack; every track parks there as much as fits.
			var right units.Length
			for u, m := range room {
				most := units.Length(0)
				for _, l := range lefts[u][:1<<m] {
					if l <= limit {
						most = max(most, l)
					}
				}
				right = max(right, total[u]-most)
			}
			least = min(least, limit+right)
		}
	}
	return least
}
