package doors_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// write says all that a candidate is, on one line.
func write(c *doors.Candidate) string {
	run, stands := c.Run()
	order := "none"
	if stands {
		order = ""
		for _, d := range run.Doors() {
			order += fmt.Sprintf(" %s/%d", d.Width.Millimetres(), d.Track)
		}
	}
	return fmt.Sprintf("sold %b under %s over %s L %d:%s", c.Heights, c.Under.Millimetres(), c.Over.Millimetres(), c.Overlaps(), order)
}

func list(t interface {
	Helper()
	Fatal(...any)
}, q doors.Query) []string {
	t.Helper()
	all, err := doors.Candidates(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for c, err := range all {
		if err != nil {
			t.Fatal(err)
		}
		lines = append(lines, write(c))
	}
	return lines
}

func smallQuery() doors.Query {
	return doors.Query{
		Range: doors.Range{
			Sizes: []doors.Size{
				{Width: 600 * mm, Height: 2000 * mm}, {Width: 700 * mm, Height: 2000 * mm}, {Width: 700 * mm, Height: 2200 * mm},
			},
			MaxDoors: 3, MixedWidths: true,
		},
		Gear: doors.Gear{
			Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 60 * mm}, Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm},
		},
		Opening: units.Span{Min: 1250 * mm, Max: 1260 * mm},
	}
}

