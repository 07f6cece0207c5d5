package doors

import "example.com/lapspan/units"

// shows reports whether a door of width w keeps its share out from behind a
// neighbour when closed; over is the overlaps in place, added up.
func (g *Gear) shows(w units.Length, junctions int, over units.Length) bool {
	return g.Showing == 0 || units.Length(junctions)*(w-g.Showing) >= over
}

// showingOrder is bestOrder for doors that keep some of themselves showing. They
// cannot pass each other, so the order decides how far they can be parked:
// all of at most MaxDoors! orders are tried, or with any only until one stands.
func (p *pattern) showingOrder(widths []units.Length, g Gear, narrowest units.Length, any bool) (Run, bool) {
	run := Run{count: p.doors, showing: g.Showing}
	over := -narrowest
	for i, w := range widths {
		over += w
		run.doors[i].Track = int(p.tracks[i])
	}
	if p.overlaps == p.doors-1 && !g.shows(widths[0], p.overlaps, over) {
		return Run{}, false // wherever the narrowest stands it overlaps a neighbour
	}
	var stock [MaxDoors]units.Length
	copy(stock[:], widths)
	var best Run
	widest := units.Length(-1)
	// Larger doors are placed first, so the first order that gives the widest
	// access is the one with the larger door leftmost.
	var place func(i int)
	place = func(i int) {
		if i == p.doors {
			if access := run.Access(narrowest).Width(); access > widest && run.Stands(g, narrowest) {
				best, widest = run, access
			}
			return
		}
		var tried units.Length
		for k := p.doors - 1; k >= 0; k-- {
			w := stock[k]
			if w == 0 || w == tried || any && widest >= 0 {
				continue
			}
			run.doors[i].Width, stock[k], tried = w, 0, w
			place(i + 1)
			stock[k] = w
		}
	}
	place(0)
	return best, widest >= 0
}
