package cutlist

import (
	"cmp"

	"example.com/lapspan/units"
)

// An item is n pieces of one kind in one bar.
type item struct {
	kind, n int32
}

// A bar is one bar cut from a line, its items by kind.
type bar struct {
	line  int
	items []item
}

// roomLeft returns the room that b leaves.
func (p *problem) roomLeft(b bar) int64 {
	room := p.lines[b.line].room
	for _, it := range b.items {
		room -= p.kinds[it.kind].size * int64(it.n)
	}
	return room
}

// rank returns what the plan is ordered by.
func (p *problem) rank(bars []bar) rank {
	r := rank{bars: len(bars)}
	for _, b := range bars {
		r.cost += p.lines[b.line].cost
		r.offcut = max(r.offcut, p.offcut(p.roomLeft(b)))
	}
	return r
}

// compareBars puts bars in the order of the lines, and of one line the bar with more of the longest pieces
// first.
func compareBars(a, b bar) int {
	if a.line != b.line {
		return cmp.Compare(a.line, b.line)
	}
	for i := 0; i < len(a.items) && i < len(b.items); i++ {
		x, y := a.items[i], b.items[i]
		if x.kind != y.kind {
			return cmp.Compare(x.kind, y.kind)
		}
		if x.n != y.n {
			return cmp.Compare(y.n, x.n)
		}
	}
	return cmp.Compare(len(b.items), len(a.items))
}

// plan turns bars, which are in the order of compareBars, into a plan of the job.
func (p *problem) plan(job *Job, bars []bar) Plan {
	// Pieces of one kind are handed out in the job's order.
	var small [directKinds]cursor
	cursors := small[:0]
	last := units.Length(-1)
	for at, i := range p.order {
		if l := job.Pieces[i].Length; l != last {
			cursors = append(cursors, cursor{at: at, left: job.Pieces[i].Count})
			last = l
		}
	}
	plan := Plan{Bars: make([]Bar, len(bars)), Priced: p.priced}
	ids := make([]int, 0, p.pieces)
	for i, b := range bars {
		from := len(ids)
		for _, it := range b.items {
			c := &cursors[it.kind]
			for range it.n {
				if c.left == 0 {
					c.at++
					c.left = job.Pieces[p.order[c.at]].Count
				}
				c.left--
				ids = append(ids, int(p.order[c.at]))
			}
		}
		l := &p.lines[b.line]
		plan.Bars[i] = Bar{
			Stock:  l.stock,
			Pieces: ids[from:len(ids):len(ids)],
			Offcut: units.Length(p.offcut(p.roomLeft(b))),
		}
		plan.Cost += l.cost
	}
	return plan
}

// A cursor stands in problem.order at the line of pieces that is being handed out.
type cursor struct {
	at, left int
}
