package frame_test

import (
	"fmt"

	"example.com/lapspan/frame"
	"example.com/lapspan/units"
)

// A top plate 47 thick under joists at 400 centres, behind plasterboard of 12.5.
func ExampleFix() {
	plate := frame.Fixed{
		What:    "top plate",
		Pieces:  []units.Length{1600 * units.Millimetre, 800 * units.Millimetre},
		Width:   72 * units.Millimetre,
		Through: 47 * units.Millimetre,
	}
	ceiling := frame.Surface{
		Behind:   frame.Joist,
		Centres:  []units.Length{300 * units.Millimetre, 900 * units.Millimetre, 1500 * units.Millimetre, 2100 * units.Millimetre},
		Lining:   12_500 * units.Micrometre,
		Overhead: true,
		Place:    "opening.joists",
	}
	fixings, findings, err := frame.Fix(plate, ceiling)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range fixings.Each {
		fmt.Printf("%d × %s into %s at %v", f.Count, f.Kind, f.Into, f.Places)
		if f.Least > 0 {
			fmt.Printf(", at least %v long", f.Least)
		}
		fmt.Println()
	}
	fmt.Printf("no nearer than %v to an end or %v to an edge\n", fixings.EndDistance, fixings.EdgeDistance)
	for _, f := range findings {
		fmt.Printf("%s %s: %s\n", f.Severity, f.Code, f.Message)
	}
	// Output:
	// 4 × wood screw into joist at [300 mm 900 mm 1500 mm 2100 mm], at least 99.5 mm long
	// 1 × spring toggle into board at [1650 mm]
	// no nearer than 50 mm to an end or 25 mm to an edge
	// warn board-only: top plate, piece 2 of 2: 1 of its fixings reach a joist, a stud or masonry, and 2 should
}
