package frame_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/units"
)

// A bulkhead under joists, between a brick wall and a free end.
func ExampleDetail() {
	timber := doors.Timber{
		Thickness: 47 * units.Millimetre,
		Width:     72 * units.Millimetre,
		Lengths:   []doors.StockLength{{Length: 2400 * units.Millimetre}},
	}
	joists := []units.Length{300 * units.Millimetre, 900 * units.Millimetre, 1500 * units.Millimetre, 2100 * units.Millimetre}
	head := frame.Head{Width: 2400 * units.Millimetre, Gap: 270 * units.Millimetre, Joists: joists}
	bulkhead, err := frame.SetOut(head, timber)
	if err != nil {
		fmt.Println(err)
		return
	}
	details, findings, err := frame.Detail(frame.Layout{
		Head:        head,
		ClearHeight: 2300 * units.Millimetre,
		Height:      2030 * units.Millimetre,
		Bulkhead:    &bulkhead,
		Joists:      joists,
	}, &timber, frame.Options{LeftWall: frame.Masonry, RightEnd: frame.FreePost})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range details.Fixings {
		for _, each := range f.Each {
			fmt.Printf("%s: %d × %s into %s\n", f.What, each.Count, each.Kind, each.Into)
		}
	}
	fmt.Println("marks:", len(details.Marks))
	for _, f := range findings {
		fmt.Println(f.Severity, f.Code, f.Place)
	}
	// Output:
	// top plate: 4 × wood screw into joist
	// left end stud: 2 × screw in a wall plug into masonry
	// marks: 6
	// warn free-end frame.right_end
}

func ExampleOptions_Validate() {
	fmt.Println(frame.Options{Ceiling: "straw"}.Validate())
	// Output:
	// frame.ceiling: "straw" is not joist, stud, masonry or board
}

func ExampleFront() {
	timber := doors.Timber{
		Thickness: 40 * units.Millimetre,
		Width:     60 * units.Millimetre,
		Lengths:   []doors.StockLength{{Length: 2400 * units.Millimetre}},
	}
	head := frame.Head{Width: 1840 * units.Millimetre, Gap: 270 * units.Millimetre}
	bulkhead, err := frame.SetOut(head, timber)
	if err != nil {
		fmt.Println(err)
		return
	}
	front, err := frame.Front(head, bulkhead)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range front {
		fmt.Println(f.At, f.Height, f.Stud)
	}
	// Output:
	// 0 mm 270 mm false
	// 20 mm 270 mm true
	// 920 mm 270 mm true
	// 1820 mm 270 mm true
	// 1840 mm 270 mm false
}
