package doors

// sets walks through the sets of widths whose total lies in a window and that
// cost no more than a limit, the largest width first and ascending: every set once.
type sets struct {
	solver *solver
	doors  int
	lo, hi int64  // of the sum of d
	limit  *int64 // of the price; it may fall meanwhile
	visit  func(set []int16) bool
	at     [MaxDoors]int16
}

func (s *sets) place(i, most int, sum, price int64) bool {
	g, rest := &s.solver.grid, s.doors-i-1
	for x := g.atLeast(ceilDiv(s.lo-sum, int64(rest+1))); x <= most; x++ {
		with := sum + g.d[x]
		if with > s.hi {
			break
		}
		if live := s.solver.pricing.live; live != nil && !live[x] && *s.limit < noPrice {
			continue
		}
		if !s.solver.work(1) {
			return false
		}
		if g.built() && nextBit(g.row(rest, x), s.lo-with) > s.hi-with {
			continue
		}
		cost := price + s.solver.pricing.least[x]
		if *s.limit < noPrice && s.solver.pricing.total(s.doors, cost, rest, s.lo-with) > *s.limit {
			continue
		}
		s.at[i] = int16(x)
		if rest > 0 {
			if !s.place(i+1, x, with, cost) {
				return false
			}
		} else if with >= s.lo && !s.visit(s.at[:s.doors]) {
			return false
		}
	}
	return true
}
