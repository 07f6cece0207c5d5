package lapspan

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Near misses are listed up to nearLimit; beside proposals only those that miss
// by no more than nearBy, alone the nearest there are.
const (
	nearLimit = 5
	nearBy    = 50 * units.Millimetre
)

// nearMiss is a run of doors that does not close its opening.
type nearMiss struct {
	doors.Miss
	variant *variant
	clear   *opening.Clear
	stock   units.Length                 // the height it could be hung at
	set     [doors.MaxDoors]units.Length // the widths, largest first
}

func newNearMiss(v *variant, clear *opening.Clear, stock units.Length, m doors.Miss) nearMiss {
	n := nearMiss{Miss: m, variant: v, clear: clear, stock: stock}
	for i := range m.Run.Len() {
		n.set[i] = m.Run.At(i).Width
	}
	slices.SortFunc(n.set[:], func(a, b units.Length) int { return cmp.Compare(b, a) })
	return n
}

// compare is a total order: by how much they miss, then as doors.Near orders them,
// then cutting back before end panels and the taller stock.
func (n *nearMiss) compare(o *nearMiss) int {
	return cmp.Or(
		cmp.Compare(n.By(), o.By()),
		cmp.Compare(n.Run.Len(), o.Run.Len()),
		slices.Compare(n.set[:], o.set[:]),
		cmp.Compare(n.Run.Overlaps(), o.Run.Overlaps()),
		cmp.Compare(n.variant.index, o.variant.index),
		cmp.Compare(o.stock, n.stock),
	)
}

// nearest keeps the nearest misses in order, a set of widths once under each
// treatment of the skirtings.
type nearest []nearMiss

// behind reports whether a miss comes too late to be kept, as do all after it.
func (near nearest) behind(n *nearMiss) bool {
	return len(near) == nearLimit && n.compare(&near[nearLimit-1]) >= 0
}

// add keeps a miss if it is one of the nearest: of one set of widths the nearer.
func (near *nearest) add(n nearMiss) {
	same := slices.IndexFunc(*near, func(o nearMiss) bool { return o.variant == n.variant && o.set == n.set })
	if same >= 0 {
		if n.compare(&(*near)[same]) >= 0 {
			return
		}
		*near = slices.Delete(*near, same, same+1)
	}
	at, _ := slices.BinarySearchFunc(*near, n, func(a, b nearMiss) int { return a.compare(&b) })
	if at < nearLimit {
		*near = slices.Insert((*near)[:min(len(*near), nearLimit-1)], min(at, nearLimit-1), n)
	}
}

// nearMisses lists the nearest misses, looking ever further away where there are
// no proposals.
func (s *search) nearMisses(ctx context.Context) ([]NearMiss, error) {
	var near nearest
	for within := nearBy; ; within = min(10*within, units.MaxLength) {
		var err error
		if near, err = s.within(ctx, within); err != nil {
			return nil, err
		}
		if s.total.Count > 0 || len(near) == nearLimit || within == units.MaxLength {
			break
		}
	}
	var misses []NearMiss
	for i := range near {
		n := &near[i]
		miss := NearMiss{
			Skirting: Treatments{n.variant.clear.Left, n.variant.clear.Right}, Doors: n.Run.Doors(), Side: Over, By: n.By(), StockHeight: n.stock,
			Message: fmt.Sprintf("%s too wide for the narrowest reading at the greatest overlap", n.By()),
			Changes: doors.Changes(n.Run, s.job.Gear, n.clear.Width),
		}
		if n.Short > n.Over {
			miss.Side, miss.Message = Short, fmt.Sprintf("%s short of the widest reading", n.By())
		}
		misses = append(misses, miss)
	}
	return misses, nil
}

// within finds the nearest misses that miss by no more than a length.
func (s *search) within(ctx context.Context, within units.Length) (nearest, error) {
	s.near = memo[[]doors.Miss]{}
	var near nearest
	for i := range s.made.misses {
		if n := &s.made.misses[i]; n.By() <= within {
			near.add(*n)
		}
	}
	for i := range s.lookups {
		l := &s.lookups[i]
		if l.way != nil {
			if err := s.nearLeaning(ctx, &near, l, within); err != nil {
				return nil, err
			}
			continue
		}
		q := l.query
		q.Limit = enoughNear(&q)
		misses, err := s.missing(ctx, q, within)
		if err != nil {
			return nil, err
		}
		for _, m := range misses {
			near.add(newNearMiss(l.variant, &l.variant.clear, l.height.Stock, m))
		}
	}
	return near, nil
}

// enoughNear is how many misses of a search hold nearLimit sets of widths: each may
// be listed for every number of overlaps.
func enoughNear(q *doors.Search) int {
	if q.Arrangement == doors.Any {
		return nearLimit * (q.MaxDoors - 1)
	}
	return nearLimit
}

// missing asks for the misses of a search. One that comes to no end, or that is too
// large so far from the opening, lists those it has found.
func (s *search) missing(ctx context.Context, q doors.Search, within units.Length) ([]doors.Miss, error) {
	same := func(a, b *doors.Search) bool { return a.Limit == b.Limit && sameRuns(a, b) }
	return s.near.get(&q, same, func() ([]doors.Miss, error) {
		misses, err := doors.Near(ctx, q, within)
		if _, large := errors.AsType[*opening.InputError](err); large || errors.Is(err, doors.ErrWork) {
			err = nil
		}
		return misses, err
	})
}
