package doors

import (
	"slices"

	"example.com/lapspan/units"
)

// ordering walks through the orders of a set of widths on the tracks of a
// pattern, larger doors first, and turns back as soon as a door placed cannot
// stand closed or its track holds too much.
type ordering struct {
	pattern   *pattern
	junctions units.Length // L, as a factor: places are kept multiplied by it, so that a share of the overlap is exact
	over      units.Length // the overlaps in place, added up
	gap       units.Length
	opening   units.Length

	stock [MaxDoors]units.Length // ascending; 0 once placed
	run   Run
	left  [MaxDoors]units.Length  // where each door placed begins
	ends  [MaxTracks]units.Length // where the last door of each track ends
	total [MaxTracks]units.Length // the widths of the doors placed on each track

	best  Run
	found bool
	steps int // doors tried
}

func (p *pattern) ordering(widths []units.Length, g Gear, opening units.Length) ordering {
	o := ordering{
		pattern: p, junctions: units.Length(p.overlaps), gap: g.meetingGap(), opening: opening,
	}
	copy(o.stock[:], widths)
	for i := range p.doors {
		o.over += widths[i]
		o.run.doors[i].Track = int(p.tracks[i])
	}
	o.over += units.Length(p.doors-1-p.overlaps)*o.gap - opening
	o.run.count = p.doors
	return o
}

// put places door i of the run and reports whether it can stand there.
func (o *ordering) put(i int, w units.Length) bool {
	track := o.pattern.tracks[i]
	at := units.Length(0)
	if i > 0 {
		at = o.left[i-1] + o.junctions*o.run.doors[i-1].Width
		if track == o.pattern.tracks[i-1] {
			at += o.junctions * o.gap
		} else {
			at -= o.over
		}
	}
	end := at + o.junctions*w
	if at < o.ends[track] || end > o.junctions*o.opening {
		return false
	}
	o.run.doors[i].Width, o.left[i], o.ends[track] = w, at, end
	return true
}

// within finds the order with the larger doors leftmost that stands and in
// which the doors of no track are together wider than longest. The first order
// met is the one sought.
func (o *ordering) within(i int, longest units.Length) bool {
	if i == o.pattern.doors {
		o.best, o.found = o.run, true
		return true
	}
	total := &o.total[o.pattern.tracks[i]]
	for k := o.pattern.doors - 1; k >= 0; k-- {
		w := o.stock[k]
		if w == 0 || k+1 < o.pattern.doors && o.stock[k+1] == w || *total+w > longest {
			continue
		}
		o.steps++
		ends := o.ends
		o.stock[k] = 0
		*total += w
		found := o.put(i, w) && o.within(i+1, longest)
		*total -= w
		o.stock[k], o.ends = w, ends
		if found {
			return true
		}
	}
	return false
}

// widest finds the order offered: the one with the widest access. Each track's
// two stacks of parked doors hold all its doors, so that is the one whose
// longest track is shortest. least is a length that no order falls short of.
func (o *ordering) widest(least units.Length) (Run, bool) {
	if o.within(0, least) {
		return o.best, true
	}
	// No order as good as that stands: look for one that does, then for ever shorter ones.
	for longest := units.MaxLength * MaxDoors; o.within(0, longest); longest = o.best.longest() - 1 {
	}
	return o.best, o.found
}

// longest is the width of the doors of one track, of the track where it is most.
func (r *Run) longest() units.Length {
	var total [MaxTracks]units.Length
	for _, d := range r.doors[:r.count] {
		total[d.Track] += d.Width
	}
	return slices.Max(total[:])
}
