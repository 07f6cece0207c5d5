package doors_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleMaterial_Density() {
	fmt.Println(doors.FloatGlass.Density())
	fmt.Println(doors.OtherBoard.Density())
	// Output:
	// 2500 kg true
	// 0 kg false
}

func ExampleBuild_Mass() {
	b := &doors.Build{
		TopBar: 50 * units.Millimetre, BottomBar: 50 * units.Millimetre,
		StileMass: new(units.MustMass("0.5")), BarMass: new(units.MustMass("0.4")),
		Panels: []doors.Panel{{Share: doors.OneShare, Material: doors.FloatGlass, Thickness: 4 * units.Millimetre}},
	}
	// 0.7 × 2.2 × 10 + 2 × 2.3 × 0.5 + 2 × 0.7 × 0.4
	fmt.Println(b.Mass(700*units.Millimetre, 2300*units.Millimetre, nil))
	b.BarMass = nil
	_, err := b.Mass(700*units.Millimetre, 2300*units.Millimetre, nil)
	fmt.Println(errors.Is(err, doors.ErrMassUnknown))
	// Output:
	// 18.26 kg <nil>
	// true
}

func ExampleRecommendedMass() {
	// Close to the body, at knuckle height, with a poor grip: 23 × 0.9.
	fmt.Println(doors.RecommendedMass(doors.Lift{Vertical: 750 * units.Millimetre, Coupling: 90}))
	// Output: 20.7 kg <nil>
}

func ExampleLifting() {
	found, err := doors.Lifting(units.MustMass("31.05"), doors.Lift{Vertical: 750 * units.Millimetre, Coupling: 90})
	for _, f := range found {
		fmt.Println(f.Severity, f.Code)
		fmt.Println(f.Message)
	}
	fmt.Println(err)
	// Output:
	// warn heavy-door
	// a door weighs 31.05 kg, more than the 25 kg that ISO 11228-1 takes as the reference for one person; for one person the revised NIOSH equation gives 20.7 kg, a screening figure
	// <nil>
}
