package trim_test

import (
	"fmt"

	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// front3640 is 3640 long, with studs, under a ceiling that rises 12 to the right.
func front3640() []trim.Station {
	return []trim.Station{
		{At: 0, Height: 270 * units.Millimetre},
		{At: 920 * units.Millimetre, Height: 270 * units.Millimetre, Stud: true},
		{At: 1820 * units.Millimetre, Height: 270 * units.Millimetre, Stud: true},
		{At: 2720 * units.Millimetre, Height: 276 * units.Millimetre, Stud: true},
		{At: 3640 * units.Millimetre, Height: 282 * units.Millimetre},
	}
}

func ExampleCoverBoards() {
	cover, err := trim.CoverBoards(front3640(), trim.Covering{Sheets: []trim.Sheet{
		{Length: 2440 * units.Millimetre, Width: 1220 * units.Millimetre, Price: new(units.MustMoney("38"))},
		{Length: 2440 * units.Millimetre, Width: 610 * units.Millimetre, Price: new(units.MustMoney("21"))},
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range cover.Boards {
		fmt.Printf("%v to %v: cut %v × %v, sheet %d, strip %d, scribed %v\n", b.From, b.To, b.To-b.From, b.Height, b.Sheet, b.Strip, b.Scribed)
	}
	for _, s := range cover.Sheets {
		fmt.Println("buy size", s.Size)
	}
	fmt.Println("proven:", cover.Proven)
	// Output:
	// 0 mm to 1820 mm: cut 1820 mm × 270 mm, sheet 0, strip 1, scribed false
	// 1820 mm to 3640 mm: cut 1820 mm × 292 mm, sheet 0, strip 0, scribed true
	// buy size 1
	// proven: true
}

func ExampleEdges() {
	cover, err := trim.CoverBoards(front3640(), trim.Covering{
		Sheets: []trim.Sheet{{Length: 2440 * units.Millimetre, Width: 1220 * units.Millimetre}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	edges, err := trim.Edges(cover.Boards)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range edges {
		fmt.Println(e.Where, e.Length)
	}
	// Output:
	// lower edge 3640 mm
	// upper edge 3640.039566 mm
	// left end 270 mm
	// right end 282 mm
	// joint 270 mm
}

func ExampleCovering_Validate() {
	fmt.Println(trim.Covering{}.Validate("cover"))
	// Output:
	// cover.sheets: 0 sizes of sheet; 1 to 20 can be used
}
