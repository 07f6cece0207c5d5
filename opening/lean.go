package opening

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// The codes of findings about walls that lean.
const (
	CodeLeansDisagree Code = "leans-disagree"
	CodePastAdjuster  Code = "lean-past-adjuster"
	CodeNoAdjuster    Code = "no-adjuster"
)

// Lean is one reading from a plumb line to a wall. A wall whose size grows with
// the height leans outwards, away from the opening.
type Lean struct {
	At   units.Length `json:"at"`   // above the floor
	Size units.Length `json:"size"` // from the plumb line to the wall, larger is further out; it may be negative
}

// Leans holds the plumb readings of each wall, each wall from its own plumb
// line. The zero value has none.
type Leans struct {
	Left  []Lean `json:"left"`  // the left wall
	Right []Lean `json:"right"` // the right wall
}

// Side is a side of the opening, seen from the room.
type Side string

const (
	Left  Side = "left"  // the left wall
	Right Side = "right" // the right wall
)

func (l Leans) validate() error {
	for _, wall := range []struct {
		place string
		leans []Lean
	}{{"opening.leans.left", l.Left}, {"opening.leans.right", l.Right}} {
		if len(wall.leans) > MaxReadings {
			return Refuse(wall.place, "%d readings; at most %d can be used", len(wall.leans), MaxReadings)
		}
		for i, r := range wall.leans {
			if err := checkReading(wall.place, i, r.At, r.Size); err != nil {
				return err
			}
		}
	}
	return nil
}

func (l Leans) none() bool { return len(l.Left) == 0 && len(l.Right) == 0 }

// figure is a length worked out from readings, with what each reading has to do
// with it: its factor × the accuracy.
type figure struct {
	size   units.Length
	places []string
	parts  []units.Length
}

func reading(place string, size, accuracy units.Length) figure {
	return figure{size, []string{place}, []units.Length{accuracy}}
}

// plus adds factor × g to f; a reading that is in both counts once, with the sum of its factors.
func (f figure) plus(g figure, factor units.Length) figure {
	sum := figure{f.size + factor*g.size, slices.Clone(f.places), slices.Clone(f.parts)}
	for i, place := range g.places {
		at := slices.Index(sum.places, place)
		if at < 0 {
			at = len(sum.places)
			sum.places, sum.parts = append(sum.places, place), append(sum.parts, 0)
		}
		sum.parts[at] += factor * g.parts[i]
	}
	return sum
}

// deciding is the readings that the figure really rests on, in the order of
// their places, and its expanded uncertainty.
func (f figure) deciding() Deciding {
	var d Deciding
	var parts []units.Length
	for i, part := range f.parts {
		if part != 0 {
			d.Places, parts = append(d.Places, f.places[i]), append(parts, part)
		}
	}
	slices.Sort(d.Places)
	// A handful of parts, each at most a few accuracies; beyond the range of a
	// length the uncertainty is as large as can be said.
	uncertainty, err := units.RootSumSquares(parts...)
	if err != nil {
		uncertainty = units.MaxLength
	}
	d.Uncertainty = uncertainty
	return d
}

// wall is the leans of one wall from the floor up.
type wall struct {
	leans    []Lean
	places   []string
	accuracy units.Length
}

func (s Survey) wall(side Side) wall {
	leans := s.Leans.Left
	if side == Right {
		leans = s.Leans.Right
	}
	order := make([]int, len(leans))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(leans[i].At, leans[j].At) })
	w := wall{accuracy: s.accuracy()}
	for _, i := range order {
		w.leans = append(w.leans, leans[i])
		w.places = append(w.places, fmt.Sprintf("opening.leans.%s[%d].size", side, i))
	}
	return w
}

func (w wall) reading(i int) figure { return reading(w.places[i], w.leans[i].Size, w.accuracy) }

