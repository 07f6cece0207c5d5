package doors_test

import (
	"slices"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestUprights(t *testing.T) {
	gaps := func(pairs ...units.Length) (all []doors.Gap) {
		for i := 0; i < len(pairs); i += 2 {
			all = append(all, doors.Gap{From: pairs[i] * mm, To: pairs[i+1] * mm})
		}
		return all
	}
	for _, c := range []struct {
		name, doors        string
		opening, thickness units.Length
		count              int
		want               []doors.Gap
	}{
		// Gaps 0 to 1100, 650 to 1750 and 1300 to 2400: alike is (2400 − 2 × 18)/3 = 788.
		{"the fewest, alike", "650/0 650/1 650/0 650/1", 2400, 18, 0, gaps(788, 806, 1594, 1612)},
		{"one does not do", "650/0 650/1 650/0 650/1", 2400, 18, 1, nil},
		// The two in the middle share a gap of 1100 with one of the outer two: 540 is the best there is.
		{"three", "650/0 650/1 650/0 650/1", 2400, 20, 3, gaps(630, 650, 1190, 1210, 1750, 1770)},
		// Two doors of 650 in 1280: gaps 0 to 630 and 650 to 1280, blind between.
		{"the upright hides what is blind", "650/0 650/1", 1280, 20, 0, gaps(630, 650)},
		{"a thicker one", "650/0 650/1", 1280, 30, 0, gaps(625, 655)},
		{"a thinner one", "650/0 650/1", 1280, 19, 0, nil},
		{"a thinner one, with two", "650/0 650/1", 1280, 10, 2, nil},
		{"below none", "650/0 650/1", 1280, 20, -1, nil},
		{"too many", "650/0 650/1", 1280, 20, 21, nil},
		{"twenty", "650/0 650/1", 1280, 20, 20, nil},
		{"thickness below nothing", "650/0 650/1", 1280, -1, 0, nil},
		{"no access at all", "650/0 650/1", 650, 0, 0, nil},
		// Gaps 0 to 650 and 550 to 1200: the best is the middle.
		{"doors that do not blind", "550/0 550/1", 1200, 0, 0, gaps(600, 600)},
		// 900 and 600 on two tracks: gaps 0 to 600 and 900 to 1500 only.
		{"unlike doors", "900/0 600/1", 1500, 300, 0, gaps(600, 900)},
	} {
		got, ok := mustRun(t, c.doors).Uprights(c.opening*mm, c.thickness*mm, c.count)
		if c.name == "twenty" {
			if !ok || len(got) != 20 {
				t.Errorf("%s: %v", c.name, got)
			}
			continue
		}
		if ok != (c.want != nil) || !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, %v, want %v", c.name, got, ok, c.want)
		}
	}
	// Where the whole opening can be cleared no upright is needed.
	var none doors.Run
	if got, ok := none.Uprights(1000*mm, 18*mm, 0); !ok || len(got) != 0 {
		t.Errorf("no doors: %v, %v", got, ok)
	}
	if _, ok := none.Uprights(1000*mm, units.MaxLength, 1); ok {
		t.Error("an upright thicker than the opening")
	}
	if _, ok := none.Uprights(1000*mm, units.MaxLength+1, 0); ok {
		t.Error("an endless thickness")
	}
}

// Every compartment can be cleared whole, and no places on a grid fine enough to
// hold the best ones leave a wider narrowest compartment.
func TestUprightsAgainstAGrid(t *testing.T) {
	const cell = 60 * mm
	const fine = cell / 6 // halves and thirds of a cell
	met := 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "doors")
		list := make([]doors.Door, n)
		for i := range list {
			list[i] = doors.Door{Width: cell * units.Length(rapid.IntRange(1, 5).Draw(t, "width")), Track: rapid.IntRange(0, 2).Draw(t, "track")}
		}
		run, err := doors.NewRun(list...)
		if err != nil {
			t.Fatal(err)
		}
		opening := cell * units.Length(rapid.IntRange(3, 10).Draw(t, "opening"))
		thickness := cell * units.Length(rapid.IntRange(0, 2).Draw(t, "thickness"))
		count := rapid.IntRange(1, 2).Draw(t, "count")

		want := units.Length(0)
		var place func(from units.Length, left int, narrowest units.Length)
		place = func(from units.Length, left int, narrowest units.Length) {
			if left == 0 {
				last := doors.Gap{From: from, To: opening}
				if last.Width() > 0 && run.Clears(opening, last) {
					want = max(want, min(narrowest, last.Width()))
				}
				return
			}
			for to := from + fine; to < opening; to += fine {
				if !run.Clears(opening, doors.Gap{From: from, To: to}) {
					break
				}
				place(to+thickness, left-1, min(narrowest, to-from))
			}
		}
		place(0, count, opening)

		got, ok := run.Uprights(opening, thickness, count)
		if ok != (want > 0) {
			t.Fatalf("%v, want a narrowest compartment of %s", got, want)
		}
		if !ok {
			return
		}
		met++
		if len(got) != count {
			t.Fatalf("%d uprights, want %d", len(got), count)
		}
		narrowest, from := opening, units.Length(0)
		for _, u := range append(slices.Clone(got), doors.Gap{From: opening, To: opening + thickness}) {
			compartment := doors.Gap{From: from, To: u.From}
			if u.Width() != thickness || !run.Clears(opening, compartment) {
				t.Fatalf("%v: compartment %v cannot be cleared", got, compartment)
			}
			narrowest, from = min(narrowest, compartment.Width()), u.To
		}
		if narrowest < want || narrowest-want >= fine {
			t.Fatalf("%v: narrowest %s, want %s", got, narrowest, want)
		}
		if fewest, ok := run.Uprights(opening, thickness, 0); !ok || len(fewest) > count {
			t.Fatalf("the fewest are %v", fewest)
		}
	})
	if met == 0 {
		t.Error("no uprights were met")
	}
}
