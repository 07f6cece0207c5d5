package units_test

import (
	"errors"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestSplitReference(t *testing.T) {
	table.Each(t, "units_split.csv", func(t *testing.T, r row) {
		var shares []int64
		equal := true
		for _, s := range strings.Fields(r["shares"]) {
			n, err := strconv.ParseInt(s, 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			shares = append(shares, n)
			equal = equal && n == shares[0]
		}
		var want []units.Length
		for _, s := range strings.Fields(r["expected"]) {
			want = append(want, length(t, s))
		}
		total, step := length(t, r["total"]), length(t, r["step"])
		got, err := units.SplitShares(total, step, shares)
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("by shares: %v (%v), want %v", got, err, want)
		}
		if !equal {
			return
		}
		if got, err := units.SplitStep(total, len(shares), step); err != nil || !slices.Equal(got, want) {
			t.Errorf("to a step: %v (%v), want %v", got, err, want)
		}
		if got, err := units.Split(total, len(shares)); step == units.Nanometre && (err != nil || !slices.Equal(got, want)) {
			t.Errorf("equal: %v (%v), want %v", got, err, want)
		}
	})
}

func TestSplitRefused(t *testing.T) {
	const mm = units.Millimetre
	for _, c := range []struct {
		name  string
		total units.Length
		n     int
		step  units.Length
		err   error
	}{
		{"negative total", -1, 2, 1, units.ErrRange},
		{"no parts", mm, 0, 1, units.ErrRange},
		{"minus one part", mm, -1, 1, units.ErrRange},
		{"too many parts", mm, units.MaxPieces + 1, 1, units.ErrRange},
		{"far too many parts", mm, math.MaxInt, 1, units.ErrRange},
		{"no step", mm, 2, 0, units.ErrStep},
		{"negative step", mm, 2, -mm, units.ErrStep},
		{"not whole steps", mm + 1, 2, mm, units.ErrInexact},
		{"less than a step", mm - 1, 2, mm, units.ErrInexact},
	} {
		if parts, err := units.SplitStep(c.total, c.n, c.step); parts != nil || !errors.Is(err, c.err) {
			t.Errorf("%s: %v, %v, want %v", c.name, parts, err, c.err)
		}
		if c.n < 0 || c.n > units.MaxPieces+1 {
			continue // no list of shares is that long
		}
		if parts, err := units.SplitShares(c.total, c.step, slices.Repeat([]int64{1}, c.n)); parts != nil || !errors.Is(err, c.err) {
			t.Errorf("%s by shares: %v, %v, want %v", c.name, parts, err, c.err)
		}
		if c.step != 1 {
			continue
		}
		if parts, err := units.Split(c.total, c.n); parts != nil || !errors.Is(err, c.err) {
			t.Errorf("%s equally: %v, %v, want %v", c.name, parts, err, c.err)
		}
	}
	for _, shares := range [][]int64{
		{0}, {0, 0}, {-1, 2}, {2, -1}, {math.MinInt64},
		{math.MaxInt64, 1}, {1, math.MaxInt64}, {math.MaxInt64, math.MaxInt64},
	} {
		if parts, err := units.SplitShares(mm, 1, shares); parts != nil || !errors.Is(err, units.ErrShares) {
			t.Errorf("shares %v: %v, %v, want ErrShares", shares, parts, err)
		}
	}
}

func TestSplitLimits(t *testing.T) {
	const most = units.Length(math.MaxInt64)
	if parts, err := units.Split(units.MaxLength, units.MaxPieces); err != nil || len(parts) != units.MaxPieces || parts[0] != units.MaxLength/units.MaxPieces {
		t.Errorf("the most pieces: %d parts (%v)", len(parts), err)
	}
	if parts, err := units.Split(most, 1); err != nil || parts[0] != most {
		t.Errorf("the longest: %v (%v)", parts, err)
	}
	if parts, err := units.SplitShares(most, 1, []int64{math.MaxInt64 - 1, 1}); err != nil || !slices.Equal(parts, []units.Length{most - 1, 1}) {
		t.Errorf("the greatest shares: %v (%v)", parts, err)
	}
	if parts, err := units.SplitShares(most, most, []int64{1, 2}); err != nil || !slices.Equal(parts, []units.Length{0, most}) {
		t.Errorf("one step: %v (%v)", parts, err)
	}
}

func propSplit(t *rapid.T) {
	step := units.Length(rapid.SampledFrom([]int64{1, 2, 3, 500_000, 1_000_000, 396_875}).Draw(t, "step"))
	steps := rapid.OneOf(rapid.Int64Range(0, 50), rapid.Int64Range(0, 2_000_000_000)).Draw(t, "steps")
	total := units.Length(steps) * step
	n := rapid.OneOf(rapid.IntRange(1, 12), rapid.IntRange(1, units.MaxPieces)).Draw(t, "n")

	parts, err := units.SplitStep(total, n, step)
	if err != nil {
		t.Fatal(err)
	}
	checkParts(t, parts, n, total, step)
	if parts[0]-parts[n-1] > step || !slices.IsSortedFunc(parts, func(a, b units.Length) int { return int((b - a) / step) }) {
		t.Fatalf("parts from %v to %v are not the larger first within one step", parts[0], parts[n-1])
	}
	equal, err := units.Split(total, n)
	if err != nil {
		t.Fatal(err)
	}
	checkParts(t, equal, n, total, units.Nanometre)
	if equal[0]-equal[n-1] > 1 {
		t.Fatalf("equal parts from %v to %v", equal[0], equal[n-1])
	}

	shares := rapid.SliceOfN(rapid.OneOf(rapid.Int64Range(0, 5), rapid.Int64Range(0, math.MaxInt64/20)), 1, 12).Draw(t, "shares")
	sum := new(big.Int)
	for _, s := range shares {
		sum.Add(sum, big.NewInt(s))
	}
	byShares, err := units.SplitShares(total, step, shares)
	if sum.Sign() == 0 {
		if byShares != nil || !errors.Is(err, units.ErrShares) {
			t.Fatalf("shares of nothing: %v, %v", byShares, err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	checkParts(t, byShares, len(shares), total, step)
	want := slowShares(steps, sum, shares)
	for i := range byShares {
		if got := int64(byShares[i] / step); got != want[i] {
			t.Fatalf("%d steps by %v: part %d is %d steps, want %d", steps, shares, i, got, want[i])
		}
	}
}

func checkParts(t *rapid.T, parts []units.Length, n int, total, step units.Length) {
	t.Helper()
	if len(parts) != n {
		t.Fatalf("%d parts, want %d", len(parts), n)
	}
	var sum units.Length
	for _, p := range parts {
		if p < 0 || p%step != 0 {
			t.Fatalf("part %v is not whole steps of %v", p, step)
		}
		sum += p
	}
	if sum != total {
		t.Fatalf("the parts sum to %v, want %v", sum, total)
	}
}

// slowShares gives every share its whole steps and then, one step at a time, the next to whoever is
// furthest short of the exact part and has not had one yet.
func slowShares(steps int64, sum *big.Int, shares []int64) []int64 {
	short := make([]*big.Rat, len(shares))
	given := make([]int64, len(shares))
	left := steps
	for i, s := range shares {
		exact := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(steps), big.NewInt(s)), sum)
		whole := new(big.Int).Quo(exact.Num(), exact.Denom())
		given[i] = whole.Int64()
		short[i] = exact.Sub(exact, new(big.Rat).SetInt(whole))
		left -= given[i]
	}
	for ; left > 0; left-- {
		next := 0
		for i := range short {
			if short[i].Cmp(short[next]) > 0 {
				next = i
			}
		}
		given[next]++
		short[next] = new(big.Rat).SetInt64(-1)
	}
	return given
}

func TestSplit(t *testing.T) { rapid.Check(t, propSplit) }

func FuzzSplit(f *testing.F) { f.Fuzz(rapid.MakeFuzz(propSplit)) }

// What a split returns is the caller's: a second split does not see the first.
func TestSplitIsFresh(t *testing.T) {
	first, _ := units.Split(10, 3)
	first[0] = 99
	second, _ := units.Split(10, 3)
	if diff := cmp.Diff([]units.Length{4, 3, 3}, second); diff != "" {
		t.Error(diff)
	}
}
