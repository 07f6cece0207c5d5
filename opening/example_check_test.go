package opening_test

import (
	"errors"
	"fmt"
	"strings"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

func ExampleRefuse() {
	err := opening.Refuse("gear.tracks", "%d is not %d to %d", 9, 2, 4)
	var refused *opening.InputError
	fmt.Println(errors.As(err, &refused), refused.Place)
	fmt.Println(err)
	// Output:
	// true gear.tracks
	// gear.tracks: 9 is not 2 to 4
}

func ExampleCheckSize() {
	fmt.Println(opening.CheckSize("opening.end_panel", 22*units.Millimetre))
	fmt.Println(opening.CheckSize("opening.end_panel", 0))
	// Output:
	// <nil>
	// opening.end_panel: 0 mm is not more than 0
}

func ExampleCheckPosition() {
	fmt.Println(opening.CheckPosition("opening.heights[0].at", 0))
	fmt.Println(opening.CheckPosition("opening.heights[0].at", -units.Millimetre))
	// Output:
	// <nil>
	// opening.heights[0].at: -1 mm is less than 0
}

func ExampleCheckBound() {
	fmt.Println(opening.CheckBound("opening.heights[0].size", -units.MaxLength))
	fmt.Println(opening.CheckBound("opening.heights[0].size", units.MaxLength+1))
	// Output:
	// <nil>
	// opening.heights[0].size: 100000.000001 mm is beyond 100000 mm
}

func ExampleQuote() {
	fmt.Println(opening.Quote("two\nlines"))
	fmt.Println(opening.Quote(strings.Repeat("long ", 10)))
	// Output:
	// "two\nlines"
	// "long long long long long long long long …"
}

func ExampleCheckWords() {
	known := []string{"width", "doors"}
	fmt.Println(opening.CheckWords("rank", []string{"doors", "width"}, known))
	fmt.Println(opening.CheckWords("rank", []string{"doors", "colour"}, known))
	fmt.Println(opening.CheckWords("rank", []string{"doors", "doors"}, known))
	// Output:
	// <nil>
	// rank[1]: "colour" is not one of [width doors]
	// rank[1]: doors is repeated
}
