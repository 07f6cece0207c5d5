package doors_test

import (
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func TestTimberValidate(t *testing.T) {
	for _, c := range []struct {
		name, place string
		change      func(t *doors.Timber)
	}{
		{"sound", "", func(*doors.Timber) {}},
		{"no thickness", "timber.thickness", func(t *doors.Timber) { t.Thickness = 0 }},
		{"no width", "timber.width", func(t *doors.Timber) { t.Width = 0 }},
		{"kerf of nothing", "", func(t *doors.Timber) { t.Kerf = new(units.Length(0)) }},
		{"kerf below nothing", "timber.kerf", func(t *doors.Timber) { t.Kerf = new(below) }},
		{"spacing below nothing", "timber.stud_spacing", func(t *doors.Timber) { t.StudSpacing = below }},
		{"no lengths", "timber.lengths", func(t *doors.Timber) { t.Lengths = nil }},
		{"length past the bound", "timber.lengths[0].length", func(t *doors.Timber) { t.Lengths[0].Length = past }},
	} {
		timber := doors.Timber{Thickness: 47 * mm, Width: 95 * mm, Lengths: []doors.StockLength{{Length: units.Metre}}}
		c.change(&timber)
		checkPlace(t, c.name, timber.Validate(), c.place)
	}
}

func TestTimberDefaults(t *testing.T) {
	var zero doors.Timber
	if zero.Cut() != 4*mm || zero.Spacing() != 1000*mm {
		t.Error(zero.Cut(), zero.Spacing())
	}
	given := doors.Timber{Kerf: new(units.Length(0)), StudSpacing: 400 * mm}
	if given.Cut() != 0 || given.Spacing() != 400*mm {
		t.Error(given.Cut(), given.Spacing())
	}
}

func TestValidateBoards(t *testing.T) {
	boards := func(n int) []doors.Board {
		all := make([]doors.Board, n)
		for i := range all {
			all[i].Thickness = 9 * mm
		}
		return all
	}
	checkPlace(t, "none", doors.ValidateBoards(nil), "")
	checkPlace(t, "fifty", doors.ValidateBoards(boards(50)), "")
	checkPlace(t, "fifty-one", doors.ValidateBoards(boards(51)), "boards")
	checkPlace(t, "no thickness", doors.ValidateBoards(append(boards(1), doors.Board{})), "boards[1].thickness")
}
