package cutlist

import (
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"math/bits"
	"slices"

	"example.com/lapspan/units"
)

// maxRows is the greatest number of kinds for which the linear program is set up. Beyond it the bound is
// by material alone.
const maxRows = 600

// priceRange is how many times the dearest bar the price of a piece can be, but for huge costs.
const priceRange = 400

// outcome is what the general search hands back.
type outcome struct {
	start       []bar // a plan to begin with, or nil
	best        []bar
	bound       int64
	certificate *Certificate
}

// A node is a set of plans: those whose numbers of bars lie within the limits of its branches.
type node struct {
	low     []int32 // least and most bars of each line
	high    []int32
	rows    []row
	bound   int64   // in units: no plan of the node costs less
	guess   int64   // value of its linear program in hundredths of a unit
	prices  []int64 // what proves the bound; they may come from an ancestor
	prizes  []int64
	basis   []int32 // pool columns, and ^r for the slack of row r
	split   row     // what to branch on; upper means that there is a branch
	atMost  int32   // children
	atLeast int32
}

// general is the branch and price search.
type general struct {
	p       *problem
	work    *budget
	given   int64   // steps at the start
	cost    []int64 // of each line, in units
	scale   int64
	need    []int32
	dearest int64 // line, in units
	tooDear int64 // for any plan, in units

	pool  []column
	known map[string]int32
	lp    lp
	knap  *knapsack
	kmax  []int64 // greatest value of a pattern of each line at the last prices

	greedy *greedy
	best   []bar
	rank   rank // of best, its cost in money

	nodes  []node
	heap   []int32
	stuck  int64 // least bound of the nodes that could not be divided
	waited int   // nodes since the last full dive
	wait   int   // nodes from one to the next
}

// settle finds a plan and a bound for any problem.
func (p *problem) settle(ctx context.Context, work int64, out *outcome) error {
	g := newGeneral(ctx, p, work)
	g.offer(out.start)
	g.starts()
	g.search()
	if g.best == nil {
		if g.bound() == math.MaxInt64 {
			return fmt.Errorf("stock: %w", ErrStockShort)
		}
		return fmt.Errorf("stock: %w", ErrNoPlan)
	}
	g.keepWhole()
	out.best = g.best
	out.bound = min(g.bound()*p.unit, g.rank.cost)
	out.certificate = g.certificate()
	return nil
}

func newGeneral(ctx context.Context, p *problem, work int64) *general {
	g := &general{
		p:     p,
		work:  newBudget(ctx, work),
		given: work,
		cost:  make([]int64, len(p.lines)),
		known: map[string]int32{},
		stuck: math.MaxInt64,
		wait:  diveEvery,
		kmax:  make([]int64, len(p.lines)),
	}
	g.need, _ = p.whole()
	for j, l := range p.lines {
		g.cost[j] = l.cost / p.unit
		g.dearest = max(g.dearest, g.cost[j])
	}
	// No plan has more bars than pieces, so none costs as much as this.
	g.tooDear = g.dearest*int64(p.pieces) + 1
	// Fine enough for the bound, and coarse enough for integers to hold prices far above a bar's, which
	// is what proves that a node holds no plan at all.
	g.scale = max(1, min(1<<28, (1<<60)/priceRange/((g.dearest+1)*int64(p.pieces+1))))
	g.greedy = newGreedy(p, g.work)
	g.knap = newKnapsack(p.kinds, g.work)
	g.lp.work = g.work
	return g
}

// limit returns the cost in units that a better plan stays below.
func (g *general) limit() int64 {
	if g.best == nil {
		return g.tooDear
	}
	return g.rank.cost / g.p.unit
}

// offer keeps bars, which must cut every piece, if they are the best plan so far.
func (g *general) offer(bars []bar) {
	if bars == nil {
		return
	}
	bars = slices.Clone(bars)
	g.p.shorten(bars)
	if r := g.p.rank(bars); g.best == nil || r.better(g.rank) {
		g.best, g.rank = bars, r
	}
}

// starts offers the greedy plans.
func (g *general) starts() {
	need, left := g.p.whole()
	for _, tilt := range [...]int64{0, 16, 64} {
		if bars, ok := g.greedy.run(nil, need, left, tilt); ok {
			for _, b := range bars {
				g.keep(b.line, b.items)
			}
			g.offer(bars)
		}
		if g.work.out() {
			return
		}
	}
	// Bars of one kind each, of the line that is cheapest for the kind, make a first basis.
	for i, k := range g.p.kinds {
		best, n := -1, int64(0)
		for j, l := range g.p.lines {
			if fits := min(l.room/k.size, int64(k.need)); fits > 0 && (best < 0 || less(l.cost, fits, g.p.lines[best].cost, n)) {
				best, n = j, fits
			}
		}
		g.keep(best, []item{{int32(i), int32(n)}})
	}
}

