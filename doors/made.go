package doors

import (
	"cmp"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// MadeToMeasure is a maker's offer: any width and height inside the spans, in whole steps.
type MadeToMeasure struct {
	Width  units.Span   `json:"width"`           // narrowest to widest that is made
	Height units.Span   `json:"height"`          // lowest to tallest that is made
	Step   units.Length `json:"step,omitzero"`   // zero: DefaultStep
	Price  *units.Money `json:"price,omitempty"` // a square metre; nil: not known
}

// DefaultStep is the step of a maker, and of a saw, that states none.
const DefaultStep = units.Millimetre

func (m MadeToMeasure) step() units.Length {
	if m.Step == 0 {
		return DefaultStep
	}
	return m.Step
}

func (m MadeToMeasure) validate(place string) error {
	return under(place, cmp.Or(
		opening.CheckSize(".width.min", m.Width.Min),
		opening.CheckBound(".width.max", m.Width.Max),
		checkSpan(".width", m.Width),
		opening.CheckSize(".height.min", m.Height.Min),
		opening.CheckBound(".height.max", m.Height.Max),
		checkSpan(".height", m.Height),
		opening.CheckSize(".step", m.step()),
	))
}

// Runs returns the runs of doors made to measure for the opening of a search: one
// for each arrangement of each number of doors, fewer doors first, then by their
// tracks from left to right. The doors of a run are all of one width,
//
//	(widest reading + L × overlap aim − meeting gaps) / n
//
// rounded up to the maker's step (common practice): those that the maker makes
// so wide, Gear.DoorWidth takes and that can stand closed. Because of the
// rounding, and where the narrowest reading is far from the widest, a run need not
// close the opening: see [Fit.Score].
//
// Of the search Widths, prices, Rank and Limit are not used. An
// *opening.InputError refuses an offer or a search that cannot be used.
func (m MadeToMeasure) Runs(s Search) ([]Run, error) {
	s.Widths, s.Rank, s.Limit = []Offer{{Width: m.Width.Min}}, nil, 0
	if err := cmp.Or(m.validate("doors.made_to_measure"), s.Validate()); err != nil {
		return nil, err
	}
	var runs []Run
	least, most := s.doors()
	for n := least; n <= most; n++ {
		in := s.Fit.Span
		if n > MinDoors {
			in = s.wide().Span
		}
		for _, p := range s.Arrangement.patterns(n, s.Gear.Tracks, s.SidesDiffer) {
			width := m.width(&p, s.Gear, in.Max)
			if !m.Width.Contains(width) || s.Gear.DoorWidth != nil && !s.Gear.DoorWidth.Contains(width) {
				continue
			}
			if run := p.alike(width).WithShowing(s.Gear.Showing); run.Stands(s.Gear, in.Min) {
				runs = append(runs, run)
			}
		}
	}
	return runs, nil
}

// width is what the doors on a pattern are made; 0 where that is no length at all.
func (m MadeToMeasure) width(p *pattern, g Gear, widest units.Length) units.Length {
	overlaps, meetings := units.Length(p.overlaps), units.Length(p.doors-1-p.overlaps)
	doubled := 2*widest + overlaps*g.Overlap.doubledAim() - 2*meetings*g.meetingGap()
	steps, err := doubled.MulDiv(1, 2*int64(p.doors)*int64(m.step()), units.Up)
	if err != nil {
		return 0
	}
	return steps * m.step()
}

// alike is the run of doors of one width on the pattern.
func (p *pattern) alike(width units.Length) Run {
	run := Run{count: p.doors}
	for i := range p.doors {
		run.doors[i] = Door{Width: width, Track: int(p.tracks[i])}
	}
	return run
}
