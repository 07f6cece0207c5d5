package doors_test

import (
	"strconv"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
)

type row = table.Row

// maybe reads a length that a row may leave empty.
func maybe(t *testing.T, r row, column string) *units.Length {
	t.Helper()
	if r[column] == "" {
		return nil
	}
	return new(r.Length(t, column))
}

// lengthsOf reads a list of lengths, separated by spaces.
func lengthsOf(r row, t *testing.T, column string) []units.Length {
	t.Helper()
	var all []units.Length
	for field := range strings.FieldsSeq(r[column]) {
		l, err := units.ParseSigned(field)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
	return all
}

// spanOf reads two lengths.
func spanOf(r row, t *testing.T, column string) (lo, hi units.Length) {
	t.Helper()
	both := lengthsOf(r, t, column)
	if len(both) != 2 {
		t.Fatalf("%s %q is not a span", column, r[column])
	}
	return both[0], both[1]
}

// runOf reads doors written width/track, separated by spaces.
func runOf(r row, t *testing.T) doors.Run {
	t.Helper()
	var list []doors.Door
	for field := range strings.FieldsSeq(r["doors"]) {
		width, track, _ := strings.Cut(field, "/")
		n, err := strconv.Atoi(track)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, doors.Door{Width: units.MustParse(width), Track: n})
	}
	run, err := doors.NewRun(list...)
	if err != nil {
		t.Fatal(err)
	}
	return run
}

func millimetres(lengths []units.Length) string {
	var fields []string
	for _, l := range lengths {
		fields = append(fields, l.Millimetres())
	}
	return strings.Join(fields, " ")
}
