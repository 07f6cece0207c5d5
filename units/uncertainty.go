package units

import (
	"fmt"
	"math/bits"
)

// RootSumSquares returns the root of the sum of the squares of the parts, rounded up to a whole
// nanometre: how independent uncertainties combine (JCGM 100:2008, 5.1), on the safe side. The
// sign of a part does not matter. No parts give 0.
//
// The sum is exact. The error is [ErrRange] for more than [MaxPieces] parts and for a part beyond
// ±[MaxLength].
func RootSumSquares(parts ...Length) (Length, error) {
	if len(parts) > MaxPieces {
		return 0, fmt.Errorf("units: root of the squares of %d parts: %w", len(parts), ErrRange)
	}
	var sumHi, sumLo, carry uint64
	for _, p := range parts {
		if p < -MaxLength || p > MaxLength {
			return 0, fmt.Errorf("units: root of the squares of %v: %w", p, ErrRange)
		}
		hi, lo := bits.Mul64(magnitude(int64(p)), magnitude(int64(p)))
		sumLo, carry = bits.Add64(sumLo, lo, 0)
		sumHi, _ = bits.Add64(sumHi, hi, carry)
	}
	// The root is at most √MaxPieces times the greatest part, 10^13 < 2^44. It is built from the
	// highest bit down: below is the greatest number whose square is less than the sum.
	var below uint64
	for bit := uint64(1) << 43; bit > 0; bit >>= 1 {
		hi, lo := bits.Mul64(below+bit, below+bit)
		if hi < sumHi || hi == sumHi && lo < sumLo {
			below += bit
		}
	}
	if sumHi == 0 && sumLo == 0 {
		return 0, nil
	}
	return Length(below + 1), nil
}
