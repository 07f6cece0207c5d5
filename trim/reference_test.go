package trim_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"example.com/lapspan/units"
)

const mm = units.Millimetre

// row is one value of a reference table, by the names of its columns.
type row map[string]string

// forEachRow runs a subtest for every row of a reference table, named by its id. Every row must say
// where its value comes from.
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
	l, err := units.Parse(r[column])
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return l
}
