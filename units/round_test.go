package units_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestRoundReference(t *testing.T) {
	table.Each(t, "units_rounding.csv", func(t *testing.T, r row) {
		got, err := length(t, r["value"]).Round(length(t, r["step"]), rounding(t, r["mode"]))
		if want := length(t, r["expected"]); err != nil || got != want {
			t.Errorf("%s to %s %s is %v (%v), want %v", r["value"], r["step"], r["mode"], got, err, want)
		}
	})
}

func TestRoundAtTheEnds(t *testing.T) {
	const most, least = units.Length(math.MaxInt64), units.Length(math.MinInt64)
	for _, c := range []struct {
		l, step units.Length
		mode    units.Rounding
		want    units.Length
		err     error
	}{
		{most, 1, units.Up, most, nil},
		{least, 1, units.Down, least, nil},
		{most, most, units.Up, most, nil},
		{-most, most, units.Down, -most, nil},
		{most - 1, 7, units.Up, most, nil}, // 2^63-1 is a multiple of 7
		{most, 2, units.Down, most - 1, nil},
		{most, 2, units.Up, 0, units.ErrRange},
		{most, 2, units.HalfUp, 0, units.ErrRange},
		{most, 2, units.HalfEven, 0, units.ErrRange}, // (2^63-1)/2 is midway between 2^62-1, odd, and 2^62
		{most - 1, 2, units.Up, most - 1, nil},
		{most, 3, units.Up, 0, units.ErrRange}, // 2^63-1 is 1 more than a multiple of 3
		{most, 3, units.HalfEven, most - 1, nil},
		{least, 2, units.Down, least, nil},
		{least + 1, 2, units.Down, least, nil},
		{least, 3, units.Down, 0, units.ErrRange}, // 2^63 is 2 more than a multiple of 3
		{least, 3, units.Up, least + 2, nil},
		{least, most, units.Up, -most, nil},
		{least, most, units.Down, 0, units.ErrRange},
		{least, most, units.HalfEven, -most, nil},
		{1, most, units.HalfUp, 0, nil},
		{most/2 + 1, most, units.HalfEven, most, nil},
		{most / 2, most, units.HalfUp, 0, nil},
		{-1, most, units.Down, -most, nil},
	} {
		got, err := c.l.Round(c.step, c.mode)
		if !errors.Is(err, c.err) {
			t.Errorf("%d to %d %v: error %v, want %v", c.l, c.step, c.mode, err, c.err)
		}
		if c.err == nil && got != c.want || c.err != nil && got != 0 {
			t.Errorf("%d to %d %v is %d, want %d", c.l, c.step, c.mode, got, c.want)
		}
	}
}

func TestRoundRefused(t *testing.T) {
	for _, step := range []units.Length{0, -1, math.MinInt64} {
		if got, err := units.Metre.Round(step, units.HalfEven); got != 0 || !errors.Is(err, units.ErrStep) {
			t.Errorf("step %d: %v, %v", int64(step), got, err)
		}
	}
	for _, mode := range []units.Rounding{units.Down + 1, 255} {
		if got, err := units.Metre.Round(1, mode); got != 0 || !errors.Is(err, units.ErrRounding) {
			t.Errorf("%v: %v, %v", mode, got, err)
		}
		if got, err := units.Metre.MulDiv(1, 1, mode); got != 0 || !errors.Is(err, units.ErrRounding) {
			t.Errorf("%v: %v, %v", mode, got, err)
		}
	}
	for _, den := range []int64{0, -1, math.MinInt64} {
		if got, err := units.Metre.MulDiv(1, den, units.HalfEven); got != 0 || !errors.Is(err, units.ErrStep) {
			t.Errorf("divide by %d: %v, %v", den, got, err)
		}
	}
}

func TestRoundingNames(t *testing.T) {
	for mode, want := range map[units.Rounding]string{
		units.HalfEven: "half even", units.HalfUp: "half up", units.Up: "up", units.Down: "down", 4: "Rounding(4)", 255: "Rounding(255)",
	} {
		if got := mode.String(); got != want {
			t.Errorf("%d is %q, want %q", uint8(mode), got, want)
		}
	}
}

// slowRound returns the whole number that n/d becomes, d > 0, by the words of the rule: it looks at
// both neighbours and how far they are.
func slowRound(n, d *big.Int, mode units.Rounding) *big.Int {
	value := new(big.Rat).SetFrac(n, d)
	lower := new(big.Int).Div(n, d) // Euclidean: towards -infinity for d > 0
	if value.IsInt() {
		return lower
	}
	upper := new(big.Int).Add(lower, big.NewInt(1))
	toLower := new(big.Rat).Sub(value, new(big.Rat).SetInt(lower))
	toUpper := new(big.Rat).Sub(new(big.Rat).SetInt(upper), value)
	near := toLower.Cmp(toUpper)
	switch {
	case mode == units.Down, mode != units.Up && near < 0:
		return lower
	case mode == units.Up, near > 0, mode == units.HalfUp:
		return upper
	case new(big.Int).Rem(lower, big.NewInt(2)).Sign() == 0:
		return lower
	default:
		return upper
	}
}

