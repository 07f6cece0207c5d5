package cutlist

import (
	"math"
	"slices"
)

// A column is one pattern of one line.
type column struct {
	line  int32
	items []item
}

// holds reports whether the pattern has at least the items of has; both are sorted by kind.
func (c *column) holds(has []item) bool {
	at := 0
	for _, it := range has {
		for at < len(c.items) && c.items[at].kind < it.kind {
			at++
		}
		if at == len(c.items) || c.items[at].kind != it.kind || c.items[at].n < it.n {
			return false
		}
	}
	return true
}

// A row is a branch in the linear program: the number of bars of one line whose pattern has at least
// the items of has is at most (upper) or at least the limit.
type row struct {
	line  int32
	has   []item
	upper bool
	limit int
}

func (r *row) counts(c *column) bool {
	return r.line == c.line && c.holds(r.has)
}

// Float tolerances of the linear program. They decide how fast it is, never what is proven: its only
// product that prunes is a set of prices, and what these prove is computed in integers.
const (
	costTolerance  = 1e-9
	pivotTolerance = 1e-7
	zeroTolerance  = 1e-9
)

// lp is a dense revised simplex method on patterns: least cost, so that every kind is cut at least as
// often as needed and every row of the branches holds. Float64 is right here because it only guides the
// search: the exact bound is recomputed from the prices it finds.
//
// The right-hand sides are moved by some millionths, each by another amount, so that no two bases tie
// and the method cannot cycle.
type lp struct {
	kinds   int
	rows    []row
	want    []float64 // right-hand sides
	rhs     []float64 // and the same a little shifted
	penalty float64   // cost of a piece or a bar that is missing
	work    *budget

	cols   []lpColumn
	entry  []lpEntry
	inv    []float64 // inverse of the basis, row by row
	head   []int32   // basic variable of each row: a column, or ^r a slack, or ^(rows+r) an artificial
	x      []float64 // values of the basic variables
	y      []float64 // prices of the rows
	basic  []bool    // of each column
	pivots int
	alpha  []float64
}

type lpColumn struct {
	pool       int32
	cost       float64
	start, end int32
}

type lpEntry struct {
	row int32
	n   float64
}

// height returns the number of rows.
func (l *lp) height() int { return l.kinds + len(l.rows) }

// upper reports whether row r is an upper limit.
func (l *lp) upper(r int) bool {
	return r >= l.kinds && l.rows[r-l.kinds].upper
}

// reset starts a program without columns.
func (l *lp) reset(need []int32, rows []row) {
	l.kinds, l.rows = len(need), rows
	n := l.height()
	l.want, l.rhs = sized(l.want, n), sized(l.rhs, n)
	l.x, l.y, l.alpha = sized(l.x, n), sized(l.y, n), sized(l.alpha, n)
	l.inv = sized(l.inv, n*n)
	l.head = sized(l.head, n)
	l.cols, l.entry, l.basic = l.cols[:0], l.entry[:0], l.basic[:0]
	for r := range n {
		l.setRHS(r, l.limit(r, need))
		l.head[r] = l.idle(r)
	}
}

func (l *lp) limit(r int, need []int32) int {
	if r < l.kinds {
		return int(need[r])
	}
	return l.rows[r-l.kinds].limit
}

func (l *lp) setRHS(r, limit int) {
	l.want[r] = float64(limit)
	l.rhs[r] = l.want[r] + 1e-6*(1+float64(r*7919%1009)/1009)
}

// idle returns the variable that fills row r when no column does.
func (l *lp) idle(r int) int32 {
	if l.upper(r) {
		return ^int32(r)
	}
	return ^int32(l.height() + r)
}

func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/4)
	}
	s = s[:n]
	clear(s)
	return s
}

// add appends a column and returns its number.
func (l *lp) add(pool int32, c *column, cost float64) int32 {
	start := int32(len(l.entry))
	for _, it := range c.items {
		l.entry = append(l.entry, lpEntry{it.kind, float64(it.n)})
	}
	for i := range l.rows {
		if l.rows[i].counts(c) {
			l.entry = append(l.entry, lpEntry{int32(l.kinds + i), 1})
		}
	}
	l.cols = append(l.cols, lpColumn{pool, cost, start, int32(len(l.entry))})
	l.basic = append(l.basic, false)
	return int32(len(l.cols) - 1)
}

