package cutlist

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// The bounds of the direct search. Within them its whole state is a few kilobytes on the stack.
const (
	directKinds  = 16
	directLines  = 16
	directPieces = 48
	directWork   = 40_000 // steps, well under a millisecond
	frontSteps   = 100    // before the front is worth its time
	frontSize    = 512
)

// fitsDirect reports whether the direct search can take the problem on.
func (p *problem) fitsDirect() bool {
	return len(p.kinds) <= directKinds && len(p.lines) <= directLines && p.pieces <= directPieces
}

// A rank is what plans are ordered by: cost, then bars, then the longest offcut.
type rank struct {
	cost   int64
	bars   int
	offcut int64
}

func (r rank) better(o rank) bool {
	if r.cost != o.cost {
		return r.cost < o.cost
	}
	if r.bars != o.bars {
		return r.bars < o.bars
	}
	return r.offcut > o.offcut
}

// directBar is one bar of the direct search: how many of each kind it holds.
type directBar struct {
	take [directKinds]uint8
	line uint8
}

// direct tries every plan that could be the best, bar by bar. Each bar holds the longest piece still
// to cut, so no plan is met twice in another order of its bars.
//
// Call the bar with the longest offcut the kept bar. Moving a piece from a later bar into an earlier one
// that has room for it makes no plan worse, unless the earlier one is the kept bar. So there is a best
// plan in which every bar but the kept one is full: it has no room for any piece of a later bar. Only such
// plans are tried.
type direct struct {
	p     *problem
	limit int // steps allowed
	steps int

	left     [directLines]int // bars left of each line
	order    [directLines]uint8
	need     [directKinds]uint8
	cheapest [directKinds]int64 // of the lines that hold the kind
	outgrow  [directLines]int64 // room of the longest cheaper line without limit: such a bar holds more
	longest  int64              // room of the longest line
	rate     int                // the line with the least cost for its room

	bars   [directPieces]directBar
	now    rank  // of the bars so far
	rest   int64 // size of the pieces still to cut
	kept   int   // the bar that may take further pieces, −1 while there is none
	target int64 // a plan must cost less than this

	fronted bool
	front   []offer // what money buys, once the search turns out to be worth it

	best      rank
	bestBars  [directPieces]directBar
	exhausted bool
}

// run searches and reports whether it came to an end within its limit. best.bars is 0 if there is no plan.
func (d *direct) run() bool {
	p := d.p
	d.kept = -1
	if d.target == 0 {
		d.target = math.MaxInt64
	}
	d.best = rank{cost: d.target}
	for j := range p.lines {
		l := &p.lines[j]
		d.left[j] = l.count
		d.longest = max(d.longest, l.room)
		for k := range p.lines {
			if o := &p.lines[k]; o.free && o.cost < l.cost {
				d.outgrow[j] = max(d.outgrow[j], o.room)
			}
		}
		if less(l.cost, l.room, p.lines[d.rate].cost, p.lines[d.rate].room) {
			d.rate = j
		}
		// The cheapest for its room first, so that the first plan is a good one.
		k := j
		for ; k > 0 && less(l.cost, l.room, p.lines[d.order[k-1]].cost, p.lines[d.order[k-1]].room); k-- {
			d.order[k] = d.order[k-1]
		}
		d.order[k] = uint8(j)
	}
	for i := range p.kinds {
		k := &p.kinds[i]
		d.need[i] = uint8(k.need)
		d.rest += k.size * int64(k.need)
		d.cheapest[i] = math.MaxInt64
		for j := range p.lines {
			if l := &p.lines[j]; l.room >= k.size {
				d.cheapest[i] = min(d.cheapest[i], l.cost)
			}
		}
	}
	d.exhausted = true
	d.next()
	return d.exhausted
}

// less compares a/b with c/d; all are ≥ 0 and b and d positive.
func less(a, b, c, d int64) bool {
	h1, l1 := bits.Mul64(uint64(a), uint64(d))
	h2, l2 := bits.Mul64(uint64(c), uint64(b))
	return h1 < h2 || h1 == h2 && l1 < l2
}

// shareUp returns a × b / c rounded up, for a ≤ c × (bars of a plan).
func shareUp(a, b, c int64) int64 {
	h, l := bits.Mul64(uint64(a), uint64(b))
	q, r := bits.Div64(h, l, uint64(c))
	if r > 0 {
		q++
	}
	return int64(q)
}

// An offer is a set of bars by what it costs and the room it has.
type offer struct {
	cost, room int64
}