// keep puts a pattern into the pool and returns its number.
func (g *general) keep(line int, items []item) int32 {
	key := make([]byte, 0, 4+8*len(items))
	key = binary.AppendUvarint(key, uint64(line))
	for _, it := range items {
		key = binary.AppendUvarint(key, uint64(it.kind))
		key = binary.AppendUvarint(key, uint64(it.n))
	}
	if i, ok := g.known[string(key)]; ok {
		return i
	}
	i := int32(len(g.pool))
	g.pool = append(g.pool, column{line: int32(line), items: slices.Clone(items)})
	g.known[string(key)] = i
	return i
}

// search branches until nothing can be cheaper than the best plan, or the budget is spent.
func (g *general) search() {
	root := node{prices: g.byMaterial()}
	for j, l := range g.p.lines {
		root.low = append(root.low, 0)
		root.high = append(root.high, int32(l.count))
		if !l.free {
			root.rows = append(root.rows, row{line: int32(j), upper: true, limit: l.count})
		}
	}
	g.nodes = append(g.nodes, root)
	g.prove(&g.nodes[0], root.prices, nil)
	if len(g.need) > maxRows || g.work.out() {
		g.heap = []int32{0}
		return
	}
	if !g.evaluate(0) {
		return
	}
	g.push(0)
	for len(g.heap) > 0 && !g.work.out() {
		i := g.heap[0]
		if g.nodes[i].bound >= g.limit() {
			return
		}
		g.pop()
		// From the node with the least bound straight down, to where plans are.
		for i >= 0 && !g.work.out() && g.nodes[i].split.upper {
			i = g.branch(i)
		}
		switch {
		case i < 0:
		case g.nodes[i].split.upper:
			g.push(i)
		default:
			// Rounding hides what to branch on: the part stays open, but there is more to look at.
			g.stuck = min(g.stuck, g.nodes[i].bound)
		}
	}
}

// bound returns what the open nodes leave as the least cost, in units.
func (g *general) bound() int64 {
	least := int64(math.MaxInt64)
	if g.best != nil {
		least = g.limit()
	}
	for _, i := range g.heap {
		least = min(least, g.nodes[i].bound)
	}
	return min(least, g.stuck)
}

// byMaterial returns prices in proportion to size: those of the critical line when the whole size is
// bought at the best rates first.
func (g *general) byMaterial() []int64 {
	lines := make([]int, len(g.p.lines))
	for j := range lines {
		lines[j] = j
	}
	slices.SortStableFunc(lines, func(a, b int) int {
		la, lb := &g.p.lines[a], &g.p.lines[b]
		switch {
		case less(la.cost, la.room, lb.cost, lb.room):
			return -1
		case less(lb.cost, lb.room, la.cost, la.room):
			return 1
		}
		return 0
	})
	rest := int64(0)
	for _, k := range g.p.kinds {
		rest += k.size * int64(k.need)
	}
	critical := lines[0]
	for _, j := range lines {
		critical = j
		l := &g.p.lines[j]
		if rest -= l.room * int64(l.count); rest <= 0 {
			break
		}
	}
	l := &g.p.lines[critical]
	prices := make([]int64, len(g.p.kinds))
	for i, k := range g.p.kinds {
		h, lo := bits.Mul64(uint64(k.size), uint64(g.cost[critical]*g.scale))
		if h >= uint64(l.room) {
			return make([]int64, len(g.p.kinds)) // a tiny bar: no price this way
		}
		q, _ := bits.Div64(h, lo, uint64(l.room))
		prices[i] = min(int64(q), g.dearestPrice())
	}
	// No pattern is worth more than its share of the room.
	for j := range g.p.lines {
		o := &g.p.lines[j]
		h, lo := bits.Mul64(uint64(o.room), uint64(g.cost[critical]*g.scale))
		g.kmax[j] = math.MaxInt64
		if h < uint64(l.room) {
			q, _ := bits.Div64(h, lo, uint64(l.room))
			g.kmax[j] = int64(min(q, math.MaxInt64))
		}
	}
	return prices
}

// dearestPrice keeps the value of all pieces together inside an int64.
func (g *general) dearestPrice() int64 {
	return (1 << 60) / int64(g.p.pieces)
}

// prove raises the bound of n by these prices and prizes and the greatest values in g.kmax.
func (g *general) prove(n *node, prices, prizes []int64) {
	var sum wide
	for i, u := range prices {
		sum = sum.add(u, int64(g.need[i]))
	}
	z := 0
	for _, r := range n.rows {
		if r.has != nil {
			sum = sum.add(prizes[z], int64(r.limit))
			z++
		}
	}
	for j := range g.p.lines {
		bars := n.low[j]
		d := g.cost[j]*g.scale - g.kmax[j]
		if d < 0 {
			bars = n.high[j]
		}
		sum = sum.add(d, int64(bars))
	}
	if b := sum.perUp(g.scale); b > n.bound || n.prices == nil {
		n.bound, n.prices, n.prizes = max(b, n.bound), slices.Clone(prices), slices.Clone(prizes)
	}
}

