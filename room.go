package lapspan

import (
	"fmt"

	"example.com/lapspan/doors"
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
	slope := -1
	for i, t := range s.job.Opening.InTheWay {
		if t.Kind == opening.Slope {
			slope = i
			break
		}
	}
	if slope < 0 {
		return nil
	}
	var found opening.Findings
	run, clear := o.arranged(), o.clear
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
				Code: CodeUnderSlope, Severity: opening.Warn, Place: fmt.Sprintf("opening.in_the_way[%d]", slope),
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

// measureAgain lists the readings whose uncertainty is larger than the margin they decide.
func (s *search) measureAgain(o *option) []opening.Again {
	uses := []opening.Use{
		{Figure: "narrowest width", Deciding: o.clear.Narrowest, Margin: o.under},
		{Figure: "widest width", Deciding: o.clear.Widest, Margin: o.over},
	}
	for _, end := range []struct {
		figure string
		margin *units.Length
	}{{"clear height, if less", o.height.Margin.Under}, {"clear height, if more", o.height.Margin.Over}} {
		if end.margin != nil {
			uses = append(uses, opening.Use{Figure: end.figure, Deciding: o.clear.Lowest, Margin: *end.margin})
		}
	}
	return opening.MeasureAgain(uses...)
}

// SurveyForm returns the questions to ask in the room of a job, in the order in
// which one works: those whose answers change what Propose says of it, given
// what the job wants of the opening. The readings that the job has are not looked at.
func SurveyForm(job Job) []opening.Question {
	panels := false
	for _, k := range []*opening.Skirting{job.Opening.Skirting.Left, job.Opening.Skirting.Right} {
		panels = panels || k == nil || k.Treatment != opening.CutBack
	}
	return opening.Form(opening.Intent{
		Interior:  job.Interior != nil && job.Gear.Depth > 0,
		Head:      job.Timber != nil || len(job.Boards) > 0,
		EndPanels: panels,
	})
}

// SecondMeasure compares the opening as it is once frame, panels and floor are
// in with what a proposal was made for: what holds, and what to repack, recut or
// reorder. width is the second clear width, narrowest to widest; height the second clear height,
// under the bulkhead where there is one. See opening.First for the rules; the
// error is an *opening.InputError for numbers that no plan has.
func SecondMeasure(job Job, p Proposal, width units.Span, height units.Length) ([]opening.Second, error) {
	first := opening.First{
		Width: p.ClearWidth, Height: p.ClearHeight, Accuracy: job.Opening.Accuracy,
		HeightUnder: p.Margin.Height.Under, HeightOver: p.Margin.Height.Over,
	}
	if p.Margin.Width.Under != nil && p.Margin.Width.Over != nil {
		first.WidthUnder, first.WidthOver = *p.Margin.Width.Under, *p.Margin.Width.Over
	}
	switch p.Height.Method {
	case doors.AsIs, doors.Packer:
		first.Fit = opening.Bought
		for _, t := range p.Packer {
			first.Packing += t
		}
	case doors.Bulkhead:
		first.Fit, first.Height = opening.Framed, p.Height.Door+p.Height.Allowance
		first.HeightUnder = new(p.Height.Allowance - job.Gear.Allowance.Min)
		first.HeightOver = new(job.Gear.Allowance.Max - p.Height.Allowance)
	case doors.CutDown:
		first.Fit = opening.Sawn
	case doors.ToMeasure:
		first.Fit = opening.Made
	}
	return first.MeasureSecond(width, height)
}
