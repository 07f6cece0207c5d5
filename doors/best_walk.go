package doors

import (
	"slices"

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
	used    int64
	class   class
	lo, hi  int64 // of the sum of d
	stack   int64 // what the widest track must take, or -1
	band    *band
	even    *evenTotal // not nil: of that total alone
	at      [MaxDoors]int16
	on      [MaxTracks][MaxDoors]int16 // the same by track
	dealer  dealer
	placed  [MaxDoors + 1]state // with so many doors placed
}

// band is the values of a key that are looked at: more than above and no more than most.
type band struct {
	key         Key // ByEven or ByPrice
	above, most int64
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

// walk shows the podium the runs of a class, all or those in a band of prices. Without
// a band they agree in all keys, so that only their widths and tracks tell them apart.
func (v *solver) walk(c class, in *band) {
	for i := range v.families {
		if !v.has(i, c) {
			continue
		}
		for _, w := range v.windows(i, c) {
			k, some := v.walker(i, w, c, in)
			for p := 0; some && p < len(k.family.patterns); p++ {
				k.begin(&k.family.patterns[p])
				if k.run(); v.cause != nil {
					return
				}
			}
		}
	}
}

// walker returns a walker through the runs of family i with a total in a window, if there can be any.
func (v *solver) walker(i int, w window, c class, in *band) (walker, bool) {
	f := &v.families[i]
	k := walker{
		solver: v, family: f, clear: &v.clear[i], class: c, band: in,
		lo: v.grid.up(f.doors, w.lo), hi: v.grid.down(f.doors, w.hi), stack: -1,
	}
	if k.lo > k.hi {
		return k, false
	}
	if c.access >= 0 {
		k.stack = k.clear.span - c.access
		t := v.tracks(i, w)
		return k, k.stack >= 0 && t.possible(k.stack)
	}
	return k, true
}

// begin turns to a pattern, of which no door is placed.
func (k *walker) begin(p *pattern) {
	k.pattern, k.rooms, k.used = p, p.rooms(), 0
	s := &k.placed[0]
	*s = state{left: k.rooms}
	for t, n := range k.rooms {
		if n > 0 {
			k.used++
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
	g, t := k.solver.grid, k.pattern.tracks[i]
	s, next := &k.placed[i], &k.placed[i+1]
	others := int64(0)
	for o, n := range s.left {
		if o != int(t) {
			others += s.sum[o] + int64(n)*g.d[s.most[o]]
		}
	}
	from, most := g.atLeast(ceilDiv(k.lo-others-s.sum[t], int64(s.left[t]))), int(k.widest(t, s))
	if k.even != nil {
		from, most = k.bounds(i, s, from, most)
	}
	for x := from; x <= most; x++ {
		if s.total+g.d[x] > k.hi {
			return true
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
	g, t := k.solver.grid, k.pattern.tracks[i]
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
	if k.band != nil || !k.solver.podium.full() {
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
	g := k.solver.grid
	least, most := k.lo-s.total, k.hi-s.total
	rest := 0
	var store [MaxTracks]share
	shares := store[:0]
	var widest [MaxTracks]int64 // no less than the track's total
	highest := max(k.stack, ceilDiv(g.total(k.pattern.doors, k.lo), k.used))
	for t, n := range k.rooms {
		if n == 0 {
			continue
		}
		left := int64(s.left[t])
		widest[t] = g.total(int(n), s.sum[t]+left*g.d[s.most[t]])
		room := int64(none)
		if k.stack >= 0 {
			widest[t] = min(widest[t], k.stack)
			if room = g.down(int(n), k.stack) - s.sum[t]; room < 0 {
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
	reaches := k.stack < 0
	for t, n := range k.rooms {
		if n > 0 && k.used > 1 {
			highest = max(highest, ceilDiv(g.total(k.pattern.doors, k.lo)-widest[t], k.used-1))
		}
		reaches = reaches || n > 0 && widest[t] == k.stack
	}
	if !reaches {
		return false
	}
	for t, n := range k.rooms {
		if n > 0 && s.rise[t] < none && widest[t]+s.rise[t] <= highest {
			return false
		}
	}
	if k.lopsided(s, &widest) {
		return false
	}
	probes := 0
	if !reach(shares, least, most, &probes) {
		return false
	}
	limit := k.class.price
	if k.band != nil && k.band.key == ByPrice {
		limit = k.most()
	}
	if limit < 0 || limit == noPrice {
		return true
	}
	return k.solver.pricing.total(k.pattern.doors, s.price, rest, least) <= limit
}

// show shows the podium the order placed, if it is the one offered of its set.
func (k *walker) show(s *state) {
	v, g, n := k.solver, k.solver.grid, k.pattern.doors
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
	total := g.total(n, s.total)
	score := score(k.family, k.clear, total, price)
	score.Access = units.Length(k.clear.span - stack)
	if k.band != nil {
		value := price
		if k.even != nil {
			value = s.seen.hi - s.seen.lo
		}
		if value <= k.band.above || value > k.band.most {
			return
		}
	}
	v.show(k.pattern, &k.at, score, total-k.clear.over)
}

// most is the greatest value in the band that may still come onto the podium.
func (k *walker) most() int64 {
	p := &k.solver.podium
	switch {
	case !p.full():
		return k.band.most
	case k.band.key == ByPrice:
		return min(k.band.most, priceRank(p.last().Score.Price))
	}
	return min(k.band.most, p.last().Score.Uneven)
}
