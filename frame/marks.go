package frame

import (
	"cmp"
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// What marks are drawn on.
const (
	OnFloor     = "floor"
	OnCeiling   = "ceiling"
	OnLeftWall  = "left wall"
	OnRightWall = "right wall"
	OnPlates    = "plates"
)

// The points and lines that marks are measured from.
const (
	FromFloor     = "highest point of the floor"
	FromLevelLine = "level line"
	FromBackWall  = "back wall"
	FromLeftWall  = "left wall"
	FromLeftPanel = "left end panel"
	FromRailLines = "rail lines on the floor"
	FromBackEdge  = "back edge of rail and track"
)

// DefaultLevelLine is how high above the highest point of the floor a level line is
// struck where none was measured from (common practice).
const DefaultLevelLine = units.Metre

// Layout is what is to be marked out in the room.
type Layout struct {
	Head Head // its width, its place and the levels
	// ClearHeight is floor to ceiling between level planes, Strip what lies on the floor
	// under the rail and has been taken off it; 0: nothing does.
	ClearHeight, Strip units.Length
	// Height is what door, track and rail take, from the underside of the rail up.
	Height units.Length
	// Above names what stands above the track; empty: the bottom plate of the bulkhead,
	// or without one the ceiling.
	Above string
	// Line is the distance of the back edges of rail and track from the back wall, and
	// Depth that from back edge to front edge; without both they are not marked.
	Line, Depth units.Length
	// LeftPanel and RightPanel are the thickness of the end panel at the side; 0: none stands there.
	LeftPanel, RightPanel units.Length
	Bulkhead              *Bulkhead      // nil: none
	Stack                 units.Length   // thickness of the packer above the track; 0: none
	Joists                []units.Length // centres of the joists that cross the plates; none: not known
	JoistsAlong           bool           // the joists run along the plates
	// Ceiling has the fixings into the ceiling, for Marks; nil: they are not marked.
	// Detail works them out itself.
	Ceiling *Fixings
}

// Mark is one thing to draw, or one row of like things.
type Mark struct {
	On   string `json:"on"`   // the surface
	What string `json:"what"` // what is drawn there
	From string `json:"from"` // the point or line it is measured from
	// At are the distances, in order; below the level line they are less than zero.
	At    []units.Length `json:"at"`
	Check string         `json:"check"` // how to prove the mark
	Is    units.Length   `json:"is"`    // what must then be measured
}

// Marks returns everything to draw on floor, walls, ceiling and plates, in the order
// a fitter draws it: the level line, the end panels, rail and track with the lines
// that join them on both walls, the underside of what is above the track, studs,
// joints, fixings. Each has the measurement that proves it, taken another way than the
// mark. The rail is marked from the back wall and the track plumb above it, from the
// inside: the wall need not be plumb. A diagonal is rounded up to a nanometre.
//
// The error is units.ErrRange for a layout with lengths out of range, or without a
// width or a height.
func Marks(l Layout) ([]Mark, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	m := marking{Layout: l}
	m.levelLine()
	m.endPanels()
	m.railAndTrack()
	m.underside()
	m.studsAndJoints()
	m.fixings()
	return m.marks, nil
}

func (l Layout) check() error {
	if err := l.Head.check(); err != nil {
		return err
	}
	for _, size := range []units.Length{l.Head.Width, l.Height, l.ClearHeight} {
		if opening.CheckSize("", size) != nil {
			return fmt.Errorf("frame: marks for an opening of %s by %s, %s of it for the doors: %w", l.Head.Width, l.ClearHeight, l.Height, units.ErrRange)
		}
	}
	for _, at := range []units.Length{l.Line, l.Depth, l.Strip, l.LeftPanel, l.RightPanel, l.Stack} {
		if opening.CheckPosition("", at) != nil {
			return fmt.Errorf("frame: a mark at %s: %w", at, units.ErrRange)
		}
	}
	return nil
}

type marking struct {
	Layout
	marks []Mark
}

func (m *marking) add(on, what, from, check string, is units.Length, at ...units.Length) {
	m.marks = append(m.marks, Mark{on, what, from, at, check, is})
}

// right is the right end of the clear opening, from the left wall.
func (m *marking) right() units.Length { return m.Head.From + m.Head.Width }

// line is how high the level line runs above the highest point of the floor.
func (m *marking) line() units.Length {
	if len(m.Head.Levels) == 0 {
		return DefaultLevelLine
	}
	line := m.Head.Levels[0].Floor
	for _, l := range m.Head.Levels {
		line = min(line, l.Floor)
	}
	return line
}

func (m *marking) levelLine() {
	m.add(OnLeftWall, "level line", FromFloor,
		"up to the lowest point of the ceiling", m.ClearHeight+m.Strip-m.line(), m.line())
	m.add(OnRightWall, "level line, carried across", FromFloor,
		"carried back along the back wall it meets its start: out by", 0, m.line())
}

func (m *marking) endPanels() {
	if m.LeftPanel > 0 {
		m.add(OnFloor, "inner face of the left end panel, plumb to the ceiling", FromLeftWall,
			"a plumb line down the panel is off the mark by", 0, m.Head.From)
	}
	switch {
	case m.LeftPanel > 0 && m.RightPanel > 0:
		// Within MaxLength the root cannot be out of range.
		diagonal, _ := units.RootSumSquares(m.Head.Width, m.Height)
		m.add(OnFloor, "inner face of the right end panel, plumb to the ceiling", FromLeftPanel,
			fmt.Sprintf("both diagonals between the panels, over a height of %s", m.Height), diagonal, m.Head.Width)
	case m.RightPanel > 0:
		m.add(OnFloor, "inner face of the right end panel, plumb to the ceiling", FromLeftWall,
			"a plumb line down the panel is off the mark by", 0, m.right())
	}
}

func (m *marking) railAndTrack() {
	if m.Line == 0 || m.Depth == 0 {
		return
	}
	front := m.Line + m.Depth
	m.add(OnFloor, "back edge of the rail: a mark at each end, joined", FromBackWall,
		"from the back wall, midway along", m.Line, m.Line, m.Line)
	m.add(OnFloor, "front edge of the rail: a mark at each end, joined", FromBackWall,
		"between the two lines, midway along", m.Depth, front, front)
	m.add(OnCeiling, "back edge of the track, plumb above that of the rail", FromRailLines,
		"a plumb line held midway is off the rail line by", 0, 0)
	m.add(OnCeiling, "front edge of the track, plumb above that of the rail", FromRailLines,
		"between the two lines, at each end", m.Depth, 0)
	for _, wall := range []string{OnLeftWall, OnRightWall} {
		m.add(wall, "back and front edge, joined from floor to ceiling", FromBackEdge,
			"between the two lines, at half the height", m.Depth, 0, m.Depth)
	}
}

func (m *marking) underside() {
	above := "ceiling"
	if m.Bulkhead != nil {
		above = "bottom plate"
	}
	what := "underside of the " + cmp.Or(m.Above, above)
	at := m.Strip + m.Height - m.line()
	m.add(OnLeftWall, what, FromLevelLine,
		"up from the highest point of the floor", m.Strip+m.Height, at)
	m.add(OnRightWall, what, FromLevelLine,
		"a level across from the mark on the left wall is off by", 0, at)
}

func (m *marking) studsAndJoints() {
	if m.Bulkhead == nil {
		return
	}
	var studs []units.Length
	for _, s := range m.Bulkhead.Studs {
		studs = append(studs, s.At)
	}
	m.row(OnPlates, "centres of the studs, square across both plates", "stud", studs)
	for _, plate := range []Plate{BottomPlate, TopPlate} {
		var joints []units.Length
		for _, j := range m.Bulkhead.Joints {
			if j.Plate == plate {
				joints = append(joints, j.At)
			}
		}
		m.row(OnPlates, fmt.Sprintf("joints of the %s plate, each on the middle of a stud", plate), "joint", joints)
	}
}

func (m *marking) fixings() {
	if m.Ceiling == nil {
		return
	}
	for _, f := range m.Ceiling.Each {
		m.row(OnCeiling, fmt.Sprintf("%s: %s into %s", m.Ceiling.What, f.Kind, f.Into), "fixing", f.Places)
	}
}

// row marks places from the left wall, proved by what is left to the right end.
func (m *marking) row(on, what, one string, at []units.Length) {
	if len(at) == 0 {
		return
	}
	m.add(on, what, FromLeftWall,
		fmt.Sprintf("from the last %s to the right end of the opening", one), m.right()-at[len(at)-1], at...)
}
