package lapspan

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
)

// searchAll finds the best runs from stock of variants whose range is too large
// to be enumerated: the best of every height, merged by the rank.
func (s *search) searchAll(ctx context.Context, variants []*variant) error {
	if len(s.rankings) > 1 && len(variants) > 0 {
		priced, err := s.allPriced(ctx, variants)
		if err != nil {
			return err
		}
		if !priced {
			s.rankings = s.rankings[1:]
		}
		s.rankings = s.rankings[:1]
	}
	return s.eachSearch(variants, func(v *variant, h *choice, query doors.Search) error {
		return s.searchOne(ctx, v, h, query)
	})
}

// eachSearch calls do for every height that doors from stock can be hung at.
func (s *search) eachSearch(variants []*variant, do func(*variant, *choice, doors.Search) error) error {
	for _, v := range variants {
		for i := range v.choices {
			h := &v.choices[i]
			if h.stock < 0 {
				continue
			}
			if query, some := s.searchFor(v, h); some {
				if err := do(v, h, query); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func (s *search) searchOne(ctx context.Context, v *variant, h *choice, query doors.Search) error {
	count, err := doors.Count(ctx, query)
	if err != nil {
		return err
	}
	found, err := doors.Best(ctx, query)
	if err != nil {
		return err
	}
	s.notProven = s.notProven || !found.Proven
	query.Limit = nearLimit
	misses, err := doors.Near(ctx, query, nearBy)
	if err != nil && !errors.Is(err, doors.ErrWork) {
		return err
	}
	for _, m := range misses {
		s.missed(nearMiss{*s.optionOf(v, h, m.Run), h.Stock})
	}
	before := s.total
	for _, r := range found.Runs {
		s.show(s.optionOf(v, h, r.Run))
	}
	// Counted, not shown: most runs are never looked at.
	s.total = before.plus(count)
	return nil
}

// plus adds a count; past what an int holds it is no longer exact.
func (t Total) plus(c doors.Total) Total {
	if c.Count > int64(math.MaxInt-t.Count) {
		return Total{Count: math.MaxInt}
	}
	return Total{Count: t.Count + int(c.Count), Exact: t.Exact && c.Exact}
}

// searchable reports whether the best runs of a variant can be searched for
// without looking at each: every order of the doors stands, and they pass.
func (s *search) searchable(v *variant) bool {
	if v.leaning != nil || s.job.Gear.Showing > 0 {
		return false
	}
	return !slices.ContainsFunc(s.job.Doors.Sizes, func(size doors.Size) bool { return size.Width < 2*s.job.Gear.Overlap.Max })
}

// CodeNotProven is the note that better proposals may exist than those listed.
const CodeNotProven opening.Code = "search-not-proven"

func (s *search) proof() opening.Findings {
	if !s.notProven {
		return nil
	}
	return opening.Findings{{
		Code: CodeNotProven, Severity: opening.Note, Place: "rank",
		Message: "the range is so large that better proposals may exist than those listed",
		Remedy:  "rank by price or width first, or offer fewer sizes",
	}}
}

// optionOf makes an option of a run that the search found.
func (s *search) optionOf(v *variant, h *choice, run doors.Run) *option {
	o := option{variant: v, height: h, clear: &v.clear, run: run, ordered: true}
	o.under = v.clear.Width.Min - run.Least(s.job.Gear)
	o.over = run.Cover(s.job.Gear) - v.clear.Width.Max
	o.set.count = run.Len()
	for i := range run.Len() {
		o.set.widths[i] = run.At(i).Width
	}
	slices.Sort(o.set.widths[:o.set.count])
	return &o
}

// searchFor asks for the best runs of one height; false when no width is sold in
// it that the gear takes.
func (s *search) searchFor(v *variant, h *choice) (doors.Search, bool) {
	q := doors.Search{
		Fit:         doors.Fit{Span: v.clear.Width, NarrowDoubt: v.clear.Narrowest.Uncertainty, WideDoubt: v.clear.Widest.Uncertainty},
		Gear:        s.job.Gear,
		Arrangement: s.job.Doors.Arrangement,
		MinDoors:    doors.MinDoors,
		MaxDoors:    s.job.Doors.MaxDoors,
		Mixed:       s.job.Doors.MixedWidths,
		SidesDiffer: s.sidesDiffer(v),
		PriceStep:   int64(s.buy.step()),
		Limit:       s.job.limit(),
	}
	if q.MaxDoors == 0 {
		q.MaxDoors = doors.DefaultMaxDoors
	}
	if c := s.job.Gear.Doors; c != nil {
		q.MinDoors, q.MaxDoors = max(q.MinDoors, c.Min), min(q.MaxDoors, c.Max)
	}
	priced := h.price != unpriced
	for n := q.MinDoors; n <= q.MaxDoors; n++ {
		fixed := addPrices(h.price, s.partsFor(n).price)
		if fixed == unpriced {
			priced = false
			continue
		}
		q.Fixed[n] = fixed
	}
	for _, size := range s.job.Doors.Sizes {
		if size.Height != h.Stock {
			continue
		}
		if over := s.carried(h, size.Width).over; len(over) > 0 {
			s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: over[0].Reason})
			continue
		}
		price := doors.Unpriced
		if priced {
			price = tenThousandths(size.Price)
		}
		q.Widths = append(q.Widths, doors.Offer{Width: size.Width, Price: price})
	}
	slices.SortFunc(q.Widths, func(a, b doors.Offer) int { return cmp.Compare(a.Width, b.Width) })
	if !priced {
		q.Fixed = [doors.MaxDoors + 1]int64{}
	}
	q.Rank = rankFor(s.rankings[0].keys, h)
	return q, len(q.Widths) > 0 && q.MinDoors <= q.MaxDoors
}

// rankFor is what a rank comes to among runs of one height: what depends on the
// height alone tells none of them apart, and each door takes as many saw cuts.
func rankFor(rank []Key, h *choice) []doors.Key {
	var keys []doors.Key
	add := func(k doors.Key) {
		if !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	for _, k := range rank {
		switch k {
		case BySure:
			if h.sure {
				add(doors.BySure)
			}
		case ByCuts:
			if h.saws > 0 {
				add(doors.ByDoors)
			}
		case ByPrice:
			add(doors.ByPrice)
		case ByWidth:
			add(doors.ByWidth)
		case ByDoors:
			add(doors.ByDoors)
		case ByAccess:
			add(doors.ByAccess)
		case ByEven:
			add(doors.ByEven)
		}
	}
	return keys
}

// allPriced reports whether every proposal has a price: as many runs close the
// opening with the priced widths alone as with all of them.
func (s *search) allPriced(ctx context.Context, variants []*variant) (bool, error) {
	priced := true
	err := s.eachSearch(variants, func(_ *variant, _ *choice, query doors.Search) error {
		known := slices.DeleteFunc(slices.Clone(query.Widths), func(o doors.Offer) bool { return o.Price == doors.Unpriced })
		if !priced || len(known) == len(query.Widths) {
			return nil
		}
		all, err := doors.Count(ctx, query)
		if err != nil {
			return err
		}
		var with doors.Total
		if len(known) > 0 {
			query.Widths = known
			if with, err = doors.Count(ctx, query); err != nil {
				return err
			}
		}
		priced = all.Exact && all.Count == with.Count
		return nil
	})
	return priced, err
}
