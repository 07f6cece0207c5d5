package doors

import (
	"cmp"
	"context"
	"errors"
	"math/big"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// What a search does at most.
const (
	// MaxSets bounds the sets of widths that are looked at one by one, where the
	// widths lie on no common step coarse enough for more.
	MaxSets = 5_000_000
	// MaxWork bounds the steps of a search, some tens of nanoseconds each:
	// about a second. Which searches can reach it stands with Best.
	MaxWork = 20_000_000
)

// ErrWork says that a search reached MaxWork.
var ErrWork = errors.New("doors: the search reached its limit on work")

// prepared is what a search needs that does not depend on the opening.
type prepared struct {
	search   Search
	width    []int64
	grid     grid
	pricing  *pricing
	families []family
	most     int                 // doors
	far      [MaxDoors + 1]int64 // the greatest sum of d that so many doors may need
	sets     int                 // of widths, or some number past MaxSets
	maxWork  int                 // steps of one search
}

// prepare checks a search and gets it ready.
func prepare(ctx context.Context, s Search) (*prepared, error) {
	if err := s.validate(); err != nil {
		return nil, err
	}
	return s.prepare(ctx, max(s.Fit.Span.Max, s.wide().Span.Max))
}

// prepare gets a valid search ready for openings up to the widest.
func (s Search) prepare(ctx context.Context, widest units.Length) (*prepared, error) {
	p := new(prepared)
	words, err := p.outline(s, widest)
	if err != nil {
		return nil, err
	}
	least, _ := s.doors()
	p.families = make([]family, 0, max(0, p.most-least+1))
	for n := least; n <= p.most; n++ {
		p.families = families(p.families, s.Arrangement.patterns(n, s.Gear.Tracks, s.SidesDiffer))
	}
	p.pricing = newPricing(&p.search, p.grid.d)
	if words > 0 {
		p.pricing.raise()
		p.pricing.measure()
		err = p.grid.build(ctx, p.most, &p.far)
	}
	return p, err
}

// outline fills in the search and its size alone. It returns the words of the bit
// sets it takes, or none where its sets are looked at one by one, and refuses what is too large.
func (p *prepared) outline(s Search, widest units.Length) (words int64, err error) {
	room := make([]int64, 2*len(s.Widths))
	*p = prepared{search: s, maxWork: cmp.Or(s.work, MaxWork), width: room[:len(s.Widths)]}
	for i, o := range s.Widths {
		p.width[i] = int64(o.Width)
	}
	least, most := s.doors()
	// More doors than the narrowest ones fill with the greatest overlaps do not close.
	for most >= least && int64(most)*p.width[0]-int64(most-1)*int64(s.Gear.Overlap.Max) > int64(widest) {
		most--
	}
	p.most, p.grid = most, newGrid(p.width, room[len(s.Widths):])
	if !s.Mixed || most < least {
		return 0, nil
	}
	p.sets = setsOf(len(p.width), least, most)
	if p.sets <= cmp.Or(s.few, fewSets) {
		return 0, nil
	}
	for n := most; n > 0; n-- {
		widths := int64(widest) + int64(n-1)*int64(s.Gear.Overlap.Max)
		p.far[n] = max(p.far[min(n+1, MaxDoors)], p.grid.down(n, widths))
	}
	if words = p.grid.words(most, &p.far); words <= maxGridWords {
		return words, nil
	}
	if p.sets > MaxSets {
		count, all := new(big.Int), new(big.Int)
		for n := least; n <= most; n++ {
			all.Add(all, count.Binomial(int64(len(p.width)+n-1), int64(n)))
		}
		return 0, opening.Refuse("doors.sizes", "%d widths make %d sets of %d to %d doors and lie on no common step coarser than %s; at most %d such sets can be searched: offer fewer widths or round them", len(p.width), all, least, most, units.Length(p.grid.step), MaxSets)
	}
	return 0, nil
}

// fewSets is how many sets of widths are looked at one by one in less time than bit sets take.
const fewSets = 2000

// setsOf is how many sets of doors can be made of so many widths, C(widths+n−1, n)
// of n doors, or some number past MaxSets.
func setsOf(widths, least, most int) int {
	all := 0
	for n := least; n <= most && all <= MaxSets; n++ {
		of := 1
		for i := 1; i <= n && of <= MaxSets; i++ {
			of = of * (widths + i - 1) / i
		}
		all += of
	}
	return all
}

// solver is one search in one opening.
type solver struct {
	*prepared
	ctx     context.Context
	clear   []clearance // of each family
	podium  podium
	steps   int
	poll    int   // steps after which the context is looked at
	pause   int   // steps after which a walk breaks off for a better bound; 0: never
	cause   error // why it stopped: the context's error, or ErrWork
	judge   judge
	walkers []walker // of the walk at hand
	fronts  []front  // likewise
}

// pollAfter is how many steps pass between two looks at the context: well under a millisecond.
const pollAfter = 1 << 8

// walkStep is how many steps of the walk through sets one of the walk through orders takes as long as.
const walkStep = 8

// work counts some steps and reports whether the search goes on.
func (v *solver) work(steps int) bool {
	v.steps += steps
	if v.steps >= v.poll && v.cause == nil {
		v.poll = v.steps + pollAfter
		if v.cause = v.ctx.Err(); v.cause == nil && v.steps > v.maxWork {
			v.cause = ErrWork
		}
	}
	return v.cause == nil && (v.pause == 0 || v.steps <= v.pause)
}

// in returns the solver of a search in one opening.
func (p *prepared) in(ctx context.Context, fit, wide Fit, limit int) *solver {
	v := &solver{prepared: p, ctx: ctx, cause: ctx.Err(), podium: newPodium(p.search.Rank, limit)}
	v.judge.solver = v
	v.clear = make([]clearance, len(p.families))
	for i := range p.families {
		f := &p.families[i]
		if f.doors > MinDoors {
			fit = wide
		}
		v.clear[i] = f.clearance(p.search.Gear, fit, p.width[0])
	}
	return v
}

func (p *prepared) best(ctx context.Context, fit, wide Fit, limit int) (Found, error) {
	// One more than is wanted tells whether that is all there is.
	v := p.in(ctx, fit, wide, limit+1)
	if v.cause == nil {
		switch {
		case !p.search.Mixed:
			v.alike()
		case p.grid.built() && p.search.Gear.Showing > 0:
			v.checked(ctx, fit, wide)
		case p.grid.built():
			v.descend(p.search.Rank, anything)
			v.tight()
		default:
			v.every()
		}
	}
	if errors.Is(v.cause, ErrWork) && p.grid.built() && p.sets <= MaxSets {
		v = p.in(ctx, fit, wide, limit+1)
		v.every()
	}
	if v.cause != nil && !errors.Is(v.cause, ErrWork) {
		return Found{}, v.cause
	}
	found := Found{Runs: v.podium.sorted(), All: len(v.podium.kept) <= limit, Proven: v.cause == nil}
	if !found.Proven {
		found.All = false
	}
	found.Runs = found.Runs[:min(limit, len(found.Runs))]
	return found, nil
}

// class is the runs that agree in some keys: what the search has fixed so far.
// A field below zero is not fixed.
type class struct {
	sure   int8
	doors  int8
	width  int64
	access int64
	price  int64
}

var anything = class{-1, -1, -1, -1, -1}

// windows are the totals of one family's runs in the class, where every order stands.
func (v *solver) windows(i int, c class) [2]window {
	ws := v.clear[i].windows(c.sure)
	for k := range ws {
		ws[k].hi = min(ws[k].hi, v.clear[i].free)
		if c.width >= 0 {
			ws[k] = ws[k].meet(window{c.width, c.width})
		}
	}
	return ws
}

// has reports whether family i can be in the class by its number of doors.
func (v *solver) has(i int, c class) bool {
	return c.doors < 0 || int(c.doors) == v.families[i].doors
}

// descend shows the podium the runs of a class: those with the best value of
// the first key, then the next value, until the podium is full. Runs of a later
// value are worse than all shown before, so nothing else has to be looked at.
func (v *solver) descend(rank []Key, c class) {
	if v.podium.full() || v.cause != nil {
		return
	}
	if len(rank) == 0 {
		v.walkPriced(c)
		return
	}
	switch rank[0] {
	case BySure:
		for _, sure := range []int8{1, 0} {
			c.sure = sure
			v.descend(rank[1:], c)
		}
	case ByDoors:
		for n := int8(MinDoors); n <= MaxDoors; n++ {
			c.doors = n
			v.descend(rank[1:], c)
		}
	case ByWidth:
		for at := v.nextWidth(c, 0); at < none && !v.podium.full() && v.work(1); at = v.nextWidth(c, at+1) {
			next := c
			next.width = at
			if c.access >= 0 || c.price >= 0 || !v.compareFew(next, noPrice) {
				v.descend(rank[1:], next)
			}
		}
	case ByAccess:
		v.byAccess(rank, c)
	case ByPrice:
		if c.access >= 0 {
			v.priceByPrice(rank, c)
		} else {
			v.byPrice(rank, c)
		}
	case ByEven:
		v.byEven(c)
	}
}

// walkPriced walks through a class, with the exact bounds of its price where that takes long.
func (v *solver) walkPriced(c class) {
	if c.price < 0 || c.price == noPrice || v.pricing.live != nil {
		v.walk(c)
		return
	}
	before := slices.Clone(v.podium.kept)
	if v.hurry(c, c.price, func() { v.walk(c) }) {
		v.podium.kept = append(v.podium.kept[:0], before...)
		v.walk(c)
	}
}

// nextWidth is the least total width from at up that a class can have, or none.
func (v *solver) nextWidth(c class, at int64) int64 {
	least := int64(none)
	for i := range v.families {
		if !v.has(i, c) {
			continue
		}
		n := v.families[i].doors
		for _, w := range v.windows(i, c) {
			w.lo = max(w.lo, at)
			if w.hi = min(w.hi, least-1); w.empty() {
				continue
			}
			if sum := nextBit(v.grid.top[n], v.grid.up(n, w.lo)); sum <= v.grid.down(n, w.hi) {
				least = v.grid.total(n, sum)
			}
		}
	}
	return least
}

// byAccess goes through the greatest totals of one track, the least first.
func (v *solver) byAccess(rank []Key, c class) {
	var of []tracks
	for i := range v.families {
		if !v.has(i, c) {
			continue
		}
		for _, w := range v.windows(i, c) {
			if w.empty() {
				continue
			}
			t := v.tracks(i, w)
			t.next(0)
			of = append(of, t)
		}
	}
	for !v.podium.full() && v.work(1) {
		widest := int64(-1)
		for i := range of {
			if of[i].stack < none {
				widest = max(widest, of[i].span-of[i].stack)
			}
		}
		if widest < 0 {
			return
		}
		next := c
		next.access = widest
		v.descend(rank[1:], next)
		for i := range of {
			if of[i].stack < none && of[i].span-of[i].stack == widest {
				of[i].next(of[i].stack + 1)
			}
		}
	}
}

// each walks through the sets of a class that cost no more than the limit, which
// may fall meanwhile: each set once for every number of overlaps that its total
// closes with.
func (v *solver) each(c class, limit *int64, visit func(set []int16) bool) {
	for i := range v.families {
		if !v.has(i, c) || v.seenBefore(i) {
			continue
		}
		n := v.families[i].doors
		s := sets{solver: v, doors: n, limit: limit, visit: visit}
		for _, w := range v.windows(i, c) {
			v.judge.overlaps = v.families[i].overlaps
			if s.lo, s.hi = v.grid.up(n, w.lo), v.grid.down(n, w.hi); s.lo <= s.hi && !s.place(0, len(v.grid.d)-1, 0, 0) {
				return
			}
		}
	}
}

// seenBefore reports whether an earlier family has the same totals.
func (v *solver) seenBefore(i int) bool {
	for k := range i {
		if v.families[k].doors == v.families[i].doors && v.families[k].overlaps == v.families[i].overlaps {
			return true
		}
	}
	return false
}

// byPrice finds the prices that come onto the podium, then the runs. When few
// sets cost that little they are compared one by one; when many cost the same
// the rest of the rank decides among those of one price after the other.
func (v *solver) byPrice(rank []Key, c class) {
	prices := v.cheapestPrices(c)
	if len(prices) == 0 || v.cause != nil {
		return
	}
	if v.compareFew(c, prices[len(prices)-1]) {
		return
	}
	for i, price := range prices {
		if i == 0 || price != prices[i-1] {
			c.price = price
			v.descend(rank[1:], c)
		}
	}
}

// compareFew compares the sets of a class that cost no more than a limit one by
// one, where there are few for the runs still wanted; else it reports false.
func (v *solver) compareFew(c class, limit int64) bool {
	few := 64 + 4*v.podium.wanted()
	v.each(c, &limit, func(set []int16) bool {
		if limit == noPrice || v.pricing.of(set) <= limit {
			few--
		}
		return few >= 0
	})
	if few < 0 || v.cause != nil {
		return false
	}
	v.each(c, &limit, func(set []int16) bool {
		if v.pricing.of(set) <= limit {
			v.judge.show(set, c)
		}
		return true
	})
	return true
}

// hullSteps is how long the walk for the cheapest prices goes on with the hull as
// its bound before the exact bounds are built.
const hullSteps = 20_000

// cheapestPrices is the least prices of the runs in a class, ascending, as many
// as are still wanted, or all. The limit starts at a bound from below and
// grows until it lets enough through, so that little more is ever walked through.
func (v *solver) cheapestPrices(c class) []int64 {
	v.pricing.reset()
	best := least[int64]{limit: v.podium.wanted(), compare: func(a, b *int64) int { return cmp.Compare(*a, *b) }}
	limit := v.leastPrice(c)
	for grow := max(1, v.pricing.unit, limit>>16); v.cause == nil; {
		if limit >= unpricedLeast {
			limit = noPrice // the last round: with those that have no price
		}
		best.kept = best.kept[:0]
		most := limit
		each := func(set []int16) bool {
			price := v.pricing.of(set)
			if price > most {
				return true
			}
			for range min(v.runs(len(set)), best.limit) {
				best.show(price)
			}
			if best.full() {
				// Only cheaper ones can change the answer now; every price is below unpricedLeast.
				most = min(*best.last(), unpricedLeast) - 1
			}
			return true
		}
		if v.hurry(c, limit, func() { v.each(c, &most, each) }) {
			continue
		}
		if best.full() || limit == noPrice {
			return best.sorted()
		}
		limit += grow
		grow *= 2
		v.pricing.reset()
	}
	return nil
}

// hurry does a walk within a limit of the price with the hull as its bound. When
// that takes long it breaks off, builds the exact bounds and says that the walk is to be done again.
func (v *solver) hurry(c class, limit int64, walk func()) (again bool) {
	if v.pricing.live == nil {
		v.pause = v.steps + cmp.Or(v.search.hull, hullSteps)
	}
	walk()
	again = v.pause > 0 && v.steps > v.pause
	if v.pause = 0; again {
		v.enliven(c, limit)
	}
	return again
}

// runs is how many runs each of the sets walked through makes, one for every pattern.
func (v *solver) runs(doors int) int {
	n := 0
	for i := range v.families {
		if f := &v.families[i]; f.doors == doors && f.overlaps == v.judge.overlaps {
			n += len(f.patterns)
		}
	}
	return n
}

// enliven finds the widths that a run of a class within a limit may have, by the
// bound for what stands beside one door of each, and builds the exact bounds of those.
func (v *solver) enliven(c class, limit int64) {
	live, last := make([]bool, len(v.grid.d)), len(v.grid.d)-1
	for i := range v.families {
		if !v.has(i, c) || v.seenBefore(i) {
			continue
		}
		n := v.families[i].doors
		for _, w := range v.windows(i, c) {
			lo, hi := v.grid.up(n, w.lo), v.grid.down(n, w.hi)
			for x, d := range v.grid.d {
				if lo <= hi && lo-d <= int64(n-1)*v.grid.d[last] && d <= hi && !live[x] {
					live[x] = limit == noPrice || v.pricing.total(n, v.pricing.least[x], n-1, lo-d) <= limit
				}
			}
		}
	}
	v.pricing.live = live
	v.cause = v.pricing.build(v.ctx, v.most, &v.far)
}

// leastPrice is a bound from below of the prices in a class.
func (v *solver) leastPrice(c class) int64 {
	least := int64(noPrice)
	for i := range v.families {
		if !v.has(i, c) {
			continue
		}
		n := v.families[i].doors
		for _, w := range v.windows(i, c) {
			if lo := v.grid.up(n, w.lo); v.some(i, w, c) && lo <= int64(n)*v.grid.d[len(v.grid.d)-1] {
				least = min(least, v.pricing.total(n, 0, n, lo))
			}
		}
	}
	return least
}

// priceByPrice goes through the runs of a class from one price to the next: where
// the access is fixed, which most sets of the right price do not have.
func (v *solver) priceByPrice(rank []Key, c class) {
	v.pricing.reset()
	for above := int64(-1); !v.podium.full(); above = c.price {
		price, some := v.nextPrice(c, above)
		if !some {
			return
		}
		c.price = price
		v.descend(rank[1:], c)
	}
}

// nextPrice is the least price above another in a class whatever its price, and
// false when there is none. The limit starts at a bound from below and grows until there is one.
func (v *solver) nextPrice(c class, above int64) (price int64, some bool) {
	c.price = -1
	limit := max(v.leastPrice(c), above+1)
	for grow := max(1, v.pricing.unit, limit>>16); v.cause == nil; {
		if limit >= unpricedLeast {
			limit = noPrice
		}
		what := seek{band: band{above, limit}}
		if v.hurry(c, limit, func() { v.seek(c, &what) }) {
			continue
		}
		if what.some || limit == noPrice {
			return what.found, what.some
		}
		limit += grow
		grow *= 2
		v.pricing.reset()
	}
	return 0, false
}

// tight looks at the runs with so much overlap that not every order of them can
// stand closed, one total after the other, where any could come onto the podium.
// They take doors narrower than two of their overlaps, so there are hardly ever any.
func (v *solver) tight() {
	g := &v.grid
	for i := range v.families {
		f, c := &v.families[i], &v.clear[i]
		w := window{max(c.closes.lo, c.free+1), c.closes.hi}
		if v.seenBefore(i) || w.empty() {
			continue
		}
		n := f.doors
		for sum := nextBit(g.top[n], g.up(n, w.lo)); sum <= g.down(n, w.hi) && v.work(1); sum = nextBit(g.top[n], sum+1) {
			total := g.total(n, sum)
			ideal := score(f, c, total, min(v.pricing.total(n, 0, n, sum), noPrice))
			ideal.Access -= units.Length(ceilDiv(total, int64(v.search.Gear.Tracks)))
			if v.podium.beats(&ideal) {
				v.sets(i, window{total, total}, judgeTight)
			}
		}
	}
}

// every looks at all sets one by one.
func (v *solver) every() {
	for i := range v.families {
		if !v.seenBefore(i) {
			v.sets(i, v.clear[i].closes, judgeAll)
		}
	}
}

// sets shows the podium the runs of every set in a window of family i and its like.
func (v *solver) sets(i int, w window, which region) {
	limit, n := int64(noPrice), v.families[i].doors
	v.judge.region, v.judge.overlaps = which, v.families[i].overlaps
	s := sets{solver: v, doors: n, limit: &limit, visit: func(set []int16) bool {
		v.judge.show(set, anything)
		return true
	}}
	if s.lo, s.hi = v.grid.up(n, w.lo), v.grid.down(n, w.hi); s.lo <= s.hi {
		s.place(0, len(v.grid.d)-1, 0, 0)
	}
}

// alike looks at the sets of doors of one width.
func (v *solver) alike() {
	v.judge.region = judgeAll
	var set [MaxDoors]int16
	for n := MinDoors; n <= MaxDoors; n++ {
		for k := range v.width {
			for i := range n {
				set[i] = int16(k)
			}
			if !v.work(1) {
				return
			}
			v.judge.show(set[:n], anything)
		}
	}
}
