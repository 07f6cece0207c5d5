package opening_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"github.com/google/go-cmp/cmp"
)

func TestSeverityZeroIsNone(t *testing.T) {
	for s, want := range map[opening.Severity]bool{opening.Stop: true, opening.Warn: true, opening.Note: true, "": false, "STOP": false} {
		if s.IsValid() != want {
			t.Errorf("%q is valid: %v", s, !want)
		}
	}
}

func TestFindingsSorted(t *testing.T) {
	a := opening.Finding{Code: "b", Severity: opening.Note, Place: "1", Message: "x"}
	b := opening.Finding{Code: "a", Severity: opening.Stop, Place: "2", Message: "x"}
	c := opening.Finding{Code: "b", Severity: opening.Warn, Place: "2", Message: "a"}
	d := opening.Finding{Code: "b", Severity: opening.Warn, Place: "2", Message: "b"}
	given := opening.Findings{d, b, a, c, a, d}
	kept := slices.Clone(given)
	want := opening.Findings{a, b, c, d}
	if diff := cmp.Diff(want, given.Sorted()); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(kept, given); diff != "" {
		t.Error("the receiver changed", diff)
	}
	if got := opening.Findings(nil).Sorted(); len(got) != 0 {
		t.Error(got)
	}
}

func TestFindingsErrNamesTheFirstStop(t *testing.T) {
	stop := func(place string) opening.Finding {
		return opening.Finding{Code: "c", Severity: opening.Stop, Place: place, Message: "wrong"}
	}
	warn := opening.Finding{Code: "c", Severity: opening.Warn, Place: "0", Message: "doubtful"}
	for _, c := range []struct {
		found opening.Findings
		want  string
	}{
		{opening.Findings{warn, stop("1")}, "opening: 1: wrong"},
		{opening.Findings{stop("2"), warn, stop("1")}, "opening: 1: wrong (and 1 more)"},
		{opening.Findings{stop("2"), stop("3"), stop("1")}, "opening: 1: wrong (and 2 more)"},
	} {
		err := c.found.Err()
		var stopped *opening.StopError
		if !errors.As(err, &stopped) || err.Error() != c.want || !c.found.Stops() {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
	for _, found := range []opening.Findings{nil, {}, {warn}} {
		if err := found.Err(); err != nil || found.Stops() {
			t.Errorf("%v stops: %v", found, err)
		}
	}
	if err := (&opening.StopError{}).Error(); !strings.Contains(err, "stopped") {
		t.Error(err)
	}
}
