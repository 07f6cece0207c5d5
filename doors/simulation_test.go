package doors_test

import (
	"context"
	"fmt"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// cell is the grid that the simulated doors move on.
const cell = 100 * mm

// slide moves doors one cell at a time, from all of them pushed to the left, and
// calls visit with the left edges of every state it can reach, in cells.
func slide(list []doors.Door, in, showing int, visit func(at []int)) {
	n := len(list)
	wide := make([]int, n)
	for i, d := range list {
		wide[i] = int(d.Width / cell)
	}
	legal := func(at []int) bool {
		for i := range n {
			if at[i] < 0 || at[i]+wide[i] > in {
				return false
			}
			for j := range i {
				if list[i].Track == list[j].Track && at[j]+wide[j] > at[i] {
					return false
				}
			}
			if i > 0 && showing > 0 && list[i].Track != list[i-1].Track {
				if at[i]-at[i-1] < showing || at[i]+wide[i]-at[i-1]-wide[i-1] < showing {
					return false
				}
			}
		}
		return true
	}
	// The first state: each door in turn as far left as it can be.
	at := make([]int, n)
	for i := range at {
		for at[i] = 0; at[i]+wide[i] <= in; at[i]++ {
			if legalPrefix(list, wide, at, i, showing) {
				break
			}
		}
	}
	if !legal(at) {
		return
	}
	seen := map[[doors.MaxDoors]int]bool{}
	key := func(at []int) (k [doors.MaxDoors]int) { copy(k[:], at); return k }
	queue := [][]int{at}
	seen[key(at)] = true
	for len(queue) > 0 {
		at, queue = queue[0], queue[1:]
		visit(at)
		for i := range n {
			for _, step := range []int{-1, 1} {
				next := append([]int(nil), at...)
				next[i] += step
				if legal(next) && !seen[key(next)] {
					seen[key(next)] = true
					queue = append(queue, next)
				}
			}
		}
	}
}

func legalPrefix(list []doors.Door, wide, at []int, i, showing int) bool {
	for j := range i {
		if list[i].Track == list[j].Track && at[j]+wide[j] > at[i] {
			return false
		}
	}
	if i == 0 || showing == 0 || list[i].Track == list[i-1].Track {
		return true
	}
	return at[i]-at[i-1] >= showing && at[i]+wide[i]-at[i-1]-wide[i-1] >= showing
}

// The stretches that sliding the doors about can clear are those that parking
// them clears: the widest, each of them, and the blind rest.
func TestAccessAgainstSliding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "doors")
		in := rapid.IntRange(5, 11).Draw(t, "opening")
		showing := rapid.IntRange(0, 2).Draw(t, "showing")
		list := make([]doors.Door, n)
		for i := range list {
			list[i].Width = cell * units.Length(rapid.IntRange(max(1, showing), 5).Draw(t, "width"))
			lo, hi := 0, 2
			if i > 0 {
				lo, hi = max(lo, list[i-1].Track-1), min(hi, list[i-1].Track+1)
			}
			list[i].Track = rapid.IntRange(lo, hi).Draw(t, "track")
		}
		run, err := doors.NewRun(list...)
		if err != nil {
			t.Fatal(err)
		}
		run = run.WithShowing(units.Length(showing) * cell)

		var cleared [12][12]bool // from, to
		any := false
		slide(list, in, showing, func(at []int) {
			any = true
			var taken [12]bool
			for i, d := range list {
				for c := range int(d.Width / cell) {
					taken[at[i]+c] = true
				}
			}
			for from := range in {
				for to := from + 1; to <= in && !taken[to-1]; to++ {
					cleared[from][to] = true
				}
			}
		})
		if !any {
			t.Skip("the doors do not go in")
		}
		opening := units.Length(in) * cell
		var widest doors.Gap
		seen := make([]bool, in)
		for from := range in {
			for to := from + 1; to <= in; to++ {
				stretch := doors.Gap{From: units.Length(from) * cell, To: units.Length(to) * cell}
				if got := run.Clears(opening, stretch); got != cleared[from][to] {
					t.Fatalf("%v, showing %d: Clears(%v) = %v", list, showing, stretch, got)
				}
				p, ok := run.Park(opening, stretch)
				if ok != cleared[from][to] {
					t.Fatalf("Park(%v) = %v", stretch, ok)
				}
				if ok {
					checkParked(t, run, opening, p, stretch)
				}
				if cleared[from][to] {
					if to == from+1 {
						seen[from] = true
					}
					if stretch.Width() > widest.Width() {
						widest = stretch
					}
				}
			}
		}
		if got := run.Access(opening); got != widest {
			t.Fatalf("%v, showing %d: Access = %v, want %v", list, showing, got, widest)
		}
		var blind []doors.Gap
		for c, s := range seen {
			edge := doors.Gap{From: units.Length(c) * cell, To: units.Length(c+1) * cell}
			switch {
			case s:
			case len(blind) > 0 && blind[len(blind)-1].To == edge.From:
				blind[len(blind)-1].To = edge.To
			default:
				blind = append(blind, edge)
			}
		}
		got := run.Blind(opening)
		if len(got) != len(blind) {
			t.Fatalf("%v, showing %d: blind %v, want %v", list, showing, got, blind)
		}
		for i := range blind {
			if got[i] != blind[i] {
				t.Fatalf("blind %v, want %v", got, blind)
			}
		}
	})
}

