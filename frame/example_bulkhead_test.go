package frame_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// A gap of 270 above the track in an opening of 2400, with 47 mm timber, under a
// ceiling that rises 12 from left to right.
func ExampleSetOut() {
	timber := doors.Timber{
		Thickness: 47 * units.Millimetre,
		Width:     72 * units.Millimetre,
		Lengths:   []doors.StockLength{{Length: 1800 * units.Millimetre}},
	}
	head := frame.Head{
		Width: 2400 * units.Millimetre,
		Gap:   270 * units.Millimetre,
		Levels: []opening.Level{
			{At: 0, Floor: 1000 * units.Millimetre, Ceiling: 1300 * units.Millimetre},
			{At: 2400 * units.Millimetre, Floor: 1000 * units.Millimetre, Ceiling: 1312 * units.Millimetre},
		},
	}
	b, err := frame.SetOut(head, timber)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("plates:", b.Plates)
	for _, s := range b.Studs {
		fmt.Printf("stud at %v: %v\n", s.At, s.Length)
	}
	for _, j := range b.Joints {
		fmt.Printf("%s plate joined at %v\n", j.Plate, j.At)
	}
	// Output:
	// plates: [1592.166667 mm 807.833333 mm 807.833333 mm 1592.166667 mm]
	// stud at 23.5 mm: 176.1175 mm
	// stud at 807.833333 mm: 180.039166 mm
	// stud at 1592.166667 mm: 183.960833 mm
	// stud at 2376.5 mm: 187.8825 mm
	// bottom plate joined at 1592.166667 mm
	// top plate joined at 807.833333 mm
}

// A gap that two plates fill is an error that errors.Is tells apart.
func ExampleSetOut_refused() {
	_, err := frame.SetOut(
		frame.Head{Width: 2400 * units.Millimetre, Gap: 80 * units.Millimetre},
		doors.Timber{
			Thickness: 47 * units.Millimetre,
			Width:     72 * units.Millimetre,
			Lengths:   []doors.StockLength{{Length: 2400 * units.Millimetre}},
		})
	fmt.Println(err)
	// Output:
	// frame: a bulkhead 2400 mm wide in a gap of 80 mm: no stud is left between the plates
}

func ExampleStrip() {
	pieces, err := frame.Strip(5*units.Metre, 2400*units.Millimetre)
	fmt.Println(pieces, err)
	// Output:
	// [2400 mm 2400 mm 200 mm] <nil>
}
