package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleRun_Sight() {
	r, _ := doors.NewRun(
		doors.Door{Width: 650 * units.Millimetre, Track: 0},
		doors.Door{Width: 650 * units.Millimetre, Track: 1},
		doors.Door{Width: 650 * units.Millimetre, Track: 0},
	)
	s, err := r.Sight(fiftyToNinety(), 1830*units.Millimetre) // two overlaps of 60 hide the door in the middle
	fmt.Println(s.Visible, s.Uneven, err)
	// Output: [650 mm 530 mm 650 mm] 120 mm <nil>
}
