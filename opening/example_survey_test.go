package opening_test

import (
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

func mm(n int64) units.Length { return units.Length(n) * units.Millimetre }

// A bedroom alcove: skirtings of 18 at both sides whose treatment is open.
func alcove() opening.Survey {
	return opening.Survey{
		Widths: []opening.Width{
			{At: mm(50), Size: mm(2376), Between: opening.Skirtings},
			{At: mm(1100), Size: mm(2418)},
			{At: mm(2200), Size: mm(2409)},
		},
		Heights: []opening.Height{
			{At: mm(150), Size: mm(2331)},
			{At: mm(1200), Size: mm(2326)},
			{At: mm(2250), Size: mm(2321)},
		},
		Depths: []opening.Depth{{At: 0, Size: mm(655)}, {At: mm(2400), Size: mm(650)}},
		Skirting: opening.Sides{
			Left:  &opening.Skirting{Thickness: mm(18), Height: mm(120)},
			Right: &opening.Skirting{Thickness: mm(18), Height: mm(120)},
		},
		EndPanel: mm(22),
	}
}

func ExampleMeasure() {
	m, err := opening.Measure(alcove())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range m.Variants {
		fmt.Printf("%s: %s wide, %s high\n", c.Left, c.Width, c.Height)
	}
	for _, f := range m.Findings {
		fmt.Println(f.Severity, f.Code, f.Place)
	}
	// Output:
	// cut back: 2409 to 2418 mm wide, 2321 mm high
	// end panel: 2365 mm wide, 2321 mm high
	// note no-plumb opening.leans
	// note no-level opening.levels
}

func ExampleMeasure_slip() {
	s := alcove()
	s.Widths[1].Size = mm(2148) // 2418 with two digits swapped
	m, err := opening.Measure(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(m.Findings.Err())
	fmt.Println(len(m.Variants), "variants")
	// Output:
	// opening: opening.widths[1].size: 2148 mm does not fit the other widths, about 2410.5 mm: with two digits swapped it would be 2418 mm
	// 0 variants
}

func ExampleSurvey_Validate() {
	s := alcove()
	s.Skirting.Left.Thickness = 0
	fmt.Println(s.Validate())
	// Output: opening.skirting.left.thickness: 0 mm is not more than 0
}

func ExampleSurvey_DoorLine() {
	line, found := alcove().DoorLine(mm(500), mm(84))
	fmt.Println(line, len(found))
	_, found = alcove().DoorLine(mm(560), mm(84))
	fmt.Println(found[0].Code, found[0].Remedy)
	// Output:
	// 540 mm 0
	// too-deep make the interior 24 mm shallower, or let the doors stand forward with a return at the side
}

func ExampleSurvey_Working() {
	s := alcove()
	m, err := opening.Measure(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, line := range s.Working(m.Variants[1], 2, 0) {
		fmt.Printf("%s: %s = %s\n", line.What, line.Sum, line.Is)
	}
	// Output:
	// clear width, narrowest: 2409 − 22 − 22 = 2365
	// clear width, widest: 2409 − 22 − 22 = 2365
	// clear height: 2321 = 2321
}
