package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleHeightsFor() {
	stock := doors.Range{Sizes: []doors.Size{
		{Width: 650 * units.Millimetre, Height: 2400 * units.Millimetre},
		{Width: 650 * units.Millimetre, Height: 2200 * units.Millimetre},
	}}
	heights, refused := doors.HeightsFor(stock, 2300*units.Millimetre, doors.Above{
		Allowance: doors.Target{Min: 30 * units.Millimetre, Max: 35 * units.Millimetre},
		Boards:    []doors.Board{{Thickness: 70 * units.Millimetre}},
	})
	for _, h := range heights {
		fmt.Printf("%s: %s of %s, allowance %s, cut %s\n", h.Method, h.Door, h.Stock, h.Allowance, h.Cut)
	}
	for _, r := range refused {
		fmt.Printf("%s of %s: %s\n", r.Method, r.Stock, r.Reason)
	}
	// Output:
	// cut down: 2270 mm of 2400 mm, allowance 30 mm, cut 130 mm
	// packer: 2200 mm of 2200 mm, allowance 30 mm, cut 0 mm
	// bulkhead of 2200 mm: no timber is given for plates and studs
}

func ExampleMethod_Order() {
	fmt.Println(doors.AsIs.Order(), doors.Packer.Order(), doors.ToMeasure.Order())
	// Output: 0 1 4
}

func ExampleMargin_Within() {
	m := doors.Margin{Under: new(units.Millimetre)} // no limit upwards
	fmt.Println(m.Within(units.Millimetre), m.Within(2*units.Millimetre))
	// Output: true false
}
