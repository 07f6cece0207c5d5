package doors_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func writeChanges(changes []doors.Change) string {
	var all []string
	for _, c := range changes {
		s := string(c.Kind) + " " + c.By.Millimetres()
		if c.Overlap != nil {
			s += " to " + c.Overlap.Min.Millimetres() + "-" + c.Overlap.Max.Millimetres()
		}
		if c.Tracks != nil {
			s += fmt.Sprint(" ", c.Tracks)
		}
		all = append(all, s)
	}
	return strings.Join(all, ", ")
}

func TestChanges(t *testing.T) {
	// Overlaps of 20 to 60.
	for _, c := range []struct {
		name, doors       string
		narrowest, widest units.Length
		want              string
	}{
		{"closes", "650/0 650/1", 1240, 1280, ""},
		{"short by 9", "650/0 650/1", 1280, 1289, "liner 9, overlap 9 to 11-60"},
		{"short past the overlap", "650/0 650/1", 1300, 1301, "liner 21"},
		{"short by the overlap", "650/0 650/1", 1300, 1300, "liner 20, overlap 20 to 0-60"},
		{"too wide by 5", "650/0 650/1", 1235, 1240, "overlap 5 to 20-65, widen 5"},
		{"out of square by more than the overlaps", "650/0 650/1", 1235, 1285, "overlap 10 to 15-65"},
		{"short, and meeting saves an overlap", "600/0 600/1 600/0", 1770, 1770, "tracks 0 [0 1 1], overlap 5 to 15-60, liner 10"},
		{"too wide, and lapping takes it", "600/0 600/0 600/1", 1690, 1700, "tracks 0 [1 0 1], overlap 50 to 20-110, widen 50"},
		{"collides", "500/0 90/1 500/0", 980, 980, "tracks 0 [0 1 2]"},
		{"doors that only meet", "600/0 600/0", 1150, 1160, "tracks 0 [0 1]"},
	} {
		got := doors.Changes(mustRun(t, c.doors), sound(), units.Span{Min: c.narrowest * mm, Max: c.widest * mm})
		if s := writeChanges(got); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

func closesAll(r doors.Run, g doors.Gear, in units.Span) bool {
	return r.Cover(g) >= in.Max && r.Least(g) <= in.Min && r.Stands(g, in.Min)
}

// Each change alone makes the run close the opening, and less of it does not.
func TestEachChangeIsEnough(t *testing.T) {
	met := map[doors.ChangeKind]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "doors")
		wide := make([]doors.Door, n)
		for i := range wide {
			wide[i] = doors.Door{Width: units.Length(rapid.Int64Range(60, 400).Draw(t, "width")) * mm, Track: rapid.IntRange(0, 1).Draw(t, "track")}
		}
		r, err := doors.NewRun(wide...)
		if err != nil {
			t.Fatal(err)
		}
		g := sound()
		near := units.Length(rapid.Int64Range(-90, 90).Draw(t, "near")) * mm
		in := units.Span{Min: max(r.Cover(g)+near, mm)}
		in.Max = in.Min + units.Length(rapid.Int64Range(0, 40).Draw(t, "out"))*mm
		changes := doors.Changes(r, g, in)
		if closesAll(r, g, in) != (len(changes) == 0) && closesAll(r, g, in) {
			t.Fatal("a run that closes needs no change")
		}
		moved := func(by units.Length) units.Span { return units.Span{Min: in.Min + by, Max: in.Max + by} }
		last := units.Length(-1)
		for _, c := range changes {
			met[c.Kind]++
			if c.By < last {
				t.Fatalf("%v are not in order", changes)
			}
			last = c.By
			switch c.Kind {
			case doors.Liner:
				if !closesAll(r, g, moved(-c.By)) || closesAll(r, g, moved(-c.By+1)) {
					t.Fatalf("%+v", c)
				}
			case doors.Widen:
				if !closesAll(r, g, moved(c.By)) || closesAll(r, g, moved(c.By-1)) {
					t.Fatalf("%+v", c)
				}
			case doors.Relap:
				changed := g
				changed.Overlap.Min, changed.Overlap.Max = c.Overlap.Min, c.Overlap.Max
				if !closesAll(r, changed, in) || changed.Validate() != nil || c.By != g.Overlap.Min-c.Overlap.Min+c.Overlap.Max-g.Overlap.Max {
					t.Fatalf("%+v", c)
				}
				for _, less := range []units.Span{{Min: c.Overlap.Min + 1, Max: c.Overlap.Max}, {Min: c.Overlap.Min, Max: c.Overlap.Max - 1}} {
					changed.Overlap.Min, changed.Overlap.Max = less.Min, less.Max
					if less.Min <= g.Overlap.Min && less.Max >= g.Overlap.Max && closesAll(r, changed, in) {
						t.Fatalf("%+v is more than enough", c)
					}
				}
			case doors.Retrack:
				list := r.Doors()
				for i := range list {
					list[i].Track = c.Tracks[i]
				}
				other, err := doors.NewRun(list...)
				if err != nil || !closesAll(other, g, in) || slices.Equal(list, r.Doors()) || c.By != 0 {
					t.Fatalf("%+v: %v", c, err)
				}
			}
		}
	})
	for _, k := range []doors.ChangeKind{doors.Retrack, doors.Liner, doors.Relap, doors.Widen} {
		if met[k] == 0 && !testing.Short() { // few cases are drawn then
			t.Errorf("no %s was met", k)
		}
	}
}