// checkParked puts the doors where the parking says and looks whether they are
// off each other and off the stretch.
func checkParked(t *rapid.T, run doors.Run, opening units.Length, p doors.Parking, stretch doors.Gap) {
	at := run.Parked(opening, p)
	var left [doors.MaxTracks]int
	for i, d := range run.Doors() {
		end := at[i] + d.Width
		if at[i] < 0 || end > opening {
			t.Fatalf("door %d stands at %s in %s", i, at[i], opening)
		}
		if at[i] < stretch.To && end > stretch.From && stretch.Width() > 0 || at[i] < p.Gap.To && end > p.Gap.From && p.Gap.Width() > 0 {
			t.Fatalf("door %d stands at %s in the way of %v or %v", i, at[i], stretch, p.Gap)
		}
		if end <= p.Gap.From {
			left[d.Track]++
		}
		for j := range i {
			if o := run.At(j); o.Track == d.Track && at[j]+o.Width > at[i] {
				t.Fatalf("doors %d and %d are parked in one place", j, i)
			}
		}
	}
	if p.Gap.Width() > 0 && left != p.Left {
		t.Fatalf("%v stand at the left, not %v", left, p.Left)
	}
}

func TestDoorsThatKeepShowing(t *testing.T) {
	for _, c := range []struct {
		doors           string
		opening, keeps  units.Length
		access          units.Length
		leftAt, rightAt []units.Length
	}{
		// Two doors of 650 parked together stand 650 + 40.
		{"650/0 650/1", 1200 * mm, 40 * mm, 510 * mm, []units.Length{0, 40 * mm}, []units.Length{510 * mm, 550 * mm}},
		// Four on two tracks: 2 × 650 and twice 40 less one: 0, 40, 650, 690.
		{"650/0 650/1 650/0 650/1", 2400 * mm, 40 * mm, 1060 * mm,
			[]units.Length{0, 40 * mm, 650 * mm, 690 * mm}, []units.Length{1060 * mm, 1100 * mm, 1710 * mm, 1750 * mm}},
		// A narrower door behind a wide one: its right edge stands out.
		{"900/0 600/1", 1500 * mm, 50 * mm, 550 * mm, []units.Length{0, 350 * mm}, []units.Length{550 * mm, 900 * mm}},
		{"650/0 650/1", 1200 * mm, 0, 550 * mm, []units.Length{0, 0}, []units.Length{550 * mm, 550 * mm}},
	} {
		r := mustRun(t, c.doors).WithShowing(c.keeps)
		if got := r.Access(c.opening); got.Width() != c.access || got.From != 0 {
			t.Errorf("%s showing %s: %v", c.doors, c.keeps, got)
		}
		all := doors.Parking{Left: [doors.MaxTracks]int{9, 9, 9, 9}}
		if got := r.Parked(c.opening, all); millimetres(got) != millimetres(c.leftAt) {
			t.Errorf("%s at the left: %v", c.doors, got)
		}
		if got := r.Parked(c.opening, doors.Parking{}); millimetres(got) != millimetres(c.rightAt) {
			t.Errorf("%s at the right: %v", c.doors, got)
		}
	}
	if a, b := mustRun(t, "650/0 650/1"), mustRun(t, "650/0 650/1").WithShowing(-1); a != b {
		t.Error("showing below zero is zero")
	}
}

// A door too narrow to overlap and keep showing may stand where it only meets its
// neighbours, and nowhere else: five of the eight arrangements of four doors on
// two tracks have such a place and an overlap of 20 to 60.
func TestNarrowDoorThatOnlyMeets(t *testing.T) {
	q := doors.Query{
		Range: doors.Range{
			Sizes:    []doors.Size{{Width: 60 * mm, Height: 2000 * mm}, {Width: 600 * mm, Height: 2000 * mm}},
			MaxDoors: 4, MixedWidths: true, Arrangement: doors.Any,
		},
		Gear:    sound(),
		Opening: units.Span{Min: 1820 * mm, Max: 1820 * mm}, // 3 × 600 + 60 less 40
	}
	q.Gear.Showing = 50 * mm
	all, err := doors.Candidates(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for c := range all {
		if !c.Closes() || !c.Stands() || c.WidthAt(0) != 60*mm || c.WidthAt(1) != 600*mm {
			continue
		}
		run, _ := c.Run()
		got = append(got, fmt.Sprint(run.Doors()))
	}
	want := []string{
		"[{600 mm 0} {60 mm 0} {600 mm 0} {600 mm 1}]",
		"[{60 mm 0} {600 mm 0} {600 mm 1} {600 mm 0}]",
		"[{600 mm 0} {600 mm 0} {600 mm 1} {60 mm 1}]",
		"[{600 mm 0} {600 mm 1} {600 mm 1} {60 mm 1}]",
		"[{600 mm 1} {600 mm 0} {600 mm 1} {60 mm 1}]",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestStandsWithShowing(t *testing.T) {
	g := sound()
	r := mustRun(t, "650/0 100/1 650/0") // 700 apart: overlaps of 50 leave 0 between the outer two
	for _, c := range []struct {
		showing units.Length
		want    bool
	}{{0, true}, {50 * mm, true}, {50*mm + 1, false}} {
		g.Showing = c.showing
		if got := r.Stands(g, 1300*mm); got != c.want {
			t.Errorf("showing %s: %v", c.showing, got)
		}
	}
	for place, showing := range map[string]units.Length{"": 0, "gear.showing": below} {
		g.Showing = showing
		checkPlace(t, "showing", g.Validate(), place)
	}
}
