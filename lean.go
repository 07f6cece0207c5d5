package lapspan

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Where walls are known to lean, the opening that three doors or more must close
// depends on the height as hung, and what is left of the allowance on the doors at
// the two ends: raising one to its wall lifts a corner. So how the height is used,
// and at what price, differs from run to run. For every height that doors may hang
// at, runs are searched for in the opening found there as if each were hung at the
// least price any is; what becomes of a run is worked out as it is met.

// way is one method for doors of one stock height hung at one height, between walls that lean.
type way struct {
	from    units.Length             // the height of the doors before the method is known
	choices map[units.Length]*choice // by what raising the end doors takes from the allowance
	// best is no worse than any of the choices in any key: as cheap as the cheapest, and
	// sure if one is. In all else that runs are ranked by, the choices are alike.
	best choice
	// unpriced says that one of the choices has no price.
	unpriced bool
}

// leans reports whether a wall is known to lean, or to be plumb.
func (s *search) leans() bool {
	return len(s.job.Opening.Leans.Left)+len(s.job.Opening.Leans.Right) > 0
}

// clearFor is the opening as so many doors of a height find it.
func (s *search) clearFor(v *variant, n int, height units.Length) *opening.Clear {
	if n == doors.MinDoors || !s.leans() {
		return &v.clear
	}
	if c, known := v.clears[height]; known {
		return c
	}
	if v.clears == nil {
		v.clears = make(map[units.Length]*opening.Clear)
	}
	c := new(s.job.Opening.ClearFor(v.clear, n, height))
	v.clears[height] = c
	return c
}

// prepareLeaning builds the ways to use the height between walls that lean, and
// what there is to look up for each.
func (s *search) prepareLeaning(ctx context.Context, v *variant) error {
	for i := range s.stocks {
		st := &s.stocks[i]
		widths := make([]units.Length, len(st.offers))
		for k, o := range st.offers {
			widths[k] = o.Width
		}
		for _, w := range s.ways(ctx, v, st.height, widths, s.job.Doors.MixedWidths) {
			s.lookUp(lookup{variant: v, height: &w.best, way: w, stock: st, query: doors.Search{
				Fit: fitOf(&v.clear), Wide: fitOf(s.clearFor(v, doors.MaxDoors, w.best.Door)), Widths: s.carriedAt(&w.best, st.offers),
			}})
		}
		if err := ctx.Err(); err != nil {
			return err
		}
	}
	if s.job.Doors.MadeToMeasure == nil {
		return nil
	}
	return s.makeLeaning(ctx, v)
}

// commonFirst sorts the lookups between walls that lean: first those that most end
// doors lead to, which soon fill the ranking, so that others can stop.
func (s *search) commonFirst() {
	slices.SortStableFunc(s.lookups, func(a, b lookup) int { return cmp.Compare(len(b.way.choices), len(a.way.choices)) })
}

// makeLeaning finds the runs made to measure: made for three doors or more as the
// highest doors would find the opening, each then hung as its end doors allow.
func (s *search) makeLeaning(ctx context.Context, v *variant) error {
	q := s.query(v, doors.Search{Fit: fitOf(&v.clear), Wide: fitOf(s.clearFor(v, doors.MaxDoors, v.clear.Height))})
	if q.MinDoors > q.MaxDoors {
		return nil
	}
	runs, err := s.job.Doors.MadeToMeasure.Runs(q)
	if err != nil {
		return err
	}
	var widths []units.Length
	for _, r := range runs {
		widths = append(widths, r.At(0).Width)
	}
	slices.Sort(widths)
	for _, w := range s.ways(ctx, v, 0, slices.Compact(widths), false) {
		for _, run := range runs {
			if h := s.hung(v, w, run); h != nil {
				s.keepMade(v, h, s.clearFor(v, run.Len(), h.Door), run)
			}
		}
	}
	return nil
}

