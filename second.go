package lapspan

import (
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

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
