// Package table reads the reference tables beside it, for the tests of the
// packages next to testdata.
package table

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"example.com/lapspan/units"
)

// Row is one value of a reference table, by the names of its columns.
type Row map[string]string

// Each runs a subtest for every row of a reference table, named by its id.
// Every row must say where its value comes from.
func Each(t *testing.T, name string, test func(t *testing.T, r Row)) {
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
		r := Row{}
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

// Length reads a length.
func (r Row) Length(t *testing.T, column string) units.Length {
	t.Helper()
	l, err := units.ParseSigned(r[column])
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return l
}

// Number reads a whole number.
func (r Row) Number(t *testing.T, column string) int64 {
	t.Helper()
	n, err := strconv.ParseInt(r[column], 10, 64)
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return n
}
