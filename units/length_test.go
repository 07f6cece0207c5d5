package units_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestUnits(t *testing.T) {
	for _, c := range []struct {
		name string
		unit units.Length
		nm   int64
	}{
		{"nanometre", units.Nanometre, 1},
		{"micrometre", units.Micrometre, 1_000},
		{"millimetre", units.Millimetre, 1_000_000},
		{"centimetre", units.Centimetre, 10_000_000},
		{"metre", units.Metre, 1_000_000_000},
		{"inch", units.Inch, 25_400_000},
		{"foot", units.Foot, 304_800_000},
		{"most", units.MaxLength, 100_000_000_000},
	} {
		if int64(c.unit) != c.nm {
			t.Errorf("%s is %d nm, want %d", c.name, int64(c.unit), c.nm)
		}
	}
	if units.MaxLength > math.MaxInt64/units.MaxPieces {
		t.Error("a sum of MaxPieces lengths of MaxLength can wrap")
	}
}

func TestMillimetres(t *testing.T) {
	for _, c := range []struct {
		l    units.Length
		want string
	}{
		{0, "0"},
		{1, "0.000001"},
		{-1, "-0.000001"},
		{10, "0.00001"},
		{999_999, "0.999999"},
		{1_000_000, "1"},
		{1_000_001, "1.000001"},
		{100_000, "0.1"},
		{101_000, "0.101"},
		{2400 * units.Millimetre, "2400"},
		{66_666_667, "66.666667"},
		{-3 * units.Millimetre, "-3"},
		{-2_500_000, "-2.5"},
		{math.MaxInt64, "9223372036854.775807"},
		{math.MinInt64, "-9223372036854.775808"},
	} {
		if got := c.l.Millimetres(); got != c.want {
			t.Errorf("%d nm is %q, want %q", int64(c.l), got, c.want)
		}
		if got := string(c.l.AppendMillimetres([]byte("x"))); got != "x"+c.want {
			t.Errorf("%d nm appended is %q, want %q", int64(c.l), got, "x"+c.want)
		}
		if got := c.l.String(); got != c.want+" mm" {
			t.Errorf("%d nm is %q, want %q", int64(c.l), got, c.want+" mm")
		}
		if got, err := c.l.MarshalText(); string(got) != c.want+" mm" || err != nil {
			t.Errorf("%d nm is %q (%v), want %q", int64(c.l), got, err, c.want+" mm")
		}
		if got, err := c.l.AppendText([]byte("x")); string(got) != "x"+c.want+" mm" || err != nil {
			t.Errorf("%d nm appended is %q (%v), want %q", int64(c.l), got, err, "x"+c.want+" mm")
		}
		if got, err := json.Marshal(c.l); string(got) != c.want || err != nil {
			t.Errorf("%d nm in JSON is %s (%v), want %s", int64(c.l), got, err, c.want)
		}
	}
}

func TestAbs(t *testing.T) {
	for l, want := range map[units.Length]units.Length{
		0: 0, 1: 1, -1: 1, 3 * mm: 3 * mm, -3 * mm: 3 * mm,
		math.MaxInt64: math.MaxInt64, -math.MaxInt64: math.MaxInt64, math.MinInt64: math.MaxInt64,
	} {
		if got := l.Abs(); got != want {
			t.Errorf("%d without its sign is %d, want %d", int64(l), int64(got), int64(want))
		}
	}
}

// Every length that may be read is written and read back, as text and as JSON.
func TestLengthRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := units.Length(rapid.Int64Range(int64(-units.MaxLength), int64(units.MaxLength)).Draw(t, "l"))
		var fromText, fromJSON, fromString units.Length
		text, _ := l.MarshalText()
		if err := fromText.UnmarshalText(text); err != nil || fromText != l {
			t.Fatalf("%s reads as %v (%v)", text, fromText, err)
		}
		number, _ := json.Marshal(l)
		if err := json.Unmarshal(number, &fromJSON); err != nil || fromJSON != l {
			t.Fatalf("%s reads as %v (%v)", number, fromJSON, err)
		}
		quoted, _ := json.Marshal(l.String())
		if err := json.Unmarshal(quoted, &fromString); err != nil || fromString != l {
			t.Fatalf("%s reads as %v (%v)", quoted, fromString, err)
		}
		want, _ := new(big.Rat).SetString(l.Millimetres())
		if want.Mul(want, big.NewRat(1_000_000, 1)); want.Cmp(new(big.Rat).SetInt64(int64(l))) != 0 {
			t.Fatalf("%d nm is written as %s mm", int64(l), l.Millimetres())
		}
	})
}

