package lapspan

import (
	"context"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// leaning is what a variant needs where walls are known to lean: there the
// opening depends on the number and the height of the doors, and what is left of the
// allowance on the doors at the two ends.
type leaning struct {
	// wide is for three doors or more as high as any could hang, low for as low as
	// any would: what does not close that closes none.
	wide, low opening.Clear
	clears    map[units.Length]*opening.Clear
	choices   map[endDoors][]choice
}

// endDoors are the two end doors of a run at a stock height; 0: made to measure.
type endDoors struct{ stock, left, right units.Length }

// leans reports whether a wall is known to lean, or to be plumb.
func (s *search) leans() bool {
	return len(s.job.Opening.Leans.Left)+len(s.job.Opening.Leans.Right) > 0
}

func newLeaning(job *Job, c opening.Clear) *leaning {
	lowest := max(c.Height-job.Gear.Allowance.Max, 1)
	for _, size := range job.Doors.Sizes {
		lowest = min(lowest, size.Height)
	}
	return &leaning{
		wide:    job.Opening.ClearFor(c, doors.MaxDoors, c.Height),
		low:     job.Opening.ClearFor(c, doors.MaxDoors, lowest),
		clears:  make(map[units.Length]*opening.Clear),
		choices: make(map[endDoors][]choice),
	}
}

// clearFor is the opening as so many doors of a height find it.
func (s *search) clearFor(v *variant, n int, height units.Length) *opening.Clear {
	if n == 2 {
		return &v.clear
	}
	if c, known := v.leaning.clears[height]; known {
		return c
	}
	c := s.job.Opening.ClearFor(v.clear, n, height)
	v.leaning.clears[height] = &c
	return &c
}

// offerLeaning shows a run of doors with every height it is sold in, each in the
// opening as it finds it there.
func (s *search) offerLeaning(ctx context.Context, v *variant, c *doors.Candidate) {
	if c.Len() > 2 && s.hopeless(v, c) {
		return
	}
	run, ok := c.Run()
	if !ok {
		return
	}
	ends := endDoors{left: run.At(0).Width, right: run.At(run.Len() - 1).Width}
	missed := false
	for stock, height := range s.stocks {
		if c.MadeToMeasure {
			height = 0
		} else if c.Heights>>stock&1 == 0 {
			continue
		}
		ends.stock = height
		choices := s.leaned(ctx, v, ends)
		for i := range choices {
			h := &choices[i]
			clear := s.clearFor(v, run.Len(), h.Door)
			candidate := *c
			candidate.Under = clear.Width.Min - run.Least(s.job.Gear)
			candidate.Over = run.Cover(s.job.Gear) - clear.Width.Max
			switch {
			case !candidate.Closes():
				if !missed {
					s.missed(nearMiss{option{variant: v, clear: clear, under: candidate.Under, over: candidate.Over, set: setOf(c), candidate: candidate}, h.Stock})
					missed = true
				}
			case run.Stands(s.job.Gear, clear.Width.Min) && s.carries(h, setOf(c)):
				s.show(&option{variant: v, height: h, clear: clear, under: candidate.Under, over: candidate.Over, set: setOf(c), candidate: candidate})
			}
		}
		if c.MadeToMeasure {
			return
		}
	}
}

// hopeless reports whether a set of three doors or more closes the opening at no
// height, and is not even a near miss: the lower the doors, the less the opening
// runs out over them.
func (s *search) hopeless(v *variant, c *doors.Candidate) bool {
	// The margins are those in the opening as the highest doors find it.
	under := c.Under + v.leaning.low.Width.Min - v.leaning.wide.Width.Min
	over := c.Over + v.leaning.wide.Width.Max - v.leaning.low.Width.Max
	worst := -min(under, over)
	return worst > 0 && len(s.near) == nearLimit && worst >= s.near[nearLimit-1].by()
}

// leaned are the ways to hang doors of one height whose end doors are raised to
// walls that lean: the corner lifted takes from the allowance, so that the least
// of it, and with it the default aim, rises by as much.
func (s *search) leaned(ctx context.Context, v *variant, ends endDoors) []choice {
	if built, known := v.leaning.choices[ends]; known {
		return built
	}
	r := doors.Range{Build: s.job.Doors.Build, MadeToMeasure: s.job.Doors.MadeToMeasure}
	method, height := doors.ToMeasure, v.clear.Height-s.job.Gear.Allowance.Min
	if ends.stock > 0 {
		r.Sizes, r.MadeToMeasure = []doors.Size{{Width: ends.left, Height: ends.stock}}, nil
		method, height = doors.AsIs, ends.stock
		switch left := v.clear.Height - ends.stock; {
		case left > s.job.Gear.Allowance.Max:
			method = doors.Packer
		case left < s.job.Gear.Allowance.Min:
			method = doors.CutDown
		}
	}
	var built []choice
	allowance := s.job.Gear.Allowance
	_, taken := s.endDoors(v, ends, height)
	allowance.Min += taken
	switch {
	case allowance.Min > allowance.Max:
		s.refuseOnce(ends.stock, method, fmt.Sprintf("raising an end door to the wall takes %s of an allowance of %s; a liner on the wall would spare it", taken, s.job.Gear.Allowance.Span()))
	default:
		if allowance.Aim != nil {
			allowance.Aim = new(max(*allowance.Aim, allowance.Min))
		}
		for _, c := range s.choices(ctx, v, s.heights(r, v.clear.Height, allowance, func(r doors.Refusal) { s.refuseOnce(r.Stock, r.Method, r.Reason) })) {
			// The lean over the door as hung may differ from that over the door as bought.
			c.ends, taken = s.endDoors(v, ends, c.Door)
			if c.Allowance-taken < s.job.Gear.Allowance.Min {
				s.refuseOnce(c.Stock, c.Method, fmt.Sprintf("raising an end door to the wall takes %s of an allowance of %s; a liner on the wall would spare it", taken, c.Allowance))
				continue
			}
			c.stock = slices.Index(s.stocks, ends.stock)
			built = append(built, c)
		}
	}
	v.leaning.choices[ends] = built
	return built
}

// refuseOnce keeps one reason for a stock height and method: what is left of the
// allowance differs from one end door to the next, and would repeat it.
func (s *search) refuseOnce(stock units.Length, method doors.Method, reason string) {
	if !slices.ContainsFunc(s.refused, func(r doors.Refusal) bool { return r.Stock == stock && r.Method == method }) {
		s.refused = append(s.refused, doors.Refusal{Stock: stock, Method: method, Reason: reason})
	}
}

// endDoors says how the two end doors of a height close on their walls, and what
// the raised one takes from the allowance.
func (s *search) endDoors(v *variant, ends endDoors, height units.Length) (pair [2]opening.EndDoor, taken units.Length) {
	for i, end := range []struct {
		side  opening.Side
		width units.Length
	}{{opening.Left, ends.left}, {opening.Right, ends.right}} {
		// The widths and heights of doors are checked, so that the one error is an
		// opening too low for a door, which has no way to be hung either.
		door, err := s.job.Opening.EndDoor(v.clear, end.side, end.width, height, s.job.Gear.Adjuster)
		if err == nil {
			pair[i], taken = door, max(taken, door.Taken)
		}
	}
	return pair, taken
}

// ends writes the end doors into the proposal, with what is left to do there.
func (s *search) ends(p *Proposal, o *option) opening.Findings {
	if o.variant.leaning == nil {
		return nil
	}
	var found opening.Findings
	for _, d := range o.height.ends {
		p.EndDoors = append(p.EndDoors, d)
		found = append(found, d.Findings(s.job.Gear.Adjuster > 0)...)
	}
	return found
}
