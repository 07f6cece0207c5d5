package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func ExampleMadeToMeasure_Runs() {
	maker := doors.MadeToMeasure{
		Width: units.Span{Min: 600 * mm, Max: 1300 * mm}, Height: units.Span{Min: 1800 * mm, Max: 2600 * mm},
	}
	// (2400 + 40)/2 = 1220; (2400 + 80)/3 = 826 2/3, made 827; (2400 + 120)/4 = 630.
	runs, err := maker.Runs(doors.Search{
		Fit:      doors.Fit{Span: units.Span{Min: 2390 * mm, Max: 2400 * mm}},
		Gear:     doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 60 * mm}},
		MaxDoors: 4,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range runs {
		fmt.Println(r.Len(), "doors of", r.At(0).Width)
	}
	// Output:
	// 2 doors of 1220 mm
	// 3 doors of 827 mm
	// 4 doors of 630 mm
}

func ExampleFit_Score() {
	run, err := doors.NewRun(doors.Door{Width: 600 * mm}, doors.Door{Width: 700 * mm, Track: 1}, doors.Door{Width: 600 * mm})
	if err != nil {
		fmt.Println(err)
		return
	}
	gear := doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 50 * mm, Max: 90 * mm}}
	fit := doors.Fit{Span: units.Span{Min: 1790 * mm, Max: 1795 * mm}}
	score, closes := fit.Score(run, gear)
	fmt.Println(score.Width, score.Access, closes)
	fit.Span.Max = 1801 * mm // 1 more than the doors cover
	_, closes = fit.Score(run, gear)
	fmt.Println(closes)
	// Output:
	// 1900 mm 590 mm true
	// false
}
