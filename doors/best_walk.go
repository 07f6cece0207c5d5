package doors

import (
	"slices"
	"sort"

	"example.com/lapspan/units"
)

// walker walks through the orders of one pattern whose total lies in a window,
// the narrower door at the left first, and shows those that are the order
// offered of their set. Four things hold of an order offered where every order
// stands; each turns a part of the walk back:
//
//   - on one track the doors do not grow from left to right: two of them changed
//     over would put the larger one leftmost and leave the totals alike;
//   - of two tracks with as many doors, where their first, second, … doors differ
//     for the first time, the larger one stands further left: all the doors of the
//     two tracks could change over;
//   - a door that is narrower than a later one on another track is so because
//     changing them over would make its track wider than the widest is;
//   - a door of the one widest track is narrower than one on another track, or
//     changing them over would make that other track at least as wide.
type walker struct {
	solver  *solver
	family  *family
	clear   *clearance
	pattern *pattern
	rooms   [MaxTracks]int8
	class   class
	lo, hi  int64            // of the sum of d
	stack   int64            // what the widest track must take, or -1
	room    [MaxTracks]int64 // of d, what each track may take
	seek    *seek
	band    *band      // of unevenness; where even is set
	first   int        // the number of the first door; where seek and even are not set
	even    *evenTotal // not nil: of that total alone
	at      [MaxDoors]int16
	on      [MaxTracks][MaxDoors]int16 // the same by track
	dealer  dealer
	placed  [MaxDoors + 1]state // with so many doors placed
}

// band is the values that are looked at: more than above and no more than most.
type band struct{ above, most int64 }

// seek is what a walk is for that looks for the least price in a band instead of
// showing runs: the band shrinks to below what is found.
type seek struct {
	band
	found int64
	some  bool // found is set
}

// state is what the doors placed so far leave to the others.
type state struct {
	sum   [MaxTracks]int64            // of d, by track
	left  [MaxTracks]int8             // doors to come
	most  [MaxTracks]int16            // the widest number that may come
	rise  [MaxTracks]int64            // the least by which a later door elsewhere is wider than one here
	fall  [MaxTracks][MaxTracks]int64 // the least by which a door here is wider than one there
	total int64                       // of d
	price int64
	seen  window // from the least to the most that is seen of one door; where even is set
}

// front is a pattern with the least number that its first door may have in runs not yet walked through.
type front struct {
	walker  *walker
	pattern *pattern
	first   int
}

// walk shows the podium the runs of a class, which agree in all keys, so that only
// their widths and tracks tell them apart: those with the narrowest first door,
// on whatever pattern, then the next, until none can come onto the podium.
func (v *solver) walk(c class) {
	v.fronts = v.fronts[:0]
	v.eachWalker(c, nil, func(k *walker) {
		var least [MaxDoors]int // by how many doors stand on the track of the first; they know no other difference
		for p := range k.family.patterns {
			k.begin(&k.family.patterns[p])
			x := &least[k.rooms[k.pattern.tracks[0]]]
			if *x == 0 {
				*x = 1 + k.leastFirst()
			}
			if *x <= len(v.width) {
				v.fronts = append(v.fronts, front{k, k.pattern, *x - 1})
			}
		}
	})
	least := len(v.width)
	for _, f := range v.fronts {
		least = min(least, f.first)
	}
	for first := least; first < len(v.width); first++ {
		if v.podium.full() && int64(v.podium.last().Run.doors[0].Width) < v.width[first] {
			return
		}
		for i := range v.fronts {
			f := &v.fronts[i]
			if f.first > first {
				continue
			}
			f.walker.begin(f.pattern)
			f.walker.first = first
			if f.walker.run(); !v.work(0) {
				return
			}
		}
	}
}

