package frame_test

import (
	"fmt"

	"example.com/lapspan/frame"
	"example.com/lapspan/units"
)

// An opening of 1800 between end panels, doors with track and rail 2400 high.
func ExampleMarks() {
	marks, err := frame.Marks(frame.Layout{
		Head:        frame.Head{Width: 1800 * units.Millimetre, From: 18 * units.Millimetre},
		ClearHeight: 2400 * units.Millimetre,
		Height:      2400 * units.Millimetre,
		Line:        640 * units.Millimetre,
		Depth:       80 * units.Millimetre,
		LeftPanel:   18 * units.Millimetre,
		RightPanel:  18 * units.Millimetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range marks[:6] {
		fmt.Printf("%s: %s\n  %v from the %s\n  check: %s, %v\n", m.On, m.What, m.At, m.From, m.Check, m.Is)
	}
	// Output:
	// left wall: level line
	//   [1000 mm] from the highest point of the floor
	//   check: up to the lowest point of the ceiling, 1400 mm
	// right wall: level line, carried across
	//   [1000 mm] from the highest point of the floor
	//   check: carried back along the back wall it meets its start: out by, 0 mm
	// floor: inner face of the left end panel, plumb to the ceiling
	//   [18 mm] from the left wall
	//   check: a plumb line down the panel is off the mark by, 0 mm
	// floor: inner face of the right end panel, plumb to the ceiling
	//   [1800 mm] from the left end panel
	//   check: both diagonals between the panels, over a height of 2400 mm, 3000 mm
	// floor: back edge of the rail: a mark at each end, joined
	//   [640 mm 640 mm] from the back wall
	//   check: from the back wall, midway along, 640 mm
	// floor: front edge of the rail: a mark at each end, joined
	//   [720 mm 720 mm] from the back wall
	//   check: between the two lines, midway along, 80 mm
}
