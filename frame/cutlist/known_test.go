package cutlist_test

import (
	"context"
	"math/rand/v2"
	"strconv"
	"testing"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

// fullBars cuts bars of 6000 into three to six pieces each without any waste, so the optimum is so many bars.
func fullBars(bars int, seed uint64) cutlist.Job {
	r := rand.New(rand.NewPCG(seed, uint64(bars)))
	job := cutlist.Job{Stock: []cutlist.Stock{{Length: 6000 * mm}}}
	for range bars {
		left := 6000
		for k := 2 + r.IntN(4); k > 0; k-- {
			piece := 300 + r.IntN((left-4*k)/k-300)
			job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(piece) * mm, Count: 1})
			left -= piece + 4
		}
		job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(left) * mm, Count: 1})
	}
	return job
}

// triplets is Falkenauer's class T: three pieces fill a bar of 1000, so the optimum is a third of the pieces.
func triplets(pieces int, seed uint64) cutlist.Job {
	r := rand.New(rand.NewPCG(seed, uint64(pieces)))
	job := cutlist.Job{Kerf: new(units.Length(0)), Stock: []cutlist.Stock{{Length: 1000 * mm}}}
	for range pieces / 3 {
		a := 380 + r.IntN(111)
		b := 250 + r.IntN((1000-a)/2-250+1)
		for _, l := range []int{a, b, 1000 - a - b} {
			job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(l) * mm, Count: 1})
		}
	}
	return job
}

func TestKnownOptimum(t *testing.T) {
	check := func(name string, job cutlist.Job, bars int) {
		t.Run(name, func(t *testing.T) {
			plan, err := cutlist.Cut(context.Background(), job, cutlist.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if wrong := breaks(job, plan); wrong != "" {
				t.Fatal(wrong)
			}
			if !plan.Proven || len(plan.Bars) != bars {
				t.Errorf("%d bars, proven %v, the optimum is %d", len(plan.Bars), plan.Proven, bars)
			}
		})
	}
	for seed := range uint64(5) {
		check("triplets 30/"+strconv.FormatUint(seed, 10), triplets(30, seed), 10)
		check("triplets 60/"+strconv.FormatUint(seed, 10), triplets(60, seed), 20)
		check("full bars 5/"+strconv.FormatUint(seed, 10), fullBars(5, seed), 5)
		check("full bars 8/"+strconv.FormatUint(seed, 10), fullBars(8, seed), 8)
	}
	// By material two bars of 100 would hold 3 × 51 + 47 = 200, but no two pieces of 51 share a bar.
	check("material is not enough", cutlist.Job{
		Kerf:  new(units.Length(0)),
		Stock: []cutlist.Stock{{Length: 100 * mm}},
		Pieces: []cutlist.Piece{
			{Length: 51 * mm, Count: 3}, {Length: 47 * mm, Count: 1},
		},
	}, 3)
}
