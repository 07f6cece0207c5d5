package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleRange_Validate() {
	fmt.Println(doors.Range{}.Validate())
	// Output: doors.sizes: there are no doors to choose from
}

func ExampleRange_Heights() {
	r := doors.Range{Sizes: []doors.Size{
		{Width: 650 * units.Millimetre, Height: 2000 * units.Millimetre},
		{Width: 850 * units.Millimetre, Height: 2000 * units.Millimetre},
		{Width: 650 * units.Millimetre, Height: 2400 * units.Millimetre},
	}}
	fmt.Println(r.Heights())
	// Output: [2400 mm 2000 mm]
}

func ExampleTimber_Validate() {
	fmt.Println(doors.Timber{Thickness: 47 * units.Millimetre, Width: 95 * units.Millimetre}.Validate())
	// Output: timber.lengths: no length is given
}

func ExampleTimber_Cut() {
	fmt.Println(doors.Timber{}.Cut(), doors.Timber{Kerf: new(3 * units.Millimetre)}.Cut())
	// Output: 4 mm 3 mm
}

func ExampleTimber_Spacing() {
	fmt.Println(doors.Timber{}.Spacing(), doors.Timber{StudSpacing: 600 * units.Millimetre}.Spacing())
	// Output: 1000 mm 600 mm
}

func ExampleValidateBoards() {
	fmt.Println(doors.ValidateBoards([]doors.Board{{Thickness: 9 * units.Millimetre}, {}}))
	// Output: boards[1].thickness: 0 mm is not more than 0
}
