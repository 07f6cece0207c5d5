package doors_test

import (
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// A run scores what it is ranked by.
func TestScoreIsWhatTheSearchFinds(t *testing.T) { rapid.Check(t, scoreProperty) }

func scoreProperty(t *rapid.T) {
	s := drawSearch(t)
	wide := s.Wide
	if wide == (doors.Fit{}) {
		wide = s.Fit
	}
	for _, r := range slowBest(t, s) {
		fit := s.Fit
		if r.Run.Len() > 2 {
			fit = wide
		}
		want := r.Score
		want.Price = doors.Unpriced
		if got, ok := fit.Score(r.Run, s.Gear); !ok || got != want {
			t.Fatalf("%v in %v: got %v %v, want %v", r.Run.Doors(), fit, got, ok, want)
		}
	}
}

// Four doors of 650, overlaps 50 to 70: 2390 to 2450.
func TestScoreToTheNanometre(t *testing.T) {
	g := doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 50 * mm, Max: 70 * mm}}
	r := mustRun(t, "650/0 650/1 650/0 650/1")
	for _, c := range []struct {
		fit      doors.Fit
		ok, sure bool
	}{
		{doors.Fit{Span: units.Span{Min: 2390 * mm, Max: 2450 * mm}}, true, true},
		{doors.Fit{Span: units.Span{Min: 2390*mm - 1, Max: 2450 * mm}}, false, false},
		{doors.Fit{Span: units.Span{Min: 2390 * mm, Max: 2450*mm + 1}}, false, false},
		{doors.Fit{Span: units.Span{Min: 2392 * mm, Max: 2447 * mm}, NarrowDoubt: 2 * mm, WideDoubt: 3 * mm}, true, true},
		{doors.Fit{Span: units.Span{Min: 2392 * mm, Max: 2447 * mm}, NarrowDoubt: 2*mm + 1, WideDoubt: 3 * mm}, true, false},
		{doors.Fit{Span: units.Span{Min: 2392 * mm, Max: 2447 * mm}, NarrowDoubt: 2 * mm, WideDoubt: 3*mm + 1}, true, false},
	} {
		if got, ok := c.fit.Score(r, g); ok != c.ok || got.Sure != c.sure {
			t.Errorf("%+v: %v, sure %v", c.fit, ok, got.Sure)
		}
	}
	// Between two doors of one track a door of 100 stands for two overlaps of 50 at most.
	g.Overlap = doors.Target{Min: 20 * mm, Max: 60 * mm}
	for opening, want := range map[units.Length]bool{200 * mm: true, 200*mm - 1: false} {
		if _, ok := (doors.Fit{Span: units.Span{Min: opening, Max: opening}}).Score(mustRun(t, "100/0 100/1 100/0"), g); ok != want {
			t.Errorf("in %s: %v", opening, ok)
		}
	}
	if _, ok := (doors.Fit{Span: units.Span{Min: 1300 * mm, Max: 1300 * mm}}).Score(mustRun(t, "650/0 650/0"), g); ok {
		t.Error("doors that only meet have no overlap to share")
	}
	if _, ok := (doors.Fit{}).Score(doors.Run{}, g); ok {
		t.Error("no doors close nothing")
	}
}

// Three doors of 650 in 1830: overlaps of (1950 − 1830)/2 = 60, of which the one behind
// loses two. Where 40 have to show, the two at the right stand 40 further out.
func TestScoreByHand(t *testing.T) {
	g := doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 90 * mm}}
	fit := doors.Fit{Span: units.Span{Min: 1830 * mm, Max: 1830 * mm}}
	want := doors.Score{
		Sure: true, Width: 1950 * mm, Doors: 3, Access: (1830 - 1300) * mm, Price: doors.Unpriced,
		Uneven: 120 * int64(mm) * doors.UnevenParts,
	}
	got, ok := fit.Score(mustRun(t, "650/0 650/1 650/0"), g)
	if d := cmp.Diff(want, got); !ok || d != "" {
		t.Error(ok, d)
	}
	g.Showing = 40 * mm
	two := doors.Fit{Span: units.Span{Min: 1240 * mm, Max: 1240 * mm}}
	if got, ok = two.Score(mustRun(t, "650/0 650/1"), g); !ok || got.Access != (1240-690)*mm {
		t.Error(ok, got.Access)
	}
}
