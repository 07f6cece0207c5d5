package cutlist_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

// bulkhead is what the main plan asks for each proposal: two plates and four studs.
func bulkhead() cutlist.Job {
	return cutlist.Job{
		Stock: []cutlist.Stock{
			{Length: 2400 * mm, Price: new(units.MustMoney("6.20"))},
			{Length: 3000 * mm, Price: new(units.MustMoney("7.90"))},
			{Length: 4800 * mm, Price: new(units.MustMoney("12.10"))},
		},
		Pieces: []cutlist.Piece{{Length: 2396 * mm, Count: 2}, {Length: 176 * mm, Count: 4}},
	}
}

func unpriced(job cutlist.Job) cutlist.Job {
	for i := range job.Stock {
		job.Stock[i].Price = nil
	}
	return job
}

// distinct is twelve pieces of twelve lengths.
func distinct(lines int) cutlist.Job {
	job := bulkhead()
	job.Stock = job.Stock[:lines]
	job.Pieces = nil
	for i := range 12 {
		job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(310+i*i*13) * mm, Count: 1})
	}
	return job
}

func BenchmarkCut(b *testing.B) {
	for _, bench := range []struct {
		name string
		job  cutlist.Job
	}{
		{"one piece", cutlist.Job{Stock: bulkhead().Stock, Pieces: []cutlist.Piece{{Length: 2396 * mm, Count: 1}}}},
		{"bulkhead", bulkhead()},
		{"bulkhead, no prices", unpriced(bulkhead())},
		{"12 lengths, 1 stock", distinct(1)},
		{"12 lengths, 3 stock", distinct(3)},
		{"24 pieces, 3 stock, 2 offcuts", medium(rand.New(rand.NewPCG(1, 1)), 8, 24)},
		{"triplets 60", triplets(60, 1)},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := cutlist.Cut(context.Background(), bench.job, cutlist.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// TestAllocations holds the budget of a small job: two for the plan, its bars and their pieces, and one to
// work in.
func TestAllocations(t *testing.T) {
	job := unpriced(bulkhead()) // to read a price takes allocations of its own
	if n := testing.AllocsPerRun(100, func() {
		if _, err := cutlist.Cut(context.Background(), job, cutlist.Options{}); err != nil {
			t.Fatal(err)
		}
	}); n > 3 {
		t.Errorf("%v allocations, want at most 3", n)
	}
}