// at is where the wall stands at a height: on the straight line between the
// readings below and above, and as the nearest reading beyond the last. A wall
// without readings stands on its plumb line.
func (w wall) at(height units.Length) figure {
	above := 0
	for above < len(w.leans) && w.leans[above].At <= height {
		above++
	}
	switch {
	case len(w.leans) == 0:
		return figure{}
	case above == 0:
		return w.reading(0)
	case above == len(w.leans) || w.leans[above-1].At == height:
		return w.reading(above - 1)
	}
	low, high := w.leans[above-1], w.leans[above]
	share := func(l units.Length) units.Length {
		// Less than l, as the height lies between the two.
		part, _ := l.MulDiv(int64(height-low.At), int64(high.At-low.At), units.HalfEven)
		return part
	}
	upper := share(w.accuracy)
	return figure{
		low.Size + share(high.Size-low.Size),
		[]string{w.places[above-1], w.places[above]},
		[]units.Length{w.accuracy - upper, upper},
	}
}

// reach is where the wall stands furthest in and furthest out from the floor up to a height.
func (w wall) reach(height units.Length) (in, out figure) {
	in, out = w.at(0), w.at(0)
	consider := func(f figure) {
		if f.size < in.size {
			in = f
		}
		if f.size > out.size {
			out = f
		}
	}
	for i, l := range w.leans {
		if l.At <= height {
			consider(w.reading(i))
		}
	}
	consider(w.at(height))
	return in, out
}

// apart is what a width says of the distance between the two plumb lines: the
// width from wall to wall less the lean of either wall at its height.
func (s Survey) apart(i int, left, right wall) figure {
	w := s.Widths[i]
	f := reading(fmt.Sprintf("opening.widths[%d].size", i), s.wallToWall(w), s.accuracy())
	return f.plus(left.at(w.At), -1).plus(right.at(w.At), -1)
}

// ClearFor returns the clear opening as a run of so many doors of one height
// finds it. Doors are rigid and all but the end ones stand plumb, so with leans
// known and three doors or more the width runs over the height of the doors:
//
//	widest    = most apart + outermost left + outermost right
//	narrowest = least apart + innermost left + innermost right
//
// where apart is the distance between the two plumb lines. Every width reading
// tells it, less both leans at its height, interpolated between the plumb
// readings and held beyond the last; where the readings scatter, the one on the
// safe side is taken. An end panel stands plumb at the innermost point of its
// wall. With two doors, or without leans, c comes back as it is. The clear
// opening must be one that Measure made from this survey.
//
// What decides each end is the width, and those plumb readings that do not
// cancel out; their uncertainties combine as the root of the sum of squares of
// the readings, each times its share.
func (s Survey) ClearFor(c Clear, doors int, height units.Length) Clear {
	if doors < 3 || s.Leans.none() || len(s.Widths) == 0 {
		return c
	}
	narrowest, widest := s.envelope(c, height)
	off := c.LeftOff + c.RightOff
	c.Width = units.Span{Min: narrowest.size - off, Max: widest.size - off}
	c.Narrowest, c.Widest = narrowest.deciding(), widest.deciding()
	return c
}

// enveloped is one end of the clear width over the height of the doors, with its parts.
type enveloped struct {
	figure
	apart, left, right units.Length
}

// envelope returns what is between the innermost and between the outermost
// points of the walls over a height, from wall to wall.
func (s Survey) envelope(c Clear, height units.Length) (narrowest, widest enveloped) {
	left, right := s.wall(Left), s.wall(Right)
	leftIn, leftOut := left.reach(height)
	rightIn, rightOut := right.reach(height)
	if c.Left == EndPanel {
		leftOut = leftIn
	}
	if c.Right == EndPanel {
		rightOut = rightIn
	}
	for i := range s.Widths {
		apart := s.apart(i, left, right)
		in := enveloped{apart.plus(leftIn, 1).plus(rightIn, 1), apart.size, leftIn.size, rightIn.size}
		out := enveloped{apart.plus(leftOut, 1).plus(rightOut, 1), apart.size, leftOut.size, rightOut.size}
		// Of readings that tell the same the surer one decides.
		if i == 0 || in.size < narrowest.size || in.size == narrowest.size && in.deciding().Uncertainty < narrowest.deciding().Uncertainty {
			narrowest = in
		}
		if i == 0 || out.size > widest.size || out.size == widest.size && out.deciding().Uncertainty < widest.deciding().Uncertainty {
			widest = out
		}
	}
	if c.Left == EndPanel && c.Right == EndPanel {
		widest = narrowest
	}
	return narrowest, widest
}

