package frame_test

import (
	"strings"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
)

const mm = units.Millimetre

type row = table.Row

// sum writes lengths as the tables do: 1820 + 1820.
func sum(lengths []units.Length) string {
	texts := make([]string, len(lengths))
	for i, l := range lengths {
		texts[i] = l.Millimetres()
	}
	return strings.Join(texts, " + ")
}
