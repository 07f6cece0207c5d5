package units_test

import (
	"encoding/json"
	"fmt"

	"example.com/lapspan/units"
)

func ExampleLength() {
	l := 2400 * units.Millimetre
	fmt.Println(l, l/units.Millimetre == 2400, l > 94*units.Inch)
	fmt.Println(units.Inch / 64)
	// Output:
	// 2400 mm true true
	// 0.396875 mm
}

func ExampleLength_Abs() {
	fmt.Println((-3 * units.Millimetre).Abs())
	// Output:
	// 3 mm
}

func ExampleLength_AppendMillimetres() {
	b := []byte("width ")
	b = (2400 * units.Millimetre).AppendMillimetres(b)
	fmt.Println(string(b))
	// Output:
	// width 2400
}

func ExampleLength_Millimetres() {
	fmt.Println((200 * units.Millimetre / 3).Millimetres(), (-3 * units.Millimetre).Millimetres())
	// Output:
	// 66.666666 -3
}

func ExampleLength_AppendText() {
	b, err := (2400 * units.Millimetre).AppendText([]byte("width "))
	fmt.Println(string(b), err)
	// Output:
	// width 2400 mm <nil>
}

func ExampleLength_String() {
	fmt.Println(units.Inch.String())
	// Output:
	// 25.4 mm
}

func ExampleLength_MarshalText() {
	text, err := (94*units.Inch + units.Inch/2).MarshalText()
	fmt.Println(string(text), err)
	// Output:
	// 2400.3 mm <nil>
}

func ExampleLength_UnmarshalText() {
	l := units.Metre
	fmt.Println(l.UnmarshalText([]byte(`7' 10 1/2"`)), l)
	fmt.Println(l.UnmarshalText([]byte("2,400")), l)
	// Output:
	// <nil> 2400.3 mm
	// cannot read "2,400": a comma may mean thousands or a decimal: write 2400 or 2.4 (at byte 1) 2400.3 mm
}

func ExampleLength_MarshalJSON() {
	out, err := json.Marshal(map[string]units.Length{"width": 2400300 * units.Micrometre})
	fmt.Println(string(out), err)
	// Output:
	// {"width":2400.3} <nil>
}

func ExampleLength_UnmarshalJSON() {
	var sizes []units.Length
	fmt.Println(json.Unmarshal([]byte(`[2400, 2400.3, "2.4 m", "94 1/2 in"]`), &sizes), sizes)
	fmt.Println(json.Unmarshal([]byte(`[null]`), &sizes))
	// Output:
	// <nil> [2400 mm 2400.3 mm 2400 mm 2400.3 mm]
	// cannot read "null": must be a JSON number or string (at byte 0)
}
