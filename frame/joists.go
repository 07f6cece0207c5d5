package frame

import (
	"cmp"
	"slices"

	"example.com/lapspan/units"
)

// ontoJoists moves studs from their even places onto joists: as many of the inner
// ones as can be there, and of the ways to do that the one that moves them least in
// all, to the left in a tie. Each stays in its even place or goes to a joist; no two centres come
// further apart than the spacing or nearer than the timber is thick. The end studs
// stay. It looks at every pair of places of neighbouring studs once.
func ontoJoists(even, joists []units.Length, thickness, spacing units.Length) []units.Length {
	if len(joists) == 0 || len(even) < 3 {
		return even
	}
	on := slices.Clone(joists)
	slices.Sort(on)
	on = slices.Compact(on)
	last := len(even) - 1
	ways := make([][]moved, len(even))
	ways[0] = []moved{{at: even[0]}}
	for i := 1; i <= last; i++ {
		places := []units.Length{even[i]}
		if i < last {
			places = append(places, on...)
		}
		for _, at := range places {
			if m, ok := from(ways[i-1], at, thickness, spacing); ok {
				if i < last && !slices.Contains(on, at) {
					m.off++
				}
				m.by += (at - even[i]).Abs()
				ways[i] = append(ways[i], m)
			}
		}
	}
	if len(ways[last]) == 0 {
		return even // studs that touch in their even places
	}
	out := make([]units.Length, len(even))
	for i, k := last, 0; i >= 0; i-- {
		out[i] = ways[i][k].at
		k = ways[i][k].before
	}
	return out
}

// moved is the best way to place the studs up to one of them, with that one at a place.
type moved struct {
	at     units.Length
	off    int          // inner studs that are on no joist
	by     units.Length // how far all have moved
	before int          // the way of the stud before
}

// from is the best way of the stud before from which a place can be reached.
func from(ways []moved, at, thickness, spacing units.Length) (moved, bool) {
	best := moved{at: at, before: -1}
	for k, w := range ways {
		if apart := at - w.at; apart < thickness || apart > spacing {
			continue
		}
		if best.before < 0 || cmp.Or(cmp.Compare(w.off, best.off), cmp.Compare(w.by, best.by)) < 0 {
			best.off, best.by, best.before = w.off, w.by, k
		}
	}
	return best, best.before >= 0
}
