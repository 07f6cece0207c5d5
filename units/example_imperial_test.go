package units_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

func ExampleLength_Imperial() {
	for _, denominator := range []int{16, 32, 64} {
		i, err := (2400 * units.Millimetre).Imperial(denominator, units.HalfEven)
		fmt.Println(i, "off by", i.Error(), err)
	}
	_, err := units.Metre.Imperial(10, units.HalfEven)
	fmt.Println(errors.Is(err, units.ErrDenominator))
	// Output:
	// 7' 10 1/2" off by 0.3 mm <nil>
	// 7' 10 1/2" off by 0.3 mm <nil>
	// 7' 10 31/64" off by -0.096875 mm <nil>
	// true
}

func ExampleImperial_Length() {
	i, err := (2400 * units.Millimetre).Imperial(16, units.HalfEven)
	fmt.Println(i.Length(), err)
	// Output:
	// 2400.3 mm <nil>
}

func ExampleImperial_Error() {
	i, err := (12500 * units.Micrometre).Imperial(16, units.HalfEven)
	fmt.Println(i.InchString(), i.Error(), err)
	// Output:
	// 1/2" 0.2 mm <nil>
}

func ExampleImperial_InchString() {
	i, err := (2400 * units.Millimetre).Imperial(16, units.Down)
	fmt.Println(i.InchString(), err)
	// Output:
	// 94 7/16" <nil>
}

func ExampleImperial_String() {
	i, err := units.MustParse("2438.4").Imperial(16, units.HalfEven)
	fmt.Println(i.String(), err)
	// Output:
	// 8' 0" <nil>
}
