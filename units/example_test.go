package units_test

import (
	"fmt"

	"example.com/lapspan/units"
)

// Four doors of 650 mm in an opening of 2400 mm: what the doors have over goes to three overlaps,
// which close exactly.
func Example() {
	door := 650 * units.Millimetre
	opening := units.MustParse("2.4 m")
	overlaps, err := units.Split(4*door-opening, 3)
	fmt.Println(overlaps, err)

	allowed := units.Span{Min: 50 * units.Millimetre, Max: 80 * units.Millimetre}
	fmt.Println(allowed.Contains(overlaps[0]), allowed.Contains(overlaps[2]))
	// Output:
	// [66.666667 mm 66.666667 mm 66.666666 mm] <nil>
	// true true
}

// A line of working is written as on paper.
func ExampleLine() {
	line := units.Line{What: "cover", Sum: "4 × 650 - 3 × 50", Is: "2450 mm"}
	fmt.Printf("%-8s %-20s %s\n", line.What, line.Sum, line.Is)
	// Output:
	// cover    4 × 650 - 3 × 50     2450 mm
}
