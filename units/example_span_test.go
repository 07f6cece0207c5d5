package units_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

func ExampleSpan() {
	allowance := units.Span{Min: 30 * units.Millimetre, Max: 35 * units.Millimetre}
	fmt.Println(allowance, allowance.Contains(33*units.Millimetre), allowance.Width())
	// Output:
	// 30 to 35 mm true 5 mm
}

func ExampleSpan_Validate() {
	err := units.Span{Min: 35 * units.Millimetre, Max: 30 * units.Millimetre}.Validate()
	fmt.Println(errors.Is(err, units.ErrReversed))
	// Output:
	// true
}

func ExampleSpan_Contains() {
	s := units.Span{Min: 30 * units.Millimetre, Max: 35 * units.Millimetre}
	fmt.Println(s.Contains(35*units.Millimetre), s.Contains(35*units.Millimetre+units.Nanometre))
	// Output:
	// true false
}

func ExampleSpan_Width() {
	fmt.Println(units.Span{Min: 2395 * units.Millimetre, Max: 2402 * units.Millimetre}.Width())
	// Output:
	// 7 mm
}

// Limits in inches, kept in whole millimetres: the minimum rounds up and the maximum down.
func ExampleSpan_RoundInside() {
	s := units.Span{Min: units.MustParse("1 1/4 in"), Max: units.MustParse("1 1/2 in")}
	inside, err := s.RoundInside(units.Millimetre)
	fmt.Println(s, "->", inside, err)
	// Output:
	// 31.75 to 38.1 mm -> 32 to 38 mm <nil>
}

func ExampleSpan_String() {
	fmt.Println(units.Span{Min: 30 * units.Millimetre, Max: 35 * units.Millimetre}.String())
	fmt.Println(units.Span{Min: 30 * units.Millimetre, Max: 30 * units.Millimetre}.String())
	// Output:
	// 30 to 35 mm
	// 30 mm
}
