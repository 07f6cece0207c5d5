package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleRun_Access() {
	gap := fourDoors().Access(2400 * units.Millimetre)
	fmt.Println(gap.Width(), "from", gap.From, "to", gap.To)
	// Output: 1100 mm from 0 mm to 1100 mm
}

func ExampleRun_Clears() {
	drawers := doors.Gap{From: 700 * units.Millimetre, To: 1500 * units.Millimetre}
	fmt.Println(fourDoors().Clears(2400*units.Millimetre, drawers))
	drawers.From = 600 * units.Millimetre
	fmt.Println(fourDoors().Clears(2400*units.Millimetre, drawers))
	// Output:
	// true
	// false
}

func ExampleGap_Width() {
	fmt.Println(doors.Gap{From: 650 * units.Millimetre, To: 1200 * units.Millimetre}.Width())
	// Output: 550 mm
}

func ExampleRun_Park() {
	drawers := doors.Gap{From: 700 * units.Millimetre, To: 1500 * units.Millimetre}
	p, ok := fourDoors().Park(2400*units.Millimetre, drawers)
	fmt.Println(p.Left[0], "of track 0 and", p.Left[1], "of track 1 at the left:", p.Gap.From, "to", p.Gap.To, ok)
	// Output: 1 of track 0 and 1 of track 1 at the left: 650 mm to 1750 mm true
}

func ExampleRun_Parked() {
	var allRight doors.Parking
	fmt.Println(fourDoors().Parked(2400*units.Millimetre, allRight))
	// Output: [1100 mm 1100 mm 1750 mm 1750 mm]
}

func ExampleRun_Blind() {
	two, _ := doors.NewRun(
		doors.Door{Width: 650 * units.Millimetre, Track: 0},
		doors.Door{Width: 650 * units.Millimetre, Track: 1},
	)
	fmt.Println(two.Blind(1280 * units.Millimetre))
	// Output: [{630 mm 650 mm}]
}

func ExampleRun_WithShowing() {
	// Handles keep 40 mm of each door out from behind its neighbour.
	gap := fourDoors().WithShowing(40 * units.Millimetre).Access(2400 * units.Millimetre)
	fmt.Println(gap.Width())
	// Output: 1060 mm
}

func ExampleRun_Uprights() {
	places, ok := fourDoors().Uprights(2400*units.Millimetre, 18*units.Millimetre, 0)
	fmt.Println(places, ok)
	// Output: [{788 mm 806 mm} {1594 mm 1612 mm}] true
}