// reduced returns the reduced cost of column q.
func (l *lp) reduced(q int) float64 {
	c := &l.cols[q]
	d := c.cost
	for _, e := range l.entry[c.start:c.end] {
		d -= l.y[e.row] * e.n
	}
	return d
}

// sign returns the entry of the slack of row r.
func (l *lp) sign(r int) float64 {
	if l.upper(r) {
		return 1
	}
	return -1
}

// cost returns the cost of variable v.
func (l *lp) cost(v int32) float64 {
	if v >= 0 {
		return l.cols[v].cost
	}
	if int(^v) < l.height() {
		return 0
	}
	return l.penalty
}

// factor inverts the basis in head and sets x and y from it. A column that depends on others leaves the
// basis. It reports whether every x is ≥ 0.
func (l *lp) factor() bool {
	n := l.height()
	l.pivots = 0
	inv := l.inv
	clear(inv)
	for r := range n {
		inv[r*n+r] = 1
	}
	want := append([]int32(nil), l.head...)
	for r := range n {
		l.head[r] = l.idle(r)
	}
	open := make([]bool, n) // rows whose variable is still the idle one
	for r := range open {
		open[r] = true
	}
	for i := range l.basic {
		l.basic[i] = false
	}
	// Slacks stay in their own rows, where nothing else has been brought in yet.
	for _, v := range want {
		r := int(^v)
		if v >= 0 || r >= n {
			continue
		}
		open[r] = false
		if !l.upper(r) {
			l.bring(v)
			l.exchange(r, v)
		}
	}
	for _, v := range want {
		if v < 0 {
			continue
		}
		if l.work.spend(int64(n) * int64(n) / 8); l.work.out() {
			return false // nothing looks at the values any more
		}
		l.bring(v)
		best, at := pivotTolerance, -1
		for r := range n {
			if a := math.Abs(l.alpha[r]); open[r] && a > best {
				best, at = a, r
			}
		}
		if at < 0 {
			continue
		}
		l.exchange(at, v)
		open[at] = false
		l.basic[v] = true
	}
	return l.values()
}

// values sets x and y from the inverse and reports whether every x is ≥ 0.
func (l *lp) values() bool {
	n := l.height()
	clear(l.y)
	feasible := true
	for r := range n {
		sum := 0.0
		line := l.inv[r*n : r*n+n]
		for k, v := range line {
			sum += v * l.rhs[k]
		}
		if sum < 0 && sum > -zeroTolerance {
			sum = 0
		}
		l.x[r] = sum
		feasible = feasible && sum >= 0
		if c := l.cost(l.head[r]); c != 0 {
			for k, v := range line {
				l.y[k] += c * v
			}
		}
	}
	return feasible
}

// bring sets alpha to the inverse times the column of variable v.
func (l *lp) bring(v int32) {
	n := l.height()
	if v < 0 {
		k := int(^v)
		s := 1.0
		if k < n {
			s = l.sign(k)
		} else {
			k -= n
		}
		for r := range n {
			l.alpha[r] = s * l.inv[r*n+k]
		}
		return
	}
	c := &l.cols[v]
	clear(l.alpha)
	entries := l.entry[c.start:c.end]
	for r := range n {
		line := l.inv[r*n : r*n+n]
		sum := 0.0
		for _, e := range entries {
			sum += line[e.row] * e.n
		}
		l.alpha[r] = sum
	}
}

// exchange lets variable v, whose alpha is set, take row r of the inverse.
func (l *lp) exchange(r int, v int32) {
	n := l.height()
	line := l.inv[r*n : r*n+n]
	by := 1 / l.alpha[r]
	for k := range line {
		line[k] *= by
	}
	for i := range n {
		a := l.alpha[i]
		if i == r || a == 0 {
			continue
		}
		other := l.inv[i*n : i*n+n : i*n+n]
		for k, v := range line {
			other[k] -= a * v
		}
	}
	l.head[r] = v
}

// pivot lets variable v with reduced cost d enter in row r.
func (l *lp) pivot(r int, v int32, d float64) {
	n := l.height()
	l.work.spend(int64(n) * int64(n) / 8)
	if old := l.head[r]; old >= 0 {
		l.basic[old] = false
	}
	step := l.x[r] / l.alpha[r]
	for i, a := range l.alpha {
		if a != 0 {
			l.x[i] -= step * a
		}
	}
	l.exchange(r, v)
	l.x[r] = step
	for k, v := range l.inv[r*n : r*n+n] {
		l.y[k] += d * v
	}
	if v >= 0 {
		l.basic[v] = true
	}
	l.pivots++
}

