package cutlist

import (
	"cmp"
	"math"
	"slices"
)

// load sets up the linear program of n on the columns of its parent's basis and the cheapest others.
func (g *general) load(n *node) {
	l := &g.lp
	l.reset(g.need, n.rows)
	l.penalty = 100 * float64(g.dearest+1)
	inBasis := make(map[int32]bool, len(n.basis))
	rows := l.height()
	at := 0
	for _, v := range n.basis {
		switch {
		case v >= 0:
			inBasis[v] = true
			l.head[at] = l.add(v, &g.pool[v], float64(g.cost[g.pool[v].line]))
			at++
		case int(^v) < rows:
			l.head[at] = v
			at++
		}
	}
	// Slacks of the rows that the parent does not have.
	for r := len(n.basis); r < rows && at < rows; r++ {
		l.head[at] = ^int32(r)
		at++
	}
	for ; at < rows; at++ {
		l.head[at] = ^int32(2*rows - 1)
	}
	type cheap struct {
		pool    int32
		reduced int64
	}
	var others []cheap
	for v := range g.pool {
		if inBasis[int32(v)] {
			continue
		}
		c := &g.pool[v]
		d := g.cost[c.line] * g.scale
		for _, it := range c.items {
			d -= n.prices[it.kind] * int64(it.n)
		}
		others = append(others, cheap{int32(v), d})
	}
	g.work.spend(int64(8 * len(g.pool)))
	if most := 200 + 3*rows; len(others) > most {
		slices.SortFunc(others, func(a, b cheap) int {
			if a.reduced != b.reduced {
				return cmp.Compare(a.reduced, b.reduced)
			}
			return cmp.Compare(a.pool, b.pool)
		})
		others = others[:most]
	}
	for _, o := range others {
		l.add(o.pool, &g.pool[o.pool], float64(g.cost[g.pool[o.pool].line]))
	}
}

// basis returns the basis of the linear program in the form of node.basis.
func (g *general) basis() []int32 {
	l := &g.lp
	b := make([]int32, 0, l.height())
	for _, v := range l.head {
		if v >= 0 {
			v = l.cols[v].pool
		} else if int(^v) >= l.height() {
			v = math.MinInt32 // an artificial: nothing to start from
		}
		b = append(b, v)
	}
	return b
}

// solve solves the linear program of n by column generation and raises its bound. It reports whether
// the node is still open and its linear program solved.
func (g *general) solve(n *node) bool {
	g.load(n)
	l := &g.lp
	if !l.factor() && !l.dual() {
		if g.work.out() {
			return false
		}
		for r := range l.head {
			l.head[r] = l.idle(r)
		}
		l.factor()
	}
	for {
		if !l.primal() {
			return false
		}
		added, exact := g.price(n.rows, g.need)
		if exact {
			prices, prizes := g.integers(n.rows)
			g.prove(n, prices, prizes)
			if n.bound >= g.limit() {
				return false
			}
		}
		cost, missing := l.value()
		n.guess = int64(min(max(100*cost, 0), 1<<60))
		if g.work.out() {
			return false
		}
		if added > 0 && (missing > 1e-6 || float64(n.bound) < roundUp(cost)-0.5) {
			continue
		}
		if missing <= 1e-3 {
			return true
		}
		// What the node cannot hold has to cost more than any plan, but no price may outgrow an integer.
		most := min(1000*float64(g.tooDear), float64(g.dearestPrice()/g.scale)/4)
		if l.penalty >= most {
			return false
		}
		l.penalty = most
		l.factor()
	}
}

// integers returns the prices of the linear program as integers: those of the kinds and those of the
// branches on patterns.
func (g *general) integers(rows []row) (prices, prizes []int64) {
	l := &g.lp
	most := float64(g.dearestPrice())
	scale := float64(g.scale)
	prices = make([]int64, len(g.need))
	for i := range prices {
		prices[i] = int64(min(max(l.y[i]*scale, 0), most))
	}
	for r := range rows {
		if rows[r].has == nil {
			continue
		}
		y := min(max(l.y[len(g.need)+r]*scale, -most), most)
		if (y > 0) == rows[r].upper {
			y = 0
		}
		prizes = append(prizes, int64(y))
	}
	return prices, prizes
}

// price looks for patterns of at most need that the linear program would like, and adds them to it. It
// sets g.kmax; exact says that these are upper bounds, at the prices that integers returns.
func (g *general) price(rows []row, need []int32) (added int, exact bool) {
	l := &g.lp
	k := g.knap
	prices, prizes := g.integers(rows)
	copy(k.value, prices)
	copy(k.need, need)
	k.prepare(rows)
	scale := float64(g.scale)
	tolerance := scale * costTolerance * (1 + float64(g.dearest))
	exact = true
	for j := range g.p.lines {
		// The bars of the line cost this, by the branches on their number.
		price := float64(g.cost[j])
		k.prizes = k.prizes[:0]
		z := 0
		for r := range rows {
			here := int(rows[r].line) == j
			if rows[r].has == nil {
				if here {
					price -= l.y[len(g.need)+r]
				}
				continue
			}
			if here && prizes[z] != 0 {
				k.prizes = append(k.prizes, prize{rows[r].has, prizes[z]})
			}
			z++
		}
		least := int64(min(max(price*scale+tolerance, 0), 1<<61))
		room := g.p.lines[j].room
		g.kmax[j] = k.run(room, least, softSteps, hardSteps)
		if k.cut {
			if k.found {
				exact = false
			} else {
				g.kmax[j] = max(least, k.bound(room))
			}
		}
		if k.found {
			v := g.keep(j, k.pattern)
			l.add(v, &g.pool[v], float64(g.cost[j]))
			added++
		}
		if g.work.out() {
			return added, false
		}
	}
	return added, exact
}

// The steps of one knapsack: after it has found something, and at all.
const (
	softSteps = 300
	hardSteps = 2_000_000
)
