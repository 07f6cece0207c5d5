package doors

import (
	"slices"

	"example.com/lapspan/units"
)

// Sight is how a closed run looks from the room: where neighbours overlap, the
// one on the track nearer to the room hides the other by the overlap.

// hidden is how many overlaps hide a part of door i: of the neighbours beside it
// those on a track nearer to the room.
func (p *pattern) hidden(i int) int64 {
	n := int64(0)
	if i > 0 && p.tracks[i-1] < p.tracks[i] {
		n++
	}
	if i+1 < p.doors && p.tracks[i+1] < p.tracks[i] {
		n++
	}
	return n
}

// seen is the visible width of a door of width w when the overlaps in place,
// added up, are over: w − hidden × over/L, in UnevenParts.
func (p *pattern) seen(i int, w, over int64) int64 {
	return UnevenParts*w - p.hidden(i)*(UnevenParts/int64(p.overlaps))*over
}

// uneven is the largest less the smallest visible width of a run on the pattern.
func (p *pattern) uneven(widths *[MaxDoors]int64, over int64) int64 {
	least := p.seen(0, widths[0], over)
	most := least
	for i := 1; i < p.doors; i++ {
		s := p.seen(i, widths[i], over)
		least, most = min(least, s), max(most, s)
	}
	return most - least
}

// byEven goes through the runs of a class by how uneven they look, in bands that
// grow until enough runs lie in them.
//
// Every overlap hides a part of one door, so that all that is seen comes to the
// opening, whatever the doors, and each door of a run shows its share of that
// but for the unevenness. With the total width known, and with it the overlaps, this
// leaves few widths for each place in the run.
func (v *solver) byEven(c class) {
	var all []evenWalk
	least := int64(none)
	v.eachWalker(c, nil, func(k *walker) {
		e := evenWalk{walker: k}
		if n := len(all); n > 0 && all[n-1].sameTotals(&e) {
			e.totals = all[n-1].totals
		} else {
			e.totals = k.evenTotals()
		}
		for p := range k.family.patterns {
			if !v.work(len(e.totals) / 4) { // a glance at each
				return
			}
			least = min(least, e.least(&k.family.patterns[p]))
		}
		all = append(all, e)
	})
	const widest = UnevenParts * int64(units.MaxLength)
	for in := (band{-1, least}); in.most < none && v.cause == nil; {
		next := int64(none)
		for i := range all {
			all[i].band = &in
			next = min(next, all[i].walk())
		}
		if v.podium.full() || in.most >= widest {
			return
		}
		in.above, in.most = in.most, max(in.most+in.most+UnevenParts*v.grid.step, next)
	}
}

// maxHidden is how many overlaps can hide a part of one door.
const maxHidden = 2

// evenTotal is a total that the doors of a family can come to.
type evenTotal struct {
	sum  int64 // of d
	over int64 // the overlaps in place, added up
	// least is no more than how uneven a run looks that has a door of which so many
	// overlaps hide a part: no width on sale shows its share there.
	least [maxHidden + 1]int64
}

// evenWalk walks through the orders of one family by their totals.
type evenWalk struct {
	*walker
	totals []evenTotal
}

func (e *evenWalk) sameTotals(o *evenWalk) bool {
	return e.family.doors == o.family.doors && e.family.overlaps == o.family.overlaps && e.lo == o.lo && e.hi == o.hi
}

// evenTotals are the totals there are in the window.
func (k *walker) evenTotals() []evenTotal {
	g, n := &k.solver.grid, int64(k.family.doors)
	part := UnevenParts / int64(k.family.overlaps)
	var totals []evenTotal
	for sum := nextBit(g.top[n], k.lo); sum <= k.hi && k.solver.work(1); sum = nextBit(g.top[n], sum+1) {
		t := evenTotal{sum: sum, over: g.total(int(n), sum) - k.clear.over}
		for h := range t.least {
			// What is seen of n doors comes to UnevenParts × clear.over.
			ideal := UnevenParts*k.clear.over + n*int64(h)*part*t.over // of n doors alike
			x, _ := slices.BinarySearch(g.width, ceilDiv(ideal, n*UnevenParts))
			off := int64(none)
			if x < len(g.width) {
				off = n*UnevenParts*g.width[x] - ideal
			}
			if x > 0 {
				off = min(off, ideal-n*UnevenParts*g.width[x-1])
			}
			// The others are off the other way, all together by as much.
			t.least[h] = ceilDiv(off, n-1)
		}
		totals = append(totals, t)
	}
	return totals
}

