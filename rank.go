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
	BySure   Key = Key(doors.BySure)   // those that need not be measured again first
	ByPrice  Key = Key(doors.ByPrice)  // cheaper first, those without a price last
	ByWidth  Key = Key(doors.ByWidth)  // less total door width first
	ByDoors  Key = Key(doors.ByDoors)  // fewer doors first
	ByAccess Key = Key(doors.ByAccess) // wider access first
	ByHeight Key = "height"            // taller door as hung first
	ByCuts   Key = "cuts"              // fewer saw cuts on doors first
	ByEven   Key = Key(doors.ByEven)   // less difference between the visible widths first
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
	clear   *opening.Clear // the opening as this run finds it
	// The run, with what every key of package doors makes of it; the price is that
	// of the whole order, in ten-thousandths.
	doors.Ranked
}

// margins are how far the narrowest reading may be out, and the widest.
func (o *option) margins(g doors.Gear) (under, over units.Length) {
	return o.clear.Width.Min - o.Run.Least(g), o.Run.Cover(g) - o.clear.Width.Max
}

// widthSet is the widths of a run's doors, ascending.
type widthSet struct {
	widths        [doors.MaxDoors]units.Length
	count         int
	madeToMeasure bool
}

func (o *option) set() widthSet {
	w := widthSet{count: o.Run.Len(), madeToMeasure: o.height.Method == doors.ToMeasure}
	for i := range w.count {
		w.widths[i] = o.Run.At(i).Width
	}
	slices.Sort(w.widths[:w.count])
	return w
}

// compare orders two options by one key; negative: o comes first.
func (o *option) compare(p *option, key Key) int {
	switch key {
	case ByHeight:
		return cmp.Compare(p.height.Door, o.height.Door)
	case ByCuts:
		return cmp.Compare(o.height.saws*o.Run.Len(), p.height.saws*p.Run.Len())
	}
	return o.Score.Compare(p.Score, doors.Key(key))
}

// compareBy orders two options by some keys, the first key first.
func (o *option) compareBy(keys []Key, p *option) int {
	for _, key := range keys {
		if c := o.compare(p, key); c != 0 {
			return c
		}
	}
	return 0
}

// compareHung orders two options by how they are hung: the last ties but those of the doors.
func (o *option) compareHung(p *option) int {
	return cmp.Or(
		cmp.Compare(o.height.Method.Order(), p.height.Method.Order()),
		cmp.Compare(o.variant.index, p.variant.index),
		cmp.Compare(p.height.Stock, o.height.Stock),
	)
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
	if c := cmp.Or(o.compareBy(r.keys, p), o.compareHung(p)); c != 0 {
		return c
	}
	return o.Ranked.Compare(p.Ranked, nil)
}

func (r *ranking) full() bool { return len(r.best) == r.limit }

// last is the worst option kept; the ranking is full.
func (r *ranking) last() *option { return r.best[r.limit-1] }

// show offers an option to the ranking, which keeps a copy.
func (r *ranking) show(o *option) {
	if r.full() && r.compare(o, r.last()) >= 0 {
		return
	}
	at := sort.Search(len(r.best), func(i int) bool { return r.compare(r.best[i], o) > 0 })
	var kept *option
	if r.full() {
		kept, r.best = r.last(), r.best[:r.limit-1]
		*kept = *o
	} else {
		kept = new(*o)
	}
	r.best = slices.Insert(r.best, at, kept)
}
