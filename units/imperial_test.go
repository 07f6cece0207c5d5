package units_test

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestImperialReference(t *testing.T) {
	table.Each(t, "units_imperial.csv", func(t *testing.T, r row) {
		denominator, err := strconv.Atoi(r["denominator"])
		if err != nil {
			t.Fatal(err)
		}
		l := length(t, r["length"])
		got, err := l.Imperial(denominator, rounding(t, r["mode"]))
		if err != nil {
			t.Fatal(err)
		}
		if s := got.InchString(); s != r["inches"] {
			t.Errorf("inches %s, want %s", s, r["inches"])
		}
		if s := got.String(); s != r["feet"] {
			t.Errorf("feet and inches %s, want %s", s, r["feet"])
		}
		if want := length(t, r["error"]); got.Error() != want || got.Length() != l+want {
			t.Errorf("%v with an error of %v, want %v", got.Length(), got.Error(), want)
		}
	})
}

func TestImperialRefused(t *testing.T) {
	for _, denominator := range []int{math.MinInt, -2, -1, 0, 1, 3, 5, 6, 10, 12, 63, 65, 100, 128, math.MaxInt} {
		if got, err := units.Metre.Imperial(denominator, units.HalfEven); got != (units.Imperial{}) || !errors.Is(err, units.ErrDenominator) {
			t.Errorf("1/%d: %v, %v", denominator, got, err)
		}
	}
	if got, err := units.Metre.Imperial(2, 9); got != (units.Imperial{}) || !errors.Is(err, units.ErrRounding) {
		t.Errorf("unknown rounding: %v, %v", got, err)
	}
	if got, err := units.Length(math.MaxInt64).Imperial(2, units.Up); got != (units.Imperial{}) || !errors.Is(err, units.ErrRange) {
		t.Errorf("the longest: %v, %v", got, err)
	}
}

func TestImperialForms(t *testing.T) {
	for _, c := range []struct {
		l            units.Length
		inches, feet string
	}{
		{units.Inch / 64, `1/64"`, `1/64"`},
		{-units.Inch / 64, `-1/64"`, `-1/64"`},
		{units.Inch, `1"`, `1"`},
		{units.Inch * 5 / 4, `1 1/4"`, `1 1/4"`},
		{11 * units.Inch, `11"`, `11"`},
		{units.Foot - units.Inch/32, `11 31/32"`, `11 31/32"`},
		{units.Foot, `12"`, `1' 0"`},
		{units.Foot + units.Inch/2, `12 1/2"`, `1' 0 1/2"`},
		{2*units.Foot + units.Inch, `25"`, `2' 1"`},
		{-units.Foot - units.Inch/2, `-12 1/2"`, `-1' 0 1/2"`},
		{328 * units.Foot, `3936"`, `328' 0"`},
	} {
		got, err := c.l.Imperial(64, units.HalfEven)
		if err != nil || got.InchString() != c.inches || got.String() != c.feet || got.Length() != c.l || got.Error() != 0 {
			t.Errorf("%v is %s, %s (%v), want %s, %s", c.l, got.InchString(), got, err, c.inches, c.feet)
		}
	}
}

var lowestTerms = regexp.MustCompile(`^-?([0-9]+' )?([0-9]+|([0-9]+ )?[0-9]*[13579]/(2|4|8|16|32|64))"$`)

func propImperial(t *rapid.T) {
	// the longest length that rounds within MaxLength
	most := int64(units.MaxLength - units.Inch)
	l := units.Length(rapid.OneOf(rapid.Int64Range(-most, most), rapid.Int64Range(-int64(2*units.Foot), int64(2*units.Foot))).Draw(t, "l"))
	denominator := rapid.SampledFrom([]int{2, 4, 8, 16, 32, 64}).Draw(t, "denominator")
	mode := anyMode().Draw(t, "mode")
	got, err := l.Imperial(denominator, mode)
	if err != nil {
		t.Fatal(err)
	}
	step := units.Inch / units.Length(denominator)
	want, err := l.Round(step, mode)
	if err != nil || got.Length() != want || got.Error() != want-l {
		t.Fatalf("%v with an error of %v, want %v (%v)", got.Length(), got.Error(), want, err)
	}
	for _, s := range []string{got.String(), got.InchString()} {
		if back, err := units.ParseSigned(s); err != nil || back != want {
			t.Fatalf("%s reads as %v (%v), want %v", s, back, err, want)
		}
		if !lowestTerms.MatchString(s) {
			t.Fatalf("%s is not in lowest terms", s)
		}
	}
}

func TestImperial(t *testing.T) { rapid.Check(t, propImperial) }

func FuzzImperial(f *testing.F) { f.Fuzz(rapid.MakeFuzz(propImperial)) }
