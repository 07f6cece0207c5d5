package lapspan

import (
	"cmp"
	"slices"
	"sort"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Key is what proposals are ranked by.
type Key string

const (
	BySure   Key = "sure"   // those that need not be measured again first
	ByPrice  Key = "price"  // cheaper first, those without a price last
	ByWidth  Key = "width"  // less total door width first
	ByDoors  Key = "doors"  // fewer doors first
	ByAccess Key = "access" // wider access first
	ByHeight Key = "height" // taller door as hung first
	ByCuts   Key = "cuts"   // fewer saw cuts on doors first
	ByEven   Key = "even"   // less difference between the visible widths first
)

var keys = []Key{BySure, ByPrice, ByWidth, ByDoors, ByAccess, ByHeight, ByCuts, ByEven}

// DefaultRank is the rank of a job that states none: sure, then price when
// every proposal is fully priced, else width, doors, access, cuts and height.
func DefaultRank(priced bool) []Key {
	if priced {
		return []Key{BySure, ByPrice}
	}
	return []Key{BySure, ByWidth, ByDoors, ByAccess, ByCuts, ByHeight}
}

// option is one proposal before it is written out: small, so that many can be ranked.
type option struct {
	variant *variant
	height  *choice
	// clear is the opening as this run finds it, under and over its margins there.
	clear       *opening.Clear
	under, over units.Length
	set         widthSet
	price       int64           // in ten-thousandths; unpriced when a line has none
	candidate   doors.Candidate // of which the run is asked for when it is needed
	run         doors.Run
	ordered     bool // run is filled
}

// widthSet is the widths of a run's doors, ascending.
type widthSet struct {
	widths        [doors.MaxDoors]units.Length
	count         int
	madeToMeasure bool
}

func setOf(c *doors.Candidate) widthSet {
	w := widthSet{count: c.Len(), madeToMeasure: c.MadeToMeasure}
	for i := range w.count {
		w.widths[i] = c.WidthAt(i)
	}
	return w
}

func (w *widthSet) sum() units.Length {
	var sum units.Length
	for _, width := range w.widths[:w.count] {
		sum += width
	}
	return sum
}

// arranged is the run in the order offered, found when it is first asked for.
func (o *option) arranged() doors.Run {
	if !o.ordered {
		o.run, _ = o.candidate.Run()
		o.ordered = true
	}
	return o.run
}

func (o *option) sure() bool {
	return o.height.sure && o.under >= o.clear.Narrowest.Uncertainty && o.over >= o.clear.Widest.Uncertainty
}

// compare orders two options by one key; negative: o comes first.
func (o *option) compare(p *option, key Key) int {
	switch key {
	case BySure:
		return -compareBool(o.sure(), p.sure())
	case ByPrice:
		if unknown := compareBool(o.price == unpriced, p.price == unpriced); unknown != 0 {
			return unknown
		}
		return cmp.Compare(o.price, p.price)
	case ByWidth:
		return cmp.Compare(o.set.sum(), p.set.sum())
	case ByDoors:
		return cmp.Compare(o.set.count, p.set.count)
	case ByAccess:
		return o.compareAccess(p)
	case ByHeight:
		return cmp.Compare(p.height.Door, o.height.Door)
	case ByCuts:
		return cmp.Compare(o.height.saws*o.set.count, p.height.saws*p.set.count)
	case ByEven:
		return cmp.Compare(o.uneven(), p.uneven())
	}
	return 0
}

// compareAccess puts wider access first. The order of o's doors is searched for
// only when no bound shows already that p's access is wider.
func (o *option) compareAccess(p *option) int {
	theirs := p.access()
	if !o.ordered && o.clear == &o.variant.clear && o.candidate.AccessBound() < theirs {
		return 1
	}
	return cmp.Compare(theirs, o.access())
}

func (o *option) access() units.Length {
	return o.arranged().Access(o.clear.Width.Min).Width()
}

func (o *option) uneven() units.Length {
	// A run that closes the widest reading has overlaps to share.
	sight, _ := o.arranged().Sight(*o.variant.gearOf, o.clear.Width.Max)
	return sight.Uneven
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// ranking keeps the best options of those it is shown.
type ranking struct {
	keys  []Key
	limit int
	best  []*option // in order
}

// compare is a total order: no two options of a job are equal. The last ties
// are the method, cutting back before end panels, the taller stock, the widths
// and the tracks from left to right, the list that comes first number by number.
func (r *ranking) compare(o, p *option) int {
	for _, key := range r.keys {
		if c := o.compare(p, key); c != 0 {
			return c
		}
	}
	if c := cmp.Or(
		cmp.Compare(o.height.Method.Order(), p.height.Method.Order()),
		cmp.Compare(o.variant.index, p.variant.index),
		cmp.Compare(p.height.Stock, o.height.Stock),
	); c != 0 {
		return c
	}
	a, b := o.arranged(), p.arranged()
	for i := range min(a.Len(), b.Len()) {
		if c := cmp.Compare(a.At(i).Width, b.At(i).Width); c != 0 {
			return c
		}
	}
	if a.Len() != b.Len() {
		return cmp.Compare(a.Len(), b.Len())
	}
	for i := range a.Len() {
		if c := cmp.Compare(a.At(i).Track, b.At(i).Track); c != 0 {
			return c
		}
	}
	return 0
}

// show offers an option to the ranking, which keeps a copy.
func (r *ranking) show(o *option) {
	full := len(r.best) == r.limit
	if full && r.compare(o, r.best[r.limit-1]) >= 0 {
		return
	}
	at := sort.Search(len(r.best), func(i int) bool { return r.compare(r.best[i], o) > 0 })
	var kept *option
	if full {
		kept, r.best = r.best[r.limit-1], r.best[:r.limit-1]
		*kept = *o
	} else {
		kept = new(*o)
	}
	r.best = slices.Insert(r.best, at, kept)
}