func TestCandidatesInOrder(t *testing.T) {
	got := list(t, smallQuery())
	// cover − widest and narrowest − (sum − L × 60), by hand.
	want := []string{
		"sold 10 under 110 over -80 L 1: 600/0 600/1",
		"sold 10 under 10 over 20 L 1: 700/0 600/1",
		"sold 11 under -90 over 120 L 1: 700/0 700/1",
		"sold 10 under -430 over 500 L 2: 600/0 600/1 600/0",
		"sold 10 under -530 over 600 L 2: 600/0 700/1 600/0",
		"sold 10 under -630 over 700 L 2:none",
		"sold 11 under -730 over 800 L 2:none",
	}
	// In 1250 the overlaps of three doors are far too wide, and only 600s leave room for the doors of one track.
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestClosesToTheNanometre(t *testing.T) {
	for _, c := range []struct {
		opening units.Span
		want    bool
	}{
		{units.Span{Min: 1140 * mm, Max: 1180 * mm}, true}, // 2 × 600 less 60 and less 20
		{units.Span{Min: 1140*mm - 1, Max: 1180 * mm}, false},
		{units.Span{Min: 1140 * mm, Max: 1180*mm + 1}, false},
	} {
		q := smallQuery()
		q.Opening, q.Range.MaxDoors = c.opening, 2
		all, err := doors.Candidates(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		for cand := range all {
			if cand.WidthAt(1) == 600*mm && cand.Closes() != c.want {
				t.Errorf("%v: %v", c.opening, !c.want)
			}
		}
	}
}

// slowCandidates lists every ordered run on every assignment of tracks, and
// keeps the best order of each set.
func slowCandidates(q doors.Query) []string {
	heights := q.Range.Heights()
	sold := map[units.Length]uint64{}
	for _, s := range q.Range.Sizes {
		sold[s.Width] |= 1 << slices.Index(heights, s.Height)
	}
	var widths []units.Length
	for w := range sold {
		widths = append(widths, w)
	}
	slices.Sort(widths)
	type set struct {
		under, over units.Length
		heights     uint64
		best        []doors.Door
		access      units.Length
		overlaps    int
	}
	sets := map[string]*set{}
	var gap units.Length
	if q.Gear.MeetingGap != nil {
		gap = *q.Gear.MeetingGap
	}
	visit := func(run []doors.Door) {
		if !slowArranged(q, run) {
			return
		}
		sorted := make([]units.Length, len(run))
		var sum units.Length
		shared := ^uint64(0)
		tracks := ""
		overlaps, meetings := units.Length(0), units.Length(0)
		for i, d := range run {
			sorted[i] = d.Width
			sum += d.Width
			shared &= sold[d.Width]
			tracks += fmt.Sprint(d.Track)
			switch {
			case i == 0:
			case run[i-1].Track == d.Track:
				meetings++
			default:
				overlaps++
			}
		}
		if shared == 0 || overlaps == 0 {
			return
		}
		slices.Sort(sorted)
		key := fmt.Sprint(sorted, tracks)
		s := sets[key]
		if s == nil {
			spread := sum + meetings*gap
			s = &set{
				under: q.Opening.Min - (spread - overlaps*q.Gear.Overlap.Max),
				over:  spread - overlaps*q.Gear.Overlap.Min - q.Opening.Max, heights: shared, overlaps: int(overlaps),
			}
			sets[key] = s
		}
		r, err := doors.NewRun(run...)
		if err != nil {
			panic(err)
		}
		if !slowStands(r, q.Gear, q.Opening.Min) {
			return
		}
		var access units.Length
		if q.Gear.Showing > 0 {
			access = r.WithShowing(q.Gear.Showing).Access(q.Opening.Min).Width()
		} else {
			everyParking(r, func(left, right units.Length) { access = max(access, q.Opening.Min-right-left) })
		}
		larger := slices.CompareFunc(run, s.best, func(a, b doors.Door) int { return int(a.Width - b.Width) })
		if s.best == nil || access > s.access || access == s.access && larger > 0 {
			s.best, s.access = slices.Clone(run), access
		}
	}
	var place func(run []doors.Door)
	place = func(run []doors.Door) {
		if len(run) >= doors.MinDoors {
			visit(run)
		}
		if len(run) == q.Range.MaxDoors {
			return
		}
		for _, w := range widths {
			if !q.Range.MixedWidths && len(run) > 0 && run[0].Width != w {
				continue
			}
			for t := range q.Gear.Tracks {
				place(append(run[:len(run):len(run)], doors.Door{Width: w, Track: t}))
			}
		}
	}
	place(nil)
	var lines []string
	for _, s := range sets {
		order := "none"
		if s.best != nil {
			order = ""
			for _, d := range s.best {
				order += fmt.Sprintf(" %s/%d", d.Width.Millimetres(), d.Track)
			}
		}
		lines = append(lines, fmt.Sprintf("sold %b under %s over %s L %d:%s", s.heights, s.under.Millimetres(), s.over.Millimetres(), s.overlaps, order))
	}
	slices.Sort(lines)
	return lines
}

func slowArranged(q doors.Query, run []doors.Door) bool {
	tracks := make([]int, len(run))
	for i, d := range run {
		tracks[i] = d.Track
	}
	switch q.Range.Arrangement {
	case doors.Any:
		for i := 1; i < len(tracks); i++ {
			if d := tracks[i] - tracks[i-1]; d < -1 || d > 1 {
				return false
			}
		}
		mirror := slices.Clone(tracks)
		slices.Reverse(mirror)
		return q.SidesDiffer || slices.Compare(tracks, mirror) <= 0
	case doors.Stepped:
		walk := [][]int{{}, {}, {0, 1}, {0, 1, 2, 1}, {0, 1, 2, 3, 2, 1}}[q.Gear.Tracks]
		for i, t := range tracks {
			if t != walk[i%len(walk)] {
				return false
			}
		}
		return true
	}
	for i, t := range tracks {
		if t != i%2 {
			return false
		}
	}
	return true
}

// slowStands puts the doors in place, everything multiplied by the number of overlaps.
func slowStands(r doors.Run, g doors.Gear, in units.Length) bool {
	n := units.Length(r.Overlaps())
	if n == 0 {
		return false
	}
	var gap units.Length
	if g.MeetingGap != nil {
		gap = *g.MeetingGap
	}
	over := r.Width() + units.Length(r.Meetings())*gap - in
	type place struct {
		from, to units.Length
		track    int
	}
	var places []place
	at := units.Length(0)
	for i, d := range r.Doors() {
		if i > 0 {
			if r.At(i-1).Track == d.Track {
				at += n * gap
			} else {
				at -= over
				if least := min(d.Width, r.At(i-1).Width); n*g.Showing > 0 && n*(least-g.Showing) < over {
					return false
				}
			}
		}
		places = append(places, place{at, at + n*d.Width, d.Track})
		at += n * d.Width
	}
	for i, p := range places {
		if p.from < 0 || p.to > n*in {
			return false
		}
		for _, o := range places[:i] {
			if o.track == p.track && o.from < p.to && p.from < o.to {
				return false
			}
		}
	}
	return true
}

// Candidates lists what trying every order on every track lists, each in its best order.
func TestCandidatesAgainstEveryOrder(t *testing.T) { rapid.Check(t, searchProperty) }

func FuzzCandidates(f *testing.F) { f.Fuzz(rapid.MakeFuzz(searchProperty)) }

func searchProperty(t *rapid.T) {
	q := doors.Query{SidesDiffer: rapid.Bool().Draw(t, "sides differ")}
	q.Gear.Tracks = rapid.IntRange(2, 4).Draw(t, "tracks")
	q.Gear.Overlap.Min = units.Length(rapid.Int64Range(0, 40).Draw(t, "least")) * mm
	q.Gear.Overlap.Max = q.Gear.Overlap.Min + units.Length(rapid.Int64Range(1, 60).Draw(t, "span"))*mm
	q.Gear.Allowance = doors.Target{Min: 30 * mm, Max: 35 * mm}
	if rapid.Bool().Draw(t, "gap") {
		q.Gear.MeetingGap = new(units.Length(rapid.Int64Range(0, 4).Draw(t, "meeting gap")) * mm)
	}
	if rapid.Bool().Draw(t, "handles") {
		q.Gear.Showing = units.Length(rapid.Int64Range(1, 200).Draw(t, "showing")) * mm
	}
	q.Range.Arrangement = rapid.SampledFrom([]doors.Arrangement{"", doors.Alternate, doors.Stepped, doors.Any}).Draw(t, "arrangement")
	q.Range.MixedWidths = rapid.Bool().Draw(t, "mixed")
	q.Range.MaxDoors = rapid.IntRange(2, 4).Draw(t, "doors")
	most := 3
	if q.Range.Arrangement == doors.Any && q.Range.MixedWidths && q.Range.MaxDoors == 4 {
		most = 2
	}
	seen := map[[2]int64]bool{}
	for range rapid.IntRange(1, most).Draw(t, "sizes") {
		s := [2]int64{rapid.Int64Range(40, 900).Draw(t, "width"), 2000 + 100*rapid.Int64Range(0, 1).Draw(t, "height")}
		if !seen[s] {
			seen[s] = true
			q.Range.Sizes = append(q.Range.Sizes, doors.Size{Width: units.Length(s[0]) * mm, Height: units.Length(s[1]) * mm})
		}
	}
	q.Opening.Min = units.Length(rapid.Int64Range(200, 2500).Draw(t, "narrowest")) * mm
	q.Opening.Max = q.Opening.Min + units.Length(rapid.Int64Range(0, 20).Draw(t, "out"))*mm

	got := list(t, q)
	slices.Sort(got)
	if d := cmp.Diff(slowCandidates(q), got); d != "" {
		t.Fatal(d)
	}
	all, err := doors.Candidates(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	for c := range all {
		run, stands := c.Run()
		if c.Closes() != (c.Under >= 0 && c.Over >= 0) {
			t.Fatal("it closes")
		}
		if !stands {
			continue
		}
		if c.Closes() && (!run.Stands(q.Gear, q.Opening.Max) || run.Cover(q.Gear)-q.Opening.Max != c.Over || q.Opening.Min-run.Least(q.Gear) != c.Under) {
			t.Fatalf("%v does not close", run.Doors())
		}
	}
}