// leanDoubts are the findings about plumb readings.
func (s Survey) leanDoubts() Findings {
	var found Findings
	plumb := "hold a plumb line at each wall, and read the distance to the wall at the foot, the middle and the top"
	if s.Leans.none() {
		return Findings{{
			Code: CodeNoPlumb, Severity: Note, Place: "opening.leans",
			Message: "without plumb readings two walls that lean the same way cannot be seen: every width is alike and a wedge stays at each side",
			Remedy:  plumb,
		}}
	}
	for _, wall := range []struct {
		side  Side
		leans []Lean
	}{{Left, s.Leans.Left}, {Right, s.Leans.Right}} {
		place := "opening.leans." + string(wall.side)
		switch len(wall.leans) {
		case 0:
			found = append(found, Finding{
				Code: CodeNoPlumb, Severity: Note, Place: place,
				Message: fmt.Sprintf("there are no plumb readings of the %s wall: it is taken to be as the widths show it", wall.side),
				Remedy:  plumb,
			})
		case 1:
			found = append(found, Finding{
				Code: CodeFewReadings, Severity: Warn, Place: place,
				Message: fmt.Sprintf("one plumb reading of the %s wall says nothing of its lean", wall.side),
				Remedy:  plumb,
			})
		}
	}
	return found
}

// leanSlips are the findings about plumb readings that cannot be right. A
// reading is on trial only where the width nearest to it contradicts it: a wall
// that really leans is no slip. The widths themselves have passed.
func (s Survey) leanSlips() Findings {
	if s.Leans.none() || len(s.Widths) < 2 {
		return nil
	}
	left, right := s.wall(Left), s.wall(Right)
	apart := make([]sample, len(s.Widths))
	for i := range s.Widths {
		apart[i].size = s.apart(i, left, right).size
	}
	median := doubledMedian(apart, -1)
	contradicted := func(at units.Length) bool {
		nearest := 0
		for i, w := range s.Widths {
			if (w.At - at).Abs() < (s.Widths[nearest].At - at).Abs() {
				nearest = i
			}
		}
		return (2*apart[nearest].size - median).Abs() > 2*contradictedBy
	}
	var found Findings
	for _, side := range []struct {
		side  Side
		leans []Lean
	}{{Left, s.Leans.Left}, {Right, s.Leans.Right}} {
		kind := series{
			reading: "opening.leans." + string(side.side) + "[%d].size", noun: "plumb readings of the " + string(side.side) + " wall",
			plausible: units.Span{Min: -units.MaxLength, Max: units.MaxLength},
		}
		for i, l := range side.leans {
			kind.samples = append(kind.samples, sample{i, l.Size, l.Size, !contradicted(l.At)})
		}
		for _, f := range kind.slips() {
			if f.Severity == Stop { // one that the widths bear out is no finding at all
				f.Remedy = "read it again; the width there does not bear it out"
				found = append(found, f)
			}
		}
	}
	return found
}

// leanDisagreement is the finding that widths and leans do not tell one
// distance between the plumb lines.
func (s Survey) leanDisagreement() Findings {
	if s.Leans.none() || len(s.Widths) < 2 {
		return nil
	}
	left, right := s.wall(Left), s.wall(Right)
	least, most := s.apart(0, left, right), s.apart(0, left, right)
	for i := range s.Widths {
		apart := s.apart(i, left, right)
		if apart.size < least.size {
			least = apart
		}
		if apart.size > most.size {
			most = apart
		}
	}
	d := most.plus(least, -1).deciding()
	scatter := most.size - least.size
	if scatter <= d.Uncertainty {
		return nil
	}
	return Findings{{
		Code: CodeLeansDisagree, Severity: Warn, Place: "opening.leans",
		Message: fmt.Sprintf("widths and plumb readings do not agree: the plumb lines are %s to %s apart, by readings that should scatter by %s at most", about(least.size), about(most.size), about(d.Uncertainty)),
		Remedy:  fmt.Sprintf("measure %s and %s and the leans at their heights again; the wider span is used", least.places[0], most.places[0]),
	}}
}

