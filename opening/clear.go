package opening

import (
	"fmt"

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
	Places []string
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
	findings := s.stops()
	if !findings.Stops() {
		findings = append(findings, s.doubts()...)
	}
	m := Measured{Findings: findings.Sorted()}
	if m.Findings.Stops() {
		return m, nil
	}
	for _, v := range s.variants() {
		c := s.clear(v)
		if c.Width.Min <= 0 || c.Height <= 0 {
			m.Findings = append(m.Findings, Finding{
				Code: CodeNothingLeft, Severity: Warn, Place: "opening.end_panel",
				Message: fmt.Sprintf("%s at the left and %s at the right leave a clear width of %s and a clear height of %s", v.left, v.right, c.Width.Min, c.Height),
				Remedy:  "check the thickness of the skirtings, the end panels and the carpet",
			})
			continue
		}
		m.Variants = append(m.Variants, c)
	}
	m.Findings = m.Findings.Sorted()
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
	positive := func(place string, size units.Length) bool {
		if size > 0 {
			return true
		}
		found = append(found, Finding{
			Code: CodeNotPositive, Severity: Stop, Place: place,
			Message: fmt.Sprintf("a reading of %s cannot be", size),
			Remedy:  "read it again",
		})
		return false
	}
	widths := series{place: "opening.widths", noun: "widths", plausible: plausibleWidth, strict: true}
	for i, w := range s.Widths {
		place := fmt.Sprintf("opening.widths[%d].size", i)
		if positive(place, w.Size) {
			widths.samples = append(widths.samples, sample{place, w.Size, s.wallToWall(w), w.Checked})
		}
	}
	heights := series{place: "opening.heights", noun: "heights", plausible: plausibleHeight, strict: true}
	for i, h := range s.Heights {
		place := fmt.Sprintf("opening.heights[%d].size", i)
		if positive(place, h.Size) {
			heights.samples = append(heights.samples, sample{place, h.Size, h.Size, h.Checked})
		}
	}
	for i, d := range s.Depths {
		positive(fmt.Sprintf("opening.depths[%d].size", i), d.Size)
	}
	// The level line may stand at any height, so levels are plausible as long as
	// a room is; a floor that really falls must not be called a slip.
	anyHeight := units.Span{Min: 1, Max: plausibleHeight.Max}
	floors := series{place: "opening.levels", noun: "levels down to the floor", plausible: anyHeight}
	ceilings := series{place: "opening.levels", noun: "levels up to the ceiling", plausible: anyHeight}
	for i, l := range s.Levels {
		place := fmt.Sprintf("opening.levels[%d]", i)
		if positive(place+".floor", l.Floor) {
			floors.samples = append(floors.samples, sample{place: place + ".floor", read: l.Floor, size: l.Floor})
		}
		if positive(place+".ceiling", l.Ceiling) {
			ceilings.samples = append(ceilings.samples, sample{place: place + ".ceiling", read: l.Ceiling, size: l.Ceiling})
		}
	}
	for _, kind := range []series{widths, heights} {
		if len(kind.samples) == 0 && !found.Has(CodeNotPositive) {
			found = append(found, Finding{
				Code: CodeNoReadings, Severity: Stop, Place: kind.place,
				Message: "there are no " + kind.noun,
				Remedy:  "measure at three places at least, in the line of the doors",
			})
		}
	}
	for _, kind := range []series{widths, heights, floors, ceilings} {
		found = append(found, kind.slips()...)
	}
	if !found.Stops() && len(s.Levels) > 0 {
		if h, _ := s.levelHeight(); !plausibleHeight.Contains(h) {
			found = append(found, Finding{
				Code: CodeUnitSlip, Severity: Stop, Place: "opening.levels",
				Message: fmt.Sprintf("a clear height of %s between the levels is outside %s", h, plausibleHeight),
				Remedy:  "check the unit the levels were written in",
			})
		}
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
		if kind.count < Enough {
			add(CodeFewReadings, Warn, kind.place, "measure at three places at least: both ends and the middle",
				"%d %s reading(s): an opening is never square", kind.count, kind.noun)
		}
	}
	top := max(s.Skirting.Left.height(), s.Skirting.Right.height())
	for i, w := range s.Widths {
		place := fmt.Sprintf("opening.widths[%d].between", i)
		switch {
		case w.Between == Skirtings && top == 0:
			add(CodeNoSkirting, Warn, place, "give the skirting, or read between the walls",
				"read between skirtings, but no skirting is given: nothing was added")
		case w.Between == Skirtings && w.At >= top:
			add(CodeAboveSkirting, Warn, place, "check what was read",
				"read between skirtings at %s, but the skirting ends at %s", w.At, top)
		case w.Between != Skirtings && w.At < top:
			add(CodeBelowSkirting, Warn, place, "say whether it was read between the skirtings, or read above them",
				"a width from wall to wall at %s, below the top of the skirting at %s", w.At, top)
		}
	}
	if len(s.Levels) == 0 {
		add(CodeNoLevel, Note, "opening.levels", "strike a level line and measure from it down to the floor and up to the ceiling",
			"from tape heights alone a floor and a ceiling that fall the same way cannot be seen")
	}
	add(CodeNoPlumb, Note, "opening.leans", "hold a plumb line at each wall",
		"without plumb readings two walls that lean the same way cannot be seen: every width is alike and a wedge stays at each side")
	// The sum of two levels and one tape reading differ by the root of three accuracies.
	accuracy := s.accuracy()
	for i, l := range s.Levels {
		for j, h := range s.Heights {
			apart := (l.Floor + l.Ceiling - h.Size).Abs()
			limit, err := units.RootSumSquares(accuracy, accuracy, accuracy)
			if l.At == h.At && err == nil && apart >= limit {
				add(CodeLevelsDisagree, Warn, fmt.Sprintf("opening.levels[%d]", i), "measure both again at that place",
					"levels and tape (opening.heights[%d]) differ by %s at %s", j, apart, l.At)
			}
		}
	}
	return found
}

func (k *Skirting) height() units.Length {
	if k == nil {
		return 0
	}
	return k.Height
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
	c.Height -= s.CarpetToCome
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

// levelHeight is the clear height between level planes: least floor plus least ceiling.
func (s Survey) levelHeight() (units.Length, Deciding) {
	floor, ceiling := s.leastLevels()
	// The sum of two squares within MaxLength cannot be out of range.
	uncertainty, _ := units.RootSumSquares(s.accuracy(), s.accuracy())
	return s.Levels[floor].Floor + s.Levels[ceiling].Ceiling, Deciding{
		Places: []string{
			fmt.Sprintf("opening.levels[%d].floor", floor),
			fmt.Sprintf("opening.levels[%d].ceiling", ceiling),
		},
		Uncertainty: uncertainty,
	}
}

// leastLevels returns the indexes of the least level down to the floor and of
// the least up to the ceiling, the first of equal ones.
func (s Survey) leastLevels() (floor, ceiling int) {
	for i, l := range s.Levels {
		if l.Floor < s.Levels[floor].Floor {
			floor = i
		}
		if l.Ceiling < s.Levels[ceiling].Ceiling {
			ceiling = i
		}
	}
	return floor, ceiling
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
