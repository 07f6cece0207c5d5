package doors

import (
	"slices"

	"example.com/lapspan/units"
)

// family is the patterns of one number of doors that overlap at as many
// junctions and give the tracks as many doors, whichever track has which.
type family struct {
	doors, overlaps, meetings int
	rooms                     [MaxTracks]int8 // descending
	patterns                  []pattern       // in the order of their tracks
}

// families sorts the patterns of n doors into families.
func families(all []family, patterns []pattern) []family {
	from := len(all)
	for i, p := range patterns {
		rooms := p.rooms()
		slices.SortFunc(rooms[:], func(a, b int8) int { return int(b - a) })
		at := from
		for at < len(all) && (all[at].overlaps != p.overlaps || all[at].rooms != rooms) {
			at++
		}
		if at == len(all) {
			all = append(all, family{
				doors: p.doors, overlaps: p.overlaps, meetings: p.doors - 1 - p.overlaps, rooms: rooms,
				patterns: patterns[i : i+1 : i+1],
			})
			continue
		}
		all[at].patterns = append(all[at].patterns, p)
	}
	return all
}

// rooms is how many doors each track has.
func (p *pattern) rooms() (n [MaxTracks]int8) {
	for _, t := range p.tracks[:p.doors] {
		n[t]++
	}
	return n
}

// window is the total widths from lo to hi, both included; none when hi < lo.
type window struct{ lo, hi int64 }

func (w window) meet(o window) window { return window{max(w.lo, o.lo), min(w.hi, o.hi)} }
func (w window) empty() bool          { return w.hi < w.lo }

// clearance is what a family's total width must be in one opening, in nanometres.
type clearance struct {
	closes window // closes the opening at both readings
	sure   window // the same with the readings' doubts
	// free is the total up to which every order of any widths can stand closed: the
	// narrowest door is as wide as two overlaps then, and shows enough beside one.
	free int64
	over int64 // total − over is the sum of the overlaps at the widest reading
	tied int64 // the same at the narrowest
	span int64 // the narrowest reading
}

func (f *family) clearance(g Gear, fit Fit, narrowest int64) clearance {
	overlaps, gaps := int64(f.overlaps), int64(f.meetings)*int64(g.meetingGap())
	c := clearance{
		closes: window{
			int64(fit.Span.Max) + overlaps*int64(g.Overlap.Min) - gaps,
			int64(fit.Span.Min) + overlaps*int64(g.Overlap.Max) - gaps,
		},
		over: int64(fit.Span.Max) - gaps,
		tied: int64(fit.Span.Min) - gaps,
		span: int64(fit.Span.Min),
	}
	c.sure = window{c.closes.lo + int64(fit.WideDoubt), c.closes.hi - int64(fit.NarrowDoubt)}
	c.free = c.tied + overlaps*narrowest/2
	if g.Showing > 0 {
		c.free = min(c.free, c.tied+overlaps*(narrowest-int64(g.Showing)))
	}
	return c
}

// windows are the totals that close the opening, sure or not: 1 sure, 0 not, -1 either.
func (c *clearance) windows(sure int8) [2]window {
	empty := window{0, -1}
	switch {
	case sure < 0:
		return [2]window{c.closes, empty}
	case sure == 1:
		return [2]window{c.sure.meet(c.closes), empty}
	case c.sure.empty():
		return [2]window{c.closes, empty}
	}
	return [2]window{
		{c.closes.lo, min(c.closes.hi, c.sure.lo-1)},
		{max(c.closes.lo, c.sure.hi+1), c.closes.hi},
	}
}

// run is the run on the pattern of the widths with such numbers.
func (p *pattern) run(width []int64, at *[MaxDoors]int16) Run {
	r := Run{count: p.doors}
	for i := range p.doors {
		r.doors[i] = Door{Width: units.Length(width[at[i]]), Track: int(p.tracks[i])}
	}
	return r
}
