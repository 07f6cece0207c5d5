package units_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"

	"example.com/lapspan/units"
)

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
func length(t *testing.T, s string) units.Length {
	t.Helper()
	l, err := units.ParseSigned(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// rounding finds a rounding by its name.
func rounding(t *testing.T, name string) units.Rounding {
	t.Helper()
	for _, mode := range modes {
		if mode.String() == name {
			return mode
		}
	}
	t.Fatalf("no rounding %q", name)
	return 0
}

var modes = []units.Rounding{units.HalfEven, units.HalfUp, units.Up, units.Down}