// branch makes the two children of node i. It returns the one to go on with, or −1, and puts the other on
// the heap.
func (g *general) branch(i int32) int32 {
	next := int32(-1)
	for _, upper := range [...]bool{true, false} {
		parent := &g.nodes[i]
		child := node{
			low:    slices.Clone(parent.low),
			high:   slices.Clone(parent.high),
			rows:   slices.Clone(parent.rows),
			bound:  parent.bound,
			guess:  parent.guess,
			prices: parent.prices,
			prizes: parent.prizes,
			basis:  parent.basis,
		}
		r := parent.split
		if r.upper = upper; !upper {
			r.limit++
		}
		child.restrict(r)
		at := int32(len(g.nodes))
		if upper {
			parent.atMost = at
		} else {
			parent.atLeast = at
		}
		g.nodes = append(g.nodes, child)
		switch {
		case !g.evaluate(at):
			n := &g.nodes[at]
			n.basis, n.rows, n.low, n.high = nil, nil, nil, nil
		case next < 0:
			next = at
		case g.nodes[at].guess < g.nodes[next].guess:
			g.push(next)
			next = at
		default:
			g.push(at)
		}
	}
	parent := &g.nodes[i]
	parent.basis, parent.rows, parent.low, parent.high = nil, nil, nil, nil
	parent.prices, parent.prizes = nil, nil
	return next
}

// restrict adds the branch r to the node.
func (n *node) restrict(r row) {
	if r.has != nil {
		n.rows = append(n.rows, r)
		n.prizes = append(slices.Clip(n.prizes), 0)
		return
	}
	if r.upper {
		n.high[r.line] = int32(r.limit)
	} else {
		n.low[r.line] = int32(r.limit)
	}
	for i := range n.rows {
		if o := &n.rows[i]; o.has == nil && o.line == r.line && o.upper == r.upper {
			o.limit = r.limit
			return
		}
	}
	n.rows = append(n.rows, r)
}

// evaluate solves the linear program of node i and looks for plans near its solution. It reports whether
// a plan of the node could be cheaper than the best.
func (g *general) evaluate(i int32) bool {
	n := &g.nodes[i]
	if g.solve(n) {
		g.choose(n)
		n.basis = g.basis()
		g.waited++
		due := g.waited > g.wait
		if i != 0 && !due && n.split.upper && n.split.has == nil {
			g.dive(n, -1)
			return n.bound < g.limit()
		}
		was := g.limit()
		g.dive(n, diveRetries)
		g.waited = 0
		switch {
		case g.limit() < was:
			g.wait = diveEvery
		case due:
			g.wait *= 2
		}
	}
	return n.bound < g.limit()
}

// diveEvery is the number of nodes between two full dives, at first: it doubles with every dive that finds
// nothing better, because then it is the bound that is still missing.
const diveEvery = 20

// diveRetries is the number of steps that a full dive may take back.
const diveRetries = 4

// push and pop keep the heap of open nodes: the least bound first, then the least guess, then the newest.
func (g *general) push(i int32) {
	g.heap = append(g.heap, i)
	for at := len(g.heap) - 1; at > 0; {
		up := (at - 1) / 2
		if !g.before(g.heap[at], g.heap[up]) {
			break
		}
		g.heap[at], g.heap[up] = g.heap[up], g.heap[at]
		at = up
	}
}

func (g *general) pop() {
	last := len(g.heap) - 1
	g.heap[0] = g.heap[last]
	g.heap = g.heap[:last]
	for at := 0; ; {
		child := 2*at + 1
		if child >= last {
			return
		}
		if child+1 < last && g.before(g.heap[child+1], g.heap[child]) {
			child++
		}
		if !g.before(g.heap[child], g.heap[at]) {
			return
		}
		g.heap[at], g.heap[child] = g.heap[child], g.heap[at]
		at = child
	}
}

func (g *general) before(a, b int32) bool {
	na, nb := &g.nodes[a], &g.nodes[b]
	if na.bound != nb.bound {
		return na.bound < nb.bound
	}
	return a > b
}

// certificate returns the proof of g.bound.
func (g *general) certificate() *Certificate {
	p := g.p
	c := &Certificate{Unit: p.unit, Scale: g.scale}
	for _, k := range p.kinds {
		c.Lengths = append(c.Lengths, units.Length(k.size-p.kerf))
		c.Wanted = append(c.Wanted, k.need)
	}
	for _, l := range p.lines {
		c.Stock = append(c.Stock, l.stock)
	}
	c.Nodes = make([]CertificateNode, len(g.nodes))
	for i := range g.nodes {
		n, to := &g.nodes[i], &c.Nodes[i]
		if n.atMost == 0 {
			to.Prices, to.Prizes = n.prices, n.prizes
			continue
		}
		to.AtMost, to.AtLeast = int(n.atMost), int(n.atLeast)
		to.Stock, to.At = p.lines[n.split.line].stock, n.split.limit
		if n.split.has != nil {
			to.Has = make([]int, len(p.kinds))
			for _, it := range n.split.has {
				to.Has[it.kind] = int(it.n)
			}
		}
	}
	return c
}
