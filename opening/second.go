package opening

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// First is what the first survey promised one proposal, as plain numbers: the
// clear opening it was sized for and how far that may be out (its margins).
type First struct {
	Width  units.Span   `json:"width"`  // narrowest to widest clear width
	Height units.Length `json:"height"` // clear height; of a framed opening that under the bulkhead, door + allowance
	// WidthUnder is how much less the narrowest, WidthOver how much more the widest width may turn out.
	WidthUnder units.Length `json:"width_under"`
	WidthOver  units.Length `json:"width_over"` // the widest width may be more by this
	// HeightUnder and HeightOver are the same for the height; nil: without end. Of a
	// framed opening they are what the allowance has to spare.
	HeightUnder *units.Length `json:"height_under,omitzero"`
	HeightOver  *units.Length `json:"height_over,omitzero"` // the height may be more by this
	// Fit says how the height is used.
	Fit Fit `json:"fit"`
	// Packing is what lies above the track and could be made thinner: the packer's stack.
	Packing units.Length `json:"packing,omitzero"`
	// Accuracy is the expanded uncertainty of the second readings of a width and
	// of the height; zero: DefaultAccuracy.
	Accuracy units.Length `json:"accuracy,omitzero"`
}

// Fit says how a proposal uses the height, and so what can follow a change. The
// zero value is not a fit.
type Fit string

const (
	Bought Fit = "bought" // doors as they come, with or without a packer: a packer can follow
	Framed Fit = "framed" // a bulkhead above doors as they come: it can be packed, or its studs cut
	Sawn   Fit = "sawn"   // doors cut on site: the cut can follow until it is made
	Made   Fit = "made"   // doors made to measure: they can follow until they are ordered
)

// Verdict is what a second reading makes of the first plan.
type Verdict string

const (
	Holds        Verdict = "holds"         // nothing changes
	MeasureFiner Verdict = "measure finer" // it holds, but by less than the readings are sure
	Repack       Verdict = "repack"        // a packer changes; what was ordered stays
	Recut        Verdict = "recut"         // a cut or a stud changes; what was ordered stays
	Reorder      Verdict = "reorder"       // what was ordered, or is about to be, does not fit
)

// Second is what the second readings say of one figure of the first plan.
type Second struct {
	Figure  string       `json:"figure"`  // narrowest width, widest width or height
	Was     units.Length `json:"was"`     // in the first survey
	Is      units.Length `json:"is"`      // now
	Verdict Verdict      `json:"verdict"` // what follows
	// By is how much a packer, a cut, a stud or a made door grows (negative:
	// shrinks), or how far the figure lies past its margin where only another
	// choice helps; 0 where nothing changes.
	By     units.Length `json:"by"`
	Why    string       `json:"why"`    // in a sentence
	Remedy string       `json:"remedy"` // what to do
}

// Validate refuses numbers that no first plan has: a reversed or empty span, a
// height that is not more than zero, a negative margin, an unknown fit.
func (f First) Validate() error {
	if err := cmp.Or(
		CheckSize("first.width.min", f.Width.Min), CheckSize("first.width.max", f.Width.Max), CheckSize("first.height", f.Height),
		CheckPosition("first.width_under", f.WidthUnder), CheckPosition("first.width_over", f.WidthOver),
		CheckPosition("first.packing", f.Packing), CheckPosition("first.accuracy", f.Accuracy),
	); err != nil {
		return err
	}
	if err := f.Width.Validate(); err != nil {
		return Refuse("first.width", "%v", err)
	}
	for _, end := range []struct {
		place  string
		margin *units.Length
	}{{"first.height_under", f.HeightUnder}, {"first.height_over", f.HeightOver}} {
		if end.margin == nil {
			continue
		}
		if err := CheckPosition(end.place, *end.margin); err != nil {
			return err
		}
	}
	switch f.Fit {
	case Bought, Framed, Sawn, Made:
		return nil
	}
	return Refuse("first.fit", "%s is not bought, framed, sawn or made", Quote(string(f.Fit)))
}

// MeasureSecond compares the clear opening as it is once frame, panels and
// floor are in, measured again before doors are ordered or cut, with the first
// plan. width and height are the second clear width and height, the height under
// the bulkhead where there is one.
//
// A width inside its margin holds: the overlaps take it up. Past it the doors do
// not reach across, or are too wide to go in: reorder. A height that moved by d
// inside the margin holds; sawn doors alone follow every d larger than the
// accuracy, as they are cut to the height found. Past the margin
//
//	bought   the packer grows by d; it shrinks by no more than it is thick, else reorder
//	framed   the bulkhead is packed down by d, or its studs are cut shorter
//	sawn     more height than a cut would leave: no cut; less than the deepest cut: reorder
//	made     the doors are ordered taller by d, or shorter
//
// What holds by less than the accuracy of the second reading should be measured
// finer. The error is an *InputError for numbers that no plan has.
func (f First) MeasureSecond(width units.Span, height units.Length) ([]Second, error) {
	if err := cmp.Or(f.Validate(), CheckSize("second.width.min", width.Min), CheckSize("second.width.max", width.Max), CheckSize("second.height", height)); err != nil {
		return nil, err
	}
	if err := width.Validate(); err != nil {
		return nil, Refuse("second.width", "%v", err)
	}
	return []Second{
		f.judgeWidth("narrowest width", f.Width.Min, width.Min, f.Width.Min-width.Min, f.WidthUnder,
			"even at the greatest overlap the doors are too wide for it", "choose narrower doors, or a thinner end panel"),
		f.judgeWidth("widest width", f.Width.Max, width.Max, width.Max-f.Width.Max, f.WidthOver,
			"at the least overlap the doors do not reach across it", "choose wider doors, or a thicker end panel or liner"),
		f.judgeHeight(height),
	}, nil
}

