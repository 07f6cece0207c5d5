package doors

import "example.com/lapspan/units"

// Uprights returns the best places for uprights of a thickness behind the
// doors: every compartment between them, and between them and the ends of the
// opening, can be cleared whole by some parking, and the narrowest compartment is
// as wide as it can be. count is how many uprights; zero: the fewest that do.
// Compartments have some width, and of places equally good each upright, from the
// right, stands as near as it can to where it would leave the compartments
// left of it alike.
//
// It is false when no places do, as where a stretch wider than an upright is
// blind, and for a count below zero or above MaxUprights or a thickness below zero.
func (r Run) Uprights(opening, thickness units.Length, count int) ([]Gap, bool) {
	if count < 0 || count > MaxUprights || thickness < 0 || thickness > units.MaxLength {
		return nil, false
	}
	d := dividing{gaps: r.gaps(opening), opening: opening, thickness: thickness}
	if count > 0 {
		return d.best(count)
	}
	for n := range MaxUprights + 1 {
		if places, ok := d.best(n); ok {
			return places, true
		}
	}
	return nil, false
}

// MaxUprights bounds the uprights behind one run of doors.
const MaxUprights = 20

// dividing puts uprights behind doors whose parkings leave the gaps.
type dividing struct {
	gaps               []Gap // from left to right, none inside another
	opening, thickness units.Length
}

// best finds the widest narrowest compartment by halving: where compartments of
// some width are possible, narrower ones are.
func (d *dividing) best(count int) ([]Gap, bool) {
	possible, not := units.Length(0), d.opening+1
	for not-possible > 1 {
		if width := possible + (not-possible)/2; d.reaches(count, width) != nil {
			possible = width
		} else {
			not = width
		}
	}
	if possible == 0 {
		return nil, false
	}
	starts := d.reaches(count, possible)
	// From the right: the last compartment ends with the opening.
	places := make([]Gap, count)
	end := d.opening
	for i := count; i > 0; i-- {
		alike := (end - units.Length(i)*d.thickness) / units.Length(i+1)
		start := d.nearest(starts[i], end, possible, end-alike)
		places[i-1] = Gap{start - d.thickness, start}
		end = start - d.thickness
	}
	return places, true
}

// reaches returns, for every compartment from the left, where it can begin when
// no compartment is narrower than width; nil when the last cannot end with the opening.
func (d *dividing) reaches(count int, width units.Length) [][]units.Span {
	starts := make([][]units.Span, 1, count+1)
	starts[0] = []units.Span{{}}
	for i := range count + 1 {
		var ends []units.Span
		for _, g := range d.gaps {
			for _, s := range starts[i] {
				// Begun in the gap and no later than leaves the width in it.
				from, to := max(s.Min, g.From), min(s.Max, g.To-width)
				if from <= to {
					ends = append(ends, units.Span{Min: from + width, Max: g.To})
					break // a later begin reaches no other end
				}
			}
		}
		if i == count {
			for _, e := range ends {
				if e.Contains(d.opening) {
					return starts
				}
			}
			return nil
		}
		for k := range ends {
			ends[k].Min += d.thickness
			ends[k].Max += d.thickness
		}
		starts = append(starts, ends)
	}
	return nil
}

// nearest is the begin, of those possible, of a compartment of at least the
// width that ends at end inside one gap, nearest to the one wanted.
func (d *dividing) nearest(starts []units.Span, end, width, wanted units.Length) units.Length {
	best, found := units.Length(0), false
	for _, g := range d.gaps {
		if end > g.To {
			continue
		}
		for _, s := range starts {
			from, to := max(s.Min, g.From), min(s.Max, end-width)
			if from > to {
				continue
			}
			at := min(max(wanted, from), to)
			if !found || (at-wanted).Abs() < (best-wanted).Abs() {
				best, found = at, true
			}
		}
	}
	return best
}
