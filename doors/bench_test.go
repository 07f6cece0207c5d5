package doors_test

import (
	"context"
	"fmt"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func mixedQuery(widths, most int) doors.Query {
	q := doors.Query{
		Range: doors.Range{MaxDoors: most, MixedWidths: true},
		Gear: doors.Gear{
			Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 60 * mm}, Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm},
		},
		Opening: units.Span{Min: 2400 * mm, Max: 2410 * mm},
	}
	for i := range widths {
		q.Range.Sizes = append(q.Range.Sizes, doors.Size{Width: 500*mm + 25*mm*units.Length(i), Height: 2000 * mm})
	}
	return q
}

// The allocations do not grow with the candidates: nothing is allocated for one.
func BenchmarkCandidates(b *testing.B) {
	for _, size := range []struct{ widths, doors int }{{10, 4}, {30, 4}, {30, 5}, {30, 6}} {
		b.Run(fmt.Sprintf("widths=%d/doors=%d", size.widths, size.doors), func(b *testing.B) {
			q := mixedQuery(size.widths, size.doors)
			b.ReportAllocs()
			candidates := 0
			for b.Loop() {
				all, err := doors.Candidates(context.Background(), q)
				if err != nil {
					b.Fatal(err)
				}
				for c := range all {
					candidates++
					_ = c.Closes()
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(candidates), "ns/candidate")
		})
	}
}

func BenchmarkRunAccess(b *testing.B) {
	for _, text := range []string{"650/0 650/1 650/0 650/1", "650/0 700/1 750/2 800/3 650/2 700/1 750/0 800/1"} {
		r := mustRun(b, text)
		b.Run(fmt.Sprintf("doors=%d", r.Len()), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.Access(2400 * mm)
			}
		})
	}
}

// The best order of mixed widths for access, as a ranking by access asks for it.
func BenchmarkCandidateRun(b *testing.B) {
	for _, arrangement := range []doors.Arrangement{doors.Alternate, doors.Stepped} {
		q := mixedQuery(8, 8)
		q.Range.Arrangement, q.Gear.Tracks = arrangement, 3
		q.Opening = units.Span{Min: 4400 * mm, Max: 4400 * mm}
		all, err := doors.Candidates(context.Background(), q)
		if err != nil {
			b.Fatal(err)
		}
		var mixed doors.Candidate
		for c := range all {
			if c.Len() == 8 && c.WidthAt(0) != c.WidthAt(1) && c.WidthAt(1) != c.WidthAt(7) {
				mixed = *c
				break
			}
		}
		b.Run(string(arrangement), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				mixed.Run()
			}
		})
	}
}

func BenchmarkHeightsFor(b *testing.B) {
	for _, n := range []int{4, 16, 50} {
		b.Run(fmt.Sprintf("boards=%d", n), func(b *testing.B) {
			r := doors.Range{Sizes: []doors.Size{
				{Width: 600 * mm, Height: 2000 * mm}, {Width: 600 * mm, Height: 2150 * mm}, {Width: 600 * mm, Height: 2400 * mm},
			}}
			a := doors.Above{
				Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm}, Timber: &doors.Timber{Thickness: 47 * mm, Width: 95 * mm},
			}
			for i := range n {
				a.Boards = append(a.Boards, doors.Board{Thickness: 6*mm + mm*units.Length(i)})
			}
			b.ReportAllocs()
			for b.Loop() {
				doors.HeightsFor(r, 2300*mm, a)
			}
		})
	}
}

// Listing twenty times as many candidates allocates no more.
func TestNothingIsAllocatedForACandidate(t *testing.T) {
	count := func(widths int) float64 {
		q := mixedQuery(widths, 4)
		all, err := doors.Candidates(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		return testing.AllocsPerRun(3, func() {
			for c := range all {
				if c.Closes() {
					c.Run()
				}
			}
		})
	}
	few, many := count(6), count(20)
	if many > few {
		t.Errorf("%v allocations for 6 widths, %v for 20", few, many)
	}
}

func TestAccessAllocatesNothing(t *testing.T) {
	r := mustRun(t, "650/0 700/1 750/2 800/3 650/2 700/1 750/0 800/1")
	if n := testing.AllocsPerRun(10, func() {
		r.Access(2400 * mm)
		r.Clears(2400*mm, doors.Gap{From: 0, To: mm})
		r.Cover(doors.Gear{})
		r.Stands(doors.Gear{}, 2400*mm)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
