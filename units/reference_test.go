package units_test

import (
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
)

type row = table.Row

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
