package cutlist

import (
	"math"
	"slices"
)

// Fractions of a bar nearer than this to a whole number count as whole.
const wholeTolerance = 1e-4

func fraction(x float64) float64 { return x - math.Floor(x+wholeTolerance) }

// choose sets what to branch on at the solution of the linear program: the number of bars of the line
// where it is least whole; where all are whole, the bars of a line that hold some pieces together.
func (g *general) choose(n *node) {
	l := &g.lp
	bars := make([]float64, len(g.p.lines))
	var broken []int // basic columns that are not whole
	for r, v := range l.head {
		if v < 0 {
			continue
		}
		bars[g.pool[l.cols[v].pool].line] += l.x[r]
		if fraction(l.x[r]) > wholeTolerance {
			broken = append(broken, r)
		}
	}
	most := wholeTolerance
	for j, x := range bars {
		f := fraction(x)
		if f = min(f, 1-f); f > most {
			most = f
			n.split = row{line: int32(j), upper: true, limit: int(math.Floor(x + wholeTolerance))}
		}
	}
	if n.split.upper || len(broken) == 0 {
		return
	}
	most = 0.02
	try := func(line int32, has []item, least float64) {
		sum := 0.0
		for r, v := range l.head {
			if v < 0 {
				continue
			}
			if c := &g.pool[l.cols[v].pool]; c.line == line && c.holds(has) {
				sum += l.x[r]
			}
		}
		f := fraction(sum)
		if f = min(f, 1-f); f > max(most, least) {
			most = f
			n.split = row{line: line, has: slices.Clone(has), upper: true, limit: int(math.Floor(sum + wholeTolerance))}
		}
	}
	for _, r := range broken {
		c := &g.pool[l.cols[l.head[r]].pool]
		for _, it := range c.items {
			for k := range it.n {
				try(c.line, []item{{it.kind, k + 1}}, 0)
			}
		}
	}
	if !n.split.upper {
		for _, r := range broken {
			c := &g.pool[l.cols[l.head[r]].pool]
			for a := range c.items {
				for b := a + 1; b < len(c.items); b++ {
					try(c.line, []item{{c.items[a].kind, 1}, {c.items[b].kind, 1}}, 0)
				}
			}
		}
	}
	if !n.split.upper {
		most = 0
		for _, r := range broken {
			c := &g.pool[l.cols[l.head[r]].pool]
			try(c.line, c.items, wholeTolerance)
		}
	}
	g.work.spend(int64(len(broken) * len(broken) * 8))
}

// A partial plan of a dive: bars that are cut, and what is left to cut and to cut it from.
type partial struct {
	bars   []bar
	need   []int32
	left   []int
	limits []int // of the rows
	pieces int
	cost   int64
	tried  []int32 // columns that were fixed next and led nowhere
}

func (d *partial) clone() partial {
	c := *d
	c.bars = slices.Clip(d.bars)
	c.need, c.left, c.limits = slices.Clone(d.need), slices.Clone(d.left), slices.Clone(d.limits)
	c.tried = nil
	return c
}

// fix cuts bars by the pattern c, so far as its pieces are still needed.
func (g *general) fix(d *partial, rows []row, c *column, times int) {
	for range times {
		var items []item
		for _, it := range c.items {
			if k := min(it.n, d.need[it.kind]); k > 0 {
				items = append(items, item{it.kind, k})
			}
		}
		if len(items) == 0 || d.left[c.line] == 0 {
			return
		}
		for _, it := range items {
			d.need[it.kind] -= it.n
			d.pieces -= int(it.n)
		}
		d.left[c.line]--
		d.cost += g.cost[c.line]
		d.bars = append(d.bars, bar{line: int(c.line), items: items})
		for r := range rows {
			if rows[r].counts(c) {
				d.limits[r]--
			}
		}
	}
}