// leastFirst is the least number that the first door may have by what can be
// told of all doors, and past the last where there is none.
func (k *walker) leastFirst() int {
	t := k.pattern.tracks[0]
	return sort.Search(len(k.solver.width), func(x int) bool {
		s := k.placed[0]
		for o, n := range k.rooms {
			if n == k.rooms[t] {
				s.most[o] = int16(x) // as many doors, the first of them further right
			}
		}
		return k.solver.work(1) && k.possible(&s)
	})
}

// seek seeks the least price of a class in a band.
func (v *solver) seek(c class, what *seek) {
	v.eachWalker(c, what, func(k *walker) {
		for p := range k.family.patterns {
			k.begin(&k.family.patterns[p])
			if k.run(); !v.work(0) {
				return
			}
		}
	})
}

// eachWalker hands do a walker for each family and window of a class in which there can be runs.
func (v *solver) eachWalker(c class, what *seek, do func(*walker)) {
	v.walkers = v.walkers[:0]
	for i := range v.families {
		if !v.has(i, c) {
			continue
		}
		for _, w := range v.windows(i, c) {
			if v.some(i, w, c) {
				v.walkers = append(v.walkers, walker{})
				v.walkers[len(v.walkers)-1].set(v, i, w, c, what)
			}
		}
	}
	for i := range v.walkers {
		do(&v.walkers[i])
	}
}

// some reports whether there can be runs of family i in a class with a total in a window.
func (v *solver) some(i int, w window, c class) bool {
	n := v.families[i].doors
	if v.grid.up(n, w.lo) > v.grid.down(n, w.hi) {
		return false
	}
	if c.access < 0 {
		return true
	}
	t := v.tracks(i, w)
	stack := v.clear[i].span - c.access
	return stack >= 0 && t.possible(stack)
}

// set turns a walker to family i with totals in a window.
func (k *walker) set(v *solver, i int, w window, c class, what *seek) {
	f := &v.families[i]
	k.solver, k.family, k.clear, k.class, k.seek = v, f, &v.clear[i], c, what
	k.lo, k.hi, k.stack = v.grid.up(f.doors, w.lo), v.grid.down(f.doors, w.hi), -1
	if c.access >= 0 {
		k.stack = k.clear.span - c.access
	}
}

// begin turns to a pattern, of which no door is placed.
func (k *walker) begin(p *pattern) {
	k.pattern, k.rooms = p, p.rooms()
	s := &k.placed[0]
	*s = state{left: k.rooms}
	for t, n := range k.rooms {
		if k.room[t] = none; k.stack >= 0 {
			k.room[t] = k.solver.grid.down(int(n), k.stack)
		}
		s.most[t] = int16(len(k.solver.grid.d) - 1)
		s.rise[t] = none
		s.fall[t] = [MaxTracks]int64{none, none, none, none}
	}
	s.seen = window{none, -none}
}

// run walks through the orders of the pattern begun.
func (k *walker) run() {
	if k.solver.work(walkStep) && k.possible(&k.placed[0]) {
		k.place(0)
	}
}

// place places door i and those right of it; false when the walk has to stop.
func (k *walker) place(i int) bool {
	g, t := &k.solver.grid, k.pattern.tracks[i]
	s, next := &k.placed[i], &k.placed[i+1]
	others := int64(0)
	for o, n := range s.left {
		if o != int(t) {
			others += min(s.sum[o]+int64(n)*g.d[s.most[o]], k.room[o])
		}
	}
	from, most := g.atLeast(ceilDiv(k.lo-others-s.sum[t], int64(s.left[t]))), int(k.widest(t, s))
	if k.stack >= 0 {
		most = min(most, g.atLeast(k.room[t]-s.sum[t]+1)-1)
	}
	switch {
	case k.even != nil:
		from, most = k.bounds(i, s, from, most)
	case k.seek == nil && i == 0:
		from, most = max(from, k.first), min(most, k.first)
	}
	for x := from; x <= most; x++ {
		if s.total+g.d[x] > k.hi {
			return true
		}
		if live := k.solver.pricing.live; live != nil && !live[x] && k.limit() < noPrice {
			continue
		}
		k.at[i] = int16(x)
		if k.beyond(i) {
			return true
		}
		if !k.solver.work(walkStep) {
			return false
		}
		*next = *s
		if k.even != nil && !k.sees(i, next) {
			continue
		}
		next.put(k, i, int16(x))
		if !k.possible(next) {
			if k.tooWide(t, s, next) {
				return true
			}
			continue
		}
		if i+1 < k.pattern.doors {
			if !k.place(i + 1) {
				return false
			}
		} else {
			k.show(next)
		}
	}
	return true
}

