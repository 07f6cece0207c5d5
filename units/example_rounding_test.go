package units_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

// 12.25 mm to a step of 0.1 mm is midway: ISO 80000-1 Annex B has both rules.
func ExampleLength_Round() {
	l, step := units.MustParse("12.25"), units.MustParse("0.1")
	for _, mode := range []units.Rounding{units.HalfEven, units.HalfUp, units.Up, units.Down} {
		rounded, err := l.Round(step, mode)
		fmt.Println(rounded, err)
	}
	_, err := l.Round(0, units.HalfEven)
	fmt.Println(errors.Is(err, units.ErrStep))
	// Output:
	// 12.2 mm <nil>
	// 12.3 mm <nil>
	// 12.3 mm <nil>
	// 12.2 mm <nil>
	// true
}

// A door of 650 mm beside a wall that leans 10 mm in 2300 mm is raised 650 × 10 / 2300.
func ExampleLength_MulDiv() {
	raised, err := (650 * units.Millimetre).MulDiv(10, 2300, units.HalfEven)
	fmt.Println(raised, err)
	// Output:
	// 2.826087 mm <nil>
}

func ExampleRounding_String() {
	fmt.Println(units.HalfEven, units.HalfUp, units.Up, units.Down)
	// Output:
	// half even half up up down
}

// Two readings of ±2 mm each make a difference of ±2.83 mm.
func ExampleRootSumSquares() {
	u, err := units.RootSumSquares(2*units.Millimetre, 2*units.Millimetre)
	fmt.Println(u, err)
	// Output:
	// 2.828428 mm <nil>
}
