package units

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// Money, Area and Mass are decimals in one normal form, which decimal.Normalize gives: no zeros at
// the end of the coefficient, and the zero value for 0. Nothing here may depend on the package
// variables of decimal, so its String, Div and JSON are not used.

// maxDigits is the most decimals that a value is rounded or padded to.
const maxDigits = 9

func metres(l Length) decimal.Decimal { return decimal.New(int64(l), -9) }

func times(a, b decimal.Decimal) decimal.Decimal { return a.Mul(b).Normalize() }

func plus(a, b decimal.Decimal) decimal.Decimal { return a.Add(b).Normalize() }

// places returns how many decimals d has.
func places(d decimal.Decimal) int { return max(0, -int(d.Exponent())) }

// plain returns d without an exponent, with the decimals it has and no more.
func plain(d decimal.Decimal) string { return d.StringFixed(int32(places(d))) }

// roundTo returns d rounded once to so many decimals.
func roundTo(d decimal.Decimal, digits int, mode Rounding) (decimal.Decimal, error) {
	if digits < 0 || digits > maxDigits {
		return decimal.Decimal{}, fmt.Errorf("units: round to %d decimals: %w", digits, ErrRange)
	}
	if err := mode.check(); err != nil {
		return decimal.Decimal{}, err
	}
	drop := places(d) - digits
	if drop <= 0 {
		return d, nil
	}
	if drop <= smallDigits && d.NumDigits() <= smallDigits { // no need for a number without bound
		step := int64(1)
		for range drop {
			step *= 10
		}
		n, err := Length(d.CoefficientInt64()).MulDiv(1, step, mode) // which rounds any count
		return decimal.New(int64(n), int32(-digits)).Normalize(), err
	}
	rounded := d.RoundFloor(int32(digits))
	half := d.Sub(rounded).Cmp(decimal.New(5, int32(-digits-1)))
	if mode.greater(half, rounded.Coefficient().Bit(0) == 1) {
		rounded = rounded.Add(decimal.New(1, int32(-digits)))
	}
	return rounded.Normalize(), nil
}

// number is what one kind of decimal may look like as text.
type number struct {
	most     int64  // the greatest value
	decimals int    // the most digits after the point
	unit     string // may follow, after a space or not; "" for none

	tooGreat, tooFine, after string // the reasons against the three
}

// read reads a plain decimal, 0 or greater. The text is checked here, before decimal sees anything
// of it: what decimal gets is an int64 and a number of places.
func (n number) read(s string) (decimal.Decimal, error) {
	fail := func(pos int, reason string) (decimal.Decimal, error) {
		return decimal.Decimal{}, &ParseError{Input: s, Reason: reason, Pos: pos}
	}
	switch {
	case s == "":
		return fail(0, reasonEmpty)
	case tooLong(s):
		return fail(0, reasonLong)
	}
	sc := scanner{s: s}
	var value int64
	for ; sc.i < len(s) && isDigit(s[sc.i]); sc.i++ {
		value = min(10*value+int64(s[sc.i]-'0'), n.most+1)
	}
	if sc.i == 0 {
		return fail(0, sc.stray(reasonDigit))
	}
	decimals := 0
	if sc.i < len(s) && s[sc.i] == '.' {
		point := sc.i
		for sc.i++; sc.i < len(s) && isDigit(s[sc.i]); sc.i++ {
			if decimals == n.decimals {
				return fail(sc.i, n.tooFine)
			}
			decimals++
			value = 10*value + int64(s[sc.i]-'0')
		}
		if decimals == 0 {
			return fail(point, reasonPoint)
		}
	}
	if sc.i < len(s) && (n.unit == "" || strings.TrimPrefix(s[sc.i:], " ") != n.unit) {
		if n.unit != "" && s[sc.i] == ' ' && sc.i+1 < len(s) {
			sc.i++
		}
		return fail(sc.i, sc.stray(n.after))
	}
	d := decimal.New(value, int32(-decimals)).Normalize()
	if d.Cmp(decimal.New(n.most, 0)) > 0 {
		return fail(0, n.tooGreat)
	}
	return d, nil
}

// readJSON reads a JSON number or string as read does.
func (n number) readJSON(data []byte) (decimal.Decimal, error) {
	text, err := jsonText(data)
	if err != nil {
		return decimal.Decimal{}, err
	}
	return n.read(text)
}