// refresh inverts the basis anew once rounding may have piled up.
func (l *lp) refresh() {
	if l.pivots > 60+2*l.height() {
		l.factor()
	}
}

// primal improves a basis with x ≥ 0 until no column in the program can. It reports false when it has to stop.
func (l *lp) primal() bool {
	n := l.height()
	for range 50*n + 1000 {
		if l.work.out() {
			return false
		}
		l.refresh()
		enter, least := int32(0), -costTolerance*(1+l.scale())
		none := true
		for q := range l.cols {
			if l.basic[q] {
				continue
			}
			if d := l.reduced(q); d < least {
				enter, least, none = int32(q), d, false
			}
		}
		for r := range n {
			// The slack of a row: its reduced cost is −sign·y.
			if d := -l.sign(r) * l.y[r]; d < least && l.head[r] != ^int32(r) {
				enter, least, none = ^int32(r), d, false
			}
		}
		l.work.spend(int64(len(l.entry)/4 + n))
		if none {
			// Inverting the basis anew may have shown values below 0 that rounding had hidden.
			return slices.Min(l.x) >= -zeroTolerance || l.dual()
		}
		l.bring(enter)
		leave, ratio := -1, math.Inf(1)
		for r, a := range l.alpha {
			if a <= pivotTolerance {
				continue
			}
			if t := max(l.x[r], 0) / a; t < ratio-1e-12 || t <= ratio+1e-12 && leave >= 0 && a > l.alpha[leave] {
				leave, ratio = r, min(t, ratio)
			}
		}
		if leave < 0 {
			return false // cost cannot fall without limit: rounding
		}
		l.pivot(leave, enter, least)
	}
	return false
}

// scale is the size of the prices.
func (l *lp) scale() float64 {
	most := 0.0
	for _, y := range l.y {
		most = max(most, math.Abs(y))
	}
	return min(most, l.penalty/4)
}

// dual restores x ≥ 0 in a basis whose reduced costs are ≥ 0. It reports false when it has to stop.
func (l *lp) dual() bool {
	n := l.height()
	for range 20*n + 500 {
		if l.work.out() {
			return false
		}
		l.refresh()
		leave, least := -1, -zeroTolerance
		for r, x := range l.x {
			if x < least {
				leave, least = r, x
			}
		}
		if leave < 0 {
			for r := range l.x {
				l.x[r] = max(l.x[r], 0)
			}
			return true
		}
		line := l.inv[leave*n : leave*n+n]
		enter, ratio, size, reduced := int32(0), math.Inf(1), 0.0, 0.0
		try := func(v int32, a, d float64) {
			if a >= -pivotTolerance {
				return
			}
			d = max(d, 0)
			if t := d / -a; t < ratio-1e-12 || t <= ratio+1e-12 && -a > size {
				enter, ratio, size, reduced = v, min(t, ratio), -a, d
			}
		}
		for q := range l.cols {
			if l.basic[q] {
				continue
			}
			c := &l.cols[q]
			a := 0.0
			d := c.cost
			for _, e := range l.entry[c.start:c.end] {
				a += line[e.row] * e.n
				d -= l.y[e.row] * e.n
			}
			try(int32(q), a, d)
		}
		for r := range n {
			if l.head[r] != ^int32(r) {
				try(^int32(r), l.sign(r)*line[r], -l.sign(r)*l.y[r])
			}
			if !l.upper(r) {
				try(^int32(n+r), line[r], l.penalty-l.y[r])
			}
		}
		l.work.spend(int64(len(l.entry)/2 + n))
		if size == 0 {
			return false
		}
		l.bring(enter)
		l.pivot(leave, enter, reduced)
	}
	return false
}

// value returns the cost of the present basis, without the shifts of the right-hand sides, and how much
// is missing in it.
func (l *lp) value() (cost, missing float64) {
	n := l.height()
	for r, y := range l.y {
		cost += y * l.want[r]
	}
	for r, v := range l.head {
		if v < 0 && int(^v) >= n {
			missing += l.x[r]
			cost -= l.penalty * l.x[r]
		}
	}
	return cost, missing
}
