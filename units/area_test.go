package units_test

import (
	"encoding/json"
	"math"
	"testing"

	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

func TestArea(t *testing.T) {
	door := units.AreaOf(900*mm, 2300*mm)
	for _, c := range []struct {
		name string
		got  units.Area
		want string
	}{
		{"a door", door, "2.07"},
		{"4 ft × 8 ft", units.AreaOf(4*units.Foot, 8*units.Foot), "2.97289728"},
		{"9 sq ft", units.AreaOf(3*units.Foot, 3*units.Foot), "0.83612736"}, // exactly; 16 CFR 1201 prints 0.83
		{"the least", units.AreaOf(1, 1), "0.000000000000000001"},
		{"the greatest side", units.AreaOf(units.MaxLength, units.MaxLength), "10000"},
		{"more than an int64 of nm²", units.AreaOf(math.MaxInt64, math.MaxInt64), "85070591730234615847.396907784232501249"},
		{"two doors", door.Add(door), "4.14"},
		{"three doors", door.Mul(3), "6.21"},
		{"no door", door.Mul(0), "0"},
		{"a hole", units.AreaOf(-mm, mm), "-0.000001"},
	} {
		if got := c.got.SquareMetres(); got != c.want {
			t.Errorf("%s is %s, want %s", c.name, got, c.want)
		}
		if got := c.got.String(); got != c.want+" m²" {
			t.Errorf("%s is %s, want %s m²", c.name, got, c.want)
		}
	}
	if got, err := door.MarshalText(); string(got) != "2.07 m²" || err != nil {
		t.Errorf("text %s (%v)", got, err)
	}
	if got, err := door.AppendText([]byte("x")); string(got) != "x2.07 m²" || err != nil {
		t.Errorf("appended %s (%v)", got, err)
	}
	if got, err := json.Marshal(door); string(got) != `"2.07 m²"` || err != nil {
		t.Errorf("JSON %s (%v)", got, err)
	}
	larger := units.AreaOf(900*mm, 2300*mm+1)
	if door.Cmp(larger) != -1 || larger.Cmp(door) != 1 || door.Cmp(units.AreaOf(2300*mm, 900*mm)) != 0 {
		t.Error("Cmp")
	}
	if door.Equal(larger) || cmp.Equal(door, larger) || !cmp.Equal(door, units.AreaOf(2300*mm, 900*mm)) {
		t.Error("Equal")
	}
}
