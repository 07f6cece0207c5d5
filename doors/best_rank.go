package doors

import (
	"cmp"

	"example.com/lapspan/units"
)

// Key is one thing that runs are ranked by.
type Key string

const (
	BySure   Key = "sure"   // margins no smaller than the readings' doubts first
	ByPrice  Key = "price"  // cheaper first, those without a price last
	ByWidth  Key = "width"  // less total door width first
	ByDoors  Key = "doors"  // fewer doors first
	ByAccess Key = "access" // wider access first
	ByEven   Key = "even"   // visible widths that differ less first
)

var keys = []Key{BySure, ByPrice, ByWidth, ByDoors, ByAccess, ByEven}

// Ranked is a run with what it was ranked by.
type Ranked struct {
	Run   Run   // in the order offered
	Score Score // what every key makes of it
}

// Score is what a run is ranked by, whichever keys were asked for.
type Score struct {
	Sure   bool         // its margins are no smaller than the doubts
	Width  units.Length // Σw
	Doors  int          // how many
	Access units.Length // in the narrowest reading
	Price  int64        // of the doors and what is fixed for their number; Unpriced when a door has none
	// Uneven is the largest less the smallest visible width when the run closes
	// the widest reading, in UnevenParts of a nanometre, which is exact.
	Uneven int64
}

// UnevenParts is how many parts of a nanometre Score.Uneven counts in: a
// multiple of every number of junctions.
const UnevenParts = 420

// Compare orders two scores by one key: negative when s comes first. A key that is
// none of the constants tells nothing apart.
func (s Score) Compare(t Score, key Key) int {
	switch key {
	case BySure:
		return first(s.Sure, t.Sure)
	case ByPrice:
		return cmp.Compare(priceRank(s.Price), priceRank(t.Price))
	case ByWidth:
		return cmp.Compare(s.Width, t.Width)
	case ByDoors:
		return cmp.Compare(s.Doors, t.Doors)
	case ByAccess:
		return cmp.Compare(t.Access, s.Access)
	case ByEven:
		return cmp.Compare(s.Uneven, t.Uneven)
	}
	return 0
}

// compare orders two scores by a rank.
func (s *Score) compare(t *Score, rank []Key) int {
	for _, key := range rank {
		if c := s.Compare(*t, key); c != 0 {
			return c
		}
	}
	return 0
}

// Compare orders two runs by a rank and then by their widths from left to right
// and their tracks, the list that comes first number by number: negative when r comes first.
func (r Ranked) Compare(o Ranked, rank []Key) int { return r.compare(&o, rank) }

func (r *Ranked) compare(o *Ranked, rank []Key) int {
	if c := r.Score.compare(&o.Score, rank); c != 0 {
		return c
	}
	a, b := &r.Run, &o.Run
	for i := range min(a.count, b.count) {
		if c := cmp.Compare(a.doors[i].Width, b.doors[i].Width); c != 0 {
			return c
		}
	}
	if c := cmp.Compare(a.count, b.count); c != 0 {
		return c
	}
	for i := range a.count {
		if c := cmp.Compare(a.doors[i].Track, b.doors[i].Track); c != 0 {
			return c
		}
	}
	return 0
}

// first puts true before false.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// noPrice stands for Unpriced where prices are compared: it is larger than any.
const noPrice = 1 << 62

func priceRank(price int64) int64 {
	if price == Unpriced {
		return noPrice
	}
	return price
}

// podium keeps the best runs of those it is shown.
type podium struct {
	rank []Key
	least[Ranked]
}

func newPodium(rank []Key, limit int) podium {
	return podium{rank, least[Ranked]{limit: limit, compare: func(a, b *Ranked) int { return a.compare(b, rank) }}}
}

// wanted is how many more runs it has room for.
func (p *podium) wanted() int { return p.limit - len(p.kept) }

// beats reports whether a run whose score is no better than s in any key could
// still come onto the podium.
func (p *podium) beats(s *Score) bool {
	return !p.full() || s.compare(&p.last().Score, p.rank) <= 0
}
