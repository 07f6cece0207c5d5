package lapspan

import (
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// The codes of findings about what stands behind the doors.
const (
	CodePullOutBlocked opening.Code = "pull-out-blocked"
	CodeBlindStretch   opening.Code = "blind-stretch"
	CodeNoUprights     opening.Code = "no-uprights"
)

// fromWall measures a gap from the left wall; the runs of doors know it from the
// left end of the clear opening.
func fromWall(g doors.Gap, v *variant) doors.Gap {
	return doors.Gap{From: g.From + v.clear.LeftOff, To: g.To + v.clear.LeftOff}
}

// interior says how what stands behind the doors is reached, in the narrowest reading.
func (s *search) interior(p *Proposal, o *option) opening.Findings {
	in, v, run := s.job.Interior, o.variant, o.Run
	if in == nil {
		return nil
	}
	var found opening.Findings
	width := o.clear.Width.Min
	for i, out := range in.PullOuts {
		parking, clear := run.Park(width, doors.Gap{
			From: out.From - v.clear.LeftOff - in.clearance(),
			To:   out.To - v.clear.LeftOff + in.clearance(),
		})
		use := PullOutUse{Name: out.Name, Clear: clear}
		if clear {
			use.Left = slices.Clone(parking.Left[:s.job.Gear.Tracks])
			use.Gap = new(fromWall(parking.Gap, v))
		} else {
			message := fmt.Sprintf("no way to park the doors clears %s to %s and %s beside it", out.From.Millimetres(), out.To, in.clearance())
			remedy := "move it, make it narrower, or choose doors with wider access"
			if from, to := out.From-in.clearance(), out.To+in.clearance(); from < v.clear.LeftOff || to > v.clear.LeftOff+width {
				message = fmt.Sprintf("with %s beside it, it reaches from %s to %s; the opening from %s to %s", in.clearance(), from.Millimetres(), to, v.clear.LeftOff.Millimetres(), v.clear.LeftOff+width)
				remedy = "move it away from the side"
			}
			found = append(found, opening.Finding{
				Code: CodePullOutBlocked, Severity: opening.Warn, Place: fmt.Sprintf("interior.pull_outs[%d]", i),
				Message: opening.Quote(out.Name) + " cannot come out: " + message, Remedy: remedy,
			})
		}
		p.PullOuts = append(p.PullOuts, use)
	}
	p.Blind = run.Blind(width)
	for i, g := range p.Blind {
		blind := fromWall(g, v)
		p.Blind[i] = blind
		found = append(found, opening.Finding{
			Code: CodeBlindStretch, Severity: opening.Note, Place: "interior",
			Message: fmt.Sprintf("no way to park the doors clears %s to %s mm from the left wall", about(blind.From), about(blind.To)),
			Remedy:  "stand an upright there, or what is reached from one side",
		})
	}
	if in.Upright == 0 {
		return found
	}
	places, ok := run.Uprights(width, in.Upright, 0)
	if !ok {
		return append(found, opening.Finding{
			Code: CodeNoUprights, Severity: opening.Note, Place: "interior.upright",
			Message: fmt.Sprintf("no places for uprights of %s let every compartment be cleared whole", in.Upright),
			Remedy:  "leave a stretch that is reached from one side only, or choose doors with wider access",
		})
	}
	for _, g := range places {
		p.Uprights = append(p.Uprights, fromWall(g, v))
	}
	return found
}

// masses says what the doors weigh as hung, and what that means for lifting
// them as they are bought.
func (s *search) masses(p *Proposal, h *choice) opening.Findings {
	if !s.weighs {
		return nil
	}
	var heaviest *units.Mass
	for _, d := range p.Doors {
		hung := s.carried(h, d.Width).mass
		if hung == nil {
			return nil
		}
		p.DoorMasses = append(p.DoorMasses, *hung)
		bought, err := s.job.Doors.Build.Mass(d.Width, h.Stock, nil)
		if err == nil && (heaviest == nil || bought.Cmp(*heaviest) > 0) {
			heaviest = &bought
		}
	}
	// One person, close to the body, with a poor grip: the best case for a door.
	found, err := doors.Lifting(*heaviest, doors.Lift{
		Horizontal: 250 * units.Millimetre, Vertical: 750 * units.Millimetre, Coupling: 90,
	})
	if err != nil {
		return nil
	}
	return found
}
