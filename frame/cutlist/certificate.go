package cutlist

import (
	"math"
	"math/bits"

	"example.com/lapspan/units"
)

// A Certificate proves the bound of a plan in integers, so that it can be checked without trust in the
// search that found it. It is a binary tree of branches, each of which says that some number of bars is
// at most At, or at least At + 1; at every leaf there are prices that prove a bound by the duality of
// linear programs. The bound of the plan is the least of all leaves.
//
// At a leaf let u be Prices, and let the value of a pattern of stock line s be the sum of u over its
// pieces, plus the Prizes of the branches on the way from the root that count it and have a Has. Let K
// be the greatest value of any pattern of s, with at most the pieces wanted, and let the bars of s lie
// between lo and hi by its count (at most the number of pieces) and the branches on the way that have
// no Has. Then, with prices of stock counted in Unit, a plan in this leaf costs at least
//
//	( Σ u·wanted + Σ prize·limit + Σ over s of the least of (Scale·price − K)·n for lo ≤ n ≤ hi ) / Scale
//
// rounded up to a whole number, where limit is At with a prize ≤ 0 below a branch's AtMost, and At + 1
// with a prize ≥ 0 below its AtLeast.
//
// Only the lines in Stock are looked at: each other line is too short for every piece, or a line in Stock
// without a count is at least as long and costs no more.
type Certificate struct {
	Lengths []units.Length    // the lengths wanted, longest first
	Wanted  []int             // how many of each
	Stock   []int             // indexes into Job.Stock
	Unit    int64             // every price of stock is a multiple of it
	Scale   int64             // prices and prizes are counted in Unit / Scale
	Nodes   []CertificateNode // the first is the root
}

// CertificateNode is a branch if it has children, otherwise a leaf.
type CertificateNode struct {
	// AtMost and AtLeast are the indexes of the two children in Nodes; both are 0 at a leaf.
	AtMost, AtLeast int
	// Stock is the index in Job.Stock of the line whose bars the branch counts.
	Stock int
	// Has leaves only the bars that hold at least Has[i] of Lengths[i] for every i; nil counts all.
	Has []int
	// At is the greatest number of such bars below AtMost; below AtLeast there are At + 1 or more.
	At int
	// Prices of a leaf, one for each of Lengths, ≥ 0.
	Prices []int64
	// Prizes of a leaf, one for each branch with a Has on the way from the root, in that order.
	Prizes []int64
}

// wide is a 128-bit integer, for sums of products.
type wide struct {
	hi int64
	lo uint64
}

// add returns w + a × b.
func (w wide) add(a, b int64) wide {
	negative := (a < 0) != (b < 0)
	h, l := bits.Mul64(magnitude(a), magnitude(b))
	if negative {
		var borrow uint64
		l, borrow = bits.Sub64(0, l, 0)
		h, _ = bits.Sub64(0, h, borrow)
	}
	lo, carry := bits.Add64(w.lo, l, 0)
	hi, _ := bits.Add64(uint64(w.hi), h, carry)
	return wide{int64(hi), lo}
}

func magnitude(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

// perUp returns w / d rounded up, 0 for a negative w and at most the greatest int64.
func (w wide) perUp(d int64) int64 {
	if w.hi < 0 {
		return 0
	}
	if uint64(w.hi) >= uint64(d) {
		return math.MaxInt64
	}
	q, r := bits.Div64(uint64(w.hi), w.lo, uint64(d))
	if r > 0 {
		q++
	}
	return int64(min(q, math.MaxInt64))
}
