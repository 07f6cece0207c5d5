package doors_test

import (
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

// drawManyDoors draws a search for so many doors that several stand on one track,
// of few widths that differ much: where one wide door balances two narrow ones, and
// changing over two doors of two tracks betters what changing over one does not.
func drawManyDoors(t *rapid.T) doors.Search {
	s := doors.Search{
		Mixed:       true,
		Arrangement: rapid.SampledFrom([]doors.Arrangement{doors.Alternate, doors.Alternate, doors.Stepped}).Draw(t, "arrangement"),
		SidesDiffer: rapid.Bool().Draw(t, "sides differ"),
		MinDoors:    rapid.IntRange(2, 8).Draw(t, "least doors"),
		Limit:       rapid.SampledFrom([]int{1, 2, 10, 40}).Draw(t, "limit"),
		Gear:        doors.Gear{Tracks: rapid.IntRange(2, 4).Draw(t, "tracks"), Overlap: doors.Target{Min: 1, Max: 6}},
	}
	s.MaxDoors = rapid.IntRange(max(s.MinDoors, 5), 8).Draw(t, "most doors")
	w := int64(0)
	for range rapid.IntRange(2, 9-s.MaxDoors/2).Draw(t, "widths") {
		w += rapid.Int64Range(1, 40).Draw(t, "wider")
		s.Widths = append(s.Widths, doors.Offer{Width: units.Length(w + 30), Price: rapid.Int64Range(1, 9).Draw(t, "price")})
	}
	if rapid.IntRange(0, 3).Draw(t, "any") == 0 {
		s.Arrangement, s.MaxDoors, s.Widths = doors.Any, min(s.MaxDoors, 6), s.Widths[:min(len(s.Widths), 3)]
		s.MinDoors = min(s.MinDoors, s.MaxDoors)
	}
	doorsOfIt := rapid.Int64Range(int64(s.MinDoors), int64(s.MaxDoors)).Draw(t, "doors")
	mean := rapid.Int64Range(int64(s.Widths[0].Width), int64(s.Widths[len(s.Widths)-1].Width)).Draw(t, "mean")
	s.Fit.Span.Min = units.Length(doorsOfIt * mean)
	s.Fit.Span.Max = s.Fit.Span.Min + units.Length(rapid.Int64Range(0, 4).Draw(t, "more"))
	s.Rank = rapid.SampledFrom([][]doors.Key{
		nil, {doors.BySure}, {doors.ByEven}, {doors.ByDoors}, {doors.ByDoors, doors.ByEven}, {doors.ByWidth}, {doors.ByAccess, doors.ByEven},
		{doors.ByPrice}, {doors.ByPrice, doors.ByEven}, {doors.ByEven, doors.ByPrice}, {doors.ByWidth, doors.ByEven}, {doors.ByAccess},
	}).Draw(t, "rank")
	return s
}

func manyDoorsProperty(t *rapid.T) { checkAgainstEveryRun(t, drawManyDoors(t)) }

func TestBestOfManyDoors(t *testing.T) { rapid.Check(t, manyDoorsProperty) }

func FuzzBestOfManyDoors(f *testing.F) { f.Fuzz(rapid.MakeFuzz(manyDoorsProperty)) }
