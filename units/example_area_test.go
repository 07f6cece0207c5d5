package units_test

import (
	"fmt"

	"example.com/lapspan/units"
)

func ExampleAreaOf() {
	fmt.Println(units.AreaOf(900*units.Millimetre, 2300*units.Millimetre))
	fmt.Println(units.AreaOf(4*units.Foot, 8*units.Foot))
	// Output:
	// 2.07 m²
	// 2.97289728 m²
}

func ExampleArea_Add() {
	upper, lower := units.AreaOf(units.Metre, units.Metre), units.AreaOf(units.Metre, 500*units.Millimetre)
	fmt.Println(upper.Add(lower))
	// Output:
	// 1.5 m²
}

func ExampleArea_Mul() {
	fmt.Println(units.AreaOf(900*units.Millimetre, 2300*units.Millimetre).Mul(3))
	// Output:
	// 6.21 m²
}

func ExampleArea_Cmp() {
	pane := units.AreaOf(900*units.Millimetre, 2300*units.Millimetre)
	fmt.Println(pane.Cmp(units.AreaOf(3*units.Foot, 3*units.Foot)))
	// Output:
	// 1
}

func ExampleArea_Equal() {
	fmt.Println(units.AreaOf(2*units.Metre, units.Metre).Equal(units.AreaOf(units.Metre, 2*units.Metre)))
	// Output:
	// true
}

func ExampleArea_SquareMetres() {
	fmt.Println(units.AreaOf(900*units.Millimetre, 2300*units.Millimetre).SquareMetres())
	// Output:
	// 2.07
}

func ExampleArea_String() {
	fmt.Println(units.AreaOf(3*units.Foot, 3*units.Foot).String())
	// Output:
	// 0.83612736 m²
}

func ExampleArea_AppendText() {
	b, err := units.AreaOf(2*units.Metre, units.Metre).AppendText([]byte("glass "))
	fmt.Println(string(b), err)
	// Output:
	// glass 2 m² <nil>
}

func ExampleArea_MarshalText() {
	text, err := units.AreaOf(2*units.Metre, units.Metre).MarshalText()
	fmt.Println(string(text), err)
	// Output:
	// 2 m² <nil>
}
