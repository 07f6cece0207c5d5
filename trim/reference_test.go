package trim_test

import (
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
)

const mm = units.Millimetre

type row = table.Row
