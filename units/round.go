package units

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/bits"
)

// Rounding says which multiple of a step a value between two of them becomes. A value that is a
// multiple stays what it is. Rounding is done once, from the exact value.
type Rounding uint8

const (
	// HalfEven goes to the nearer multiple, and from midway to the even one: ISO 80000-1 Annex B
	// rule A. It is the zero value.
	HalfEven Rounding = iota
	// HalfUp goes to the nearer multiple, and from midway to the greater one: ISO 80000-1 Annex B
	// rule B. Greater means towards +infinity: from -2.5 to -2.
	HalfUp
	// Up goes to the next greater multiple, towards +infinity: from -2.5 to -2.
	Up
	// Down goes to the next smaller multiple, towards -infinity: from -2.5 to -3.
	Down
)

// The errors of arithmetic, for [errors.Is].
var (
	// ErrStep: a step or a divisor is 0 or negative.
	ErrStep = errors.New("step must be greater than 0")
	// ErrRounding: a Rounding is none of the four.
	ErrRounding = errors.New("unknown rounding")
	// ErrRange: an argument or a result lies outside its limits.
	ErrRange = errors.New("out of range")
	// ErrInexact: a value cannot be kept exactly as asked.
	ErrInexact = errors.New("not exact")
)

// String returns the name of the rounding: "half even", "half up", "up" or "down".
func (r Rounding) String() string {
	switch r {
	case HalfEven:
		return "half even"
	case HalfUp:
		return "half up"
	case Up:
		return "up"
	case Down:
		return "down"
	default:
		return fmt.Sprintf("Rounding(%d)", uint8(r))
	}
}

func (r Rounding) check() error {
	if r > Down {
		return fmt.Errorf("units: %v: %w", r, ErrRounding)
	}
	return nil
}

// greater says whether a value between two multiples becomes the greater of them. half is its
// place against midway (-1 below, 0 midway, 1 above); odd says whether the smaller multiple is an
// odd one.
func (r Rounding) greater(half int, odd bool) bool {
	switch r {
	case Up:
		return true
	case Down:
		return false
	case HalfUp:
		return half >= 0
	default:
		return half > 0 || half == 0 && odd
	}
}

// Round returns the multiple of step that l becomes under the rounding. Negative lengths follow
// the direction of the number line, as [Rounding] says. The error is [ErrStep] for a step of 0 or
// less, [ErrRounding] for an unknown rounding, and [ErrRange] when the multiple does not fit an
// int64: nothing is cut off at the end of the range.
func (l Length) Round(step Length, mode Rounding) (Length, error) {
	if step <= 0 {
		return 0, fmt.Errorf("units: round to %v: %w", step, ErrStep)
	}
	if err := mode.check(); err != nil {
		return 0, err
	}
	count, over := l/step, l%step // l = count·step + over, 0 <= over < step
	if over < 0 {
		count, over = count-1, over+step
	}
	if over == 0 {
		return l, nil
	}
	under := step - over // the way up; comparing it with over is a test for midway that cannot wrap
	if mode.greater(cmp.Compare(over, under), count%2 != 0) {
		if l > math.MaxInt64-under {
			return 0, fmt.Errorf("units: round %v up to %v: %w", l, step, ErrRange)
		}
		return l + under, nil
	}
	if l < math.MinInt64+over {
		return 0, fmt.Errorf("units: round %v down to %v: %w", l, step, ErrRange)
	}
	return l - over, nil
}

// MulDiv returns l·num/den, rounded once to a whole nanometre. The product is exact, in 128 bits.
// The error is [ErrStep] for a divisor of 0 or less, [ErrRounding] for an unknown rounding, and
// [ErrRange] when the result does not fit an int64.
func (l Length) MulDiv(num, den int64, mode Rounding) (Length, error) {
	if den <= 0 {
		return 0, fmt.Errorf("units: divide by %d: %w", den, ErrStep)
	}
	if err := mode.check(); err != nil {
		return 0, err
	}
	d := uint64(den)
	negative := (l < 0) != (num < 0)
	hi, lo := bits.Mul64(magnitude(int64(l)), magnitude(num))
	if hi >= d {
		return 0, fmt.Errorf("units: %v times %d/%d: %w", l, num, den, ErrRange)
	}
	q, over := bits.Div64(hi, lo, d)
	if over > 0 {
		// Away from zero is up for a positive result and down for a negative one. Seen from the
		// smaller neighbour, the place against midway of a negative result is mirrored.
		half, odd := cmp.Compare(over, d-over), q%2 == 1
		if negative {
			half, odd = -half, !odd
		}
		if mode.greater(half, odd) != negative {
			if q++; q == 0 {
				return 0, fmt.Errorf("units: %v times %d/%d: %w", l, num, den, ErrRange)
			}
		}
	}
	switch {
	case !negative && q <= math.MaxInt64:
		return Length(q), nil
	case negative && q <= 1<<63:
		return Length(-q), nil
	default:
		return 0, fmt.Errorf("units: %v times %d/%d: %w", l, num, den, ErrRange)
	}
}

// magnitude returns |n|, that of the smallest int64 too.
func magnitude(n int64) uint64 {
	if n < 0 {
		return -uint64(n)
	}
	return uint64(n)
}
