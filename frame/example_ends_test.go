package frame_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/units"
)

// A wall at the left and nothing at the right, closed with a post.
func ExampleEndDetails() {
	timber := doors.Timber{
		Thickness: 47 * units.Millimetre,
		Width:     72 * units.Millimetre,
		Lengths:   []doors.StockLength{{Length: 2400 * units.Millimetre}},
	}
	details, findings, err := frame.EndDetails(
		frame.Head{Width: 2400 * units.Millimetre}, timber, 2300*units.Millimetre, frame.AtWall, frame.FreePost)
	if err != nil {
		fmt.Println(err)
		return
	}
	right := details[1]
	fmt.Printf("post at %v: %d pieces of %v\n", right.Post.At, right.Post.Pieces, right.Post.Length)
	fmt.Println(right.Steps[1])
	fmt.Println(findings[0].Severity, findings[0].Code+":", findings[0].Message)
	// Output:
	// post at 2447 mm: 2 pieces of 2300 mm
	// stand it plumb outside the clear opening and fix it to floor and ceiling
	// warn free-end: no wall at the right: the post alone takes the push of the doors
}

func ExampleEnd_IsFree() {
	fmt.Println(frame.AtPanel.IsFree(), frame.FreePost.IsFree())
	// Output:
	// false true
}

func ExamplePlateWidth() {
	for _, f := range frame.PlateWidth(doors.Timber{Width: 72 * units.Millimetre}, 80*units.Millimetre) {
		fmt.Println(f.Message)
		fmt.Println(f.Remedy)
	}
	// Output:
	// a plate 72 mm wide is narrower than the track of 80 mm that it carries
	// use wider timber, or 2 plates side by side
}
