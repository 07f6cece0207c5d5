package frame

import (
	"fmt"

	"example.com/lapspan/units"
)

// Strip returns the pieces that make up a strip of the given length, a packer
// or a rail say, from stock that is at most longest: whole stock lengths from
// the left and what is left over. 5000 mm from 2400 mm are 2400, 2400 and 200 mm.
//
// The error is units.ErrRange for a length or a stock that is not more than
// zero, and for more than units.MaxPieces pieces.
func Strip(length, longest units.Length) ([]units.Length, error) {
	if length <= 0 || longest <= 0 || (length-1)/longest >= units.MaxPieces {
		return nil, fmt.Errorf("frame: a strip of %s from stock of %s: %w", length, longest, units.ErrRange)
	}
	var pieces []units.Length
	for ; length > longest; length -= longest {
		pieces = append(pieces, longest)
	}
	return append(pieces, length), nil
}
