package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleGear_Validate() {
	g := fiftyToNinety()
	fmt.Println(g.Validate())
	g.Overlap.Max = 40 * units.Millimetre
	fmt.Println(g.Validate() != nil)
	// Output:
	// <nil>
	// true
}

func ExampleGear_Findings() {
	g := fiftyToNinety()
	g.CarriedBy = doors.ByHead
	for _, f := range g.Findings() {
		fmt.Println(f.Severity, f.Code, f.Place)
	}
	// Output: stop gear-hangs gear.carried_by
}

func ExampleTarget_Span() {
	fmt.Println(fiftyToNinety().Allowance.Span())
	// Output: 30 to 35 mm
}

func ExampleTarget_Least() {
	a := fiftyToNinety().Allowance
	fmt.Println(a.Least())
	a.Aim = new(33 * units.Millimetre)
	fmt.Println(a.Least())
	// Output:
	// 30 mm
	// 33 mm
}

func ExampleProfile_Clear() {
	var notGiven *doors.Profile
	fmt.Println(notGiven.Clear())
	// Output: 3 mm
}

func ExamplePart_For() {
	seal := doors.Part{Item: "brush seal", Per: doors.PerJunction, Count: 2}
	fmt.Println(seal.For(4))
	// Output: 6
}
