package lapspan

import (
	"fmt"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// CodeUnderSlope is the finding that a door does not stand under a sloping ceiling.
const CodeUnderSlope opening.Code = "under-slope"

// sideWorks is what is done at each side; nothing where there is no skirting.
func sideWorks(job *Job, c opening.Clear) []opening.SideWork {
	var line units.Length
	if job.Interior != nil {
		line, _ = job.Opening.DoorLine(job.Interior.Depth, job.Gear.Depth)
	}
	var works []opening.SideWork
	for _, w := range job.Opening.SideWorks(c, line, job.Gear.Depth) {
		if w.Treatment == opening.CutBack || w.Treatment == opening.EndPanel {
			works = append(works, w)
		}
	}
	return works
}

// slopes names the doors that do not stand where they close, because a sloping
// ceiling comes down there.
func (s *search) slopes(o *option) opening.Findings {
	slope := slices.IndexFunc(s.job.Opening.InTheWay, func(t opening.Thing) bool { return t.Kind == opening.Slope })
	if slope < 0 {
		return nil
	}
	var found opening.Findings
	run, clear := o.Run, o.clear
	overlaps, err := run.OverlapsIn(s.job.Gear, clear.Width.Min)
	if err != nil {
		return nil
	}
	at := clear.LeftOff
	for i := range run.Len() {
		d := run.At(i)
		need := o.height.Door + o.height.Allowance
		if h := s.job.Opening.HeightOver(o.variant.clear, at, at+d.Width); h < need {
			found = append(found, opening.Finding{
				Code: CodeUnderSlope, Severity: opening.Warn, Place: "opening.in_the_way",
				Message: fmt.Sprintf("door %d, %s to %s from the left wall, needs %s; the slope leaves %s there", i+1, at.Millimetres(), at+d.Width, need, h),
				Remedy:  "end the run before the slope with an end panel, or choose a lower door",
			})
		}
		at += d.Width
		if i < len(overlaps) {
			at -= overlaps[i]
		}
		if i+1 < run.Len() && run.At(i+1).Track == d.Track && s.job.Gear.MeetingGap != nil {
			at += *s.job.Gear.MeetingGap
		}
	}
	return found
}