func TestLengthFromJSON(t *testing.T) {
	for _, c := range []struct {
		json string
		want units.Length
	}{
		{"2400", 2400 * units.Millimetre},
		{"2400.3", 24003 * units.Millimetre / 10},
		{"-3", -3 * units.Millimetre},
		{"0", 0},
		{`"2400"`, 2400 * units.Millimetre},
		{`"2.4 m"`, 2400 * units.Millimetre},
		{`"7' 10 1/2\""`, 24003 * units.Millimetre / 10},
		{`"-1/2 in"`, -units.Inch / 2},
		{" 5 ", 5 * units.Millimetre},
		{"100000", units.MaxLength},
		{"-100000", -units.MaxLength},
	} {
		var got units.Length
		if err := got.UnmarshalJSON([]byte(c.json)); err != nil || got != c.want {
			t.Errorf("%s is %v (%v), want %v", c.json, got, err, c.want)
		}
	}
}

func TestLengthFromJSONRefused(t *testing.T) {
	for _, c := range []struct{ json, reason string }{
		{"null", "must be a JSON number or string"},
		{"true", "must be a JSON number or string"},
		{"[1]", "must be a JSON number or string"},
		{"{}", "must be a JSON number or string"},
		{"", "not JSON"},
		{"5 mm", "not JSON"},
		{"007", "not JSON"},
		{`"5`, "not JSON"},
		{"1e3", "exponent"},
		{"1E3", "exponent"},
		{"100000.000001", "longer than 100 m"},
		{"-100000.000001", "longer than 100 m"},
		{"0.0000001", "not a whole number of nanometres"},
		{`"2,400"`, "comma"},
		{`""`, "nothing to read"},
		{`"1/3 in"`, "halves"},
	} {
		got := 7 * units.Millimetre
		err := got.UnmarshalJSON([]byte(c.json))
		var parse *units.ParseError
		if !errors.As(err, &parse) || !strings.Contains(err.Error(), c.reason) {
			t.Errorf("%s: error %v, want %q", c.json, err, c.reason)
		}
		if got != 7*units.Millimetre {
			t.Errorf("%s: a failed read left %v", c.json, got)
		}
	}
	got := 7 * units.Millimetre
	if err := got.UnmarshalText([]byte("5 inches")); err == nil || got != 7*units.Millimetre {
		t.Errorf("a failed read left %v (%v)", got, err)
	}
	for _, in := range []string{`[null]`, `["5",null]`} {
		var into []units.Length
		if err := json.Unmarshal([]byte(in), &into); err == nil {
			t.Errorf("%s was read as %v", in, into)
		}
	}
}

// The zero values mean what their types say.
func TestZeroValues(t *testing.T) {
	var (
		l    units.Length
		span units.Span
		inch units.Imperial
		mode units.Rounding
		m    units.Market
		cash units.Money
		area units.Area
		mass units.Mass
	)
	for _, c := range []struct{ name, got, want string }{
		{"Length", l.String(), "0 mm"},
		{"Span", span.String(), "0 mm"},
		{"Imperial", inch.String(), `0"`},
		{"Imperial inches", inch.InchString(), `0"`},
		{"Imperial length", inch.Length().String(), "0 mm"},
		{"Imperial error", inch.Error().String(), "0 mm"},
		{"Rounding", mode.String(), "half even"},
		{"Market", m.String(), "Market(0)"},
		{"Money", cash.String(), "0"},
		{"Area", area.String(), "0 m²"},
		{"Mass", mass.String(), "0 kg"},
	} {
		if c.got != c.want {
			t.Errorf("zero %s is %q, want %q", c.name, c.got, c.want)
		}
	}
	if err := span.Validate(); err != nil {
		t.Errorf("zero Span: %v", err)
	}
	if !span.Contains(0) || span.Contains(1) || span.Contains(-1) {
		t.Error("zero Span is not the span of 0 alone")
	}
	if _, err := units.Nominal(m, "2x3"); !errors.Is(err, units.ErrMarket) {
		t.Errorf("zero Market: %v", err)
	}
	if !cash.IsZero() || !cash.Equal(units.MustMoney("0.00")) || !mass.Equal(units.MustMass("0.0")) || !area.Equal(units.AreaOf(0, units.Metre)) {
		t.Error("a zero value is not 0")
	}
	if line, err := json.Marshal(units.Line{}); string(line) != `{"what":"","sum":"","is":""}` || err != nil {
		t.Errorf("zero Line is %s (%v)", line, err)
	}
}
