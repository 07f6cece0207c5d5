package units_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

func ExampleSplit() {
	parts, err := units.Split(100*units.Millimetre, 3)
	fmt.Println(parts, err)
	// Output:
	// [33.333334 mm 33.333333 mm 33.333333 mm] <nil>
}

// A cut of 131 mm in two, in whole millimetres.
func ExampleSplitStep() {
	parts, err := units.SplitStep(131*units.Millimetre, 2, units.Millimetre)
	fmt.Println(parts, err)

	_, err = units.SplitStep(131*units.Millimetre, 2, 2*units.Millimetre)
	fmt.Println(errors.Is(err, units.ErrInexact))
	// Output:
	// [66 mm 65 mm] <nil>
	// true
}

// A cut of 130 mm in proportion to three panels: 32.5, 65 and 32.5 are not whole, and of equal
// remainders the earlier share gets the step.
func ExampleSplitShares() {
	parts, err := units.SplitShares(130*units.Millimetre, units.Millimetre, []int64{1, 2, 1})
	fmt.Println(parts, err)
	// Output:
	// [33 mm 65 mm 32 mm] <nil>
}
