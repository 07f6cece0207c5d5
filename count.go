package lapspan

import (
	"context"
	"math"

	"example.com/lapspan/doors"
)

// fewRuns is how many runs between walls that lean are gone through where that makes their count exact.
const fewRuns = 2000

// count is how many runs a search has.
func (s *search) count(ctx context.Context, q *doors.Search) (doors.Total, error) {
	return s.counts.get(q, sameRuns, func() (doors.Total, error) { return doors.Count(ctx, *q) })
}

// plus adds a count; past what an int holds it is no longer exact.
func (t Total) plus(c doors.Total) Total {
	if c.Count > int64(math.MaxInt-t.Count) {
		return Total{Count: math.MaxInt}
	}
	return Total{Count: t.Count + int(c.Count), Exact: t.Exact && c.Exact}
}
