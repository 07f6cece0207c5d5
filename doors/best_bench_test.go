package doors_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

var (
	priceRank = []doors.Key{doors.BySure, doors.ByPrice}
	widthRank = []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}
)

// benchBest runs through 32 openings from 1200 to 6200 mm, the same every time.
func benchBest(b *testing.B, kind, prices string, widths int, change func(s *doors.Search)) {
	rng := rand.New(rand.NewPCG(11, 12))
	var searches []doors.Search
	for range 32 {
		offers := priced(prices, widthsOnSale(kind, widths, rng), rng)
		s := benchSearch(offers, 1200*mm+units.Length(rng.Int64N(5000))*mm)
		change(&s)
		searches = append(searches, s)
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		found, err := doors.Best(context.Background(), searches[i%len(searches)])
		if err != nil || !found.Proven {
			b.Fatal(err, found.Proven)
		}
	}
}

func BenchmarkBest(b *testing.B) {
	for _, m := range []int{60, 500} {
		for _, kind := range []string{"5 mm", "1/16 in", "random mm"} {
			b.Run(fmt.Sprintf("by=width/range=%s/widths=%d", kind, m), func(b *testing.B) {
				benchBest(b, kind, "none", m, func(s *doors.Search) { s.Rank = widthRank })
			})
		}
		for name, rank := range map[string][]doors.Key{"even": {doors.ByEven}, "access": {doors.ByAccess, doors.ByWidth}, "nothing": nil} {
			b.Run(fmt.Sprintf("by=%s/range=random mm/widths=%d", name, m), func(b *testing.B) {
				benchBest(b, "random mm", "none", m, func(s *doors.Search) { s.Rank = rank })
			})
		}
		for _, prices := range []string{"alike", "bands", "cents", "rising", "random"} {
			b.Run(fmt.Sprintf("by=price/range=random mm/prices=%s/widths=%d", prices, m), func(b *testing.B) {
				benchBest(b, "random mm", prices, m, func(s *doors.Search) { s.Rank = priceRank })
			})
		}
	}
}

// BenchmarkBestGrowth varies one thing at a time.
func BenchmarkBestGrowth(b *testing.B) {
	for name, rank := range map[string][]doors.Key{"width": widthRank, "price": priceRank} {
		for _, m := range []int{30, 60, 125, 250, 500} {
			b.Run(fmt.Sprintf("by=%s/widths=%d", name, m), func(b *testing.B) {
				benchBest(b, "random mm", "rising", m, func(s *doors.Search) { s.Rank = rank })
			})
		}
		for n := 2; n <= doors.MaxDoors; n++ {
			b.Run(fmt.Sprintf("by=%s/doors=%d", name, n), func(b *testing.B) {
				benchBest(b, "random mm", "rising", 60, func(s *doors.Search) { s.Rank, s.MaxDoors = rank, n })
			})
		}
		for tracks := doors.MinTracks; tracks <= doors.MaxTracks; tracks++ {
			b.Run(fmt.Sprintf("by=%s/any/tracks=%d", name, tracks), func(b *testing.B) {
				benchBest(b, "random mm", "rising", 60, func(s *doors.Search) {
					s.Rank, s.Gear.Tracks, s.Arrangement = rank, tracks, doors.Any
				})
			})
		}
		for _, k := range []int{1, 10, 100, 1000} {
			b.Run(fmt.Sprintf("by=%s/k=%d", name, k), func(b *testing.B) {
				benchBest(b, "random mm", "rising", 60, func(s *doors.Search) { s.Rank, s.Limit = rank, k })
			})
		}
	}
}

func BenchmarkTable(b *testing.B) {
	rng := rand.New(rand.NewPCG(13, 14))
	s := benchSearch(priced("rising", widthsOnSale("5 mm", 60, rng), rng), 1200*mm)
	for b.Loop() {
		if _, err := doors.Table(context.Background(), s, units.Span{Min: 1000 * mm, Max: 3000 * mm}, 5*mm); err != nil {
			b.Fatal(err)
		}
	}
}
