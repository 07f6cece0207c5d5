package opening

import (
	"cmp"
	"slices"

	"example.com/lapspan/units"
)

// Use is one use that a job makes of a figure: how much it may be out before
// what is ordered, or the method, has to change.
type Use struct {
	Figure   string       // what it is, such as "widest width"
	Deciding Deciding     // the readings behind it
	Margin   units.Length // how far it may be out
}

// Again is a reading to measure again before anything is ordered.
type Again struct {
	Place  string `json:"place"`  // of the reading
	Figure string `json:"figure"` // that it decides
	// Margin is how far that figure may be out, Uncertainty how far it may be out as it was read.
	Margin      units.Length `json:"margin"`
	Uncertainty units.Length `json:"uncertainty"` // expanded
}

// Short is by how much the margin is too small for the reading.
func (a Again) Short() units.Length { return a.Uncertainty - a.Margin }

// MeasureAgain lists the readings that decide a figure whose margin is smaller
// than its uncertainty, each once, the one of most use first: that whose margin
// is short by most, then by place. A margin as large as the uncertainty is enough.
func MeasureAgain(uses ...Use) []Again {
	var list []Again
	for _, u := range uses {
		if u.Margin >= u.Deciding.Uncertainty {
			continue
		}
		for _, place := range u.Deciding.Places {
			list = append(list, Again{place, u.Figure, u.Margin, u.Deciding.Uncertainty})
		}
	}
	slices.SortStableFunc(list, func(a, b Again) int {
		return cmp.Or(cmp.Compare(b.Short(), a.Short()), cmp.Compare(a.Place, b.Place))
	})
	seen := make(map[string]bool, len(list))
	return slices.DeleteFunc(list, func(a Again) bool {
		again := seen[a.Place]
		seen[a.Place] = true
		return again
	})
}
