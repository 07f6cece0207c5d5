package opening

import (
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// The codes of findings about the survey that do not stop the job.
const (
	CodeFewReadings    Code = "few-readings"
	CodeBelowSkirting  Code = "walls-below-skirting"
	CodeAboveSkirting  Code = "skirtings-above-skirting"
	CodeNoSkirting     Code = "no-skirting"
	CodeNoLevel        Code = "no-level"
	CodeNoPlumb        Code = "no-plumb"
	CodeLevelsDisagree Code = "levels-disagree"
	CodeFallsAlike     Code = "falls-alike"
	CodeNothingLeft    Code = "nothing-left"
)

// Enough is how many readings of the width, and of the height, a survey should have.
const Enough = 3

// Clear is the clear opening under one treatment of the skirtings.
type Clear struct {
	// Left and Right are NoSkirting, CutBack or EndPanel.
	Left, Right Treatment
	// LeftOff and RightOff are what an end panel takes off the width at each side.
	LeftOff, RightOff units.Length
	// Width runs from the narrowest to the widest clear width. Between two end
	// panels, set plumb, both are the narrowest.
	Width units.Span
	// Height is the clear height left once a floor covering to come is down.
	Height units.Length
	// What decides the two ends of Width, and Height.
	Narrowest, Widest, Lowest Deciding
}

// Deciding names the readings behind a figure.
type Deciding struct {
	Places []string // of the readings, such as opening.widths[1].size
	// Uncertainty is the expanded uncertainty of the figure: the root of the sum
	// of the squares of its readings' (JCGM 100:2008, 5.1), rounded up to a nanometre.
	Uncertainty units.Length
}

// Measured is what a survey says.
type Measured struct {
	// Variants has the clear opening for each treatment of the skirtings, cutting
	// back before end panels; none when a finding stops the job.
	Variants []Clear
	Findings Findings // sorted
}

// Measure derives the clear opening from the readings.
//
// The error is an *InputError for a survey that Validate refuses. What is
// readable but wrong or doubtful comes back as findings.
func Measure(s Survey) (Measured, error) {
	if err := s.Validate(); err != nil {
		return Measured{}, err
	}
	findings := slices.Concat(s.stops(), s.doubts())
	if findings.Stops() {
		return Measured{Findings: findings.Sorted()}, nil
	}
	findings = slices.Concat(findings, s.disagreements(), s.fallsAlike(), s.leanDisagreement(), s.squareFindings(), s.thingFindings())
	var m Measured
	for _, v := range s.variants() {
		c := s.clear(v)
		switch {
		case c.Width.Min <= 0:
			findings = append(findings, Finding{
				Code: CodeNothingLeft, Severity: Warn, Place: "opening.end_panel",
				Message: fmt.Sprintf("%s at the left and %s at the right leave a clear width of %s", v.left, v.right, c.Width.Min),
				Remedy:  "check the thickness of the skirtings and of the end panels",
			})
		case c.Height <= 0:
			findings = append(findings, Finding{
				Code: CodeNothingLeft, Severity: Warn, Place: "opening.carpet_to_come",
				Message: fmt.Sprintf("a floor covering of %s leaves a clear height of %s", s.CarpetToCome, c.Height),
				Remedy:  "check the thickness of the floor covering",
			})
		default:
			m.Variants = append(m.Variants, c)
		}
	}
	m.Findings = findings.Sorted()
	return m, nil
}

// wallToWall is what a width reading says of the distance between the walls: a
// reading between skirtings gets the thickness of each back.
func (s Survey) wallToWall(w Width) units.Length {
	if w.Between != Skirtings {
		return w.Size
	}
	return w.Size + s.Skirting.Left.thickness() + s.Skirting.Right.thickness()
}

func (k *Skirting) thickness() units.Length {
	if k == nil {
		return 0
	}
	return k.Thickness
}

// stops are the findings that leave nothing to size.
func (s Survey) stops() Findings {
	var found Findings
	positive := func(size units.Length, place string, index ...any) bool {
		if size > 0 {
			return true
		}
		found = append(found, Finding{
			Code: CodeNotPositive, Severity: Stop, Place: fmt.Sprintf(place, index...),
			Message: fmt.Sprintf("a reading of %s cannot be", size),
			Remedy:  "read it again",
		})
		return false
	}
	widths := series{place: "opening.widths", reading: "opening.widths[%d].size", noun: "widths", plausible: plausibleWidth}
	widths.samples = make([]sample, 0, len(s.Widths))
	for i, w := range s.Widths {
		if positive(w.Size, widths.reading, i) {
			widths.samples = append(widths.samples, sample{i, w.Size, s.wallToWall(w), w.Checked})
		}
	}
	heights := series{place: "opening.heights", reading: "opening.heights[%d].size", noun: "heights", plausible: plausibleHeight}
	heights.samples = make([]sample, 0, len(s.Heights))
	for i, h := range s.Heights {
		if positive(h.Size, heights.reading, i) {
			heights.samples = append(heights.samples, sample{i, h.Size, h.Size, h.Checked})
		}
	}
	for i, d := range s.Depths {
		positive(d.Size, "opening.depths[%d].size", i)
	}
	if d := s.Diagonals; d != nil {
		positive(d.Rising, "opening.diagonals.rising")
		positive(d.Falling, "opening.diagonals.falling")
	}
	levelsRead := true
	for i, l := range s.Levels {
		floor := positive(l.Floor, "opening.levels[%d].floor", i)
		ceiling := positive(l.Ceiling, "opening.levels[%d].ceiling", i)
		levelsRead = levelsRead && floor && ceiling
	}
	for _, kind := range []struct {
		place, noun string
		count       int
	}{{"opening.widths", "widths", len(s.Widths)}, {"opening.heights", "heights", len(s.Heights)}} {
		if kind.count == 0 {
			found = append(found, Finding{
				Code: CodeNoReadings, Severity: Stop, Place: kind.place,
				Message: "there are no " + kind.noun,
				Remedy:  "measure at three places at least, in the line of the doors",
			})
		}
	}
	slips := widths.slips()
	found = append(found, slips...)
	if len(widths.samples) == len(s.Widths) && !slips.Stops() {
		found = append(found, s.leanSlips()...)
	}
	slips = heights.slips()
	found = append(found, slips...)
	if levelsRead && len(heights.samples) == len(s.Heights) && len(s.Heights) > 0 && !slips.Stops() {
		found = append(found, s.levelSlips()...)
	}
	return found
}

// doubts are the findings about readings that can be used.
func (s Survey) doubts() Findings {
	var found Findings
	add := func(code Code, severity Severity, place, remedy, message string, args ...any) {
		found = append(found, Finding{code, severity, place, fmt.Sprintf(message, args...), remedy})
	}
	for _, kind := range []struct {
		place, noun string
		count       int
	}{{"opening.widths", "width", len(s.Widths)}, {"opening.heights", "height", len(s.Heights)}} {
		if 0 < kind.count && kind.count < Enough {
			add(CodeFewReadings, Warn, kind.place, "measure at three places at least: both ends and the middle",
				"%d %s reading(s): an opening is never square", kind.count, kind.noun)
		}
	}
	lowest, highest := s.Skirting.tops()
	between := func(i int) string { return fmt.Sprintf("opening.widths[%d].between", i) }
	for i, w := range s.Widths {
		switch {
		case w.Between == Skirtings && highest == 0:
			add(CodeNoSkirting, Warn, between(i), "give the skirting, or read between the walls",
				"read between skirtings, but no skirting is given: nothing was added")
		case w.Between == Skirtings && w.At >= lowest:
			add(CodeAboveSkirting, Warn, between(i), "check what was read",
				"read between skirtings at %s, but the skirting ends at %s", w.At, lowest)
		case w.Between != Skirtings && w.At < highest:
			add(CodeBelowSkirting, Warn, between(i), "say whether it was read between the skirtings, or read above them",
				"a width from wall to wall at %s, below the top of the skirting at %s", w.At, highest)
		}
	}
	if len(s.Levels) == 0 {
		add(CodeNoLevel, Note, "opening.levels", "strike a level line and measure from it down to the floor and up to the ceiling",
			"from tape heights alone a floor and a ceiling that fall the same way cannot be seen")
	}
	return slices.Concat(found, s.leanDoubts(), s.carpetFindings(), s.Joists.findings())
}

// tops returns the heights of the lower and the higher skirting that is there; zeros when none is.
func (k Sides) tops() (lowest, highest units.Length) {
	switch {
	case k.Left == nil && k.Right == nil:
		return 0, 0
	case k.Left == nil:
		return k.Right.Height, k.Right.Height
	case k.Right == nil:
		return k.Left.Height, k.Left.Height
	}
	return min(k.Left.Height, k.Right.Height), max(k.Left.Height, k.Right.Height)
}

type variant struct{ left, right Treatment }

// variants are the treatments to try: a side that is decided keeps its own,
// sides that are open are cut back together or get end panels together.
func (s Survey) variants() []variant {
	treat := func(k *Skirting, open Treatment) Treatment {
		switch {
		case k == nil:
			return NoSkirting
		case k.Treatment == "":
			return open
		}
		return k.Treatment
	}
	back := variant{treat(s.Skirting.Left, CutBack), treat(s.Skirting.Right, CutBack)}
	panel := variant{treat(s.Skirting.Left, EndPanel), treat(s.Skirting.Right, EndPanel)}
	if back == panel {
		return []variant{back}
	}
	return []variant{back, panel}
}

// clear derives the clear opening under one variant from readings that passed.
func (s Survey) clear(v variant) Clear {
	c := Clear{Left: v.left, Right: v.right}
	if v.left == EndPanel {
		c.LeftOff = max(s.EndPanel, s.Skirting.Left.Thickness)
	}
	if v.right == EndPanel {
		c.RightOff = max(s.EndPanel, s.Skirting.Right.Thickness)
	}
	narrowest, widest := s.ends()
	if v.left == EndPanel && v.right == EndPanel {
		widest = narrowest
	}
	off := c.LeftOff + c.RightOff
	c.Width = units.Span{
		Min: s.wallToWall(s.Widths[narrowest]) - off,
		Max: s.wallToWall(s.Widths[widest]) - off,
	}
	width := func(i int) Deciding {
		return Deciding{[]string{fmt.Sprintf("opening.widths[%d].size", i)}, s.accuracy()}
	}
	c.Narrowest, c.Widest = width(narrowest), width(widest)
	if len(s.Levels) > 0 {
		c.Height, c.Lowest = s.levelHeight()
	} else {
		c.Height, c.Lowest = s.tapeHeight()
	}
	c.Height += s.coveringOff()
	return c
}

// ends returns the indexes of the narrowest and the widest reading, the first of equal ones.
func (s Survey) ends() (narrowest, widest int) {
	for i, w := range s.Widths {
		if s.wallToWall(w) < s.wallToWall(s.Widths[narrowest]) {
			narrowest = i
		}
		if s.wallToWall(w) > s.wallToWall(s.Widths[widest]) {
			widest = i
		}
	}
	return narrowest, widest
}

// tapeHeight is the least tape reading.
func (s Survey) tapeHeight() (units.Length, Deciding) {
	least := s.leastHeight()
	return s.Heights[least].Size, Deciding{
		Places:      []string{fmt.Sprintf("opening.heights[%d].size", least)},
		Uncertainty: s.accuracy(),
	}
}

// leastHeight returns the index of the least height, the first of equal ones.
func (s Survey) leastHeight() int {
	least := 0
	for i, h := range s.Heights {
		if h.Size < s.Heights[least].Size {
			least = i
		}
	}
	return least
}
