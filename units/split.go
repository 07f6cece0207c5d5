package units

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/bits"
	"slices"
)

// ErrShares: the shares of a split are negative, all 0, or sum to more than an int64 holds.
var ErrShares = errors.New("shares must not be negative and their sum must be greater than 0")

// Split parts total into n lengths that sum to it exactly, the larger first; they differ by 1 nm
// at most. 100 mm in three are 33.333334, 33.333333 and 33.333333 mm.
//
// The error is [ErrRange] for a negative total and for n outside 1 to [MaxPieces].
func Split(total Length, n int) ([]Length, error) {
	return SplitStep(total, n, Nanometre)
}

// SplitStep parts total into n lengths that are whole steps and sum to it exactly, the larger
// first; they differ by one step at most. 131 mm in two steps of 1 mm are 66 and 65 mm.
//
// The error is [ErrRange] for a negative total and for n outside 1 to [MaxPieces], [ErrStep] for a
// step of 0 or less, and [ErrInexact] for a total that is not whole steps.
func SplitStep(total Length, n int, step Length) ([]Length, error) {
	steps, err := countSteps(total, n, step)
	if err != nil {
		return nil, err
	}
	each, more := steps/int64(n), steps%int64(n)
	parts := make([]Length, n)
	for i := range parts {
		count := each
		if int64(i) < more {
			count++
		}
		parts[i] = Length(count) * step
	}
	return parts, nil
}

// SplitShares parts total into lengths in proportion to shares, which are whole steps and sum to
// it exactly. Each gets the whole steps of its exact part; the steps left over go one each to the
// largest remainders, of equal remainders to the earlier share. A share of 0 gets nothing.
//
// The error is [ErrRange] for a negative total and for a number of shares outside 1 to
// [MaxPieces], [ErrStep] for a step of 0 or less, [ErrInexact] for a total that is not whole steps,
// and [ErrShares] for a negative share, for shares that are all 0, and for shares whose sum does
// not fit an int64.
func SplitShares(total, step Length, shares []int64) ([]Length, error) {
	steps, err := countSteps(total, len(shares), step)
	if err != nil {
		return nil, err
	}
	var sum int64
	for _, s := range shares {
		if s < 0 || s > math.MaxInt64-sum {
			return nil, fmt.Errorf("units: share of %d: %w", s, ErrShares)
		}
		sum += s
	}
	if sum == 0 {
		return nil, fmt.Errorf("units: shares sum to 0: %w", ErrShares)
	}
	parts := make([]Length, len(shares))
	remainders := make([]uint64, len(shares))
	order := make([]int, len(shares))
	left := steps
	for i, s := range shares {
		hi, lo := bits.Mul64(uint64(steps), uint64(s))
		count, remainder := bits.Div64(hi, lo, uint64(sum)) // hi < sum, as s <= sum and steps < 2^63
		parts[i] = Length(count) * step
		remainders[i] = remainder
		order[i] = i
		left -= int64(count)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(remainders[b], remainders[a])
	})
	for _, i := range order[:left] {
		parts[i] += step
	}
	return parts, nil
}

// countSteps checks what every split is given and returns total in steps.
func countSteps(total Length, n int, step Length) (int64, error) {
	switch {
	case total < 0:
		return 0, fmt.Errorf("units: split %v: %w", total, ErrRange)
	case n < 1 || n > MaxPieces:
		return 0, fmt.Errorf("units: split into %d parts: %w", n, ErrRange)
	case step <= 0:
		return 0, fmt.Errorf("units: split into steps of %v: %w", step, ErrStep)
	case total%step != 0:
		return 0, fmt.Errorf("units: split %v into steps of %v: %w", total, step, ErrInexact)
	}
	return int64(total / step), nil
}
