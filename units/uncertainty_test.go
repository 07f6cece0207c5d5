package units_test

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestRootSumSquaresReference(t *testing.T) {
	table.Each(t, "units_uncertainty.csv", func(t *testing.T, r row) {
		var parts []units.Length
		for _, s := range strings.Fields(r["parts"]) {
			parts = append(parts, length(t, s))
		}
		root, err := units.RootSumSquares(parts...)
		if err != nil {
			t.Fatal(err)
		}
		// the source prints fewer digits
		got, err := root.Round(length(t, r["step"]), units.HalfEven)
		if want := length(t, r["expected"]); err != nil || got != want {
			t.Errorf("%s is %v, printed %v (%v), want %v", r["parts"], root, got, err, want)
		}
	})
}

func TestRootSumSquaresRoundsUp(t *testing.T) {
	for _, c := range []struct {
		parts []units.Length
		want  units.Length
	}{
		{nil, 0},
		{[]units.Length{0, 0}, 0},
		{[]units.Length{1}, 1},
		{[]units.Length{-1}, 1},
		{[]units.Length{1, 1}, 2}, // 1.41
		{[]units.Length{3, -4}, 5},
		{[]units.Length{3, 4, 1}, 6}, // 5.1
		{[]units.Length{units.MaxLength}, units.MaxLength},
		{[]units.Length{-units.MaxLength}, units.MaxLength},
		{slices.Repeat([]units.Length{units.MaxLength}, units.MaxPieces), 100 * units.MaxLength},
	} {
		if got, err := units.RootSumSquares(c.parts...); err != nil || got != c.want {
			t.Errorf("%d parts: %v (%v), want %v", len(c.parts), got, err, c.want)
		}
	}
	for _, parts := range [][]units.Length{
		{units.MaxLength + 1},
		{-units.MaxLength - 1},
		{0, math.MinInt64},
		{0, math.MaxInt64},
		make([]units.Length, units.MaxPieces+1),
	} {
		if got, err := units.RootSumSquares(parts...); got != 0 || !errors.Is(err, units.ErrRange) {
			t.Errorf("%d parts: %v, %v, want ErrRange", len(parts), got, err)
		}
	}
}

// The root is the least length whose square is not less than the sum.
func TestRootSumSquaresIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOfN(rapid.Int64Range(int64(-units.MaxLength), int64(units.MaxLength)), 1, 20).Draw(t, "parts")
		lengths := make([]units.Length, len(parts))
		sum := new(big.Int)
		for i, p := range parts {
			lengths[i] = units.Length(p)
			sum.Add(sum, new(big.Int).Mul(big.NewInt(p), big.NewInt(p)))
		}
		got, err := units.RootSumSquares(lengths...)
		if err != nil {
			t.Fatal(err)
		}
		square := func(l units.Length) *big.Int { return new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(int64(l))) }
		if square(got).Cmp(sum) < 0 || got > 0 && square(got-1).Cmp(sum) >= 0 {
			t.Fatalf("the root of %v is not %d", sum, int64(got))
		}
	})
}
