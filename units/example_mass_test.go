package units_test

import (
	"encoding/json"
	"fmt"

	"example.com/lapspan/units"
)

// A pane of 900 × 2300 mm, 4 mm thick, of float glass: 2500 kg/m³ (EN 572-1).
func ExampleSheetMass() {
	pane := units.AreaOf(900*units.Millimetre, 2300*units.Millimetre)
	fmt.Println(units.SheetMass(pane, 4*units.Millimetre, units.MustMass("2500")))
	// Output:
	// 20.7 kg
}

// Two stiles of 2300 mm at 0.27 kg a metre, which is 1 cm² of aluminium.
func ExampleBarMass() {
	fmt.Println(units.BarMass(2300*units.Millimetre, units.MustMass("0.27")).Mul(2))
	// Output:
	// 1.242 kg
}

func ExampleParseMass() {
	m, err := units.ParseMass("20.70 kg")
	fmt.Println(m, err)

	_, err = units.ParseMass("45 lb")
	fmt.Println(err)
	// Output:
	// 20.7 kg <nil>
	// cannot read "45 lb": unknown unit: use kg (at byte 3)
}

func ExampleMustMass() {
	fmt.Println(units.MustMass("15"))
	// Output:
	// 15 kg
}

func ExampleMass_Add() {
	fmt.Println(units.MustMass("20.7").Add(units.MustMass("1.242")))
	// Output:
	// 21.942 kg
}

func ExampleMass_Mul() {
	fmt.Println(units.MustMass("20.7").Mul(4))
	// Output:
	// 82.8 kg
}

func ExampleMass_Round() {
	m, err := units.MustMass("21.942").Round(1, units.Up)
	fmt.Println(m, err)
	// Output:
	// 22 kg <nil>
}

func ExampleMass_Cmp() {
	fmt.Println(units.MustMass("20.7").Cmp(units.MustMass("25")))
	// Output:
	// -1
}

func ExampleMass_Equal() {
	fmt.Println(units.MustMass("20.7").Equal(units.MustMass("20.70 kg")))
	// Output:
	// true
}

func ExampleMass_Kilograms() {
	fmt.Println(units.MustMass("20.70").Kilograms())
	// Output:
	// 20.7
}

func ExampleMass_String() {
	fmt.Println(units.MustMass("20.70").String())
	// Output:
	// 20.7 kg
}

func ExampleMass_AppendText() {
	b, err := units.MustMass("20.7").AppendText([]byte("pane "))
	fmt.Println(string(b), err)
	// Output:
	// pane 20.7 kg <nil>
}

func ExampleMass_MarshalText() {
	text, err := units.MustMass("20.7").MarshalText()
	fmt.Println(string(text), err)
	// Output:
	// 20.7 kg <nil>
}

func ExampleMass_UnmarshalText() {
	var m units.Mass
	fmt.Println(m.UnmarshalText([]byte("20.7 kg")), m)
	// Output:
	// <nil> 20.7 kg
}

func ExampleMass_MarshalJSON() {
	out, err := json.Marshal(map[string]units.Mass{"most": units.MustMass("45")})
	fmt.Println(string(out), err)
	// Output:
	// {"most":45} <nil>
}

func ExampleMass_UnmarshalJSON() {
	var masses []units.Mass
	fmt.Println(json.Unmarshal([]byte(`[45, "45 kg"]`), &masses), masses)
	// Output:
	// <nil> [45 kg 45 kg]
}
