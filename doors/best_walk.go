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
}

// walk shows the podium the runs of a class, all or those in a band. Without a band
// they agree in all keys, so that only their widths and tracks tell them apart.
func (v *solver) walk(c class, in *band) {
	for i := range v.families {
		if !v.has(i, c) {
			continue
		}
		f := &v.families[i]
		for _, w := range v.windows(i, c) {
			k := walker{
				solver: v, family: f, clear: &v.clear[i], class: c, band: in,
				lo: v.grid.up(f.doors, w.lo), hi: v.grid.down(f.doors, w.hi), stack: -1,
			}
			if k.lo > k.hi {
				continue
			}
			if c.access >= 0 {
				k.stack = k.clear.span - c.access
				t := v.tracks(i, w)
				if k.stack < 0 || !t.possible(k.stack) {
					continue
				}
			}
			for p := range f.patterns {
				k.begin(&f.patterns[p])
				if v.cause != nil {
					return
				}
			}
		}
	}
}

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
	if k.solver.work(walkStep) && k.possible(s) {
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
	most := int(k.widest(t, s))
	for x := g.atLeast(ceilDiv(k.lo-others-s.sum[t], int64(s.left[t]))); x <= most; x++ {
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
		next.put(k, i, int16(x))
		if !k.possible(next) {
			if k.tooWide(t, s, next) {
				return true
			}
			continue
		}
		if k.band != nil && k.band.key == ByEven && k.looks(i) > k.most() {
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
	for before, y := range k.at[:i] {
		o := k.pattern.tracks[before]
		if by := (g.d[x] - g.d[y]) * g.step; o != t && by > 0 {
			s.rise[o] = min(s.rise[o], by)
			s.fall[t][o] = min(s.fall[t][o], by)
		} else if o != t && by < 0 {
			s.fall[o][t] = min(s.fall[o][t], -by)
		}
	}
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

// lopsided reports whether one track will be the only widest, and changing over
// one of its doors with a narrower one elsewhere would make it narrower and no other as wide.
func (k *walker) lopsided(s *state, widest *[MaxTracks]int64) bool {
	rest := k.solver.grid.total(k.pattern.doors, k.lo)
	for _, w := range widest {
		rest -= w
	}
	for t, n := range k.rooms {
		if n == 0 {
			continue
		}
		least := max(k.solver.grid.total(int(n), s.sum[t]), rest+widest[t])
		only, over := true, false
		for o := range k.rooms {
			if o != t && k.rooms[o] > 0 {
				only = only && widest[o] < least
				over = over || s.fall[t][o] < none && widest[o]+s.fall[t][o] < least
			}
		}
		if only && over {
			return true
		}
	}
	return false
}

// tooWide reports whether track t is lopsided by what stands on it, so that a
// wider door in place of the last one leaves it so: the track grows as much as
// the difference of two doors can.
func (k *walker) tooWide(t int8, before, s *state) bool {
	g := k.solver.grid
	if before.left[t] == k.rooms[t] {
		return false // other tracks may have to begin with a door no wider
	}
	least, over := g.total(int(k.rooms[t]), s.sum[t]), false
	for o, n := range k.rooms {
		if o == int(t) || n == 0 {
			continue
		}
		widest := g.total(int(n), s.sum[o]+int64(s.left[o])*g.d[s.most[o]])
		if widest >= least {
			return false
		}
		over = over || s.fall[t][o] < none && widest+s.fall[t][o] < least
	}
	return over
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
		if k.band.key == ByEven {
			var widths [MaxDoors]int64
			for i := range n {
				widths[i] = v.width[k.at[i]]
			}
			value = k.pattern.uneven(&widths, total-k.clear.over)
		}
		if value <= k.band.above || value > k.band.most {
			return
		}
	}
	v.show(k.pattern, &k.at, score, total-k.clear.over)
}

// byEven goes through the runs of a class by how uneven they look, in bands that
// start at none and grow until enough runs lie in them.
func (v *solver) byEven(c class) {
	const widest = UnevenParts * int64(units.MaxLength)
	in := band{ByEven, -1, 0}
	for grow := UnevenParts * v.grid.step; v.cause == nil; grow *= 2 {
		v.walk(c, &in)
		if v.podium.full() || in.most >= widest {
			return
		}
		in.above, in.most = in.most, min(widest, in.most+grow)
	}
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

// looks is no more than how uneven the run will look, by what is seen of door i
// and of those left of it. How much is seen depends on the total, which lies in a
// window: between its two ends the difference of two doors changes evenly.
func (k *walker) looks(i int) int64 {
	g, p, n := k.solver.grid, k.pattern, k.pattern.doors
	from, to := g.total(n, k.lo)-k.clear.over, g.total(n, k.hi)-k.clear.over
	uneven := int64(0)
	for a := range i {
		for b := a + 1; b <= i; b++ {
			x, y := k.solver.width[k.at[a]], k.solver.width[k.at[b]]
			first := p.seen(a, x, from) - p.seen(b, y, from)
			last := p.seen(a, x, to) - p.seen(b, y, to)
			switch {
			case first > 0 && last > 0:
				uneven = max(uneven, min(first, last))
			case first < 0 && last < 0:
				uneven = max(uneven, min(-first, -last))
			}
		}
	}
	return uneven
}
