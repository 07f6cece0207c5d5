package lapspan

import (
	"cmp"
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

// nearMiss is a candidate that does not close its opening.
type nearMiss struct {
	variant   *variant
	candidate doors.Candidate
	stock     units.Length // the tallest stock height that could be hung
}

func (n *nearMiss) by() units.Length { return -min(n.candidate.Under, n.candidate.Over) }

func (n *nearMiss) side() Side {
	if n.candidate.Over < n.candidate.Under {
		return Short
	}
	return Over
}

// sameWidths reports whether two misses are one set of doors that misses by as much.
func (n *nearMiss) sameWidths(o *nearMiss) bool {
	if n.variant != o.variant || n.candidate.Len() != o.candidate.Len() || n.by() != o.by() {
		return false
	}
	for i := range n.candidate.Len() {
		if n.candidate.WidthAt(i) != o.candidate.WidthAt(i) {
			return false
		}
	}
	return true
}

// missed keeps the nearest misses; of equal ones those met first. A stock height
// of 0 is looked up.
func (s *search) missed(v *variant, c *doors.Candidate, stock units.Length) {
	n := nearMiss{v, *c, stock}
	full := len(s.near) == nearLimit
	if full && n.by() >= s.near[nearLimit-1].by() {
		return
	}
	at, _ := slices.BinarySearchFunc(s.near, n.by(), func(kept nearMiss, by units.Length) int {
		// After equal ones: those stay in the order they were met.
		return cmp.Or(cmp.Compare(kept.by(), by), -1)
	})
	if at > 0 && n.sameWidths(&s.near[at-1]) {
		return
	}
	if n.stock == 0 {
		n.stock = v.tallest(c)
	}
	if full {
		s.near = s.near[:nearLimit-1]
	}
	s.near = slices.Insert(s.near, at, n)
}

func (s *search) nearMisses() []NearMiss {
	var misses []NearMiss
	for i := range s.near {
		n := &s.near[i]
		run, stands := n.candidate.Run()
		if !stands || s.total > 0 && n.by() > nearBy {
			continue
		}
		c := &n.variant.clear
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