// ways are the methods for doors of a height on sale, 0 for made to measure, by the
// height as hung, whatever doors of some widths stand at the ends.
func (s *search) ways(ctx context.Context, v *variant, stock units.Length, widths []units.Length, mixed bool) []*way {
	from := stock
	if stock == 0 {
		from = v.clear.Height - s.job.Gear.Allowance.Min
	}
	var ways []*way
	for _, taken := range s.lifts(v, widths, from, mixed) {
		choices := s.lifted(ctx, v, stock, taken)
		for i := range choices {
			h := &choices[i]
			at := slices.IndexFunc(ways, func(w *way) bool { return w.best.Method == h.Method && w.best.Door == h.Door })
			if at < 0 {
				at = len(ways)
				ways = append(ways, &way{from: from, choices: make(map[units.Length]*choice), best: *h})
			}
			ways[at].add(taken, h)
		}
	}
	return ways
}

func (w *way) add(taken units.Length, h *choice) {
	w.choices[taken] = h
	w.best.sure = w.best.sure || h.sure
	switch {
	case h.price == unpriced:
		w.unpriced = true
	case w.best.price == unpriced:
		w.best.price = h.price
	default:
		w.best.price = min(w.best.price, h.price)
	}
}

// lifts are what raising the end doors of a run can take from the allowance, the
// least first.
func (s *search) lifts(v *variant, widths []units.Length, height units.Length, mixed bool) []units.Length {
	var sides [2][]units.Length
	for _, w := range widths {
		ends, taken := s.endDoors(v, w, w, height)
		if !mixed {
			sides[0] = append(sides[0], taken)
			continue
		}
		for i := range sides {
			sides[i] = append(sides[i], ends[i].Taken)
		}
	}
	lifts := slices.Concat(sides[0], sides[1])
	if mixed && len(widths) > 0 { // the more of two: none is less than the least of the other side
		least := max(slices.Min(sides[0]), slices.Min(sides[1]))
		lifts = slices.DeleteFunc(lifts, func(l units.Length) bool { return l < least })
	}
	slices.Sort(lifts)
	return slices.Compact(lifts)
}

// lifted are the ways to hang doors of a height whose end doors take so much when
// they are raised to their walls: the least of the allowance, and with it the
// default aim, rises by as much.
func (s *search) lifted(ctx context.Context, v *variant, stock, taken units.Length) []choice {
	r := doors.Range{Build: s.job.Doors.Build, MadeToMeasure: s.job.Doors.MadeToMeasure}
	method := doors.ToMeasure
	if stock > 0 {
		r.Sizes, r.MadeToMeasure = []doors.Size{{Height: stock}}, nil
		switch left := v.clear.Height - stock; {
		case left > s.job.Gear.Allowance.Max:
			method = doors.Packer
		case left < s.job.Gear.Allowance.Min:
			method = doors.CutDown
		default:
			method = doors.AsIs
		}
	}
	allowance := s.job.Gear.Allowance
	allowance.Min += taken
	if allowance.Min > allowance.Max {
		s.refuseRaise(stock, method, taken, s.job.Gear.Allowance.Span())
		return nil
	}
	if allowance.Aim != nil {
		allowance.Aim = new(max(*allowance.Aim, allowance.Min))
	}
	return s.choices(ctx, v, s.heights(r, v.clear.Height, allowance, func(r doors.Refusal) { s.refuseOnce(r.Stock, r.Method, r.Reason) }))
}

// refuseOnce keeps one reason for a stock height and method: what is left of the
// allowance differs from one end door to the next, and would repeat it.
func (s *search) refuseOnce(stock units.Length, method doors.Method, reason string) {
	if !slices.ContainsFunc(s.refused, func(r doors.Refusal) bool { return r.Stock == stock && r.Method == method }) {
		s.refused = append(s.refused, doors.Refusal{Stock: stock, Method: method, Reason: reason})
	}
}

func (s *search) refuseRaise(stock units.Length, method doors.Method, taken units.Length, of fmt.Stringer) {
	s.refuseOnce(stock, method, fmt.Sprintf("raising an end door to the wall takes %s of an allowance of %s; a liner on the wall would spare it", taken, of))
}

// hung is how a run is hung in one way; nil where its end doors do not allow that.
func (s *search) hung(v *variant, w *way, run doors.Run) *choice {
	left, right := run.At(0).Width, run.At(run.Len()-1).Width
	_, taken := s.endDoors(v, left, right, w.from)
	h := w.choices[taken]
	if h == nil {
		return nil
	}
	// The lean over the door as hung may differ from that over the door as bought.
	if _, taken = s.endDoors(v, left, right, h.Door); h.Allowance-taken < s.job.Gear.Allowance.Min {
		s.refuseRaise(h.Stock, h.Method, taken, h.Allowance)
		return nil
	}
	return h
}

