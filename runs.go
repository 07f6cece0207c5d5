package lapspan

import (
	"context"
	"errors"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// lookup is one search for runs of doors from stock: those of one height, under
// one treatment of the skirtings, hung in one way.
type lookup struct {
	variant *variant
	// height is how the runs are hung; between walls that lean at best, and way says
	// what becomes of a run there.
	height *choice
	way    *way
	stock  *stock
	query  doors.Search
}

// validate refuses a search that is too large, in the words of the job.
func (l *lookup) validate() error {
	err := l.query.Validate()
	if refused, ok := errors.AsType[*opening.InputError](err); ok {
		return opening.Refuse(refused.Place, "doors %s high: %s", l.height.Stock, refused.Reason)
	}
	return err
}

// preparePlumb builds the ways to use the height under a treatment of the
// skirtings between plumb walls, and what there is to look up for each.
func (s *search) preparePlumb(ctx context.Context, v *variant, heights []doors.Height) error {
	choices := s.choices(ctx, v, heights)
	s.lookups = slices.Grow(s.lookups, len(choices))
	for i := range choices {
		h := &choices[i]
		if h.Method == doors.ToMeasure {
			if err := s.makePlumb(v, h); err != nil {
				return err
			}
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		st := s.stockOf(h.Stock)
		s.lookUp(lookup{variant: v, height: h, stock: st, query: doors.Search{Fit: fitOf(&v.clear), Widths: s.carriedAt(h, st.offers)}})
	}
	return nil
}

func (s *search) stockOf(height units.Length) *stock {
	return &s.stocks[slices.IndexFunc(s.stocks, func(st stock) bool { return st.height == height })]
}

// carriedAt are the widths that the gear takes at a height.
func (s *search) carriedAt(h *choice, offers []doors.Offer) []doors.Offer {
	if !s.limited {
		return offers
	}
	return slices.DeleteFunc(slices.Clone(offers), func(o doors.Offer) bool { return !s.carries(h, o.Width) })
}

// fitOf is an opening as a search asks for it.
func fitOf(c *opening.Clear) doors.Fit {
	return doors.Fit{Span: c.Width, NarrowDoubt: c.Narrowest.Uncertainty, WideDoubt: c.Widest.Uncertainty}
}

// lookUp keeps a lookup whose query has its opening and its widths.
func (s *search) lookUp(l lookup) {
	l.query = s.query(l.variant, l.query)
	if len(l.query.Widths) > 0 && l.query.MinDoors <= l.query.MaxDoors {
		s.lookups = append(s.lookups, l)
	}
}

// query fills in what all searches under a treatment of the skirtings have in common.
func (s *search) query(v *variant, q doors.Search) doors.Search {
	q.Gear, q.Arrangement, q.Mixed = s.job.Gear, s.job.Doors.Arrangement, s.job.Doors.MixedWidths
	q.SidesDiffer, q.Limit, q.PriceStep = s.sidesDiffer(v), s.job.limit(), int64(s.buy.step())
	q.MinDoors, q.MaxDoors = doors.MinDoors, s.job.Doors.MaxDoors
	if q.MaxDoors == 0 {
		q.MaxDoors = doors.DefaultMaxDoors
	}
	if c := s.job.Gear.Doors; c != nil {
		q.MinDoors, q.MaxDoors = max(q.MinDoors, c.Min), min(q.MaxDoors, c.Max)
	}
	return q
}

// find ranks the job's options and counts them.
func (s *search) find(ctx context.Context) error {
	s.ranking = ranking{keys: s.job.Rank, limit: s.job.limit()}
	if len(s.job.Rank) == 0 {
		priced, err := s.allPriced(ctx)
		if err != nil {
			return err
		}
		s.ranking.keys = DefaultRank(priced)
	}
	for i := range s.lookups {
		l := &s.lookups[i]
		s.rank(l)
		find := s.findBest
		if l.way != nil {
			find = s.findLeaning
		}
		if err := find(ctx, l); err != nil {
			return err
		}
	}
	for i := range s.made.closing {
		s.total.Count++
		s.ranking.show(&s.made.closing[i])
	}
	return nil
}

// rank asks a lookup for the rank of the job. What all its runs cost alike is left
// out, so that ways to hang the same doors ask for the same; so are prices nobody asks for.
func (s *search) rank(l *lookup) {
	l.query.Rank = rankFor(s.ranking.keys, l.height)
	priced := slices.Contains(l.query.Rank, doors.ByPrice) && l.height.price != unpriced
	for n := l.query.MinDoors; n <= l.query.MaxDoors && priced; n++ {
		l.query.Fixed[n] = s.partsFor(n).price
		priced = l.query.Fixed[n] != unpriced
	}
	if !priced {
		l.query.Fixed = [doors.MaxDoors + 1]int64{}
		l.query.Widths = l.bare()
	}
}

// bare are the widths of a lookup without their prices; where they are all that are
// sold in the height, the same for all lookups.
func (l *lookup) bare() []doors.Offer {
	all := len(l.query.Widths) == len(l.stock.offers)
	if all && l.stock.bare != nil {
		return l.stock.bare
	}
	bare := slices.Clone(l.query.Widths)
	for i := range bare {
		bare[i].Price = doors.Unpriced
	}
	if all {
		l.stock.bare = bare
	}
	return bare
}

// rankFor is what a rank comes to among runs hung in one way: what depends on
// that alone tells none of them apart, and each door takes as many saw cuts.
func rankFor(rank []Key, h *choice) []doors.Key {
	keys := make([]doors.Key, 0, len(rank))
	for _, k := range rank {
		switch {
		case k == BySure && !h.sure, k == ByCuts && h.saws == 0, k == ByHeight:
			continue
		case k == ByCuts:
			k = ByDoors
		}
		if key := doors.Key(k); !slices.Contains(keys, key) {
			keys = append(keys, key)
		}
	}
	return keys
}

// findBest shows the ranking the best runs of a lookup and counts them all. No run
// left out comes before one of these, hung as they are.
func (s *search) findBest(ctx context.Context, l *lookup) error {
	found, err := s.found.get(&l.query, sameRank, func() (doors.Found, error) { return doors.Best(ctx, l.query) })
	if err != nil {
		return err
	}
	s.notProven = s.notProven || !found.Proven
	for _, r := range found.Runs {
		o := s.option(l, l.height, r)
		s.ranking.show(&o)
	}
	listed := int64(len(found.Runs))
	count := doors.Total{Count: listed, Exact: true}
	if !found.All {
		if count, err = s.count(ctx, &l.query); err != nil {
			return err
		}
		count.Count = max(count.Count, listed)
	}
	s.total = s.total.plus(count)
	return nil
}

// option is a run as a lookup found it, hung and priced.
func (s *search) option(l *lookup, h *choice, r doors.Ranked) option {
	return s.priced(option{l.variant, h, s.clearFor(l.variant, r.Run.Len(), h.Door), r})
}

// priced fills in what the score of a run does not know: the price, and whether
// the height is as sure as the width.
func (s *search) priced(o option) option {
	set := o.set()
	o.Score.Price = addPrices(o.height.price, s.partsFor(set.count).price, s.doorsPrice(o.height, &set))
	o.Score.Sure = o.Score.Sure && o.height.sure
	return o
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
