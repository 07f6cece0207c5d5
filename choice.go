package lapspan

import (
	"context"
	"strings"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// variant is one treatment of the skirtings.
type variant struct {
	index          int
	clear          opening.Clear
	gear, sundries kit
	findings       opening.Findings
	sideWork       []opening.SideWork
	clears         map[units.Length]*opening.Clear // between walls that lean, by the height as hung
}

// choice is one way to use the height under one treatment of the skirtings.
type choice struct {
	doors.Height
	sure     bool
	saws     int // cuts on one door
	bulkhead *frame.Bulkhead
	cover    *trim.Cover
	cutDown  *trim.CutDown
	kit      kit
	price    int64          // of all but the doors and the parts
	cuts     []units.Length // what comes out of each panel; none unless cut down
	carried  map[units.Length]carried
	findings opening.Findings
}

// choices builds the heights that can be built under one treatment of the
// skirtings, and keeps the reasons of those that cannot.
func (s *search) choices(ctx context.Context, v *variant, heights []doors.Height) []choice {
	built := make([]choice, 0, len(heights))
	for _, h := range heights {
		if over := s.job.Gear.Limits(doors.Hung{Height: h.Door}); len(over) > 0 {
			s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: over[0].Reason})
			continue
		}
		c, err := s.choice(ctx, v, h)
		if err != nil {
			s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: reason(err)})
			continue
		}
		built = append(built, c)
	}
	return built
}

// reason is an error as a fitter reads it: without the names of packages.
func reason(err error) string {
	text := err.Error()
	for _, name := range []string{"frame: ", "trim: ", "doors: ", "units: "} {
		text = strings.TrimPrefix(text, name)
	}
	return text
}

// heights are the ways to hang the doors of a range, as numbers; what cannot be is handed to refuse.
func (s *search) heights(r doors.Range, clear units.Length, allowance doors.Target, refuse func(doors.Refusal)) []doors.Height {
	heights, refused := doors.HeightsFor(r, clear, doors.Above{
		Allowance: allowance,
		Boards:    s.job.Boards,
		Timber:    s.job.Timber,
		Cutting:   s.job.Trim,
	})
	for _, r := range refused {
		refuse(r)
	}
	return heights
}

// refuse keeps a reason once.
func (s *search) refuse(r doors.Refusal) {
	if !s.isRefused[r] {
		s.refused = append(s.refused, r)
		s.isRefused[r] = true
	}
}

// choice builds one way to use the height; an error says why it cannot be built.
func (s *search) choice(ctx context.Context, v *variant, h doors.Height) (choice, error) {
	c := choice{Height: h}
	switch h.Method {
	case doors.CutDown:
		cut, findings, err := trim.Schedule(s.job.Doors.Build, s.job.Trim, h)
		if err != nil {
			return c, err
		}
		c.cutDown, c.saws, c.findings = &cut, cut.Saws(), findings
		if b := s.job.Doors.Build; b != nil {
			c.cuts = make([]units.Length, len(b.Panels))
			for _, p := range cut.Panels {
				c.cuts[p.Panel-1] = p.Cut
			}
		}
	case doors.Bulkhead:
		b, err := frame.SetOut(head(s.job, v.clear, h), *s.job.Timber)
		if err != nil {
			return c, err
		}
		c.bulkhead = &b
		c.findings = append(c.findings, frame.PlateWidth(*s.job.Timber, s.job.Gear.Depth)...)
		c.findings = append(c.findings, s.cover(v, &c)...)
	}
	findings, err := s.above(ctx, v, &c)
	if err != nil {
		return c, err
	}
	c.findings = append(c.findings, findings...)
	c.sure = h.Margin.Within(v.clear.Lowest.Uncertainty)
	c.price = addPrices(v.gear.price, v.sundries.price, c.kit.price)
	return c, nil
}

// carried is a door as the gear would carry it at one height.
type carried struct {
	mass *units.Mass // nil: not known
	over []doors.Over
}

// carried looks a door up, or works it out when it is first asked for.
func (s *search) carried(h *choice, width units.Length) carried {
	if c, known := h.carried[width]; known {
		return c
	}
	var c carried
	if mass, err := s.job.Doors.Build.Mass(width, h.Stock, h.cuts); err == nil {
		c.mass = &mass
	}
	c.over = s.job.Gear.Limits(doors.Hung{Width: width, Height: h.Door, Mass: c.mass})
	if h.carried == nil {
		h.carried = make(map[units.Length]carried)
	}
	h.carried[width] = c
	return c
}

// carries reports whether the gear takes a door of the width at the height. One
// that it does not take is refused once, by name of the limit.
func (s *search) carries(h *choice, width units.Length) bool {
	if !s.limited {
		return true
	}
	over := s.carried(h, width).over
	if len(over) > 0 {
		s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: over[0].Reason})
	}
	return len(over) == 0
}

// doorsPrice is what the order's lines for the doors will cost.
func (s *search) doorsPrice(h *choice, set *widthSet) int64 {
	var sum int64
	for i := 0; i < set.count && sum != unpriced; {
		w, count := set.widths[i], 0
		for i < set.count && set.widths[i] == w {
			count, i = count+1, i+1
		}
		sum = addPrices(sum, s.doorPrice(h, w, count))
	}
	return sum
}

// partsFor is what the parts of the gear cost for so many doors.
func (s *search) partsFor(n int) *kit {
	if s.parts[n] == nil {
		s.parts[n] = new(kit)
		s.buy.parts(s.parts[n], s.job.Gear.Parts, n)
	}
	return s.parts[n]
}