// findLeaning goes through the runs of a lookup in the order they would have if
// each were hung in the best way, until none that comes later can be among the best.
//
// Why no better one is left out: a run that is hung at this height is, in every key
// but its price and whether it is sure, what the search says of it, and in those two
// no better than with way.best. So all runs to come are no better than the run at hand
// would be with way.best, and when that does not come before the last option kept,
// none of them does.
func (s *search) findLeaning(ctx context.Context, l *lookup) error {
	few, err := s.few(ctx, l)
	if err != nil {
		return err
	}
	q, seen := l.query, 0
	for q.Limit = max(q.Limit, doors.DefaultFound); ; q.Limit = min(8*q.Limit, doors.MaxFound) {
		found, err := doors.Best(ctx, q)
		if err != nil {
			return err
		}
		// A list that is not proven may be shorter than the one before; those it lacks are not behind it.
		for _, r := range found.Runs[min(seen, len(found.Runs)):] {
			best := s.option(l, l.height, r)
			if !few && found.Proven && s.ranking.full() && s.ranking.compare(&best, s.ranking.last()) > 0 {
				s.total.Exact = false
				return nil
			}
			if h := s.hung(l.variant, l.way, r.Run); h != nil {
				o := s.option(l, h, r)
				s.total.Count++
				s.ranking.show(&o)
			}
		}
		seen = len(found.Runs)
		if found.All {
			return nil
		}
		if !found.Proven || q.Limit == doors.MaxFound {
			s.total.Exact, s.notProven = false, true
			return nil
		}
	}
}

// few reports whether a lookup has so few runs that all are gone through, to be counted.
func (s *search) few(ctx context.Context, l *lookup) (bool, error) {
	if s.countable < 0 {
		return false, nil
	}
	count, err := s.count(ctx, &l.query)
	return count.Exact && count.Count <= s.countable, err
}

// nearLeaning adds the nearest misses of a lookup that are hung in its way. It asks
// for ever longer lists until what is left comes too late.
func (s *search) nearLeaning(ctx context.Context, near *nearest, l *lookup, within units.Length) error {
	q := l.query
	for q.Limit = enoughNear(&q); ; q.Limit = min(8*q.Limit, doors.MaxFound) {
		misses, err := s.missing(ctx, q, within)
		if err != nil {
			return err
		}
		for _, m := range misses {
			n := newNearMiss(l.variant, s.clearFor(l.variant, m.Run.Len(), l.height.Door), l.height.Stock, m)
			if near.behind(&n) {
				return nil
			}
			if s.hung(l.variant, l.way, m.Run) != nil {
				near.add(n)
			}
		}
		if len(misses) < q.Limit || q.Limit == doors.MaxFound {
			return nil
		}
	}
}

// endDoors says how doors of two widths at the left and the right end close on
// their walls, and what the raised one takes from the allowance.
func (s *search) endDoors(v *variant, left, right, height units.Length) (pair [2]opening.EndDoor, taken units.Length) {
	for i, end := range [...]struct {
		side  opening.Side
		width units.Length
	}{{opening.Left, left}, {opening.Right, right}} {
		// The widths and heights of doors are checked, so that the one error is an
		// opening too low for a door, which has no way to be hung either.
		door, err := s.job.Opening.EndDoor(v.clear, end.side, end.width, height, s.job.Gear.Adjuster)
		if err == nil {
			pair[i], taken = door, max(taken, door.Taken)
		}
	}
	return pair, taken
}

// ends writes the end doors into the proposal, with what is left to do there.
func (s *search) ends(p *Proposal, o *option) opening.Findings {
	if !s.leans() {
		return nil
	}
	var found opening.Findings
	pair, _ := s.endDoors(o.variant, o.Run.At(0).Width, o.Run.At(o.Run.Len()-1).Width, o.height.Door)
	for _, d := range pair {
		p.EndDoors = append(p.EndDoors, d)
		found = append(found, d.Findings(s.job.Gear.Adjuster > 0)...)
	}
	return found
}
