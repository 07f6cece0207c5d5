package units_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
)

var markets = []units.Market{units.PS20Dry, units.PS20Green, units.CLS, units.Sawn, units.Regularised}

func TestNominalReference(t *testing.T) {
	table.Each(t, "units_timber.csv", func(t *testing.T, r row) {
		var market units.Market
		for _, m := range markets {
			if m.String() == r["market"] {
				market = m
			}
		}
		want := units.Section{Thickness: length(t, r["thickness"]), Width: length(t, r["width"])}
		if got, err := units.Nominal(market, r["nominal"]); err != nil || got != want {
			t.Errorf("%s %s is %v (%v), want %v", r["market"], r["nominal"], got, err, want)
		}
		if r["thickness_in"] == "" {
			return
		}
		// PS 20 prints inches and, in millimetres, the same rounded half even
		for _, side := range []struct {
			inches string
			want   units.Length
		}{{r["thickness_in"], want.Thickness}, {r["width_in"], want.Width}} {
			if got, err := length(t, side.inches+" in").Round(mm, units.HalfEven); err != nil || got != side.want {
				t.Errorf("%s in is %v (%v), in the table %v", side.inches, got, err, side.want)
			}
		}
	})
}

// PS 20 in words: what is dressed off a nominal size (NDS Supplement 2018, table 1A). The odd 7 in,
// dressed by 1/2 in like the sizes below it, is not in that table.
func TestNominalRule(t *testing.T) {
	for _, nominal := range []int64{2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 14, 16} {
		dry, green := units.Inch/2, 7*units.Inch/16
		if nominal > 6 {
			dry, green = 3*units.Inch/4, units.Inch/2
		} else if nominal > 4 {
			green = 3 * units.Inch / 8
		}
		for market, less := range map[units.Market]units.Length{units.PS20Dry: dry, units.PS20Green: green} {
			got, err := units.Nominal(market, fmt.Sprintf("2x%d", nominal))
			want, _ := (units.Length(nominal)*units.Inch - less).Round(mm, units.HalfEven)
			if err != nil || got.Width != want {
				t.Errorf("%v %d in wide is %v (%v), want %v", market, nominal, got.Width, err, want)
			}
		}
	}
}

func TestNominalNames(t *testing.T) {
	want := units.Section{Thickness: 38 * mm, Width: 64 * mm}
	for _, name := range []string{"2x3", "3x2", "2×3", "2 x 3", "2 × 3", "2x 3", "2 x3", "2.0x3", "02x3"} {
		if got, err := units.Nominal(units.PS20Dry, name); err != nil || got != want {
			t.Errorf("%q is %v (%v)", name, got, err)
		}
	}
	for _, name := range []string{
		"", "x", "2x", "x3", "2", "23", "2x3x4", "2xx3", "2××3", "2X3", "2*3", "2 in x 3 in", "2\"x3\"", "2x3 ", " 2x3", "2  x 3", "2 x  3",
		"-2x3", "2x-3", "2,5x3", "2e0x3", "1/3x6", "2x3mm", "38x64", "0x3", "2x0", "2x100", "5x6", "2x13", "1x1", "2.1x3", "3x3 1/2",
		strings.Repeat(" ", 1<<20) + "2x3", "2x3" + strings.Repeat("0", 40),
	} {
		if got, err := units.Nominal(units.PS20Dry, name); got != (units.Section{}) || !errors.Is(err, units.ErrNominal) || len(err.Error()) > 300 {
			t.Errorf("%.40q: %v, %v, want ErrNominal", name, got, err)
		}
	}
	for market, names := range map[units.Market][]string{
		units.CLS:         {"2x5", "2x2", "1x3", "3x4", "2x8"},
		units.Sawn:        {"1/2x6", "1 1/4x6", "2x10", "5x6"},
		units.Regularised: {"1x3", "4x6", "2x10"},
	} {
		for _, name := range names {
			if got, err := units.Nominal(market, name); !errors.Is(err, units.ErrNominal) {
				t.Errorf("%v %s: %v, %v, want ErrNominal", market, name, got, err)
			}
		}
	}
}

func TestMarkets(t *testing.T) {
	for _, m := range []units.Market{0, units.Regularised + 1, 255} {
		if got, err := units.Nominal(m, "2x3"); got != (units.Section{}) || !errors.Is(err, units.ErrMarket) {
			t.Errorf("%v: %v, %v", m, got, err)
		}
		if want := fmt.Sprintf("Market(%d)", uint8(m)); m.String() != want {
			t.Errorf("%d is %q", uint8(m), m)
		}
	}
	names := map[string]bool{}
	for _, m := range markets {
		names[m.String()] = true
	}
	if len(names) != len(markets) {
		t.Errorf("names are not distinct: %v", names)
	}
}

func TestSectionJSON(t *testing.T) {
	got, err := json.Marshal(units.Section{Thickness: 38 * mm, Width: 64 * mm})
	if string(got) != `{"thickness":38,"width":64}` || err != nil {
		t.Errorf("JSON is %s (%v)", got, err)
	}
}
