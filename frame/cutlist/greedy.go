package cutlist

import "slices"

// greedy cuts bar after bar: every line is filled longest piece first, and the bar with the least cost for
// the size it holds is taken.
type greedy struct {
	p     *problem
	need  []int32
	after []int32 // the next kind at or after this one that is still needed; a path is shortened as it is walked
	left  []int
	tried []item
	work  *budget
}

func newGreedy(p *problem, work *budget) *greedy {
	return &greedy{
		p:     p,
		need:  make([]int32, len(p.kinds)),
		after: make([]int32, len(p.kinds)+1),
		left:  make([]int, len(p.lines)),
		work:  work,
	}
}

// whole returns the needs and counts of the whole problem.
func (p *problem) whole() (need []int32, left []int) {
	need = make([]int32, len(p.kinds))
	for i, k := range p.kinds {
		need[i] = int32(k.need)
	}
	left = make([]int, len(p.lines))
	for j, l := range p.lines {
		left[j] = l.count
	}
	return need, left
}

// run completes bars with the pieces of need from the bars of left. Neither is changed. With a tilt a bar
// counts as if it held tilt/64 of its longest piece more, which favours bars that are cheap as a whole over
// those that are cheap for their length. It reports false where the counted stock runs out.
func (g *greedy) run(bars []bar, need []int32, left []int, tilt int64) ([]bar, bool) {
	p := g.p
	copy(g.need, need)
	copy(g.left, left)
	rest := int64(0)
	for i := range g.after {
		g.after[i] = int32(i)
	}
	for i, n := range need {
		rest += int64(n) * p.kinds[i].size
		if n == 0 {
			g.after[i] = int32(i + 1)
		}
	}
	for rest > 0 {
		first := g.find(0)
		var best bar
		bestCost, bestLoad, bestRoom := int64(1), int64(0), int64(0)
		for j := range p.lines {
			l := &p.lines[j]
			if g.left[j] == 0 || l.room < p.kinds[first].size {
				continue
			}
			load := g.fill(j, int(first))
			worth := load + tilt*p.kinds[first].size/64
			// A bar that holds all the rest need only be cheap.
			all, bestAll := load == rest, bestRoom > 0 && bestLoad == rest
			better := bestRoom == 0
			switch {
			case better:
			case all && bestAll:
				better = l.cost < bestCost || l.cost == bestCost && l.room > bestRoom
			default:
				bestWorth := bestLoad + tilt*p.kinds[first].size/64
				better = less(l.cost, worth, bestCost, bestWorth) ||
					!less(bestCost, bestWorth, l.cost, worth) && load > bestLoad
			}
			if better {
				best = bar{line: j, items: slices.Clone(g.tried)}
				bestCost, bestLoad, bestRoom = l.cost, load, l.room
			}
			if g.work.out() && bestRoom > 0 {
				break
			}
		}
		if bestRoom == 0 {
			return nil, false
		}
		g.left[best.line]--
		rest -= bestLoad
		for _, it := range best.items {
			if g.need[it.kind] -= it.n; g.need[it.kind] == 0 {
				g.after[it.kind] = it.kind + 1
			}
		}
		bars = append(bars, best)
	}
	return bars, true
}

// find returns the first kind at or after i that is still needed, or the number of kinds.
func (g *greedy) find(i int) int32 {
	end := int32(i)
	for g.after[end] != end {
		end = g.after[end]
	}
	for at := int32(i); at != end; {
		at, g.after[at] = g.after[at], end
	}
	return end
}

// fill fills a bar of line j from kind first on, into g.tried, and returns its load.
func (g *greedy) fill(j, first int) int64 {
	kinds := g.p.kinds
	g.tried = g.tried[:0]
	room := g.p.lines[j].room
	for i := int(g.find(first)); i < len(kinds); i = int(g.find(i)) {
		g.work.spend(1)
		if kinds[i].size > room {
			// The first kind that fits, by bisection: sizes fall.
			k, _ := slices.BinarySearchFunc(kinds[i:], room, func(k kind, room int64) int {
				if k.size > room {
					return -1
				}
				return 1
			})
			i += k
			continue
		}
		n := min(int64(g.need[i]), room/kinds[i].size)
		g.tried = append(g.tried, item{kind: int32(i), n: int32(n)})
		room -= n * kinds[i].size
		i++
	}
	return g.p.lines[j].room - room
}

// shorten moves every bar to the line that is cheapest for its load while bars of it are left.
func (p *problem) shorten(bars []bar) {
	left := make([]int, len(p.lines))
	for j, l := range p.lines {
		left[j] = l.count
	}
	for _, b := range bars {
		left[b.line]--
	}
	for i := range bars {
		b := &bars[i]
		load := p.lines[b.line].room - p.roomLeft(*b)
		for j := range p.lines {
			l, now := &p.lines[j], &p.lines[b.line]
			if left[j] > 0 && l.room >= load &&
				(l.cost < now.cost || l.cost == now.cost && l.room > now.room) {
				left[b.line]++
				left[j]--
				b.line = j
			}
		}
	}
}
