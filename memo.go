package lapspan

import (
	"slices"

	"example.com/lapspan/doors"
)

// memo keeps what searches answered: many ways to use the height ask for the same runs.
type memo[T any] struct {
	asked   []*doors.Search
	answers []T
}

// get returns the answer to a query that is the same, or asks. The query is kept.
func (m *memo[T]) get(q *doors.Search, same func(a, b *doors.Search) bool, ask func() (T, error)) (T, error) {
	for i, asked := range m.asked {
		if same(asked, q) {
			return m.answers[i], nil
		}
	}
	answer, err := ask()
	if err == nil {
		m.asked, m.answers = append(m.asked, q), append(m.answers, answer)
	}
	return answer, err
}

// sameRuns reports whether two searches of one job have the same runs.
func sameRuns(a, b *doors.Search) bool {
	return a.Fit == b.Fit && a.Wide == b.Wide && a.SidesDiffer == b.SidesDiffer &&
		slices.EqualFunc(a.Widths, b.Widths, func(a, b doors.Offer) bool { return a.Width == b.Width })
}

// sameRank reports whether they have them in the same order.
func sameRank(a, b *doors.Search) bool {
	return sameRuns(a, b) && slices.Equal(a.Widths, b.Widths) && a.Fixed == b.Fixed && slices.Equal(a.Rank, b.Rank)
}
