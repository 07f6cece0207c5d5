package units_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

func TestSheetMassReference(t *testing.T) {
	table.Each(t, "units_mass.csv", func(t *testing.T, r row) {
		area := units.AreaOf(length(t, r["width"]), length(t, r["height"]))
		got := units.SheetMass(area, length(t, r["thickness"]), units.MustMass(r["density"]))
		if want := units.MustMass(r["expected"]); !got.Equal(want) {
			t.Errorf("%s × %s × %s at %s kg/m³ is %v, want %v", r["width"], r["height"], r["thickness"], r["density"], got, want)
		}
	})
}

func TestParseMass(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"0", "0 kg"},
		{"20.70", "20.7 kg"},
		{"20.7 kg", "20.7 kg"},
		{"20.7kg", "20.7 kg"},
		{"2500", "2500 kg"},
		{"0.000000001", "0.000000001 kg"},
		{"1000000", "1000000 kg"},
		{"1000000.000000000 kg", "1000000 kg"},
	} {
		if got, err := units.ParseMass(c.in); err != nil || got.String() != c.want {
			t.Errorf("%q is %v (%v), want %s", c.in, got, err, c.want)
		}
	}
	for _, c := range []struct {
		in     string
		pos    int
		reason string
	}{
		{"", 0, "nothing to read"},
		{"kg", 0, "a digit"},
		{"-1", 0, "a sign"},
		{"1,5", 1, "a comma"},
		{"1e3", 1, "an exponent"},
		{"1 ", 1, "a space"},
		{"1  kg", 2, "a space"},
		{"1 kg ", 2, "unknown unit"},
		{"1 kgs", 2, "unknown unit"},
		{"1 lb", 2, "unknown unit"},
		{"1lb", 1, "unknown unit"},
		{"1 KG", 2, "unknown unit"},
		{"1 g", 2, "unknown unit"},
		{"1.0000000001", 11, "more than nine decimals"},
		{"1000000.000000001", 0, "more than 1 000 000 kg"},
		{"1000001 kg", 0, "more than 1 000 000 kg"},
		{strings.Repeat("1", 33), 0, "more than 32 characters"},
	} {
		got, err := units.ParseMass(c.in)
		checkParseError(t, err, c.in, c.pos, c.reason)
		if !got.Equal(units.Mass{}) {
			t.Errorf("%q: refused, and still %v", c.in, got)
		}
	}
}

func TestMassArithmetic(t *testing.T) {
	glass := units.MustMass("20.7")
	for _, c := range []struct {
		name string
		got  units.Mass
		want string
	}{
		{"add", glass.Add(units.MustMass("4.3")), "25"},
		{"add to nothing", units.Mass{}.Add(glass), "20.7"},
		{"three of them", glass.Mul(3), "62.1"},
		{"a bar", units.BarMass(2300*mm, units.MustMass("0.27")), "0.621"}, // 2.3 m of 1 cm² aluminium
		{"a nanometre of bar", units.BarMass(1, units.MustMass("0.000000001")), "0.000000000000000001"},
		{"no bar", units.BarMass(0, glass), "0"},
	} {
		if got := c.got.Kilograms(); got != c.want {
			t.Errorf("%s is %s, want %s", c.name, got, c.want)
		}
	}
	if got, err := units.MustMass("25.875").Round(2, units.HalfEven); err != nil || got.String() != "25.88 kg" {
		t.Errorf("rounded to %v (%v)", got, err)
	}
	if _, err := glass.Round(10, units.Up); !errors.Is(err, units.ErrRange) {
		t.Errorf("ten decimals: %v", err)
	}
	if _, err := glass.Round(2, 9); !errors.Is(err, units.ErrRounding) {
		t.Errorf("unknown rounding: %v", err)
	}
	heavier := units.MustMass("20.70001")
	if glass.Cmp(heavier) != -1 || heavier.Cmp(glass) != 1 || glass.Cmp(units.MustMass("20.70")) != 0 {
		t.Error("Cmp")
	}
	if glass.Equal(heavier) || cmp.Equal(glass, heavier) || !cmp.Equal(glass, units.MustMass("20.70")) {
		t.Error("Equal")
	}
}

func TestMassText(t *testing.T) {
	glass := units.MustMass("20.70")
	if got, err := glass.MarshalText(); string(got) != "20.7 kg" || err != nil {
		t.Errorf("text %s (%v)", got, err)
	}
	if got, err := glass.AppendText([]byte("x")); string(got) != "x20.7 kg" || err != nil {
		t.Errorf("appended %s (%v)", got, err)
	}
	if got, err := json.Marshal(struct {
		Glass units.Mass `json:"glass"`
		None  units.Mass `json:"none,omitzero"`
	}{Glass: glass}); string(got) != `{"glass":20.7}` || err != nil {
		t.Errorf("JSON %s (%v)", got, err)
	}
	for _, in := range []string{`20.7`, `"20.7"`, `"20.7 kg"`} {
		var got units.Mass
		if err := got.UnmarshalJSON([]byte(in)); err != nil || !got.Equal(glass) {
			t.Errorf("%s is %v (%v)", in, got, err)
		}
	}
	for _, in := range []string{`null`, `false`, `{}`, ``, `2e1`, `-1`, `20.7 kg`, `"20,7"`} {
		got := glass
		if err := got.UnmarshalJSON([]byte(in)); err == nil || !got.Equal(glass) {
			t.Errorf("%s: %v left %v", in, err, got)
		}
	}
	var read units.Mass
	if err := read.UnmarshalText([]byte("20.7 kg")); err != nil || !read.Equal(glass) {
		t.Errorf("text reads as %v (%v)", read, err)
	}
	if err := read.UnmarshalText([]byte("20.7 lb")); err == nil || !read.Equal(glass) {
		t.Errorf("a failed read left %v (%v)", read, err)
	}
}
