package doors

import (
	"cmp"
	"slices"

	"example.com/lapspan/units"
)

// Change is a change that makes a run of doors close an opening which it does
// not close as things are.
type Change struct {
	Kind ChangeKind   `json:"kind"` // what is changed
	By   units.Length `json:"by"`   // how much of a change it is; 0 for Retrack
	// Overlap is the span of overlaps that gear needs; nil but for Relap.
	Overlap *units.Span `json:"overlap,omitzero"`
	// Tracks is the track of each door, from left to right; none but for Retrack.
	Tracks []int `json:"tracks,omitzero"`
}

// ChangeKind says what is changed.
type ChangeKind string

const (
	Retrack ChangeKind = "tracks"  // the same doors on other tracks, more than the gear has where need be
	Liner   ChangeKind = "liner"   // the opening made narrower by liners, over its whole height
	Relap   ChangeKind = "overlap" // gear that takes smaller or larger overlaps
	Widen   ChangeKind = "widen"   // the opening made wider: liners or end panels left out
)

var changeKinds = []ChangeKind{Retrack, Liner, Relap, Widen}

// Changes returns the changes of which each alone makes the run close the
// opening, from its narrowest to its widest reading, the smallest of each kind:
// the least first, equal ones in the order of the constants. There are none for a run that
// closes it. A run on other tracks keeps the order of its doors; the one that
// moves the fewest doors is given, of several the list of tracks that comes
// first number by number.
func Changes(r Run, g Gear, in units.Span) []Change {
	overlaps := units.Length(r.Overlaps())
	cover, least := r.Cover(g), r.Least(g)
	if closes(r, g, in) {
		return nil
	}
	var changes []Change
	short, over := in.Max-cover, least-in.Min
	moved := func(by units.Length) units.Span { return units.Span{Min: in.Min + by, Max: in.Max + by} }
	if short > 0 && short < in.Min && closes(r, g, moved(-short)) {
		changes = append(changes, Change{Kind: Liner, By: short})
	}
	if over > 0 && closes(r, g, moved(over)) {
		changes = append(changes, Change{Kind: Widen, By: over})
	}
	if overlaps > 0 {
		lapped := g
		if least, err := (r.spread(g) - in.Max).MulDiv(1, int64(overlaps), units.Down); err == nil {
			lapped.Overlap.Min = min(g.Overlap.Min, least)
		}
		if most, err := (r.spread(g) - in.Min).MulDiv(1, int64(overlaps), units.Up); err == nil {
			lapped.Overlap.Max = max(g.Overlap.Max, most)
		}
		by := g.Overlap.Min - lapped.Overlap.Min + lapped.Overlap.Max - g.Overlap.Max
		if lapped.Overlap.Min >= 0 && by > 0 && closes(r, lapped, in) {
			changes = append(changes, Change{Kind: Relap, By: by, Overlap: new(lapped.Overlap.Span())})
		}
	}
	if tracks := retrack(r, g, in); tracks != nil {
		changes = append(changes, Change{Kind: Retrack, Tracks: tracks})
	}
	slices.SortStableFunc(changes, func(a, b Change) int {
		return cmp.Or(cmp.Compare(a.By, b.By), cmp.Compare(slices.Index(changeKinds, a.Kind), slices.Index(changeKinds, b.Kind)))
	})
	return changes
}

// closes reports whether the run closes every reading of the opening and stands.
func closes(r Run, g Gear, in units.Span) bool {
	return r.Cover(g) >= in.Max && r.Least(g) <= in.Min && r.Stands(g, in.Min)
}

// retrack finds other tracks for the doors: every assignment whose neighbours
// are at most one track apart is tried.
func retrack(r Run, g Gear, in units.Span) []int {
	fewest := r.count + 1
	var best []int
	for _, p := range Any.patterns(r.count, MaxTracks, true) {
		other, moved := r, 0
		for i := range r.count {
			if other.doors[i].Track = int(p.tracks[i]); other.doors[i].Track != r.doors[i].Track {
				moved++
			}
		}
		if moved < fewest && closes(other, g, in) {
			fewest, best = moved, nil
			for _, d := range other.doors[:r.count] {
				best = append(best, d.Track)
			}
		}
	}
	return best
}