// EndDoor is how a door at one end of the run closes on its wall.
type EndDoor struct {
	Side Side `json:"side"` // at which the door stands
	// Lean is how much further out the wall stands at the top of the door than at its foot; negative: further in.
	Lean units.Length `json:"lean"`
	// Raise is how far one wheel must be raised for the door to close tight:
	// width × |lean| / height, rounded up to a nanometre.
	Raise units.Length `json:"raise"`
	// Wheel is which: the one away from a wall that leans outwards, the one at a wall that leans inwards.
	Wheel Wheel `json:"wheel,omitzero"`
	// Taken is what raising it takes from the allowance: Raise, or nothing where the wheel stays down.
	Taken units.Length `json:"taken"`
	// Liner closes the wedge that stays where the adjuster does not reach; nil: none is needed.
	Liner *Taper `json:"liner,omitzero"`
}

// Wheel is one of the two wheels of a door. The zero value is neither.
type Wheel string

const (
	WheelAtWall       Wheel = "at the wall"        // the one nearer to the wall
	WheelAwayFromWall Wheel = "away from the wall" // the one further from the wall
)

// Taper is a piece that is not as thick at its top as at its foot: a liner, or
// the wedge scribed off a plumb edge.
type Taper struct {
	Foot units.Length `json:"foot"` // thickness at the foot
	Top  units.Length `json:"top"`  // thickness at the top
}

// EndDoor returns how a door of a width and a height closes on the wall at a
// side. A wall that leans p over the height of the door is met by raising one
// wheel width × p / height: 650 wide, 2300 high, a lean of 10 makes 2.83. That
// lifts a corner, so the height is tested with the allowance less Taken. Past
// the adjuster the door stays plumb and a wedge of p stays, closed by a liner.
// adjuster is how far a wheel can be raised; zero: not known, taken to reach.
//
// At an end panel, which stands plumb, and without leans there is nothing to
// raise. The error is an *InputError for a width or height that is not more
// than zero, a negative adjuster or an unknown side.
func (s Survey) EndDoor(c Clear, side Side, width, height, adjuster units.Length) (EndDoor, error) {
	if err := cmp.Or(CheckSize("width", width), CheckSize("height", height), CheckPosition("adjuster", adjuster)); err != nil {
		return EndDoor{}, err
	}
	treatment := c.Left
	switch side {
	case Left:
	case Right:
		treatment = c.Right
	default:
		return EndDoor{}, Refuse("side", "%s is not left or right", Quote(string(side)))
	}
	d := EndDoor{Side: side}
	if treatment == EndPanel {
		return d, nil
	}
	wall := s.wall(side)
	d.Lean = wall.at(height).size - wall.at(0).size
	if d.Lean == 0 {
		return d, nil
	}
	p := d.Lean.Abs()
	raise, err := width.MulDiv(int64(p), int64(height), units.Up)
	if err != nil {
		return EndDoor{}, Refuse("height", "a lean of %s over it cannot be", d.Lean)
	}
	d.Raise, d.Wheel = raise, WheelAwayFromWall
	if d.Lean < 0 {
		d.Wheel = WheelAtWall
	}
	switch {
	case adjuster == 0 || raise <= adjuster:
		d.Taken = raise
	case d.Lean > 0:
		d.Liner = &Taper{Top: p}
	default:
		d.Liner = &Taper{Foot: p}
	}
	return d, nil
}

// Findings says what is left to do at the end door: a liner where the adjuster
// does not reach (warn). adjusterKnown is false for gear whose adjuster is not known.
func (d EndDoor) Findings(adjusterKnown bool) Findings {
	place := "opening.leans." + string(d.Side)
	switch {
	case d.Liner != nil:
		end := "top"
		if d.Liner.Foot > 0 {
			end = "foot"
		}
		return Findings{{
			Code: CodePastAdjuster, Severity: Warn, Place: place,
			Message: fmt.Sprintf("the %s wall leans %s over the door: a wheel would have to be raised %s, further than it can be", d.Side, about(d.Lean.Abs()), about(d.Raise)),
			Remedy:  fmt.Sprintf("scribe a liner to the wall, %s thick at the %s and running out to nothing at the other end, or a wedge of %s stays open", about(d.Lean.Abs()), end, about(d.Lean.Abs())),
		}}
	case d.Raise > 0 && !adjusterKnown:
		return Findings{{
			Code: CodeNoAdjuster, Severity: Note, Place: "gear.adjuster",
			Message: fmt.Sprintf("a wheel of the door at the %s wall must be raised %s; how far this gear can is not given", d.Side, about(d.Raise)),
			Remedy:  "ask the maker for the range of the wheel adjuster",
		}}
	}
	return nil
}
