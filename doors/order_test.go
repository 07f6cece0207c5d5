package doors

import (
	"slices"
	"testing"

	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

// slowOrder tries every order of the widths and keeps the one with the widest
// access, of equal ones the one whose larger doors stand leftmost.
func slowOrder(p pattern, widths []units.Length, g Gear, narrowest units.Length) (best Run, stands bool) {
	widest := units.Length(-1)
	run := Run{count: p.doors}
	for i := range p.doors {
		run.doors[i].Track = int(p.tracks[i])
	}
	placed := make([]bool, len(widths))
	var place func(i int)
	place = func(i int) {
		if i == p.doors {
			if !run.Stands(g, narrowest) {
				return
			}
			access := run.Access(narrowest).Width()
			larger := slices.CompareFunc(run.Doors(), best.Doors(), func(a, b Door) int { return int(a.Width - b.Width) })
			if access > widest || access == widest && larger > 0 {
				best, widest = run, access
			}
			return
		}
		for k, w := range widths {
			if !placed[k] {
				placed[k], run.doors[i].Width = true, w
				place(i + 1)
				placed[k] = false
			}
		}
	}
	place(0)
	return best, widest >= 0
}

func orderProperty(t *rapid.T) {
	tracks := rapid.IntRange(MinTracks, MaxTracks).Draw(t, "tracks")
	pattern := rapid.SampledFrom(Any.patterns(rapid.IntRange(2, 6).Draw(t, "doors"), tracks, true)).Draw(t, "pattern")
	widths := make([]units.Length, pattern.doors)
	sum := units.Length(0)
	for i := range widths {
		widths[i] = units.Length(rapid.IntRange(2, 9).Draw(t, "width"))
		sum += widths[i]
	}
	slices.Sort(widths)
	gear := Gear{Tracks: tracks, MeetingGap: new(units.Length(rapid.IntRange(0, 2).Draw(t, "gap")))}
	// Small widths in small openings, so that many orders cannot stand.
	narrowest := sum - units.Length(rapid.IntRange(0, int(sum)-1).Draw(t, "overlaps"))

	want, stands := slowOrder(pattern, widths, gear, narrowest)
	got, ok, _ := pattern.bestOrder(widths, gear, narrowest)
	if ok != stands || ok && got != want {
		t.Fatalf("%v on %v in %d: got %v %v, want %v %v", widths, pattern.tracks, narrowest, got, ok, want, stands)
	}
}

func TestOrderIsTheWidestThatStands(t *testing.T) { rapid.Check(t, orderProperty) }
