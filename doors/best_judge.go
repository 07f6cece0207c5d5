package doors

import (
	"slices"

	"example.com/lapspan/units"
)

// region says which runs of a set are looked at: those whose every order can
// stand closed, those of which that is not known, or both.
type region uint8

const (
	judgeFree region = iota
	judgeTight
	judgeAll
)

// judge finds the runs of one set of widths.
type judge struct {
	solver   *solver
	region   region
	overlaps int // of the runs looked at; 0: any
	dealer   dealer
	counts   *Total // not nil: the runs are counted only
}

// take readies the dealer for a set, the largest width first, and returns its total.
func (j *judge) take(set []int16) int64 {
	j.dealer.count = len(set)
	total := int64(0)
	for i, k := range set {
		w := j.solver.width[k]
		j.dealer.widths[i] = w
		total += w
	}
	return total
}

// within reports whether family i closes with a total, in the class and the
// region, and whether every order stands.
func (j *judge) within(i int, total int64, c class) (ok, free bool) {
	f, clear := &j.solver.families[i], &j.solver.clear[i]
	closes := clear.windows(c.sure)
	narrowest := j.dealer.widths[j.dealer.count-1]
	free = int64(f.overlaps)*narrowest >= 2*(total-clear.tied) && j.solver.search.Gear.Showing == 0
	ok = f.doors == j.dealer.count && !(window{total, total}).meet(closes[0]).empty() ||
		f.doors == j.dealer.count && !(window{total, total}).meet(closes[1]).empty()
	switch {
	case j.region == judgeFree:
		ok = ok && total <= clear.free
	case j.region == judgeTight:
		ok = ok && total > clear.free
	}
	return ok && (j.overlaps == 0 || j.overlaps == f.overlaps) && j.solver.has(i, c) && (c.width < 0 || c.width == total), free
}

// show shows the podium the runs of a set in a class.
func (j *judge) show(set []int16, c class) {
	v := j.solver
	total := j.take(set)
	price := v.pricing.of(set)
	v.work(len(v.families) / 4) // a glance at each
	if c.price >= 0 && price != c.price {
		return
	}
	for i := range v.families {
		ok, free := j.within(i, total, c)
		if !ok {
			continue
		}
		f, clear := &v.families[i], &v.clear[i]
		if j.counts != nil {
			j.count(f, clear, free)
			continue
		}
		score := score(f, clear, total, price)
		score.Access = units.Length(clear.span - max(j.dealer.widths[0], (total+MaxTracks-1)/MaxTracks))
		if !v.podium.beats(&score) {
			continue
		}
		// However the doors stand, one track holds so much.
		v.work(walkStep)
		stack := j.dealer.least(f.rooms, none)
		score.Access = units.Length(clear.span - stack)
		if !v.podium.beats(&score) {
			continue
		}
		if !free {
			j.tight(f, clear, score, c)
			continue
		}
		if c.access >= 0 && c.access != int64(score.Access) {
			continue
		}
		for k := range f.patterns {
			if !v.work(walkStep) {
				return
			}
			p := &f.patterns[k]
			var order [MaxDoors]int8
			j.dealer.leftmost(p, p.rooms(), stack, &order)
			var at [MaxDoors]int16
			for i := range p.doors {
				at[i] = set[order[i]]
			}
			v.show(p, &at, score, total-clear.over)
		}
	}
}

// tight shows the runs of a set whose orders may not all stand closed.
func (j *judge) tight(f *family, clear *clearance, score Score, c class) {
	v := j.solver
	var widths [MaxDoors]units.Length
	for i := range f.doors {
		widths[i] = units.Length(j.dealer.widths[f.doors-1-i])
	}
	narrowest := units.Length(clear.span)
	for k := range f.patterns {
		run, ok := v.order(&f.patterns[k], widths[:f.doors], narrowest)
		if v.cause != nil {
			return
		}
		if !ok {
			continue
		}
		score.Access = run.Access(narrowest).Width()
		if c.access >= 0 && c.access != int64(score.Access) {
			continue
		}
		var at [MaxDoors]int16
		for i := range f.doors {
			k, _ := slices.BinarySearch(v.width, int64(run.doors[i].Width))
			at[i] = int16(k)
		}
		v.show(&f.patterns[k], &at, score, int64(score.Width)-clear.over)
	}
}

// score is what is known of a run by its family, total and price: the widest
// access that could be and no unevenness.
func score(f *family, clear *clearance, total, price int64) Score {
	s := Score{
		Sure:   clear.sure.lo <= total && total <= clear.sure.hi,
		Width:  units.Length(total),
		Doors:  f.doors,
		Access: units.Length(clear.span),
		Price:  price,
	}
	if price == noPrice {
		s.Price = Unpriced
	}
	return s
}

// show shows the podium one run, whose overlaps in place at the widest reading add up to over.
func (v *solver) show(p *pattern, at *[MaxDoors]int16, score Score, over int64) {
	var widths [MaxDoors]int64
	for i := range p.doors {
		widths[i] = v.width[at[i]]
	}
	score.Uneven = p.uneven(&widths, over)
	if v.podium.beats(&score) {
		v.podium.show(Ranked{Run: p.run(v.width, at).WithShowing(v.search.Gear.Showing), Score: score})
	}
}
