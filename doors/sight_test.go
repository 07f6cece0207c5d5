package doors_test

import (
	"errors"
	"slices"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestSight(t *testing.T) {
	for _, c := range []struct {
		doors, visible string
		opening        units.Length
		uneven         units.Length
	}{
		{"650/0 650/1", "650 550", 1200 * mm, 100 * mm},
		{"650/0 650/1 650/0", "650 550 650", 1850 * mm, 100 * mm}, // 50 hidden at both sides of the rear door
		{"650/1 650/0 650/1", "600 650 600", 1850 * mm, 50 * mm},  // each rear door is hidden at one side
		{"600/0 600/1 600/1 600/0", "600 560 560 600", 2320 * mm, 40 * mm},
		{"600/0 640/1 640/1 600/0", "600 600 600 600", 2400 * mm, 0}, // wider rear doors look alike
		{"700/0 700/1 700/2", "700 650 650", 2000 * mm, 50 * mm},
		{"700/2 700/1 700/0", "650 650 700", 2000 * mm, 50 * mm},
	} {
		s, err := mustRun(t, c.doors).Sight(doors.Gear{}, c.opening)
		if err != nil || millimetres(s.Visible) != c.visible || s.Uneven != c.uneven {
			t.Errorf("%s in %s: %v, %v", c.doors, c.opening, s, err)
		}
	}
	if _, err := mustRun(t, "650/0 650/0").Sight(doors.Gear{}, 1300*mm); !errors.Is(err, units.ErrRange) {
		t.Errorf("doors that only meet: %v", err)
	}
	if _, err := (doors.Run{}).Sight(doors.Gear{}, mm); err == nil {
		t.Error("no doors are seen")
	}
}

// What is seen of each door is what no door nearer to the room covers, looked
// at one cell after the other.
func TestSightAgainstLooking(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t)
		if r.Overlaps() == 0 {
			t.Skip("doors that only meet")
		}
		// Whole overlaps, so that every edge lies on a millimetre.
		o := units.Length(rapid.Int64Range(0, 80).Draw(t, "overlap")) * mm
		in := r.Width() - units.Length(r.Overlaps())*o
		if in <= 0 || !r.Stands(doors.Gear{}, in) || slices.ContainsFunc(r.Doors(), func(d doors.Door) bool { return d.Width < o }) {
			t.Skip("it does not stand")
		}
		seen++
		nearest := make([]int, in/mm) // index of the door nearest to the room, by millimetre
		for i := range nearest {
			nearest[i] = -1
		}
		at := units.Length(0)
		for i, d := range r.Doors() {
			if i > 0 && r.At(i-1).Track != d.Track {
				at -= o
			}
			for c := at / mm; c < (at+d.Width)/mm; c++ {
				if n := nearest[c]; n < 0 || r.At(n).Track > d.Track {
					nearest[c] = i
				}
			}
			at += d.Width
		}
		want := make([]units.Length, r.Len())
		for _, n := range nearest {
			want[n] += mm
		}
		s, err := r.Sight(doors.Gear{}, in)
		if err != nil || !slices.Equal(s.Visible, want) {
			t.Fatalf("%v in %s: %v, %v, want %v", r.Doors(), in, s.Visible, err, want)
		}
	})
	if seen == 0 {
		t.Error("nothing was looked at")
	}
}
