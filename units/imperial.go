package units

import (
	"errors"
	"fmt"
	"math/bits"
	"strconv"
)

// ErrDenominator: an inch is parted into 2, 4, 8, 16, 32 or 64, and nothing else.
var ErrDenominator = errors.New("denominator must be 2, 4, 8, 16, 32 or 64")

// Imperial is a length rounded to a fraction of an inch, which knows what the rounding did. It is
// made by [Length.Imperial]. The zero value is 0 in, exactly.
type Imperial struct {
	exact   Length
	rounded Length // a multiple of 1/64 in
}

// Imperial rounds the length to a multiple of 1/denominator in. The denominator is 2, 4, 8, 16, 32
// or 64; any other is [ErrDenominator]. The error is [ErrRounding] for an unknown rounding, and
// [ErrRange] when the multiple does not fit an int64.
func (l Length) Imperial(denominator int, mode Rounding) (Imperial, error) {
	switch denominator {
	case 2, 4, 8, 16, 32, 64:
	default:
		return Imperial{}, fmt.Errorf("units: 1/%d in: %w", denominator, ErrDenominator)
	}
	rounded, err := l.Round(Inch/Length(denominator), mode)
	if err != nil {
		return Imperial{}, err
	}
	return Imperial{exact: l, rounded: rounded}, nil
}

// Length returns the rounded length, exactly.
func (i Imperial) Length() Length { return i.rounded }

// Error returns what the rounding added, rounded minus exact: 0.3 mm for 2400 mm as 94 1/2 in.
func (i Imperial) Error() Length { return i.rounded - i.exact }

// InchString returns the rounded length in inches, the fraction in its lowest terms: 94 1/2", 1/4",
// -3". [ParseSigned] reads it back to the same length, within ±[MaxLength].
func (i Imperial) InchString() string {
	var buf [32]byte
	return string(i.append(buf[:0], false))
}

// String returns the rounded length in feet and inches, the fraction in its lowest terms and the
// feet only where there are any: 7' 10 1/2", 8' 0", 1/4", -1' 0 1/2". [ParseSigned] reads it back
// to the same length, within ±[MaxLength].
func (i Imperial) String() string {
	var buf [32]byte
	return string(i.append(buf[:0], true))
}

func (i Imperial) append(b []byte, feet bool) []byte {
	n := magnitude(int64(i.rounded)) / uint64(Inch/64)
	if i.rounded < 0 {
		b = append(b, '-')
	}
	whole, part := n/64, n%64
	shown := part == 0 // a 0 before a fraction is shown after feet only
	if feet && whole >= 12 {
		b = strconv.AppendUint(b, whole/12, 10)
		b = append(b, "' "...)
		whole %= 12
		shown = true
	}
	if shown || whole > 0 {
		b = strconv.AppendUint(b, whole, 10)
	}
	if part > 0 {
		if shown || whole > 0 {
			b = append(b, ' ')
		}
		twos := bits.TrailingZeros64(part) // what 64 and the part have in common
		b = strconv.AppendUint(b, part>>twos, 10)
		b = append(b, '/')
		b = strconv.AppendUint(b, 64>>twos, 10)
	}
	return append(b, '"')
}
