package doors

import (
	"context"
	"errors"
	"math"
	"math/bits"

	"example.com/lapspan/units"
)

// Total is how many runs there are.
type Total struct {
	Count int64 // runs
	// Exact says that there are no more; else there are at least so many.
	Exact bool
}

// maxCountSteps bounds the sums that Count adds up.
const maxCountSteps = 60_000_000

// someSets is how many sets are looked at one by one where adding up does not count them all.
const someSets = 50_000

// Count counts the runs that close the opening of a search, whatever its rank
// and limit, without looking at each: it adds up in how many ways the widths
// make each total. It is exact unless many sets have doors narrower than two of
// their overlaps (not all of those can stand closed), there are more than an
// int64 holds, or the widths lie on so fine a step that adding up would take more
// than a moment. The errors are those of Best.
func Count(ctx context.Context, s Search) (Total, error) {
	s.Rank = nil
	p, err := prepare(ctx, s)
	if err != nil {
		return Total{}, err
	}
	v := p.in(ctx, s.Fit, s.wide(), 1)
	if v.cause != nil {
		return Total{}, v.cause
	}
	if s.Mixed && p.grid.built() {
		total, err := v.countTotals()
		if err != nil || total.Exact || p.sets > someSets {
			return total, err
		}
	}
	v.judge.region, v.judge.counts = judgeAll, &Total{Exact: true}
	if s.Mixed {
		v.every()
	} else {
		v.alike()
	}
	if errors.Is(v.cause, ErrWork) {
		return Total{Count: v.judge.counts.Count}, nil
	}
	return *v.judge.counts, v.cause
}

func (t *Total) add(hi, lo uint64) {
	if hi > 0 || lo > uint64(math.MaxInt64-t.Count) {
		t.Count, t.Exact = math.MaxInt64, false
		return
	}
	t.Count += int64(lo)
}

// countTotals counts sets by their totals: ways[j][x] is how many sets of j doors make x.
func (v *solver) countTotals() (Total, error) {
	t := Total{Exact: true}
	g := &v.grid
	steps := int64(0)
	var ways [MaxDoors + 1][]uint64
	for j := 1; j <= v.most; j++ {
		size := min(int64(j)*g.d[len(g.d)-1], v.far[j]) + 1
		steps += size * int64(len(g.d))
		if steps > maxCountSteps {
			return Total{}, nil
		}
		ways[j] = make([]uint64, size)
	}
	ways[0] = []uint64{1}
	for _, d := range g.d {
		if v.cause = v.ctx.Err(); v.cause != nil {
			return Total{}, v.cause
		}
		for j := 1; j <= v.most; j++ {
			to, from := ways[j], ways[j-1]
			if d >= int64(len(to)) {
				continue
			}
			to = to[d:]
			for x, n := range from[:min(len(from), len(to))] {
				to[x] += n
			}
		}
	}
	for i := range v.families {
		f := &v.families[i]
		w := v.windows(i, anything)[0]
		if v.clear[i].closes.hi > v.clear[i].free {
			t.Exact = t.Exact && !v.any(f.doors, window{max(v.clear[i].free+1, v.clear[i].closes.lo), v.clear[i].closes.hi})
		}
		for x := max(g.up(f.doors, w.lo), 0); x <= g.down(f.doors, w.hi) && x < int64(len(ways[f.doors])); x++ {
			t.add(bits.Mul64(ways[f.doors][x], uint64(len(f.patterns))))
		}
	}
	return t, nil
}

// any reports whether some set of n doors has a total in a window.
func (v *solver) any(n int, w window) bool {
	return nextBit(v.grid.top[n], v.grid.up(n, w.lo)) <= v.grid.down(n, w.hi)
}

// count adds the runs of one set on the patterns of a family.
func (j *judge) count(f *family, clear *clearance, free bool) {
	if free {
		j.counts.add(0, uint64(len(f.patterns)))
		return
	}
	var widths [MaxDoors]units.Length
	for i := range f.doors {
		widths[i] = units.Length(j.dealer.widths[f.doors-1-i])
	}
	for k := range f.patterns {
		if _, ok := j.solver.order(&f.patterns[k], widths[:f.doors], units.Length(clear.span)); ok {
			j.counts.add(0, 1)
		}
	}
}
