package cutlist_test

import (
	"cmp"
	"context"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

// certified returns the bound that a certificate proves for the job below a node, at the end of the given
// way from the root. It knows nothing of the search: only the certificate's documentation.
func certified(job cutlist.Job, c *cutlist.Certificate, node int, way []limit) int64 {
	n := c.Nodes[node]
	if n.AtMost != 0 {
		return min(certified(job, c, n.AtMost, append(slices.Clip(way), limit{n, true, n.At})),
			certified(job, c, n.AtLeast, append(slices.Clip(way), limit{n, false, n.At + 1})))
	}
	sum, pieces := new(big.Int), 0
	add := func(a int64, b int) { sum.Add(sum, new(big.Int).Mul(big.NewInt(a), big.NewInt(int64(b)))) }
	for i, k := range c.Wanted {
		add(n.Prices[i], k)
		pieces += k
	}
	for _, s := range c.Stock {
		low, high, at, prizes := 0, min(pieces, cmp.Or(job.Stock[s].Count, pieces)), 0, map[int]int64{}
		for w, l := range way {
			switch {
			case l.Has != nil && l.Stock == s:
				prizes[w] = n.Prizes[at]
				add(n.Prizes[at], l.n)
			case l.Stock == s && l.most:
				high = min(high, l.n)
			case l.Stock == s:
				low = max(low, l.n)
			}
			if l.Has != nil {
				if at++; n.Prizes[at-1] != 0 && l.most == (n.Prizes[at-1] > 0) {
					return -1
				}
			}
		}
		gain := price(job, s)/c.Unit*c.Scale - dearest(job, c, s, n.Prices, prizes, way, nil)
		add(max(gain, 0), low)
		add(min(gain, 0), high)
	}
	return c.Unit * new(big.Int).Neg(new(big.Int).Div(sum.Neg(sum), big.NewInt(c.Scale))).Int64()
}

// A limit is a branch on the way to a leaf, the side that was taken, and the number on that side.
type limit struct {
	cutlist.CertificateNode
	most bool
	n    int
}

// dearest returns the greatest value of a pattern of stock line s that begins with take, by trying them all.
func dearest(job cutlist.Job, c *cutlist.Certificate, s int, prices []int64, prizes map[int]int64, way []limit, take []int) int64 {
	room, value, best := job.Stock[s].Length-job.EndTrim+kerfOf(job), int64(0), int64(0)
	for i, n := range take {
		room -= units.Length(n) * (c.Lengths[i] + kerfOf(job))
		value += int64(n) * max(prices[i], 0)
	}
	if i := len(take); i < len(c.Lengths) {
		for n := 0; n <= c.Wanted[i] && units.Length(n)*(c.Lengths[i]+kerfOf(job)) <= room; n++ {
			best = max(best, dearest(job, c, s, prices, prizes, way, append(take, n)))
		}
		return best
	}
	for w, prize := range prizes {
		if slices.CompareFunc(take, way[w].Has, func(n, least int) int { return min(n-least, 0) }) == 0 {
			value += prize
		}
	}
	return value
}

// medium draws a job like a workshop's with some branches in its proof.
func medium(r *rand.Rand, lengths, pieces int) cutlist.Job {
	var job cutlist.Job
	for _, l := range []int{2400, 3600, 4200} {
		job.Stock = append(job.Stock, cutlist.Stock{
			Length: units.Length(l) * mm,
			Price:  new(units.MoneyOfTenThousandths(int64(l) * int64(290+r.IntN(61)) / 1000 * 100)),
		})
	}
	for range 2 {
		job.Stock = append(job.Stock, cutlist.Stock{
			Length: units.Length(900+r.IntN(1501)) * mm, Count: 1 + r.IntN(2), Price: new(units.Money{}),
		})
	}
	for range lengths {
		job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(500+r.IntN(1901)) * mm, Count: pieces / lengths})
	}
	return job
}

func TestCertificate(t *testing.T) {
	branched, prizes := 0, 0
	check := func(job cutlist.Job, work int64) {
		plan, err := cutlist.Cut(context.Background(), job, cutlist.Options{Certify: true, Work: work})
		if err != nil {
			t.Fatal(err)
		}
		if wrong := breaks(job, plan); wrong != "" {
			t.Fatal(wrong)
		}
		c := plan.Certificate
		if got := certified(job, c, 0, nil); got < plan.Bound {
			t.Fatalf("the certificate proves %d, not %d", got, plan.Bound)
		}
		if len(c.Nodes) > 1 {
			branched++
		}
		if slices.ContainsFunc(c.Nodes, func(n cutlist.CertificateNode) bool { return n.Has != nil }) {
			prizes++
		}
	}
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 9))
		check(medium(r, 8, 24), 0)
		check(medium(r, 6, 12), 200_000)
		check(fullBars(3, seed), 0)
	}
	// Jobs whose linear program has whole numbers of bars but no plan of that cost.
	for _, pieces := range [][][2]int{
		{{41, 3}, {23, 4}, {35, 4}, {44, 4}, {57, 4}, {32, 1}, {33, 3}},
		{{37, 4}, {60, 4}, {17, 2}, {63, 4}, {42, 4}, {18, 2}},
		{{32, 2}, {56, 4}, {25, 3}, {38, 1}, {53, 3}, {23, 3}},
		{{31, 1}, {32, 2}, {50, 4}, {54, 3}, {48, 3}, {22, 3}},
	} {
		job := cutlist.Job{Kerf: new(units.Length(0)), Stock: []cutlist.Stock{{Length: 100 * mm}, {Length: 130 * mm}}}
		for _, p := range pieces {
			job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(p[0]) * mm, Count: p[1]})
		}
		check(job, 0)
		job.Stock = job.Stock[:1]
		check(job, 0)
	}
	if branched == 0 || prizes == 0 {
		t.Errorf("%d proofs with branches, %d with branches on patterns: too easy", branched, prizes)
	}
}
