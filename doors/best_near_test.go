package doors_test

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// slowNear sorts all candidates that do not close the opening.
func slowNear(t interface{ Fatal(...any) }, s doors.Search, within units.Length) []doors.Miss {
	type miss struct {
		doors.Miss
		widths []units.Length // the largest first
	}
	var sizes []doors.Size
	for _, o := range s.Widths {
		sizes = append(sizes, doors.Size{Width: o.Width, Height: units.Metre})
	}
	gear := s.Gear
	gear.Allowance = doors.Target{Min: 1, Max: 2}
	var all []miss
	for n := s.MinDoors; n <= s.MaxDoors; n++ {
		fit := s.Fit
		if n > 2 && s.Wide != (doors.Fit{}) {
			fit = s.Wide
		}
		candidates, err := doors.Candidates(context.Background(), doors.Query{
			Range:   doors.Range{Sizes: sizes, MaxDoors: n, MixedWidths: s.Mixed, Arrangement: s.Arrangement},
			Gear:    gear,
			Opening: fit.Span, SidesDiffer: s.SidesDiffer,
		})
		if err != nil {
			t.Fatal(err)
		}
		for c := range candidates {
			run, stands := c.Run()
			m := doors.Miss{Run: run, Short: max(0, -c.Over), Over: max(0, -c.Under)}
			if c.Len() == n && !c.Closes() && stands && m.By() <= within {
				widths := c.Widths()
				slices.Reverse(widths)
				all = append(all, miss{m, widths})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b miss) int {
		tracks := func(r doors.Run) (at []int) {
			for _, d := range r.Doors() {
				at = append(at, d.Track)
			}
			return at
		}
		return cmp.Or(cmp.Compare(a.By(), b.By()), cmp.Compare(a.Run.Len(), b.Run.Len()), slices.Compare(a.widths, b.widths),
			cmp.Compare(a.Run.Overlaps(), b.Run.Overlaps()), slices.Compare(tracks(a.Run), tracks(b.Run)))
	})
	// Once for each set and number of overlaps.
	all = slices.CompactFunc(all, func(a, b miss) bool {
		return slices.Equal(a.widths, b.widths) && a.Run.Overlaps() == b.Run.Overlaps()
	})
	misses := []doors.Miss{}
	for _, m := range all[:min(s.Limit, len(all))] {
		misses = append(misses, m.Miss)
	}
	return misses
}

func nearProperty(t *rapid.T) {
	s := drawSearch(t)
	within := s.Widths[0].Width * units.Length(rapid.IntRange(0, 10).Draw(t, "within")) / 10
	got, err := doors.Near(context.Background(), fewOrSearched(t, s), within)
	if err != nil {
		t.Fatal(err)
	}
	if diff := gocmp.Diff(slowNear(t, s, within), got, sameRuns); diff != "" {
		t.Errorf("within %s (-want +got):\n%s", within, diff)
	}
}

func TestNearAgainstEveryRun(t *testing.T) { rapid.Check(t, nearProperty) }

func ExampleNear() {
	s := wardrobe()
	s.Fit.Span = units.Span{Min: 1400 * mm, Max: 1405 * mm}
	misses, err := doors.Near(context.Background(), s, 100*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range misses {
		fmt.Println(m.Run.Doors(), "short", m.Short, "over", m.Over)
	}
	// Output:
	// [{750 mm 0} {750 mm 1}] short 0 mm over 25 mm
	// [{900 mm 0} {600 mm 1}] short 0 mm over 25 mm
	// [{750 mm 0} {650 mm 1}] short 35 mm over 0 mm
}

func ExampleMiss_By() {
	fmt.Println(doors.Miss{Short: 9 * mm}.By())
	// Output:
	// 9 mm
}
