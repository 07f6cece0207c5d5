package doors_test

import (
	"context"
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func twoOrThree() doors.Query {
	return doors.Query{
		Range: doors.Range{
			Sizes: []doors.Size{
				{Width: 600 * units.Millimetre, Height: 2000 * units.Millimetre},
				{Width: 700 * units.Millimetre, Height: 2000 * units.Millimetre},
				{Width: 850 * units.Millimetre, Height: 2000 * units.Millimetre},
			},
			MaxDoors: 3, MixedWidths: true,
		},
		Gear:    fiftyToNinety(),
		Opening: units.Span{Min: 1790 * units.Millimetre, Max: 1795 * units.Millimetre},
	}
}

// closing calls show with the first candidate that closes the opening.
func closing(show func(c *doors.Candidate)) {
	candidates, err := doors.Candidates(context.Background(), twoOrThree())
	if err != nil {
		panic(err)
	}
	for c, err := range candidates {
		if err != nil {
			panic(err)
		}
		if c.Closes() {
			show(c)
			return
		}
	}
}

func ExampleCandidates() {
	candidates, err := doors.Candidates(context.Background(), twoOrThree())
	if err != nil {
		fmt.Println(err)
		return
	}
	sets := 0
	for c, err := range candidates {
		if err != nil {
			fmt.Println(err)
			return
		}
		sets++
		if c.Closes() {
			fmt.Println(c.Widths(), c.Under, c.Over)
		}
	}
	fmt.Println(sets, "sets of widths")
	// Output:
	// [600 mm 600 mm 700 mm] 70 mm 5 mm
	// 16 sets of widths
}

func ExampleCandidate_Closes() {
	closing(func(c *doors.Candidate) { fmt.Println(c.Closes()) })
	// Output: true
}

func ExampleCandidate_Len() {
	closing(func(c *doors.Candidate) { fmt.Println(c.Len()) })
	// Output: 3
}

func ExampleCandidate_Widths() {
	closing(func(c *doors.Candidate) { fmt.Println(c.Widths()) })
	// Output: [600 mm 600 mm 700 mm]
}

func ExampleCandidate_WidthAt() {
	closing(func(c *doors.Candidate) { fmt.Println(c.WidthAt(2)) })
	// Output: 700 mm
}

func ExampleCandidate_Width() {
	closing(func(c *doors.Candidate) { fmt.Println(c.Width()) })
	// Output: 1900 mm
}

func ExampleCandidate_Overlaps() {
	closing(func(c *doors.Candidate) { fmt.Println(c.Overlaps()) })
	// Output: 2
}

func ExampleCandidate_Run() {
	// The widest access: the two narrow doors share the front track.
	closing(func(c *doors.Candidate) {
		run, stands := c.Run()
		fmt.Println(run.Doors(), stands, run.Access(1790*units.Millimetre).Width())
	})
	// Output: [{600 mm 0} {700 mm 1} {600 mm 0}] true 590 mm
}

func ExampleCandidate_Stands() {
	closing(func(c *doors.Candidate) { fmt.Println(c.Stands()) })
	// Output: true
}

func ExampleCandidate_AccessBound() {
	closing(func(c *doors.Candidate) { fmt.Println(c.AccessBound()) })
	// Output: 590 mm
}

func ExampleQuery_Small() {
	q := doors.Query{Range: doors.Range{MixedWidths: true, MaxDoors: 3}, Gear: doors.Gear{Tracks: 2}}
	for _, w := range []units.Length{600, 700, 800} {
		q.Range.Sizes = append(q.Range.Sizes, doors.Size{Width: w * units.Millimetre, Height: 2000 * units.Millimetre})
	}
	// C(4, 2) = 6 pairs and C(5, 3) = 10 sets of three.
	fmt.Println(q.Small(15), q.Small(16))
	// Output:
	// false true
}
