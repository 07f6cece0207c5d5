package lapspan

import (
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// proposal writes an option out in full.
func (s *search) proposal(o *option) Proposal {
	v, h, run := o.variant, o.height, o.Run
	under, over := o.margins(s.job.Gear)
	access := run.Access(o.clear.Width.Min)
	p := Proposal{
		Skirting:    Treatments{v.clear.Left, v.clear.Right},
		ClearWidth:  o.clear.Width,
		ClearHeight: v.clear.Height,
		Doors:       run.Doors(),
		Cover:       run.Cover(s.job.Gear),
		Access:      access.Width(),
		AccessAt:    fromWall(access, v),
		Height:      h.Height,
		Bulkhead:    h.bulkhead,
		CutDown:     h.cutDown,
		CoverBoards: h.cover,
		Margin: Margins{
			Width:  doors.Margin{Under: &under, Over: &over},
			Height: h.Margin,
		},
	}
	// A run that closes the widest reading has overlaps to share.
	p.Overlaps, _ = run.OverlapsIn(s.job.Gear, o.clear.Width.Max)
	p.Sight, _ = run.Sight(s.job.Gear, o.clear.Width.Max)
	lifting := s.masses(&p, h)
	inside := s.interior(&p, o)
	for _, piece := range h.Stack {
		p.Packer = append(p.Packer, piece.Thickness)
	}
	var k kit
	set := o.set()
	s.doors(&k, h, &set)
	p.Order = slices.Concat(k.lines, v.gear.lines, s.partsFor(run.Len()).lines, h.kit.lines, v.sundries.lines)
	p.SideWork = v.sideWork
	uses := o.uses(under, over)
	p.MeasureAgain = opening.MeasureAgain(uses...)
	p.CutList = slices.Concat(v.gear.cuts, h.kit.cuts)
	p.Price = s.buy.text(o.Score.Price)
	p.Findings = slices.Concat(v.findings, h.findings, again(uses), lifting, inside, s.ends(&p, o), s.slopes(o)).Sorted()
	if p.Findings == nil {
		p.Findings = opening.Findings{}
	}
	return p
}

// uses are the four uses that a proposal makes of its readings, each with how far it may be out.
func (o *option) uses(under, over units.Length) []opening.Use {
	uses := append(make([]opening.Use, 0, 4),
		opening.Use{Figure: "narrowest width", Deciding: o.clear.Narrowest, Margin: under},
		opening.Use{Figure: "widest width", Deciding: o.clear.Widest, Margin: over},
	)
	if u := o.height.Margin.Under; u != nil {
		uses = append(uses, opening.Use{Figure: "clear height, if less", Deciding: o.clear.Lowest, Margin: *u})
	}
	if v := o.height.Margin.Over; v != nil {
		uses = append(uses, opening.Use{Figure: "clear height, if more", Deciding: o.clear.Lowest, Margin: *v})
	}
	return uses
}

// again names the readings to take again before ordering: those whose
// uncertainty is larger than the margin they decide.
func again(uses []opening.Use) opening.Findings {
	var found opening.Findings
	for _, use := range uses {
		if use.Margin >= use.Deciding.Uncertainty {
			continue
		}
		for _, place := range use.Deciding.Places {
			found = append(found, opening.Finding{
				Code: CodeMeasureAgain, Severity: opening.Warn, Place: place,
				Message: fmt.Sprintf("the %s may be out by %s, but only %s are to spare", use.Figure, use.Deciding.Uncertainty, use.Margin),
				Remedy:  "measure it again, finer, before anything is ordered",
			})
		}
	}
	return found
}
