package doors_test

import (
	"context"
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func wardrobe() doors.Search {
	return doors.Search{
		Widths: []doors.Offer{{600 * mm, 8900}, {650 * mm, 9500}, {750 * mm, 10500}, {900 * mm, 12900}},
		Fit:    doors.Fit{Span: units.Span{Min: 2390 * mm, Max: 2400 * mm}, NarrowDoubt: 2 * mm, WideDoubt: 2 * mm},
		Gear:   doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 30 * mm, Max: 75 * mm}},
		Mixed:  true,
		Rank:   []doors.Key{doors.BySure, doors.ByPrice},
		Limit:  3,
	}
}

func ExampleBest() {
	found, err := doors.Best(context.Background(), wardrobe())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range found.Runs {
		fmt.Println(r.Score.Price, r.Score.Access, r.Run.Doors())
	}
	fmt.Println("all:", found.All, "proven:", found.Proven)
	// Output:
	// 36800 1140 mm [{650 mm 0} {650 mm 1} {600 mm 0} {600 mm 1}]
	// 37200 1040 mm [{750 mm 0} {600 mm 1} {600 mm 0} {600 mm 1}]
	// 37400 1090 mm [{650 mm 0} {650 mm 1} {650 mm 0} {600 mm 1}]
	// all: false proven: true
}

func ExampleInOrder() {
	runs, err := doors.InOrder(context.Background(), wardrobe())
	if err != nil {
		fmt.Println(err)
		return
	}
	for r, err := range runs {
		if err != nil {
			fmt.Println(err)
			return
		}
		if r.Run.At(0).Width == r.Run.At(3).Width {
			fmt.Println("the cheapest of doors all alike:", r.Score.Price, r.Run.Doors())
			break
		}
	}
	// Output:
	// the cheapest of doors all alike: 38000 [{650 mm 0} {650 mm 1} {650 mm 0} {650 mm 1}]
}

func ExampleCount() {
	total, err := doors.Count(context.Background(), wardrobe())
	fmt.Println(total.Count, total.Exact, err)
	// Output:
	// 5 true <nil>
}

func ExampleTable() {
	rows, err := doors.Table(context.Background(), wardrobe(), units.Span{Min: 1200 * mm, Max: 1800 * mm}, 200*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range rows {
		fmt.Println(row.Opening, row.Fits, row.Best.Run.Doors())
	}
	// Output:
	// 1200 mm true [{650 mm 0} {600 mm 1}]
	// 1400 mm false []
	// 1600 mm true [{900 mm 0} {750 mm 1}]
	// 1800 mm true [{650 mm 0} {650 mm 1} {600 mm 0}]
}

func ExampleSearch_Validate() {
	s := wardrobe()
	s.Rank = []doors.Key{doors.ByWidth, "colour"}
	fmt.Println(s.Validate())
	// Output:
	// rank[1]: "colour" is not one of [sure price width doors access even]
}

func ExampleScore_Compare() {
	a, b := doors.Score{Price: 33900, Access: 890 * mm}, doors.Score{Price: 37400, Access: 1140 * mm}
	fmt.Println(a.Compare(b, doors.ByPrice), a.Compare(b, doors.ByAccess), a.Compare(b, doors.ByWidth))
	// Output:
	// -1 1 0
}

func ExampleRanked_Compare() {
	found, err := doors.Best(context.Background(), wardrobe())
	if err != nil {
		fmt.Println(err)
		return
	}
	cheapest, next := found.Runs[0], found.Runs[1]
	fmt.Println(cheapest.Compare(next, []doors.Key{doors.ByPrice}), cheapest.Compare(next, []doors.Key{doors.ByAccess}))
	fmt.Println("widths from left to right alone:", next.Compare(cheapest, nil))
	// Output:
	// -1 -1
	// widths from left to right alone: 1
}