// widest is the widest number that may come next on track t.
func (k *walker) widest(t int8, s *state) int16 {
	most := s.most[t]
	next := k.rooms[t] - s.left[t]
	for o, n := range k.rooms {
		if o != int(t) && n == k.rooms[t] && n-s.left[o] > next && slices.Equal(k.on[o][:next], k.on[t][:next]) {
			most = min(most, k.on[o][next])
		}
	}
	return most
}

// put places number x as door i.
func (s *state) put(k *walker, i int, x int16) {
	g, t := &k.solver.grid, k.pattern.tracks[i]
	if s.left[t] == k.rooms[t] {
		for o, n := range k.rooms {
			if o != int(t) && n == k.rooms[t] && s.left[o] == n {
				s.most[o] = min(s.most[o], x)
			}
		}
	}
	k.on[t][k.rooms[t]-s.left[t]] = x
	s.sum[t] += g.d[x]
	s.total += g.d[x]
	s.left[t]--
	s.most[t] = x
	s.price += k.solver.pricing.least[x]
	s.exchange(k, i)
}

// beyond reports whether the doors up to i come after the last run of a full
// podium, which then has to be equal in all keys.
func (k *walker) beyond(i int) bool {
	if k.even != nil || k.seek != nil || !k.solver.podium.full() {
		return false
	}
	last := &k.solver.podium.last().Run
	for n := range i + 1 {
		if n == last.count {
			return true
		}
		w := k.solver.width[k.at[n]]
		if d := w - int64(last.doors[n].Width); d != 0 {
			return d > 0
		}
	}
	return false
}

// possible reports whether the doors to come may make an order offered of the
// class. It never denies what is possible.
func (k *walker) possible(s *state) bool {
	g := &k.solver.grid
	least, most := k.lo-s.total, k.hi-s.total
	rest := 0
	var store [MaxTracks]share
	shares := store[:0]
	var widest [MaxTracks]int64 // no less than the track's total
	highest := k.stack          // no more than the widest track comes to
	for t, n := range k.rooms {
		if n == 0 {
			continue
		}
		left := int64(s.left[t])
		widest[t] = g.total(int(n), s.sum[t]+left*g.d[s.most[t]])
		room := int64(none)
		if k.stack >= 0 {
			widest[t] = min(widest[t], k.stack)
			if room = k.room[t] - s.sum[t]; room < 0 {
				return false
			}
		}
		highest = max(highest, g.total(int(n), s.sum[t]))
		if left > 0 {
			shares = append(shares, share{g.row(int(left), int(s.most[t])), 0, room})
		}
		rest += int(left)
	}
	if k.stack < 0 && !k.narrow(s, &widest) {
		return false
	}
	if k.stack >= 0 && !slices.Contains(widest[:], k.stack) {
		return false
	}
	highest = max(highest, level(widest, g.total(k.pattern.doors, k.lo)))
	for t, n := range k.rooms {
		if n > 0 && s.rise[t] < none && widest[t]+s.rise[t] <= highest {
			return false
		}
	}
	if k.lopsided(s, &widest) {
		return false
	}
	probes := 0
	reaches := reach(shares, least, most, &probes)
	if k.solver.work(probes / 8); !reaches {
		return false
	}
	limit := k.limit()
	return limit == noPrice || k.solver.pricing.total(k.pattern.doors, s.price, rest, least) <= limit && (k.stack < 0 || k.trackPrices(s) <= limit)
}

