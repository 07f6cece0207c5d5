package units

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
)

// Length is a length in whole nanometres, used as [time.Duration] is used:
// 2400*units.Millimetre is 2400 mm, and l / units.Millimetre counts the whole millimetres of l.
//
// The zero value is no length, 0 mm. Lengths are added, subtracted and compared with the
// operators of the language, and == says whether two lengths are the same. What is read from
// text or JSON lies within ±[MaxLength], so the sum of [MaxPieces] of them stays far from the
// end of an int64. A product or a ratio goes through [Length.MulDiv], which cannot wrap.
type Length int64

// The units a length is written in. Divide to count, multiply to convert. The inch is the
// international inch of 1959, 25.4 mm exactly, so 1/64 in is 396 875 nm exactly.
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400 * Micrometre
	Foot              = 12 * Inch
)

// MaxLength bounds every length that is read (either sign) and MaxPieces every count of pieces,
// so that no sum in the library can wrap.
const (
	MaxLength = 100 * Metre
	MaxPieces = 10_000
)

// Abs returns the length without its sign. The least int64, which has no opposite, becomes the
// greatest; no length that is read is near it.
func (l Length) Abs() Length {
	switch {
	case l >= 0:
		return l
	case l == math.MinInt64:
		return math.MaxInt64
	default:
		return -l
	}
}

// AppendMillimetres appends the length in millimetres to b, exactly and without a unit: a point
// and up to six decimals where there are any, no zeros after the last of them, a '-' before a
// negative length (2400, 66.666667, -3). This is also the JSON form.
func (l Length) AppendMillimetres(b []byte) []byte {
	n := uint64(l)
	if l < 0 {
		b = append(b, '-')
		n = -n
	}
	b = strconv.AppendUint(b, n/uint64(Millimetre), 10)
	rest := n % uint64(Millimetre)
	if rest == 0 {
		return b
	}
	b = append(b, '.')
	for unit := uint64(Millimetre) / 10; rest > 0; unit /= 10 {
		b = append(b, byte('0'+rest/unit))
		rest %= unit
	}
	return b
}

// Millimetres returns the length in millimetres as [Length.AppendMillimetres] writes it: "2400.3".
func (l Length) Millimetres() string {
	var buf [24]byte
	return string(l.AppendMillimetres(buf[:0]))
}

// AppendText appends the length as [Length.String] writes it. The error is always nil. With room
// in b nothing is allocated.
func (l Length) AppendText(b []byte) ([]byte, error) {
	return append(l.AppendMillimetres(b), " mm"...), nil
}

// String returns the length in millimetres with its unit, exactly: "2400 mm", "66.666667 mm".
// [ParseSigned] reads it back when it lies within ±[MaxLength].
func (l Length) String() string {
	var buf [27]byte
	b, _ := l.AppendText(buf[:0])
	return string(b)
}

// MarshalText returns the length as [Length.String] writes it. The error is always nil.
func (l Length) MarshalText() ([]byte, error) {
	return l.AppendText(nil)
}

// UnmarshalText reads what [ParseSigned] reads, with the same errors. On an error the receiver
// keeps its value.
func (l *Length) UnmarshalText(text []byte) error {
	read, err := ParseSigned(string(text))
	if err != nil {
		return err
	}
	*l = read
	return nil
}

// MarshalJSON writes the length as a JSON number of millimetres, exactly, as
// [Length.AppendMillimetres] does. The error is always nil.
func (l Length) MarshalJSON() ([]byte, error) {
	return l.AppendMillimetres(nil), nil
}

// UnmarshalJSON reads a JSON number, which is millimetres, or a JSON string, which may carry any
// unit that [ParseSigned] takes. Everything else is a [*ParseError]: null, an exponent, a length
// beyond ±[MaxLength], a number that is not whole nanometres. On an error the receiver keeps its
// value. Whether a sign has a meaning is for the reader of the document to say.
func (l *Length) UnmarshalJSON(data []byte) error {
	text, err := jsonText(data)
	if err != nil {
		return err
	}
	return l.UnmarshalText([]byte(text))
}

// jsonText returns the text a JSON value stands for: the characters of a number as they stand,
// or the contents of a string. Every other value is refused.
func jsonText(data []byte) (string, error) {
	data = bytes.TrimSpace(data)
	if !json.Valid(data) {
		return "", &ParseError{Input: string(data), Reason: "not JSON"}
	}
	switch c := data[0]; {
	case c == '"':
		var text string
		err := json.Unmarshal(data, &text)
		return text, err
	case c == '-' || isDigit(c):
		return string(data), nil
	default:
		return "", &ParseError{Input: string(data), Reason: "must be a JSON number or string"}
	}
}
