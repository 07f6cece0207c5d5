package lapspan

import (
	"context"
	"errors"
	"slices"

	"example.com/lapspan/doors"
)

// allPriced reports whether every proposal has a price.
func (s *search) allPriced(ctx context.Context) (bool, error) {
	for i := range s.made.closing {
		if s.made.closing[i].Score.Price == unpriced {
			return false, nil
		}
	}
	for i := range s.lookups {
		l := &s.lookups[i]
		kit := s.kitPriced(l)
		if kit && !slices.ContainsFunc(l.query.Widths, func(o doors.Offer) bool { return o.Price == doors.Unpriced }) {
			continue
		}
		if priced, err := s.noneUnpriced(ctx, l, kit); !priced || err != nil {
			return false, err
		}
	}
	return true, nil
}

// kitPriced reports whether all but the doors of every run of a lookup has a price.
func (s *search) kitPriced(l *lookup) bool {
	for n := l.query.MinDoors; n <= l.query.MaxDoors; n++ {
		if s.partsFor(n).price == unpriced {
			return false
		}
	}
	return l.height.price != unpriced && (l.way == nil || !l.way.unpriced)
}

// noneUnpriced goes through the runs of a lookup, those with the most doors without
// a price first, or all where something else has none. Where it comes to no end it is
// false. That order is one by price when each door that has a price, and each door
// fewer than the most there can be, costs 1: all then cost that most less the doors
// without.
func (s *search) noneUnpriced(ctx context.Context, l *lookup, kitPriced bool) (bool, error) {
	q := l.query
	q.Rank, q.PriceStep, q.Widths = []doors.Key{doors.ByPrice}, 0, slices.Clone(q.Widths)
	for n := q.MinDoors; n <= q.MaxDoors; n++ {
		q.Fixed[n] = int64(doors.MaxDoors - n)
	}
	for i := range q.Widths {
		if o := &q.Widths[i]; kitPriced && o.Price != doors.Unpriced {
			o.Price = 1
		} else {
			o.Price = 0
		}
	}
	runs, err := doors.InOrder(ctx, q)
	if err != nil {
		return false, err
	}
	drawn := 0
	for r, err := range runs {
		switch {
		case errors.Is(err, doors.ErrWork):
			return false, nil
		case err != nil:
			return false, err
		case r.Score.Price == doors.MaxDoors:
			return true, nil
		}
		drawn++
		h := l.height
		if l.way != nil {
			h = s.hung(l.variant, l.way, r.Run)
		}
		if h != nil && s.option(l, h, r).Score.Price == unpriced {
			return false, nil
		}
	}
	return drawn < doors.MaxFound, nil
}
