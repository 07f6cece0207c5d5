package doors

import (
	"cmp"
	"context"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Miss is a run that does not close an opening, but nearly.
type Miss struct {
	Run Run // the run
	// Short is how much the run falls short of the widest reading at the least
	// overlap, Over how much it is too wide for the narrowest at the greatest. One
	// of them is above zero.
	Short, Over units.Length
}

// By is how much the run misses by: the greater of Short and Over.
func (m Miss) By() units.Length { return max(m.Short, m.Over) }

// Near returns the runs that miss an opening by least and by no more than within,
// at most Limit of the search: the nearest first, of those that miss by as much the
// one with fewer doors and then the one whose widths, the largest first, come
// first number by number. A set of widths is listed once for each number of
// overlaps, on the first tracks on which it can stand closed. Rank is not used. The
// errors are those of Best, or ErrWork.
func Near(ctx context.Context, s Search, within units.Length) ([]Miss, error) {
	if err := cmp.Or(s.validate(), opening.CheckPosition("within", within)); err != nil {
		return nil, err
	}
	p, err := s.prepare(ctx, max(s.Fit.Span.Max, s.wide().Span.Max)+within)
	if err != nil {
		return nil, err
	}
	n := nearest{solver: p.in(ctx, s.Fit, s.wide(), 1), within: int64(within), limit: s.limit()}
	switch {
	case n.solver.cause != nil:
	case s.Mixed && p.grid.built():
		n.totals()
	default:
		n.every()
	}
	misses := make([]Miss, len(n.best))
	for i := range n.best {
		misses[i] = n.best[i].Miss
	}
	return misses, n.solver.cause
}

// nearest keeps the nearest misses.
type nearest struct {
	solver *solver
	within int64
	limit  int
	best   []nearMiss
}

type nearMiss struct {
	Miss
	set [MaxDoors]int16 // the largest first
}

func (m *nearMiss) compare(o *nearMiss) int {
	return cmp.Or(cmp.Compare(m.By(), o.By()), cmp.Compare(m.Run.count, o.Run.count), slices.Compare(m.set[:], o.set[:]),
		cmp.Compare(m.Run.Overlaps(), o.Run.Overlaps()))
}

// miss is how far a total lies outside a window; above zero on one side.
func (w window) miss(total int64) (short, over int64) {
	return max(0, w.lo-total), max(0, total-w.hi)
}

// totals goes through the totals that miss, the nearest first, and the sets of each
// in their order.
func (n *nearest) totals() {
	v := n.solver
	g := &v.grid
	for by := int64(1); by <= n.within && v.work(1); by++ {
		next := int64(none)
		for i := range v.families {
			if v.seenBefore(i) {
				continue
			}
			doors, w := v.families[i].doors, v.clear[i].closes
			// Where the readings are too far apart for any total, all miss by half of that.
			least := max(by, ceilDiv(w.lo-w.hi, 2))
			for _, total := range [...]int64{n.below(doors, w.lo-least), n.above(doors, w.hi+least)} {
				if total == none {
					continue
				}
				short, over := w.miss(total)
				next = min(next, max(short, over))
			}
		}
		if by = next; by > n.within || len(n.best) == n.limit && int64(n.best[n.limit-1].By()) < by {
			return
		}
		for i := range v.families {
			if v.seenBefore(i) {
				continue
			}
			doors, w := v.families[i].doors, v.clear[i].closes
			for k, total := range [...]int64{w.lo - by, w.hi + by} {
				if short, over := w.miss(total); max(short, over) != by || k > 0 && w.lo-by == total {
					continue
				}
				if sum := g.down(doors, total); sum >= 0 && g.total(doors, sum) == total {
					n.sets(i, sum, sum, true)
				}
			}
		}
	}
}

// above is the least total of so many doors from one up, below the greatest from one down, or none.
func (n *nearest) above(doors int, total int64) int64 {
	g := &n.solver.grid
	if sum := nextBit(g.top[doors], g.up(doors, total)); sum < none {
		return g.total(doors, sum)
	}
	return none
}

func (n *nearest) below(doors int, total int64) int64 {
	g := &n.solver.grid
	for sum := min(g.down(doors, total), int64(len(g.top[doors]))*64-1); sum >= 0; sum-- {
		if nextBit(g.top[doors], sum) == sum {
			return g.total(doors, sum)
		}
	}
	return none
}

// sets shows the sets of family i and its like with d from lo to hi; in order
// means that no set after the limit can be nearer than those shown.
func (n *nearest) sets(i int, lo, hi int64, inOrder bool) {
	v, limit, shown := n.solver, int64(noPrice), 0
	s := sets{solver: v, doors: v.families[i].doors, lo: lo, hi: hi, limit: &limit, visit: func(set []int16) bool {
		if n.show(i, set) {
			shown++
		}
		return !inOrder || shown < n.limit
	}}
	s.place(0, len(v.grid.d)-1, 0, 0)
}

// every shows all sets one by one, or those of doors all alike.
func (n *nearest) every() {
	v := n.solver
	for i := range v.families {
		if v.seenBefore(i) {
			continue
		}
		doors, w := v.families[i].doors, v.clear[i].closes
		lo, hi := max(0, v.grid.up(doors, w.lo-n.within)), v.grid.down(doors, w.hi+n.within)
		if v.search.Mixed {
			n.sets(i, lo, hi, false)
			continue
		}
		var set [MaxDoors]int16
		for k, d := range v.grid.d {
			if sum := int64(doors) * d; sum >= lo && sum <= hi && v.work(1) {
				for at := range doors {
					set[at] = int16(k)
				}
				n.show(i, set[:doors])
			}
		}
	}
}

// show keeps a set that misses, if it is near enough and can stand closed.
func (n *nearest) show(i int, set []int16) bool {
	v := n.solver
	total := v.judge.take(set)
	short, over := v.clear[i].closes.miss(total)
	if short == 0 && over == 0 || max(short, over) > n.within {
		return false
	}
	m := nearMiss{Miss: Miss{Short: units.Length(short), Over: units.Length(over)}}
	copy(m.set[:], set)
	m.Run.count = len(set)
	if len(n.best) == n.limit && int64(n.best[n.limit-1].By()) < max(short, over) {
		return false
	}
	var widths [MaxDoors]units.Length
	for at := range set {
		widths[at] = units.Length(v.judge.dealer.widths[len(set)-1-at])
	}
	stands := false
	for f := range v.families {
		if v.families[f].doors != len(set) || v.families[f].overlaps != v.families[i].overlaps {
			continue
		}
		for k := range v.families[f].patterns {
			run, ok := v.order(&v.families[f].patterns[k], widths[:len(set)], units.Length(v.clear[i].span))
			if ok && (!stands || firstTracks(&run, &m.Run)) {
				m.Run, stands = run, true
			}
			if ok {
				break // the patterns of a family come in the order of their tracks
			}
		}
	}
	if !stands {
		return false
	}
	at, _ := slices.BinarySearchFunc(n.best, m, func(a, b nearMiss) int { return a.compare(&b) })
	if at == n.limit {
		return true
	}
	if len(n.best) == n.limit {
		n.best = n.best[:n.limit-1]
	}
	n.best = slices.Insert(n.best, at, m)
	return true
}

// firstTracks reports whether the tracks of a come before those of b.
func firstTracks(a, b *Run) bool {
	for i := range a.count {
		if d := a.doors[i].Track - b.doors[i].Track; d != 0 {
			return d < 0
		}
	}
	return false
}
