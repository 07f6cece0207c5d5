package lapspan

import (
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// twoPeopleAbove is the door height above which two people lift.
const twoPeopleAbove = 1800 * units.Millimetre

// twoPeopleOver is the mass over which two people lift a door (common practice).
func twoPeopleOver() units.Mass { return units.MustMass("15") }

// heavy reports whether a door has glass or weighs more than one person lifts, or may.
func heavy(job *Job, p Proposal) bool {
	if len(p.DoorMasses) == 0 {
		return true // not known
	}
	for _, panel := range job.Doors.Build.Panels {
		if panel.Material == doors.FloatGlass {
			return true
		}
	}
	return slices.ContainsFunc(p.DoorMasses, func(m units.Mass) bool { return m.Cmp(twoPeopleOver()) > 0 })
}

// cautions are the safety notes that apply to a plan, each once.
func cautions(job *Job, plan Plan) []string {
	var tall, bulkhead, cut, packed bool
	for _, p := range plan.Proposals {
		tall = tall || p.Height.Door > twoPeopleAbove || heavy(job, p)
		bulkhead = bulkhead || p.Bulkhead != nil
		cut = cut || p.CutDown != nil
		packed = packed || p.Height.Method == doors.Packer
	}
	frame := bulkhead || packed || job.Opening.CarpetToCome > 0 || slices.ContainsFunc(plan.Proposals, func(p Proposal) bool {
		return p.Skirting.Left == opening.EndPanel || p.Skirting.Right == opening.EndPanel
	})
	skirting := job.Opening.Skirting != opening.Sides{}
	notes := []struct {
		applies bool
		text    string
	}{
		{true, "Find cables and pipes in walls, ceiling and floor before drilling, and before screwing a rail down."},
		{true, "Old textured ceilings, boxing boards, floor tiles and their glue may hold asbestos, and old paint may hold lead: have them checked before they are drilled, sanded or taken off."},
		{skirting, "A skirting that is cut back may hide cables or pipes, and its paint may be old: look before sawing."},
		{true, "Never box in vents, flues, meters, boilers, fuse boards, stopcocks or alarms."},
		{true, "Ask for the safety class of every glass or mirror pane: the rules differ by country. Glass is not cut on site, and a cracked pane is never hung."},
		{true, "Wear gloves, and eye, ear and dust protection when sawing and drilling."},
		{cut, "Clamp aluminium before sawing it, and take a panelled door apart lying flat."},
		{tall || len(plan.Proposals) == 0, "Two people lift a door that is taller than 1.8 m, has glass, or weighs more than 15 kg; never lift one into the top track alone."},
		{true, "Work from steps, not from a chair."},
		{bulkhead || packed, "Timber that carries load, and what it is fixed to, is for a qualified person and local code."},
		{frame, "Measure again after the frame is up and panels and floor are in, before doors are ordered or cut."},
		{cut, "Cut one door, hang it and try it before the next is cut."},
		{true, "Try every door for lifting out of its track before handing over."},
	}
	list := make([]string, 0, len(notes))
	for _, n := range notes {
		if n.applies {
			list = append(list, n.text)
		}
	}
	return list
}
