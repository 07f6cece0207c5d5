package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleGear_Limits() {
	g := fiftyToNinety()
	g.Doors = &doors.Counts{Min: 2, Max: 4}
	g.MaxSlimness = new(4 * doors.OneShare)
	for _, over := range g.Limits(doors.Hung{Doors: 5, Width: 500 * units.Millimetre, Height: 2300 * units.Millimetre}) {
		fmt.Printf("%s: %s\n", over.Limit, over.Reason)
	}
	// Output:
	// doors: a run of 5 doors: the gear takes 2 to 4
	// slimness: a door 2300 mm high and 500 mm wide: the gear takes a height of at most 4 times the width
}

func ExampleRange_Beyond() {
	g := fiftyToNinety()
	g.DoorWidth = &units.Span{Min: 500 * units.Millimetre, Max: 1000 * units.Millimetre}
	r := doors.Range{Sizes: []doors.Size{{Width: 1250 * units.Millimetre, Height: 2250 * units.Millimetre}}}
	for _, f := range r.Beyond(g) {
		fmt.Println(f.Severity, f.Place, f.Message)
	}
	// Output: note doors.sizes[0].width a door 1250 mm wide: the gear takes 500 to 1000 mm
}

func ExampleRaise() {
	fmt.Println(doors.Raise(650*units.Millimetre, 2300*units.Millimetre, 10*units.Millimetre))
	// Output: 2.826087 mm <nil>
}

func ExampleChanges() {
	// Four doors of 650 cover 2450 at the least overlap of 50: 9 short.
	for _, c := range doors.Changes(fourDoors(), fiftyToNinety(), units.Span{Min: 2455 * units.Millimetre, Max: 2459 * units.Millimetre}) {
		switch c.Kind {
		case doors.Liner:
			fmt.Println("line the opening by", c.By)
		case doors.Relap:
			fmt.Println("use gear that overlaps by", c.Overlap)
		case doors.Retrack:
			fmt.Println("put the doors on tracks", c.Tracks)
		}
	}
	// Output:
	// put the doors on tracks [0 1 0 0]
	// use gear that overlaps by 47 to 90 mm
	// line the opening by 9 mm
}
