package doors_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestAccessTable(t *testing.T) {
	table.Each(t, "doors_access.csv", func(t *testing.T, r row) {
		run, in := runOf(r, t), r.Length(t, "opening")
		gap := run.Access(in)
		if gap.Width() != r.Length(t, "access") || gap.From != r.Length(t, "from") {
			t.Errorf("Access = %s from %s, want %s from %s", gap.Width(), gap.From, r["access"], r["from"])
		}
		for column, want := range map[string]bool{"clears": true, "blocked": false} {
			for field := range strings.FieldsSeq(r[column]) {
				from, to, _ := strings.Cut(field, "-")
				stretch := doors.Gap{From: units.MustParse(from), To: units.MustParse(to)}
				if run.Clears(in, stretch) != want {
					t.Errorf("Clears(%s) = %v", field, !want)
				}
			}
		}
	})
}

func TestParkTakesTheWidest(t *testing.T) {
	// Gaps 0 to 900, 600 to 1100, 1000 to 1500 and 1200 to 2100.
	r := mustRun(t, "600/0 1000/1 600/0")
	for _, c := range []struct {
		from, to         units.Length
		wantFrom, wantTo units.Length
		left             [doors.MaxTracks]int
	}{
		{600, 900, 0, 900, [doors.MaxTracks]int{}},
		{1000, 1100, 600, 1100, [doors.MaxTracks]int{1}}, // two of 500: the one further left
		{1050, 1200, 1000, 1500, [doors.MaxTracks]int{1, 1}},
		{1200, 1500, 1200, 2100, [doors.MaxTracks]int{2, 1}},
	} {
		p, ok := r.Park(2100*mm, doors.Gap{From: c.from * mm, To: c.to * mm})
		want := doors.Parking{Left: c.left, Gap: doors.Gap{From: c.wantFrom * mm, To: c.wantTo * mm}}
		if !ok || p != want {
			t.Errorf("%d to %d: %+v, %v, want %+v", c.from, c.to, p, ok, want)
		}
	}
	if p, ok := r.Park(2100*mm, doors.Gap{From: 0, To: 1000 * mm}); ok {
		t.Errorf("%+v", p)
	}
}

func TestBlind(t *testing.T) {
	for _, c := range []struct {
		doors   string
		opening units.Length
		want    []doors.Gap
	}{
		{"650/0 650/1", 1200 * mm, []doors.Gap{{From: 550 * mm, To: 650 * mm}}},
		{"650/0 650/1", 1300 * mm, nil}, // the two gaps touch
		{"650/0 650/1 650/0 650/1", 2400 * mm, nil},
		{"650/0 650/1", 650 * mm, []doors.Gap{{From: 0, To: 650 * mm}}},
	} {
		if got := mustRun(t, c.doors).Blind(c.opening); !slices.Equal(got, c.want) {
			t.Errorf("%s in %s: %v, want %v", c.doors, c.opening, got, c.want)
		}
	}
	if got := (doors.Run{}).Blind(mm); got != nil {
		t.Error("nothing is blind without doors")
	}
}

// everyParking calls visit with the longest left and right stack of every way to
// park j doors of each track at the left and the rest at the right.
func everyParking(r doors.Run, visit func(left, right units.Length)) {
	var tracks [doors.MaxTracks][]units.Length
	for _, d := range r.Doors() {
		tracks[d.Track] = append(tracks[d.Track], d.Width)
	}
	var park func(track int, left, right units.Length)
	park = func(track int, left, right units.Length) {
		if track == len(tracks) {
			visit(left, right)
			return
		}
		for j := range len(tracks[track]) + 1 {
			var l, r units.Length
			for i, w := range tracks[track] {
				if i < j {
					l += w
				} else {
					r += w
				}
			}
			park(track+1, max(left, l), max(right, r))
		}
	}
	park(0, 0, 0)
}

// The access is the widest gap of all parkings, the leftmost of those.
func TestAccessAgainstEveryParking(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t)
		in := units.Length(rapid.Int64Range(10, 6000).Draw(t, "opening")) * mm
		from := units.Length(rapid.Int64Range(0, int64(in)).Draw(t, "from"))
		stretch := doors.Gap{From: from, To: from + units.Length(rapid.Int64Range(0, int64(in-from)).Draw(t, "width"))}
		var want doors.Gap
		clears := false
		everyParking(r, func(left, right units.Length) {
			g := doors.Gap{From: left, To: in - right}
			if g.Width() > want.Width() || g.Width() == want.Width() && g.From < want.From {
				want = g
			}
			clears = clears || left <= stretch.From && in-right >= stretch.To
		})
		if got := r.Access(in); got != want {
			t.Fatalf("Access(%s) = %v, want %v", in, got, want)
		}
		if got := r.Clears(in, stretch); got != clears {
			t.Fatalf("Clears(%s, %v) = %v", in, stretch, got)
		}
		if !r.Clears(in, want) && want.Width() > 0 {
			t.Fatal("the access itself cannot be cleared")
		}
	})
}
