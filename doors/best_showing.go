package doors

import (
	"context"
	"slices"

	"example.com/lapspan/units"
)

// Doors that keep some of themselves showing cannot pass each other, so that
// not every order of a set stands, the order decides about the access, and none of
// what the search knows of doors that pass holds. But were they to pass, each set on
// its tracks would close the opening just as well, with the same width and price, and
// with no less access.

// checked goes through the runs of doors that would pass in rank order and looks
// at what each of their sets really is, until those to come are worse than all
// that is wanted even so. What comes after evenness in the rank, of which doors that
// pass tell nothing, does not end it.
func (v *solver) checked(ctx context.Context, fit, wide Fit) {
	passing := *v.prepared
	passing.search.Gear.Showing, passing.maxWork = 0, v.maxWork/4
	known := v.search.Rank
	if even := slices.Index(known, ByEven); even >= 0 {
		known = known[:even]
	}
	passing.search.Rank = known
	further := v.pileFurther(slices.Index(known, ByDoors) < slices.Index(known, ByAccess) && slices.Contains(known, ByDoors))
	seen := 0
	for lot := v.podium.limit; ; lot = min(8*lot, MaxFound) {
		found, err := passing.best(ctx, fit, wide, lot)
		if err != nil {
			v.cause = err
			return
		}
		for _, r := range found.Runs[seen:] {
			// Runs that are not proven to be the next tell nothing of those after them.
			if v.podium.full() && found.Proven {
				bound := r.Score
				bound.Access -= further[bound.Doors]
				if bound.compare(&v.podium.last().Score, known) > 0 {
					return
				}
			}
			in := fit
			if r.Score.Doors > MinDoors {
				in = wide
			}
			p, widths := r.Run.pattern()
			run, ok := v.order(&p, widths[:p.doors], in.Span.Min)
			if score, closes := in.Score(run, v.search.Gear); ok && closes {
				score.Price = r.Score.Price
				v.podium.show(Ranked{run, score})
			}
			if v.cause != nil {
				return
			}
		}
		if seen = len(found.Runs); found.All {
			return
		}
		if !found.Proven || lot == MaxFound {
			v.cause = ErrWork
			return
		}
	}
}

// pileFurther is by how much further than the doors of any one track the doors of
// a run reach when they are piled up, at least: those before the first door of the
// track and those after its last keep showing at either end. It is told for each number
// of doors where runs compared by access have as many, else the least of all.
func (v *solver) pileFurther(byDoors bool) (further [MaxDoors + 1]units.Length) {
	least := units.MaxLength
	for n := range further {
		further[n] = units.MaxLength
	}
	for i := range v.families {
		f := &v.families[i]
		for k := range f.patterns {
			by := units.Length(f.patterns[k].endJunctions()) * v.search.Gear.Showing
			further[f.doors], least = min(further[f.doors], by), min(least, by)
		}
	}
	if !byDoors {
		for n := range further {
			further[n] = least
		}
	}
	return further
}

// endJunctions is how many overlapping junctions lie before the first door of a track and
// after its last, of the track where they are fewest.
func (p *pattern) endJunctions() int {
	fewest := p.doors
	for t := range int8(MaxTracks) {
		first := slices.Index(p.tracks[:p.doors], t)
		if first < 0 {
			continue
		}
		last := p.doors - 1
		for p.tracks[last] != t {
			last--
		}
		n := 0
		for i := 1; i < p.doors; i++ {
			if (i <= first || i > last) && p.tracks[i] != p.tracks[i-1] {
				n++
			}
		}
		fewest = min(fewest, n)
	}
	return fewest
}

// pattern is the tracks of a run, and its widths ascending.
func (r *Run) pattern() (p pattern, widths [MaxDoors]units.Length) {
	p = pattern{doors: r.count, overlaps: r.Overlaps()}
	for i, d := range r.doors[:r.count] {
		p.tracks[i], widths[i] = int8(d.Track), d.Width
	}
	slices.Sort(widths[:r.count])
	return p, widths
}

// orderStep is how many steps of the walk through sets it takes to try a door in an order.
const orderStep = 3

// order is bestOrder, counted as work.
func (v *solver) order(p *pattern, widths []units.Length, narrowest units.Length) (Run, bool) {
	run, ok, steps := p.bestOrder(widths, v.search.Gear, narrowest)
	v.work(walkStep + orderStep*steps)
	return run, ok
}
