package frame

import (
	"slices"

	"example.com/lapspan/units"
)

// joints returns the studs on which the two plates are joined, in order: on
// different studs where they can be, fewest pieces first; ok is false when no
// pieces of at most longest make up the width. A joint lies on a stud between the
// end ones: on an end stud its short piece would be half a stud long.
//
// Take the ways to lay one plate with the fewest joints. Their m-th joints all
// lie between the one of the way that reaches as far as it goes each time, from
// the left, and the one that does so from the right; and these stretches do not
// meet, else a joint could be saved. So those two ways share a stud only where
// every shortest way needs it. Where they share none, nothing beats them; where
// they do, only ways with more pieces keep the plates apart, and failing those
// the two share as few studs as the fewest pieces allow.
func joints(width, longest units.Length, centres []units.Length) (bottom, top []int, ok bool) {
	p := plates{width, longest, centres}
	bottom, ok = p.fromLeft()
	if !ok {
		return nil, nil, false
	}
	top = p.fromRight(len(bottom))
	if !meet(bottom, top) {
		return bottom, top, true
	}
	if b, t, ok := p.apart(); ok {
		return b, t, true
	}
	return bottom, top, true
}

// meet reports whether two shortest ways share a joint.
func meet(a, b []int) bool {
	for i := range a {
		if a[i] == b[i] {
			return true
		}
	}
	return false
}

// plates are two plates to be joined on studs.
type plates struct {
	width, longest units.Length
	centres        []units.Length // of all studs, from the left end of the plates
}

// leftEnd stands for the end of a plate where a stud is wanted.
const leftEnd = 0

// place is where a piece that starts on a stud starts; an end stud stands for the end.
func (p plates) place(stud int) units.Length {
	if stud == leftEnd {
		return 0
	}
	return p.centres[stud]
}

// done reports whether one piece from the stud reaches the right end.
func (p plates) done(stud int) bool { return p.width-p.place(stud) <= p.longest }

// furthest is the last stud that a piece from the given one reaches and that is no end stud.
func (p plates) furthest(from int) int {
	next := from
	for i := from + 1; i < len(p.centres)-1 && p.centres[i]-p.place(from) <= p.longest; i++ {
		next = i
	}
	return next
}

// fromLeft is the way that reaches as far as it goes each time, the shortest there is.
func (p plates) fromLeft() ([]int, bool) {
	var on []int
	for at := leftEnd; !p.done(at); {
		next := p.furthest(at)
		if next == at {
			return nil, false
		}
		on, at = append(on, next), next
	}
	return on, true
}

// fromRight is the same from the other end. There is such a way, of so many joints.
func (p plates) fromRight(count int) []int {
	on := make([]int, count)
	to := p.width
	for m := count - 1; m >= 0; m-- {
		stud := len(p.centres) - 2
		for i := stud; i > leftEnd && to-p.centres[i] <= p.longest; i-- {
			stud = i
		}
		on[m], to = stud, p.centres[stud]
	}
	return on
}

// laid is how far the two plates are laid: the last joint of each.
type laid struct{ bottom, top int }

// apart returns the two plates with the fewest pieces that share no stud.
//
// It is a breadth-first search over the last joints of both, which always goes
// on with the plate that is behind, so that no earlier joint of the other can be
// met. The next joint is the furthest stud in reach or the one before it. For let
// f be the furthest, and let a best way join there at x < f: if f is free, x can
// move to f; if the other plate has f and f−1 is free, x can move to f−1; if it
// has both, this plate can take f and go on as the other one did, the other go on
// from f−1 as this one did from x, and x is saved. At most every pair of studs is
// visited once.
func (p plates) apart() (bottom, top []int, ok bool) {
	start := laid{leftEnd, leftEnd}
	before := map[laid]laid{start: start}
	for queue := []laid{start}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		behind, other := at.bottom, at.top
		if behind > other {
			behind, other = other, behind
		}
		if p.done(behind) {
			bottom, top = trace(before, at)
			return bottom, top, true
		}
		far := p.furthest(behind)
		for next := far; next > behind && next >= far-1; next-- {
			to := laid{at.bottom, next}
			if at.bottom == behind {
				to = laid{next, at.top}
			}
			if _, seen := before[to]; next == other || seen {
				continue
			}
			before[to] = at
			queue = append(queue, to)
		}
	}
	return nil, nil, false
}

// trace walks a search back to its start.
func trace(before map[laid]laid, at laid) (bottom, top []int) {
	for at.bottom != leftEnd || at.top != leftEnd {
		from := before[at]
		if at.bottom != from.bottom {
			bottom = append(bottom, at.bottom)
		} else {
			top = append(top, at.top)
		}
		at = from
	}
	slices.Reverse(bottom)
	slices.Reverse(top)
	return bottom, top
}
