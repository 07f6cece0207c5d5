package doors

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/lapspan/units"
)

// Share is a panel's part against other parts, in millionths: 1.5 is 1500000.
// In JSON it is a plain number with at most six decimals.
type Share int64

// The share that is written 1, and the largest.
const (
	OneShare Share = 1_000_000
	MaxShare       = 10_000 * OneShare
)

// String writes the share as a plain number.
func (s Share) String() string {
	// A share and a length both count millionths of what is written.
	return units.Length(s).Millimetres()
}

// MarshalJSON writes a plain number.
func (s Share) MarshalJSON() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalJSON reads a plain number of at most six decimals, without exponent
// or sign. The receiver is left alone when it fails.
func (s *Share) UnmarshalJSON(data []byte) error {
	whole, decimals, point := strings.Cut(string(data), ".")
	if len(whole) == 0 || len(whole) > 6 || len(decimals) > 6 || point && len(decimals) == 0 {
		return fmt.Errorf("doors: share %.40q: not a number of at most 6 digits and 6 decimals", data)
	}
	n, err := strconv.ParseUint(whole+decimals+"000000"[len(decimals):], 10, 63)
	if err != nil {
		return fmt.Errorf("doors: share %.40q: not a plain number", data)
	}
	*s = Share(n)
	return nil
}
