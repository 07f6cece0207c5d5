package frame

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/lapspan/units"
)

// Force is a force, or a load on each metre, as a whole number of micronewtons.
// In JSON it is a plain number of newtons with at most six decimals. The zero
// value is no force.
type Force int64

// The units a force is written in, and the largest that is read.
const (
	Micronewton Force = 1
	Newton            = 1_000_000 * Micronewton
	Kilonewton        = 1000 * Newton
	MaxForce          = 1000 * Kilonewton
)

// Newtons writes the force as a plain number of newtons, exactly: "750", "0.5".
func (f Force) Newtons() string {
	// A force and a length both count millionths of what is written.
	return units.Length(f).Millimetres()
}

// String writes the force with its unit, exactly: "750 N".
func (f Force) String() string { return f.Newtons() + " N" }

// MarshalJSON writes a plain number of newtons. The error is always nil.
func (f Force) MarshalJSON() ([]byte, error) { return []byte(f.Newtons()), nil }

// UnmarshalJSON reads a plain number of newtons, 0 to MaxForce, of at most six
// decimals, without sign or exponent. On an error the receiver keeps its value.
func (f *Force) UnmarshalJSON(data []byte) error {
	whole, decimals, point := strings.Cut(string(data), ".")
	if whole == "" || len(whole) > 7 || len(decimals) > 6 || point && decimals == "" {
		return fmt.Errorf("frame: force %.40q: not a plain number of newtons with at most 6 decimals", data)
	}
	n, err := strconv.ParseUint(whole+decimals+"000000"[len(decimals):], 10, 63)
	if err != nil || n > uint64(MaxForce) {
		return fmt.Errorf("frame: force %.40q: not a plain number of newtons up to %s", data, MaxForce.Newtons())
	}
	*f = Force(n)
	return nil
}
