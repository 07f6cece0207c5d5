package lapspan

import (
	"context"
	"math"

	"example.com/lapspan/doors"
)

// fewRuns is how many runs are gone through where that makes a count exact, and
// fewSets the sets of widths that are gone through for them.
const (
	fewRuns = 2000
	fewSets = 20_000
)

// count is how many runs a search has. Where doors are so narrow that adding up is
// not exact, few are gone through.
func (s *search) count(ctx context.Context, q *doors.Search) (doors.Total, error) {
	return s.counts.get(q, sameRuns, func() (doors.Total, error) {
		count, err := doors.Count(ctx, *q)
		if err != nil || count.Exact || count.Count > fewRuns || !haveFewSets(q) {
			return count, err
		}
		every := *q
		every.Rank, every.Limit = nil, fewRuns
		found, err := doors.Best(ctx, every)
		return doors.Total{Count: max(count.Count, int64(len(found.Runs))), Exact: found.All && found.Proven}, err
	})
}

// haveFewSets reports whether the widths of a search make no more than fewSets sets:
// C(m+n−1, n) of n doors from m widths.
func haveFewSets(q *doors.Search) bool {
	all, sets := 0, len(q.Widths)
	for n := 2; n <= q.MaxDoors && all <= fewSets; n++ {
		sets = sets * (len(q.Widths) + n - 1) / n
		all += sets
	}
	return all <= fewSets
}

// plus adds a count; past what an int holds it is no longer exact.
func (t Total) plus(c doors.Total) Total {
	if c.Count > int64(math.MaxInt-t.Count) {
		return Total{Count: math.MaxInt}
	}
	return Total{Count: t.Count + int(c.Count), Exact: t.Exact && c.Exact}
}
