package units_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

func ExampleParse() {
	for _, s := range []string{"2400", "240cm", "2.4 m", "94 1/2 in", `94½"`, `7' 10 1/2"`, "8 ft"} {
		l, err := units.Parse(s)
		fmt.Println(l, err)
	}
	// Output:
	// 2400 mm <nil>
	// 2400 mm <nil>
	// 2400 mm <nil>
	// 2400.3 mm <nil>
	// 2400.3 mm <nil>
	// 2400.3 mm <nil>
	// 2438.4 mm <nil>
}

// What could mean two things, and what is not whole nanometres, is refused.
func ExampleParse_refused() {
	for _, s := range []string{"2,400", "1/3 in", "1e3", "-5", "100.1 m"} {
		_, err := units.Parse(s)
		fmt.Println(err)
	}
	// Output:
	// cannot read "2,400": a comma may mean thousands or a decimal: write 2400 or 2.4 (at byte 1)
	// cannot read "1/3 in": a fraction is in halves, quarters, eighths, 16ths, 32nds or 64ths (at byte 2)
	// cannot read "1e3": an exponent is not taken (at byte 1)
	// cannot read "-5": a sign has no meaning here (at byte 0)
	// cannot read "100.1 m": longer than 100 m (at byte 0)
}

func ExampleParseSigned() {
	lean, err := units.ParseSigned("-1/8 in")
	fmt.Println(lean, err)
	// Output:
	// -3.175 mm <nil>
}

func ExampleMustParse() {
	fmt.Println(units.MustParse("2.4 m"))
	// Output:
	// 2400 mm
}

func ExampleParseError() {
	_, err := units.Parse("2400 inches")
	var parse *units.ParseError
	if errors.As(err, &parse) {
		fmt.Println(parse.Input[parse.Pos:])
		fmt.Println(parse.Reason)
	}
	// Output:
	// inches
	// unknown unit: use mm, cm, m, in, ", ft or '
}

func ExampleParseError_Error() {
	err := &units.ParseError{Input: "2_400", Reason: "digits are not grouped", Pos: 1}
	fmt.Println(err.Error())
	// Output:
	// cannot read "2_400": digits are not grouped (at byte 1)
}
