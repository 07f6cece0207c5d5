package cutlist

import "slices"

// The part of a plan that is tried directly, and the steps for it.
const (
	smallPieces = 24
	smallSteps  = 4_000
)

// isSmall reports whether the direct search can take so much on.
func (g *general) isSmall(need []int32, pieces int) bool {
	if pieces > smallPieces || len(g.p.lines) > directLines {
		return false
	}
	kinds := 0
	for _, n := range need {
		if n > 0 {
			kinds++
		}
	}
	return kinds <= directKinds
}

// small cuts what is needed, which isSmall, from the bars left, for less than target. It returns nil if it
// finds no such plan; settled says that the plan is the best, or that there is none.
func (g *general) small(need []int32, left []int, pieces int, target int64) (bars []bar, settled bool) {
	if target <= 0 {
		return nil, true
	}
	var room problemRoom
	p := room.problem()
	p.kerf, p.unit, p.pieces = g.p.kerf, g.p.unit, pieces
	var kindOf [directKinds]int32
	for i, n := range need {
		if n > 0 {
			kindOf[len(p.kinds)] = int32(i)
			p.kinds = append(p.kinds, kind{g.p.kinds[i].size, int(n)})
		}
	}
	for j, l := range g.p.lines {
		l.count = min(left[j], pieces)
		l.free = l.free && left[j] >= pieces
		p.lines = append(p.lines, l)
	}
	search := direct{p: &p, limit: smallSteps, target: target}
	settled = search.run()
	g.work.spend(int64(search.steps))
	if search.best.bars == 0 {
		return nil, settled
	}
	bars = search.found(nil, nil)
	for _, b := range bars {
		for i := range b.items {
			b.items[i].kind = kindOf[b.items[i].kind]
		}
	}
	return bars, settled
}

// keepWhole cuts the bar with the longest offcut anew together with one or two others, in every way, as
// long as that makes the plan better. This is what settles the number of bars and the offcut of a plan
// that the linear program has found for its cost alone.
func (g *general) keepWhole() {
	reserve := g.work.left - max(keepLeast, (g.given-g.work.left)/4)
	enough := func() bool { return g.work.out() || g.work.left < reserve }
	for again := true; again && len(g.best) > 1 && !enough(); {
		again = false
		longest := 0
		for i, b := range g.best {
			if g.p.roomLeft(b) > g.p.roomLeft(g.best[longest]) {
				longest = i
			}
		}
		for i := 0; i < len(g.best) && !again && !enough(); i++ {
			if i == longest || g.metBefore(i, longest) {
				continue
			}
			again = g.recut(longest, i, -1)
		}
		for i := 0; i < len(g.best) && !again && !enough(); i++ {
			if i == longest || g.metBefore(i, longest) {
				continue
			}
			for k := i + 1; k < len(g.best) && !again && !enough(); k++ {
				if k != longest {
					again = g.recut(longest, i, k)
				}
			}
		}
	}
}

// keepLeast is the least number of steps that keepWhole may take.
const keepLeast = 100_000

// metBefore reports whether a bar before i, but for the one to skip, is cut in the same way.
func (g *general) metBefore(i, skip int) bool {
	b := g.best[i]
	for k, o := range g.best[:i] {
		if k != skip && o.line == b.line && slices.Equal(o.items, b.items) {
			return true
		}
	}
	return false
}

// recut cuts the pieces of some bars of the best plan anew; k may be −1. It reports whether the plan is
// better for it.
func (g *general) recut(longest, i, k int) bool {
	need := make([]int32, len(g.need))
	_, left := g.p.whole()
	var rest, part []bar
	pieces := 0
	for at, b := range g.best {
		if at != longest && at != i && at != k {
			rest = append(rest, b)
			left[b.line]--
			continue
		}
		part = append(part, b)
		for _, it := range b.items {
			need[it.kind] += it.n
			pieces += int(it.n)
		}
	}
	g.work.spend(int64(300 + 2*len(g.best) + len(need)))
	if !g.isSmall(need, pieces) {
		return false
	}
	was := g.p.rank(part)
	bars, _ := g.small(need, left, pieces, was.cost+1)
	if bars == nil || !g.p.rank(bars).better(was) {
		return false
	}
	before := g.rank
	g.offer(append(rest, bars...))
	return g.rank.better(before)
}
