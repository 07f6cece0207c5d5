package doors_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// row is one value of a reference table, by the names of its columns.
type row map[string]string

// forEachRow runs a subtest for every row of a reference table, named by its id.
// Every row must say where its value comes from.
func forEachRow(t *testing.T, name string, test func(t *testing.T, r row)) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(records) < 2 {
		t.Fatalf("%s has no rows", name)
	}
	for _, record := range records[1:] {
		r := row{}
		for i, column := range records[0] {
			r[column] = record[i]
		}
		t.Run(r["id"], func(t *testing.T) {
			switch r["status"] {
			case "published", "common practice", "from memory":
			default:
				t.Errorf("status %q", r["status"])
			}
			if r["source"] == "" {
				t.Error("no source")
			}
			test(t, r)
		})
	}
}

// length reads a length of a table.
func (r row) length(t *testing.T, column string) units.Length {
	t.Helper()
	l, err := units.ParseSigned(r[column])
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// maybe reads a length that a row may leave empty.
func (r row) maybe(t *testing.T, column string) *units.Length {
	t.Helper()
	if r[column] == "" {
		return nil
	}
	return new(r.length(t, column))
}

// lengths reads a list of lengths, separated by spaces.
func (r row) lengths(t *testing.T, column string) []units.Length {
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

// span reads two lengths.
func (r row) span(t *testing.T, column string) (lo, hi units.Length) {
	t.Helper()
	both := r.lengths(t, column)
	if len(both) != 2 {
		t.Fatalf("%s %q is not a span", column, r[column])
	}
	return both[0], both[1]
}

// run reads doors written width/track, separated by spaces.
func (r row) run(t *testing.T) doors.Run {
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
