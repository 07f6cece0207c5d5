package doors_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

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

// The allocations of a search grow by a few for each width on sale: nothing is
// allocated for a set of them.
func TestNothingIsAllocatedForASet(t *testing.T) {
	count := func(widths int, rank []doors.Key) float64 {
		rng := rand.New(rand.NewPCG(1, 2))
		s := benchSearch(priced("rising", widthsOnSale("5 mm", widths, rng), rng), 3300*mm)
		s.Rank = rank
		return testing.AllocsPerRun(3, func() {
			if _, err := doors.Best(t.Context(), s); err != nil {
				t.Fatal(err)
			}
		})
	}
	for _, rank := range [][]doors.Key{priceRank, widthRank} {
		few, many := count(20, rank), count(120, rank) // C(27, 8) = 2 million sets, C(127, 8) = 1.4 billion
		if many > few+5*100 {
			t.Errorf("%v: %v allocations for 20 widths, %v for 120", rank, few, many)
		}
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
