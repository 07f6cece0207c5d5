package units_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

// The same name in five markets.
func ExampleNominal() {
	for _, market := range []units.Market{units.PS20Dry, units.PS20Green, units.CLS, units.Sawn, units.Regularised} {
		section, err := units.Nominal(market, "2x3")
		fmt.Printf("%-12s %v × %v %v\n", market, section.Thickness, section.Width, err)
	}
	_, err := units.Nominal(units.CLS, "2x5")
	fmt.Println(errors.Is(err, units.ErrNominal))
	// Output:
	// PS 20 dry    38 mm × 64 mm <nil>
	// PS 20 green  40 mm × 65 mm <nil>
	// CLS          38 mm × 63 mm <nil>
	// sawn         50 mm × 75 mm <nil>
	// regularised  47 mm × 72 mm <nil>
	// true
}

func ExampleMarket_String() {
	fmt.Println(units.PS20Dry.String(), units.Market(0).String())
	// Output:
	// PS 20 dry Market(0)
}
