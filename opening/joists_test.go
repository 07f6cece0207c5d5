package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

func TestJoists(t *testing.T) {
	centres := []units.Length{mm(1200), mm(0), mm(400)}
	for _, c := range []struct {
		joists   *opening.Joists
		crossing []units.Length
		along    bool
	}{
		{nil, nil, false},
		{&opening.Joists{Centres: centres, Run: opening.FrontToBack}, centres, false},
		{&opening.Joists{Centres: centres, Run: opening.AlongDoors}, nil, true},
		{&opening.Joists{Centres: centres}, nil, false},
	} {
		if diff := cmp.Diff(c.crossing, c.joists.Crossing()); diff != "" || c.joists.RunAlong() != c.along {
			t.Error(c.joists, c.joists.RunAlong(), diff)
		}
	}
	for last, want := range map[int64]string{1400: "", 1401: "joist-missed", 1200: ""} {
		s := survey()
		s.Joists = &opening.Joists{Centres: []units.Length{mm(800), 0, mm(400), mm(last), mm(400)}, Run: opening.AlongDoors}
		if got := brief2(measure(t, s).Findings, "joists.centres"); got != want {
			t.Errorf("a bay of %d after bays of 400: %q", last-800, got)
		}
	}
	s := survey()
	s.Joists = &opening.Joists{Centres: []units.Length{0, mm(400), mm(2000)}, Run: opening.AlongDoors}
	if got := brief2(measure(t, s).Findings, "joists.centres"); got != "" {
		t.Errorf("two bays do not tell what is usual: %q", got)
	}
}