// leastAt is no more than how uneven a run on the pattern with a total looks.
func (t *evenTotal) leastAt(p *pattern, tilt int64) int64 {
	least := tilt * t.over
	for i := range p.doors {
		least = max(least, t.least[p.hidden(i)])
	}
	return least
}

func (e *evenWalk) least(p *pattern) int64 {
	tilt := p.tilt() * (UnevenParts / int64(p.overlaps))
	least := int64(none)
	for i := range e.totals {
		least = min(least, e.totals[i].leastAt(p, tilt))
	}
	return least
}

// walk walks through the orders in the band and returns a value from which on there may be more.
func (e *evenWalk) walk() int64 {
	next := int64(none)
	for p := range e.family.patterns {
		pattern := &e.family.patterns[p]
		tilt := pattern.tilt() * (UnevenParts / int64(pattern.overlaps))
		e.begin(pattern)
		if !e.solver.work(len(e.totals) / 4) { // a glance at each
			return none
		}
		for i := range e.totals {
			t := &e.totals[i]
			if least := t.leastAt(pattern, tilt); least > e.most() {
				next = min(next, least)
				continue
			}
			next = 0
			e.even, e.lo, e.hi = t, t.sum, t.sum
			if from, most := e.bounds(0, &e.placed[0], 0, len(e.solver.width)-1); from <= most {
				e.run()
			}
			if !e.solver.work(walkStep / 2) {
				return none
			}
		}
	}
	return next
}

// bounds brings the numbers that door i may have inside what the doors left of it,
// and what the others must leave of the total, allow.
func (k *walker) bounds(i int, s *state, from, most int) (int, int) {
	g, p := &k.solver.grid, k.pattern
	n, part := int64(p.doors), UnevenParts/int64(p.overlaps)
	// Each door is seen as much as any other but for the band, and no more off its share than that.
	share, apart := UnevenParts*k.clear.over, (n-1)*k.most()
	lo := max(ceilDiv(share-apart, n), s.seen.hi-k.most())
	hi := min(floorDiv(share+apart, n), s.seen.lo+k.most())
	var narrowest, widest [maxHidden + 1]int
	for h := range narrowest {
		hidden := int64(h) * part * k.even.over
		narrowest[h], _ = slices.BinarySearch(g.width, ceilDiv(lo+hidden, UnevenParts))
		widest[h], _ = slices.BinarySearch(g.width, floorDiv(hi+hidden, UnevenParts)+1)
		widest[h]--
	}
	least, rest := k.even.sum-s.total, k.even.sum-s.total
	for later := i + 1; later < p.doors; later++ {
		h := p.hidden(later)
		if narrowest[h] > widest[h] {
			return 1, 0
		}
		rest -= g.d[narrowest[h]]
		least -= g.d[widest[h]]
	}
	h := p.hidden(i)
	from = max(from, narrowest[h], g.atLeast(least))
	most = min(most, widest[h], g.atLeast(rest+1)-1)
	return from, most
}

// sees takes in what is seen of door i, and reports whether the doors placed
// differ by no more than the band allows.
func (k *walker) sees(i int, s *state) bool {
	seen := k.pattern.seen(i, k.solver.width[k.at[i]], k.even.over)
	s.seen = window{min(s.seen.lo, seen), max(s.seen.hi, seen)}
	return s.seen.hi-s.seen.lo <= k.most()
}

// tilt is by how many overlaps a door has to be seen more than one right of it that
// may not be wider: of one track, or the first of another with as many doors.
func (p *pattern) tilt() int64 {
	rooms := p.rooms()
	tilt := int64(0)
	for j := 1; j < p.doors; j++ {
		for i := range j {
			a, b := p.tracks[i], p.tracks[j]
			if a == b || rooms[a] == rooms[b] && p.first(i) && p.first(j) {
				tilt = max(tilt, p.hidden(j)-p.hidden(i))
			}
		}
	}
	return tilt
}

// first reports whether door i is the leftmost of its track.
func (p *pattern) first(i int) bool { return !slices.Contains(p.tracks[:i], p.tracks[i]) }