// buildFront lists every set of bars that costs no more than the best plan, by rising cost, leaving out
// those that have no more room than a cheaper one. It stays empty where there are too many.
func (d *direct) buildFront() {
	all := make([]offer, 1, frontSize)
	for j := range d.p.lines {
		l := &d.p.lines[j]
		for from, n := 0, 1; n <= l.count; n++ {
			end := len(all)
			for _, o := range all[from:end] {
				o.cost, o.room = o.cost+l.cost, o.room+l.room
				if o.cost > d.best.cost {
					continue
				}
				if len(all) == frontSize {
					return
				}
				all = append(all, o)
			}
			if from = end; len(all) == end {
				break
			}
		}
	}
	slices.SortFunc(all, func(a, b offer) int {
		if a.cost != b.cost {
			return cmp.Compare(a.cost, b.cost)
		}
		return cmp.Compare(b.room, a.room)
	})
	front := all[:1]
	for _, o := range all[1:] {
		if o.room > front[len(front)-1].room {
			front = append(front, o)
		}
	}
	d.front = front
}

// price returns the least cost of bars with this room in all.
func (d *direct) price(room int64) int64 {
	low, high := 0, len(d.front)
	for low < high {
		if mid := (low + high) / 2; d.front[mid].room < room {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if low == len(d.front) {
		return math.MaxInt64 / 2
	}
	return d.front[low].cost
}

// room returns the greatest room of bars that cost no more than this in all.
func (d *direct) room(cost int64) int64 {
	low, high := 0, len(d.front)
	for low < high {
		if mid := (low + high) / 2; d.front[mid].cost <= cost {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return d.front[low-1].room
}

// hopeless reports whether no completion of the bars so far is better than the best plan.
func (d *direct) hopeless() bool {
	p := d.p
	// By material: no bar holds more than the longest.
	bars := int((d.rest + d.longest - 1) / d.longest)
	if d.steps > frontSteps && !d.fronted && d.best.bars > 0 {
		d.fronted = true
		d.buildFront()
	}
	cost := d.material(d.rest)
	// By number: no two pieces of more than half the longest bar share one.
	bigBars, bigCost := 0, int64(0)
	for i := range p.kinds {
		if 2*p.kinds[i].size <= d.longest {
			break
		}
		bigBars += int(d.need[i])
		bigCost += int64(d.need[i]) * d.cheapest[i]
	}
	bars, cost = max(bars, bigBars), max(cost, bigCost)
	cost += d.now.cost
	bars += d.now.bars
	if cost != d.best.cost {
		return cost > d.best.cost
	}
	if bars != d.best.bars {
		return bars > d.best.bars
	}
	// Only a longer offcut could still be better.
	if d.kept >= 0 {
		return d.now.offcut <= d.best.offcut
	}
	slack := int64(d.best.bars-d.now.bars)*d.longest - d.rest
	if d.front != nil {
		slack = min(slack, d.room(d.best.cost-d.now.cost)-d.rest)
	}
	return max(d.now.offcut, p.offcut(slack)) <= d.best.offcut
}

// next cuts the next bar in every way.
func (d *direct) next() {
	if d.rest == 0 {
		if d.now.better(d.best) {
			d.best = d.now
			copy(d.bestBars[:], d.bars[:d.now.bars])
		}
		return
	}
	if d.hopeless() {
		return
	}
	first := 0
	for d.need[first] == 0 {
		first++
	}
	var after [directKinds + 1]int64 // size of the pieces of a kind and shorter still to cut
	for i := len(d.p.kinds) - 1; i >= first; i-- {
		after[i] = after[i+1] + int64(d.need[i])*d.p.kinds[i].size
	}
	bar := &d.bars[d.now.bars]
	for _, j := range d.order[:len(d.p.lines)] {
		if d.left[j] == 0 || d.p.lines[j].room < d.p.kinds[first].size {
			continue
		}
		*bar = directBar{line: j}
		d.fill(first, first, d.p.lines[j].room, &after)
	}
}

// fill adds pieces of kind i and shorter to the bar that is being cut, whose longest kind is first.
func (d *direct) fill(first, i int, room int64, after *[directKinds + 1]int64) {
	if d.steps++; d.steps > d.limit {
		d.exhausted = false
		return
	}
	kinds := d.p.kinds
	for i < len(kinds) && (d.need[i] == 0 || kinds[i].size > room) {
		i++
	}
	if i == len(kinds) {
		d.close(first, room)
		return
	}
	size := kinds[i].size
	bar := &d.bars[d.now.bars]
	most := uint8(min(int64(d.need[i]), room/size))
	least := uint8(0)
	if i == first {
		least = 1
	}
	for n := most; d.exhausted; n-- {
		left := room - int64(n)*size
		if d.pointless(int(bar.line), left, d.rest-int64(n)*size, after[i+1]) {
			break
		}
		d.need[i] -= n
		d.rest -= int64(n) * size
		bar.take[i] = n
		d.fill(first, i+1, left, after)
		d.need[i] += n
		d.rest += int64(n) * size
		if n == least {
			break
		}
	}
	bar.take[i] = 0
}

// pointless reports whether a bar of line j with this room left, while rest is still to cut after what it
// holds, cannot become part of a better plan with pieces of at most this much more.
func (d *direct) pointless(j int, room, rest, more int64) bool {
	more = min(more, room)
	l := &d.p.lines[j]
	if l.room-room+more <= d.outgrow[j] {
		return true // a cheaper bar does
	}
	if rest -= more; rest == 0 || d.best.bars == 0 {
		return false
	}
	cost := d.now.cost + l.cost + d.material(rest)
	return cost > d.best.cost ||
		cost == d.best.cost && d.now.bars+1+int((rest+d.longest-1)/d.longest) > d.best.bars
}

// material returns what bars for this size cost at least, a multiple of the unit.
func (d *direct) material(size int64) int64 {
	p := d.p
	if len(p.lines) == 1 {
		return (size + d.longest - 1) / d.longest * p.lines[0].cost
	}
	if d.front != nil {
		return d.price(size)
	}
	l := &p.lines[d.rate]
	cost := shareUp(size, l.cost, l.room)
	return (cost + p.unit - 1) / p.unit * p.unit
}

// close ends the bar that is being cut, with room left over, and goes on to the next.
func (d *direct) close(first int, room int64) {
	p := d.p
	full := true
	for i := len(p.kinds) - 1; i >= first && p.kinds[i].size <= room; i-- {
		if d.need[i] > 0 {
			full = false
			break
		}
	}
	if !full && d.kept >= 0 {
		return
	}
	bar := &d.bars[d.now.bars]
	l := &p.lines[bar.line]
	if l.room-room <= d.outgrow[bar.line] {
		return
	}
	if full && d.repeats(first) {
		return
	}
	was, kept := d.now, d.kept
	d.now.cost += l.cost
	d.now.offcut = max(d.now.offcut, p.offcut(room))
	if !full {
		d.kept = d.now.bars
	}
	d.now.bars++
	d.left[bar.line]--
	d.next()
	d.left[bar.line]++
	d.now, d.kept = was, kept
}

// repeats reports whether the bar being cut and the one before it, which hold the same longest kind,
// are met in the other order too. The kept bar may stand anywhere.
func (d *direct) repeats(first int) bool {
	n := d.now.bars
	if n == 0 || d.kept == n-1 {
		return false
	}
	a, b := &d.bars[n-1], &d.bars[n]
	for i := 0; i < first; i++ {
		if a.take[i] != 0 {
			return false
		}
	}
	for i := first; i < len(d.p.kinds); i++ {
		if a.take[i] != b.take[i] {
			return a.take[i] < b.take[i]
		}
	}
	return a.line > b.line
}

// found appends the bars of the best plan to dst, their items to items.
func (d *direct) found(dst []bar, items []item) []bar {
	for i := range d.best.bars {
		b := &d.bestBars[i]
		from := len(items)
		for k := range d.p.kinds {
			if n := b.take[k]; n > 0 {
				items = append(items, item{kind: int32(k), n: int32(n)})
			}
		}
		dst = append(dst, bar{line: int(b.line), items: items[from:len(items):len(items)]})
	}
	return dst
}

// plan returns the best plan of a search that came to its end.
func (d *direct) plan(job *Job) Plan {
	var bars [directPieces]bar
	found := d.found(bars[:0], make([]item, 0, d.p.pieces))
	// Sorted by hand, because what goes through package slices has to be on the heap.
	for i := 1; i < len(found); i++ {
		for k := i; k > 0 && compareBars(found[k], found[k-1]) < 0; k-- {
			found[k], found[k-1] = found[k-1], found[k]
		}
	}
	plan := d.p.plan(job, found)
	plan.Bound, plan.Proven = plan.Cost, true
	return plan
}
