package cutlist_test

import (
	"context"
	"errors"
	"fmt"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

// Two plates and four studs from timber sold in two lengths, with one offcut at hand.
func ExampleCut() {
	job := cutlist.Job{
		Stock: []cutlist.Stock{
			{Length: 2400 * units.Millimetre, Price: new(units.MustMoney("6.20"))},
			{Length: 4800 * units.Millimetre, Price: new(units.MustMoney("12.10"))},
			{Length: 1000 * units.Millimetre, Price: new(units.MustMoney("0")), Count: 1},
		},
		Pieces: []cutlist.Piece{
			{Length: 2380 * units.Millimetre, Count: 2, Name: "plate"},
			{Length: 176 * units.Millimetre, Count: 4, Name: "stud"},
		},
	}
	plan, err := cutlist.Cut(context.Background(), job, cutlist.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, bar := range plan.Bars {
		fmt.Print(job.Stock[bar.Stock].Length, ":")
		for _, i := range bar.Pieces {
			fmt.Print(" ", job.Pieces[i].Name)
		}
		fmt.Println(", offcut", bar.Offcut)
	}
	fmt.Println(units.MoneyOfTenThousandths(plan.Cost), plan.Proven)
	// Output:
	// 4800 mm: plate plate, offcut 32 mm
	// 1000 mm: stud stud stud stud, offcut 280 mm
	// 12.1 true
}

// Two rooms cut together need two bars; one after the other they need three.
func ExampleCut_severalJobs() {
	stock := []cutlist.Stock{{Length: 3000 * units.Millimetre}}
	front := []cutlist.Piece{{Length: 1450 * units.Millimetre, Count: 3, Name: "front room"}}
	back := []cutlist.Piece{{Length: 1450 * units.Millimetre, Count: 1, Name: "back room"}}
	for _, pieces := range [][]cutlist.Piece{front, back, append(front, back...)} {
		plan, err := cutlist.Cut(context.Background(), cutlist.Job{Stock: stock, Pieces: pieces}, cutlist.Options{})
		fmt.Println(len(plan.Bars), units.Length(plan.Cost), err)
	}
	// Output:
	// 2 6000 mm <nil>
	// 1 3000 mm <nil>
	// 2 6000 mm <nil>
}

func ExampleCut_errors() {
	_, err := cutlist.Cut(context.Background(), cutlist.Job{
		EndTrim: 10 * units.Millimetre,
		Stock:   []cutlist.Stock{{Length: 2400 * units.Millimetre}},
		Pieces:  []cutlist.Piece{{Length: 2396 * units.Millimetre, Count: 1}},
	}, cutlist.Options{})
	fmt.Println(errors.Is(err, cutlist.ErrTooLong))
	fmt.Println(err)
	// Output:
	// true
	// pieces[0].length: the piece is longer than every bar: 2396 mm, the longest bar takes 2390 mm
}