// anyInt64 draws from all of int64, with its ends and small numbers often among them.
func anyInt64() *rapid.Generator[int64] {
	return rapid.OneOf(
		rapid.Int64(),
		rapid.Int64Range(-100, 100),
		rapid.Int64Range(math.MaxInt64-3, math.MaxInt64),
		rapid.Int64Range(math.MinInt64, math.MinInt64+3),
		rapid.Custom(func(t *rapid.T) int64 { return rapid.Int64Range(-1000, 1000).Draw(t, "halves") * 500_000 }),
	)
}

func anyMode() *rapid.Generator[units.Rounding] { return rapid.SampledFrom(modes) }

func propRound(t *rapid.T) {
	l := units.Length(anyInt64().Draw(t, "l"))
	step := units.Length(rapid.OneOf(
		rapid.Int64Range(1, 10),
		rapid.Int64Range(1, math.MaxInt64),
		rapid.SampledFrom([]int64{1_000_000, 2_000_000, 3_000_000, 10_000_000, 396_875, math.MaxInt64}),
	).Draw(t, "step"))
	mode := anyMode().Draw(t, "mode")
	want := slowRound(big.NewInt(int64(l)), big.NewInt(int64(step)), mode)
	compareBig(t, want.Mul(want, big.NewInt(int64(step))))(l.Round(step, mode))

	num := anyInt64().Draw(t, "num")
	den := rapid.OneOf(rapid.Int64Range(1, 12), rapid.Int64Range(1, math.MaxInt64)).Draw(t, "den")
	product := new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(num))
	compareBig(t, slowRound(product, big.NewInt(den), mode))(l.MulDiv(num, den, mode))
}

// compareBig fails unless the result is want, or ErrRange where want does not fit an int64.
func compareBig(t *rapid.T, want *big.Int) func(units.Length, error) {
	return func(got units.Length, err error) {
		t.Helper()
		switch {
		case want.IsInt64() && (err != nil || int64(got) != want.Int64()):
			t.Fatalf("%d (%v), want %v", int64(got), err, want)
		case !want.IsInt64() && (got != 0 || !errors.Is(err, units.ErrRange)):
			t.Fatalf("%d (%v), want ErrRange for %v", int64(got), err, want)
		}
	}
}

func TestRoundAgainstRationals(t *testing.T) { rapid.Check(t, propRound) }

func FuzzRound(f *testing.F) { f.Fuzz(rapid.MakeFuzz(propRound)) }

func TestMulDiv(t *testing.T) {
	const most, least = units.Length(math.MaxInt64), units.Length(math.MinInt64)
	for _, c := range []struct {
		l        units.Length
		num, den int64
		mode     units.Rounding
		want     units.Length
		err      error
	}{
		// a door of 650 on a wall that leans 10 in 2300 is raised 2.83 mm
		{650 * units.Millimetre, 10, 2300, units.HalfEven, 2_826_087, nil},
		{3, 1, 2, units.HalfEven, 2, nil},
		{5, 1, 2, units.HalfEven, 2, nil},
		{5, 1, 2, units.HalfUp, 3, nil},
		{5, 1, 2, units.Up, 3, nil},
		{5, 1, 2, units.Down, 2, nil},
		{-5, 1, 2, units.HalfEven, -2, nil},
		{-3, 1, 2, units.HalfEven, -2, nil},
		{-5, 1, 2, units.HalfUp, -2, nil},
		{-5, 1, 2, units.Up, -2, nil},
		{-5, 1, 2, units.Down, -3, nil},
		{5, -1, 2, units.Down, -3, nil},
		{-5, -1, 2, units.Down, 2, nil},
		{-7, 1, 3, units.HalfEven, -2, nil},
		{-8, 1, 3, units.HalfEven, -3, nil},
		{6, -1, 3, units.Down, -2, nil},
		{0, -1, 3, units.Down, 0, nil},
		{most, math.MaxInt64, math.MaxInt64, units.HalfEven, most, nil},
		{least, math.MaxInt64, math.MaxInt64, units.HalfEven, least, nil},
		{least, math.MinInt64, math.MaxInt64, units.Down, 0, units.ErrRange},
		{least, -1, 1, units.HalfEven, 0, units.ErrRange},
		{least, 1, 1, units.HalfEven, least, nil},
		{most, 2, 1, units.HalfEven, 0, units.ErrRange},
		{most, 4, 1, units.HalfEven, 0, units.ErrRange},
		{least, 2, 1, units.HalfEven, 0, units.ErrRange},
		{most, 2, 2, units.HalfEven, most, nil},
		{math.MaxInt64 - 1, 3, 3, units.HalfEven, math.MaxInt64 - 1, nil},
		{145_295_143_558_111, 253_921, 2, units.Down, 0, units.ErrRange}, // (2^65-1)/2 is midway between 2^64-1 and 2^64
		{145_295_143_558_111, 253_921, 2, units.Up, 0, units.ErrRange},
		{-145_295_143_558_111, 253_921, 2, units.Down, 0, units.ErrRange},
		{1 << 62, 4, 2, units.Down, 0, units.ErrRange},
		{1 << 62, -4, 2, units.Down, least, nil},
	} {
		got, err := c.l.MulDiv(c.num, c.den, c.mode)
		if !errors.Is(err, c.err) || got != c.want {
			t.Errorf("%d·%d/%d %v is %d (%v), want %d (%v)", c.l, c.num, c.den, c.mode, got, err, c.want, c.err)
		}
	}
}