// level is the least that the widest track comes to when tracks that can be at most
// so wide come to a total.
func level(widest [MaxTracks]int64, total int64) int64 {
	slices.Sort(widest[:])
	for i, w := range widest {
		if at := ceilDiv(total, int64(len(widest)-i)); at <= w {
			return at
		}
		total -= w
	}
	return none
}

// maxSpare bounds the steps of room to spare that trackPrices shares out.
const maxSpare = 16

// trackPrices is no more than the run will cost, by what each track must come to:
// the room there is on all tracks, less what may stay empty of it, which is
// shared out to the tracks in the cheapest way.
func (k *walker) trackPrices(s *state) int64 {
	g, pricing := &k.solver.grid, k.solver.pricing
	spare := -k.lo
	var room [MaxTracks]int64 // for the doors to come
	for t, n := range k.rooms {
		if n > 0 {
			room[t] = min(k.room[t]-s.sum[t], int64(s.left[t])*g.d[s.most[t]])
			spare += room[t] + s.sum[t]
		}
	}
	if spare < 0 {
		return noPrice
	}
	if spare > maxSpare || pricing.exact[1] == nil {
		sum := s.price
		for t, left := range s.left {
			sum += pricing.bound(int(left), room[t]-spare)
		}
		return pricing.run(k.pattern.doors, sum)
	}
	var cheapest [maxSpare + 1]int64 // with so much or less of the tracks so far empty
	for e := range cheapest[:spare+1] {
		cheapest[e] = s.price
	}
	for t, left := range s.left {
		if left == 0 {
			continue
		}
		for e := spare; e >= 0; e-- {
			least := int64(noPrice)
			for empty := range e + 1 {
				least = min(least, cheapest[e-empty]+pricing.bound(int(left), room[t]-empty))
			}
			cheapest[e] = least
		}
	}
	return pricing.run(k.pattern.doors, cheapest[spare])
}

// limit is the greatest price that is looked at, or noPrice.
func (k *walker) limit() int64 {
	switch {
	case k.seek != nil:
		return k.seek.most
	case k.class.price >= 0:
		return k.class.price
	}
	return noPrice
}

// show shows the podium the order placed, if it is the one offered of its set.
func (k *walker) show(s *state) {
	v, g, n := k.solver, &k.solver.grid, k.pattern.doors
	stack := int64(0)
	for t, doors := range k.rooms {
		if doors > 0 {
			stack = max(stack, g.total(int(doors), s.sum[t]))
		}
	}
	if k.stack >= 0 && stack != k.stack {
		return
	}
	set := k.at
	slices.SortFunc(set[:n], func(a, b int16) int { return int(b) - int(a) })
	price := v.pricing.of(set[:n])
	if k.class.price >= 0 && price != k.class.price {
		return
	}
	if k.seek != nil && (price <= k.seek.above || price > k.seek.most) {
		return
	}
	k.dealer.count = n
	for i, x := range set[:n] {
		k.dealer.widths[i] = v.width[x]
	}
	if k.dealer.least(k.family.rooms, stack) < stack {
		return
	}
	var order [MaxDoors]int8
	k.dealer.leftmost(k.pattern, k.rooms, stack, &order)
	for i := range n {
		if set[order[i]] != k.at[i] {
			return
		}
	}
	if k.seek != nil {
		k.seek.found, k.seek.some, k.seek.most = price, true, price-1
		return
	}
	total := g.total(n, s.total)
	score := score(k.family, k.clear, total, price)
	score.Access = units.Length(k.clear.span - stack)
	if k.even != nil {
		if uneven := s.seen.hi - s.seen.lo; uneven <= k.band.above || uneven > k.most() {
			return
		}
	}
	v.show(k.pattern, &k.at, score, total-k.clear.over)
}

// most is the greatest value in the band that may still come onto the podium.
func (k *walker) most() int64 {
	if p := &k.solver.podium; p.full() {
		return min(k.band.most, p.last().Score.Uneven)
	}
	return k.band.most
}