// Worst returns the gravest verdict: reorder before recut, repack, measure
// finer and holds; holds for none.
func Worst(list []Second) Verdict {
	order := []Verdict{Holds, MeasureFiner, Repack, Recut, Reorder}
	worst := 0
	for _, s := range list {
		worst = max(worst, slices.Index(order, s.Verdict))
	}
	return order[worst]
}

func (f First) accuracy() units.Length {
	if f.Accuracy == 0 {
		return DefaultAccuracy
	}
	return f.Accuracy
}

func (f First) judgeWidth(figure string, was, is, moved, margin units.Length, past, remedy string) Second {
	s := Second{Figure: figure, Was: was, Is: is}
	switch left := margin - moved; {
	case left < 0:
		s.Verdict, s.By = Reorder, -left
		s.Why = fmt.Sprintf("it is %s past its margin: %s", -left, past)
		s.Remedy = remedy
	case left < f.accuracy():
		f.finer(&s, left)
	default:
		s.hold(left)
	}
	return s
}

func (s *Second) hold(left units.Length) {
	s.Verdict, s.Why, s.Remedy = Holds, fmt.Sprintf("%s are left of its margin", left), "go on"
}

func (f First) finer(s *Second, left units.Length) {
	s.Verdict = MeasureFiner
	s.Why = fmt.Sprintf("it holds by %s, and the readings are sure to %s", left, f.accuracy())
	s.Remedy = "measure it again, finer, before anything is ordered or cut"
}

func (f First) judgeHeight(height units.Length) Second {
	moved := height - f.Height
	s := Second{Figure: "height", Was: f.Height, Is: height}
	// What is left of the margin on the side the height moved to; without end it is never used up.
	left, ends := units.Length(0), false
	switch {
	case moved < 0 && f.HeightUnder != nil:
		left, ends = *f.HeightUnder+moved, true
	case moved >= 0 && f.HeightOver != nil:
		left, ends = *f.HeightOver-moved, true
	}
	past := ends && left < 0
	switch {
	case past && f.Fit == Bought && (moved > 0 || f.Packing+moved > 0):
		s.Verdict, s.By = Repack, moved
		s.Why = fmt.Sprintf("it moved by %s, %s past what track and rail take up", moved, -left)
		s.Remedy = fmt.Sprintf("make the packing above the track %s instead of %s", f.Packing+moved, f.Packing)
	case past && f.Fit == Framed && moved > 0:
		s.Verdict, s.By = Repack, moved
		s.Why = fmt.Sprintf("under the bulkhead there are %s more, %s past what track and rail take up", moved, -left)
		s.Remedy = fmt.Sprintf("pack the bulkhead down by %s", moved)
	case past && f.Fit == Framed:
		s.Verdict, s.By = Recut, moved
		s.Why = fmt.Sprintf("under the bulkhead there are %s less, %s past the margin", -moved, -left)
		s.Remedy = fmt.Sprintf("cut the studs shorter by %s", -moved)
	case past && f.Fit == Made:
		s.Verdict, s.By = Reorder, moved
		s.Why = fmt.Sprintf("it moved by %s, %s past the margin", moved, -left)
		s.Remedy = fmt.Sprintf("order the doors %s taller", moved)
		if moved < 0 {
			s.Remedy = fmt.Sprintf("order the doors %s shorter", -moved)
		}
	case past && f.Fit == Sawn && moved > 0:
		s.Verdict, s.By = Recut, -moved
		s.Why = fmt.Sprintf("there are %s more: the doors fit without a cut", moved)
		s.Remedy = "hang the doors uncut, with a packer where track and rail do not take up the rest"
	case past:
		s.Verdict, s.By = Reorder, -left
		s.Why = fmt.Sprintf("it moved by %s, %s past its margin", moved, -left)
		s.Remedy = "size the job again: another door height or another method"
	case f.Fit == Sawn && moved.Abs() > f.accuracy():
		s.Verdict, s.By = Recut, -moved
		s.Why = fmt.Sprintf("doors are cut to the height found, and that moved by %s", moved)
		s.Remedy = fmt.Sprintf("cut %s less off the doors", moved)
		if moved < 0 {
			s.Remedy = fmt.Sprintf("cut %s more off the doors", -moved)
		}
	case ends && left < f.accuracy():
		f.finer(&s, left)
	case ends:
		s.hold(left)
	default:
		s.Verdict, s.Why, s.Remedy = Holds, "it may be any height as far as this goes", "go on"
	}
	return s
}
