package opening_test

import (
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

func ExampleMeasureAgain() {
	list := opening.MeasureAgain(
		opening.Use{Figure: "widest width", Deciding: opening.Deciding{Places: []string{"opening.widths[1].size"}, Uncertainty: mm(2)}, Margin: mm(1)},
		opening.Use{Figure: "clear height", Deciding: opening.Deciding{Places: []string{"opening.heights[2].size"}, Uncertainty: mm(2)}, Margin: mm(0)},
		opening.Use{Figure: "narrowest width", Deciding: opening.Deciding{Places: []string{"opening.widths[2].size"}, Uncertainty: mm(2)}, Margin: mm(40)},
	)
	for _, a := range list {
		fmt.Println(a.Place, "short by", a.Short())
	}
	// Output:
	// opening.heights[2].size short by 2 mm
	// opening.widths[1].size short by 1 mm
}

func ExampleAgain_Short() {
	fmt.Println(opening.Again{Margin: mm(1), Uncertainty: mm(3)}.Short())
	// Output: 2 mm
}

// Doors as they come under a packer of 70: the allowance is 30 of 30 to 35.
func packed() opening.First {
	none, five := units.Length(0), mm(5)
	return opening.First{
		Width: units.Span{Min: mm(2398), Max: mm(2405)}, WidthUnder: mm(30), WidthOver: mm(45),
		Height: mm(2300), HeightUnder: &none, HeightOver: &five,
		Fit: opening.Bought, Packing: mm(70),
	}
}

func ExampleFirst_MeasureSecond() {
	list, err := packed().MeasureSecond(units.Span{Min: mm(2396), Max: mm(2404)}, mm(2294))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range list {
		fmt.Printf("%s: %s (%s)\n", s.Figure, s.Verdict, s.Remedy)
	}
	// Output:
	// narrowest width: holds (go on)
	// widest width: holds (go on)
	// height: repack (make the packing above the track 64 mm instead of 70 mm)
}

func ExampleFirst_Validate() {
	f := packed()
	f.WidthOver = -mm(1)
	fmt.Println(f.Validate())
	// Output: first.width_over: -1 mm is less than 0
}

func ExampleWorst() {
	fmt.Println(opening.Worst([]opening.Second{{Verdict: opening.Holds}, {Verdict: opening.Repack}, {Verdict: opening.MeasureFiner}}))
	// Output: repack
}

func ExampleForm() {
	for _, q := range opening.Form(opening.Intent{Interior: true})[:5] {
		fmt.Println(q.Key, q.Readings)
	}
	// Output:
	// opening.skirting 0
	// opening.carpet_now 0
	// opening.carpet_to_come 0
	// opening.carpet_at_rail 0
	// opening.widths 3
}