// dive rounds the solution of the linear program of n step by step into whole bars: what is whole is
// cut, or the bar that is nearest to it, and the program is solved again for the rest. A step after
// which no plan can be cheaper than the best is taken back and the next nearest bar is cut, as often as
// retries allows. A rest that is small enough is settled by the direct search. With retries < 0 only the
// first step is made.
func (g *general) dive(n *node, retries int) {
	l := &g.lp
	now := partial{need: slices.Clone(g.need), pieces: g.p.pieces}
	for _, high := range n.high {
		now.left = append(now.left, int(high))
	}
	for _, r := range n.rows {
		now.limits = append(now.limits, r.limit)
	}
	var back []partial
	for {
		step := now.clone()
		best, at := 0.0, int32(-1)
		for r, v := range l.head {
			if v < 0 {
				continue
			}
			v = l.cols[v].pool
			if k := math.Floor(l.x[r] + wholeTolerance); k >= 1 && len(now.tried) == 0 {
				g.fix(&step, n.rows, &g.pool[v], int(k))
			}
			f := fraction(l.x[r])
			if l.x[r] >= 1 && len(now.tried) > 0 {
				f = 1
			}
			if f > best && !slices.Contains(now.tried, v) {
				best, at = f, v
			}
		}
		if step.pieces == now.pieces && at >= 0 {
			g.fix(&step, n.rows, &g.pool[at], 1)
			now.tried = append(now.tried, at)
		}
		dead := step.pieces == now.pieces
		if !dead {
			dead = g.finish(&step)
			if retries < 0 || n.bound >= g.limit() {
				return
			}
			dead = dead || !g.follow(n, &step)
			if g.work.out() {
				return
			}
		}
		switch {
		case !dead:
			back = append(back, now)
			now = step
		case retries == 0:
			return
		default:
			retries--
			if step.pieces == now.pieces {
				// Nothing more to try here.
				if len(back) == 0 {
					return
				}
				now = back[len(back)-1]
				back = back[:len(back)-1]
			}
			if len(now.tried) == 0 {
				return // it was whole bars alone that led nowhere
			}
			if !g.follow(n, &now) {
				return
			}
		}
	}
}

// follow solves the linear program for what d leaves, from the basis as it is. It reports whether a plan
// that continues d could be cheaper than the best.
func (g *general) follow(n *node, d *partial) bool {
	l := &g.lp
	for r := range l.rhs {
		if r < l.kinds {
			l.setRHS(r, int(d.need[r]))
		} else {
			l.setRHS(r, d.limits[r-l.kinds])
		}
	}
	if !l.values() && !l.dual() {
		return false
	}
	// The value is that of the program only when no pattern can improve it; until then it is too high.
	for round := range followMost {
		if !l.primal() {
			break
		}
		if round >= followLeast && g.promising(d) {
			return true
		}
		if added, _ := g.price(n.rows, d.need); added == 0 || g.work.out() {
			break
		}
	}
	return !g.work.out() && g.promising(d)
}

// Rounds of new patterns in a dive: so many where the rest looks good, so many before it is given up.
const (
	followLeast = 8
	followMost  = 40
)

// roundUp rounds the value of a linear program up to a whole cost, with an allowance for its rounding.
func roundUp(v float64) float64 { return math.Ceil(v - 1e-5) }

// promising reports whether the linear program for the rest of d leaves hope of a cheaper plan.
func (g *general) promising(d *partial) bool {
	rest, missing := g.lp.value()
	return missing < 0.5 && float64(d.cost)+roundUp(rest) < float64(g.limit())
}

// finish completes the bars of a partial plan and offers the plan. It reports whether the rest has been
// settled for good.
func (g *general) finish(d *partial) bool {
	if d.pieces == 0 {
		g.offer(d.bars)
		return true
	}
	if !g.isSmall(d.need, d.pieces) {
		for _, tilt := range [...]int64{0, 32} {
			if done, ok := g.greedy.run(slices.Clip(d.bars), d.need, d.left, tilt); ok {
				g.offer(done)
			}
		}
		return false
	}
	target := int64(math.MaxInt64)
	if g.best != nil {
		target = g.rank.cost - d.cost*g.p.unit + 1
	}
	rest, settled := g.small(d.need, d.left, d.pieces, target)
	if rest != nil {
		g.offer(append(slices.Clip(d.bars), rest...))
	}
	return settled
}
