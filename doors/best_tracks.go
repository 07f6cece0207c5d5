package doors

// share is what the doors still to come on one track may add: a bit for each
// sum of d, and the sums from lo to hi that are wanted.
type share struct {
	row    []uint64
	lo, hi int64
}

// maxProbes bounds the ways that reach tries; past it the answer is "perhaps".
const maxProbes = 1 << 12

// reach reports whether sums of the shares can add up to between lo and hi. It
// may say so wrongly only past maxProbes tries: it never denies what is possible.
func reach(shares []share, lo, hi int64, probes *int) bool {
	if len(shares) == 0 {
		return lo <= 0 && 0 <= hi
	}
	s := &shares[0]
	if len(shares) == 1 {
		return nextBit(s.row, max(lo, s.lo)) <= min(hi, s.hi)
	}
	var least, most int64
	for _, o := range shares[1:] {
		least += max(o.lo, 0)
		most += min(o.hi, int64(len(o.row))*64)
	}
	last := min(s.hi, hi-least)
	for x := nextBit(s.row, max(s.lo, lo-most)); x <= last; x = nextBit(s.row, x+1) {
		if *probes++; *probes > maxProbes || reach(shares[1:], lo-x, hi-x, probes) {
			return true
		}
	}
	return false
}

// tracks goes through the greatest totals that one track can have in runs of one
// family with a total in a window, ascending.
type tracks struct {
	solver *solver
	family *family
	lo, hi int64 // of the sum of d
	span   int64
	stack  int64 // the greatest total at hand, or none
}

func (v *solver) tracks(i int, w window) tracks {
	f := &v.families[i]
	return tracks{v, f, v.grid.up(f.doors, w.lo), v.grid.down(f.doors, w.hi), v.clear[i].span, none}
}

// next moves on to the least possible greatest total from one up.
func (t *tracks) next(from int64) {
	g, f := &t.solver.grid, t.family
	used := int64(0)
	for _, n := range f.rooms {
		if n > 0 {
			used++
		}
	}
	t.stack = none
	if t.lo > t.hi {
		return
	}
	from = max(from, ceilDiv(g.total(f.doors, t.lo), used))
	for t.solver.work(walkStep) {
		next := int64(none)
		for k, n := range f.rooms {
			if n == 0 || k > 0 && n == f.rooms[k-1] {
				continue
			}
			if sum := nextBit(g.top[n], g.up(int(n), from)); sum < none {
				next = min(next, g.total(int(n), sum))
			}
		}
		if next == none || next > t.span {
			return
		}
		if t.possible(next) {
			t.stack = next
			return
		}
		from = next + 1
	}
}

// possible reports whether one track can be as wide as stack and none wider.
func (t *tracks) possible(stack int64) bool {
	g, f := &t.solver.grid, t.family
	for k, n := range f.rooms {
		if n == 0 || k > 0 && n == f.rooms[k-1] {
			continue
		}
		sum := g.down(int(n), stack)
		if g.total(int(n), sum) != stack || nextBit(g.top[n], sum) != sum {
			continue
		}
		var store [MaxTracks]share
		shares := store[:0]
		for o, n := range f.rooms {
			if o != k && n > 0 {
				shares = append(shares, share{g.top[n], 0, g.down(int(n), stack)})
			}
		}
		probes := 0
		if reach(shares, t.lo-sum, t.hi-sum, &probes) {
			return true
		}
	}
	return false
}
