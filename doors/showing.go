package doors

import "example.com/lapspan/units"

// shows reports whether a door of width w keeps its share out from behind a
// neighbour when closed; over is the overlaps in place, added up.
func (g *Gear) shows(w units.Length, junctions int, over units.Length) bool {
	return g.Showing == 0 || units.Length(junctions)*(w-g.Showing) >= over
}

// showing walks through the orders of a set of widths whose doors keep some of
// themselves showing, larger doors first. They cannot pass each other, so the
// order decides how far they can be parked. A door placed turns the walk back when
// it cannot stand closed, and when the doors so far leave less access than an order
// met before: whatever comes, they reach as far from the wall as now. At most
// MaxDoors! orders are tried.
type showing struct {
	ordering
	gear   Gear
	access units.Length // of the best, or while none is found of some order that stands
}

// showingOrder is bestOrder for doors that keep some of themselves showing.
func (p *pattern) showingOrder(widths []units.Length, g Gear, narrowest units.Length) (run Run, ok bool, steps int) {
	o := showing{ordering: p.ordering(widths, g, narrowest), gear: g}
	if p.overlaps == p.doors-1 && !g.shows(widths[0], p.overlaps, o.over) {
		return Run{}, false, 1 // wherever the narrowest stands it overlaps a neighbour
	}
	// The order that would be offered of doors that pass is a good one to beat.
	pass := p.ordering(widths, g, narrowest)
	if run, ok := pass.widest(p.leastLongest(widths)); ok && run.Stands(g, narrowest) {
		o.access = run.WithShowing(g.Showing).Access(narrowest).Width()
	}
	o.run.showing = g.Showing
	o.place(0, o.run.stacker())
	return o.best, o.found, o.steps + pass.steps
}

// place places door i and those right of it on the doors piled up at the left.
func (o *showing) place(i int, pile stacker) {
	if i == o.pattern.doors {
		o.best, o.found, o.access = o.run, true, max(o.opening-pile.longest(), 0)
		return
	}
	apart := i > 0 && o.pattern.tracks[i] != o.pattern.tracks[i-1]
	if apart && !o.gear.shows(o.run.doors[i-1].Width, o.pattern.overlaps, o.over) {
		return
	}
	for k := o.pattern.doors - 1; k >= 0; k-- {
		w := o.stock[k]
		if w == 0 || k+1 < o.pattern.doors && o.stock[k+1] == w {
			continue
		}
		o.steps++
		ends := o.ends
		if apart && !o.gear.shows(w, o.pattern.overlaps, o.over) || !o.put(i, w) {
			continue
		}
		next := pile
		next.add(o.run.doors[i])
		if access := max(o.opening-next.longest(), 0); access > o.access || !o.found && access == o.access {
			o.stock[k] = 0
			o.place(i+1, next)
			o.stock[k] = w
		}
		o.ends = ends
	}
}
