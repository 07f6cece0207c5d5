package lapspan

import (
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// Near misses are listed up to nearLimit; beside proposals only those that miss
// by no more than nearBy, alone the nearest there are.
const (
	nearLimit = 5
	nearBy    = 50 * units.Millimetre
)

// nearMiss is a run of doors that does not close its opening; its height is not set.
type nearMiss struct {
	option
	stock units.Length // the tallest stock height that could be hung
}

func (n *nearMiss) by() units.Length { return -min(n.under, n.over) }

func (n *nearMiss) side() Side {
	if n.over < n.under {
		return Short
	}
	return Over
}

// sameWidths reports whether two misses are one set of doors that misses by as much.
func (n *nearMiss) sameWidths(o *nearMiss) bool {
	return n.variant == o.variant && n.set == o.set && n.by() == o.by()
}

// missed keeps the nearest misses; of equal ones those met first.
func (s *search) missed(n nearMiss) {
	full := len(s.near) == nearLimit
	if full && n.by() >= s.near[nearLimit-1].by() {
		return
	}
	at := 0
	for at < len(s.near) && s.near[at].by() <= n.by() {
		if n.sameWidths(&s.near[at]) {
			s.near[at].stock = max(s.near[at].stock, n.stock)
			return
		}
		at++
	}
	if full {
		s.near = s.near[:nearLimit-1]
	}
	s.near = slices.Insert(slices.Grow(s.near, nearLimit-len(s.near)), at, n)
}

func (s *search) nearMisses() []NearMiss {
	var misses []NearMiss
	for i := range s.near {
		n := &s.near[i]
		run := n.arranged()
		if run.Len() == 0 || s.total.Count > 0 && n.by() > nearBy {
			continue // no order of the doors can stand, or it is of no use
		}
		c := n.clear
		miss := NearMiss{
			Skirting: Treatments{c.Left, c.Right}, Doors: run.Doors(), Side: n.side(), By: n.by(), StockHeight: n.stock,
		}
		if miss.Side == Short {
			miss.Message = fmt.Sprintf("%s short of the widest reading", miss.By)
		} else {
			miss.Message = fmt.Sprintf("%s too wide for the narrowest reading at the greatest overlap", miss.By)
		}
		miss.Changes = doors.Changes(run, s.job.Gear, c.Width)
		misses = append(misses, miss)
	}
	return misses
}
