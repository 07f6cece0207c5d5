package doors_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func fourDoors() doors.Run {
	r, err := doors.NewRun(
		doors.Door{Width: 650 * units.Millimetre, Track: 0},
		doors.Door{Width: 650 * units.Millimetre, Track: 1},
		doors.Door{Width: 650 * units.Millimetre, Track: 0},
		doors.Door{Width: 650 * units.Millimetre, Track: 1},
	)
	if err != nil {
		panic(err)
	}
	return r
}

func fiftyToNinety() doors.Gear {
	return doors.Gear{
		Tracks:    2,
		Overlap:   doors.Target{Min: 50 * units.Millimetre, Max: 90 * units.Millimetre},
		Allowance: doors.Target{Min: 30 * units.Millimetre, Max: 35 * units.Millimetre},
	}
}

func ExampleNewRun() {
	_, err := doors.NewRun(doors.Door{Width: 650 * units.Millimetre})
	fmt.Println(err)
	// Output: doors: a run has 2 to 8 doors, not 1
}

func ExampleRun_Len() {
	fmt.Println(fourDoors().Len())
	// Output: 4
}

func ExampleRun_Doors() {
	for _, d := range fourDoors().Doors() {
		fmt.Println(d.Width, "on track", d.Track)
	}
	// Output:
	// 650 mm on track 0
	// 650 mm on track 1
	// 650 mm on track 0
	// 650 mm on track 1
}

func ExampleRun_At() {
	fmt.Println(fourDoors().At(3))
	// Output: {650 mm 1}
}

func ExampleRun_Width() {
	fmt.Println(fourDoors().Width())
	// Output: 2600 mm
}

func ExampleRun_Overlaps() {
	fmt.Println(fourDoors().Overlaps())
	// Output: 3
}

func ExampleRun_Meetings() {
	r, _ := doors.NewRun(
		doors.Door{Width: 600 * units.Millimetre, Track: 0},
		doors.Door{Width: 600 * units.Millimetre, Track: 1},
		doors.Door{Width: 600 * units.Millimetre, Track: 1},
		doors.Door{Width: 600 * units.Millimetre, Track: 0},
	)
	fmt.Println(r.Meetings(), "meet,", r.Overlaps(), "overlap")
	// Output: 1 meet, 2 overlap
}

func ExampleRun_Cover() {
	fmt.Println(fourDoors().Cover(fiftyToNinety())) // 4 × 650 − 3 × 50
	// Output: 2450 mm
}

func ExampleRun_Least() {
	fmt.Println(fourDoors().Least(fiftyToNinety())) // 4 × 650 − 3 × 90
	// Output: 2330 mm
}

func ExampleRun_OverlapsIn() {
	overlaps, err := fourDoors().OverlapsIn(fiftyToNinety(), 2400*units.Millimetre)
	fmt.Println(overlaps, err)
	// Output: [66.666667 mm 66.666667 mm 66.666666 mm] <nil>
}

func ExampleRun_Stands() {
	// The middle door is narrower than the overlaps on both its sides: the outer ones would collide.
	r, _ := doors.NewRun(
		doors.Door{Width: 500 * units.Millimetre, Track: 0},
		doors.Door{Width: 90 * units.Millimetre, Track: 1},
		doors.Door{Width: 500 * units.Millimetre, Track: 0},
	)
	fmt.Println(r.Stands(fiftyToNinety(), 990*units.Millimetre))
	fmt.Println(fourDoors().Stands(fiftyToNinety(), 2400*units.Millimetre))
	// Output:
	// false
	// true
}
