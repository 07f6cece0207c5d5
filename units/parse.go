package units

import (
	"strconv"
	"unicode"
	"unicode/utf8"
)

// maxText is the most characters (runes, not bytes) a number with its unit may have.
const maxText = 32

// Parse reads a length as it is written in the trade, metric or imperial. A number without a unit
// is millimetres. The whole text must match
//
//	length   = metric | imperial .
//	metric   = decimal [ [ " " ] ( "mm" | "cm" | "m" ) ] .
//	imperial = feet | inches | whole [ " " ] foot [ " " ] inches .
//	feet     = decimal [ " " ] foot .
//	inches   = ( decimal | fraction | whole " " fraction | whole vulgar ) [ " " ] inch .
//	foot     = "ft" | "'" | "′" .
//	inch     = "in" | "\"" | "″" .
//	decimal  = whole [ "." digit { digit } ] .
//	whole    = digit { digit } .
//	fraction = whole ( "/" | "⁄" ) whole | vulgar .
//	vulgar   = "½" | "¼" | "¾" | "⅛" | "⅜" | "⅝" | "⅞" .
//	digit    = "0" … "9" .
//
// In a fraction n/d, 0 < n < d, and d is 2, 4, 8, 16, 32 or 64. Feet before inches are whole, and
// the inches after them are less than 12. So these are all 2400.3 mm: 2400.3, 2400.3 mm, 240.03cm,
// 2.4003 m, 94.5 in, 94 1/2 in, 94½", 7' 10 1/2", 7 ft 10 1/2 in, 7.875 ft.
//
// Nothing is rounded, guessed or passed over. Refused, with a [*ParseError]:
//
//   - an empty text, and one of more than 32 characters (runes; a byte that is not UTF-8 is one)
//   - a comma (2,400 or 2,4 m: thousands or a decimal?), an underscore, digits in groups
//   - an exponent, hexadecimal digits, NaN and infinities, digits of other scripts
//   - any sign; [ParseSigned] takes a minus where one has a meaning
//   - a point without a digit on both sides of it
//   - any unit not above, in any other case or spelling
//   - a fraction of anything but inches, and one outside the limits above (thirds, 1/128, 3/2)
//   - feet and inches without the unit of the inches
//   - what is not a whole number of nanometres (0.1234567 mm, 0.3333333 in)
//   - what is longer than [MaxLength], 100 m
//   - spaces at either end, two spaces together, a space where none is named, any other white space
//
// Parse allocates nothing when it succeeds.
func Parse(s string) (Length, error) {
	l, pos, reason := scanLength(s, false)
	if reason != "" {
		return 0, &ParseError{Input: s, Reason: reason, Pos: pos}
	}
	return l, nil
}

// ParseSigned reads what [Parse] reads, with one "-" or "−" (U+2212) before it at will, for sizes
// where a sign has a meaning, such as a lean. The sign holds for the whole length: -7' 10 1/2" is
// -2400.3 mm. It counts as one of the 32 characters. The length lies within ±[MaxLength].
func ParseSigned(s string) (Length, error) {
	l, pos, reason := scanLength(s, true)
	if reason != "" {
		return 0, &ParseError{Input: s, Reason: reason, Pos: pos}
	}
	return l, nil
}

// MustParse is [Parse] for texts written into a program. It panics where Parse returns an error.
func MustParse(s string) Length {
	l, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return l
}

// ParseError is the error of reading a length, a mass or an amount of money: what was to be read,
// why it was not, and where. The zero value says nothing.
type ParseError struct {
	Input  string // the whole text
	Reason string // what is wrong with it, in a phrase
	Pos    int    // the byte of Input where it goes wrong, from 0; 0 where the text as a whole is meant
}

// Error names the input (its first 40 characters, on one line), the reason and the position.
func (e *ParseError) Error() string {
	return "cannot read " + quote(e.Input) + ": " + e.Reason + " (at byte " + strconv.Itoa(e.Pos) + ")"
}

// quote returns s in quotes on one line, cut off after 40 characters.
func quote(s string) string {
	const most = 40
	n := 0
	for i := range s {
		if n == most {
			return strconv.Quote(s[:i]) + "…"
		}
		n++
	}
	return strconv.Quote(s)
}

// The reasons. They are constants so that a scan that fails allocates only its error.
const (
	reasonEmpty       = "nothing to read"
	reasonLong        = "more than 32 characters"
	reasonComma       = "a comma may mean thousands or a decimal: write 2400 or 2.4"
	reasonGroup       = "one number only: digits are not grouped"
	reasonExponent    = "an exponent is not taken"
	reasonSign        = "a sign has no meaning here"
	reasonPoint       = "a point stands once, between two digits"
	reasonDigit       = "a digit from 0 to 9 must stand here"
	reasonSpace       = "a space is out of place"
	reasonUnit        = "unknown unit: use mm, cm, m, in, \", ft or '"
	reasonAfter       = "nothing may follow here"
	reasonFraction    = "a fraction must be more than 0 and less than 1"
	reasonDenominator = "a fraction is in halves, quarters, eighths, 16ths, 32nds or 64ths"
	reasonFractionOf  = "a fraction is of inches: its unit must be in or \""
	reasonMixed       = "a fraction follows a whole number only"
	reasonFeetWhole   = "feet before inches are written without a point"
	reasonInchesUnit  = "inches after feet need their unit, in or \""
	reasonTwelve      = "inches after feet must be less than 12"
	reasonNanometre   = "not a whole number of nanometres"
	reasonLonger      = "longer than 100 m"
)

// scanLength reads a length and returns it, or the reason against it and the byte it stands at.
func scanLength(s string, signed bool) (l Length, pos int, reason string) {
	sc := scanner{s: s}
	switch {
	case s == "":
		return 0, 0, reasonEmpty
	case tooLong(s):
		return 0, 0, reasonLong
	}
	negative := signed && sc.minus()
	l = sc.length()
	if sc.reason != "" {
		return 0, sc.pos, sc.reason
	}
	if l > MaxLength {
		return 0, 0, reasonLonger
	}
	if negative {
		l = -l
	}
	return l, 0, ""
}

// tooLong says whether s has more than maxText characters. A long text is not counted through: no
// character has more bytes than utf8.UTFMax.
func tooLong(s string) bool {
	return len(s) > maxText && (len(s) > maxText*utf8.UTFMax || utf8.RuneCountInString(s) > maxText)
}

// scanner reads numbers and units from a text. It stands at byte i and keeps the first thing that
// goes wrong; what later steps return then means nothing.
type scanner struct {
	s      string
	i      int
	pos    int
	reason string
}

// quantity is a number as written: whole + decimal/scale + sixtyFourths/64.
type quantity struct {
	whole        int64 // at most wholeLimit
	decimal      int64
	scale        int64 // a power of ten, or 0 without decimals
	sixtyFourths int64
	tooFine      bool // a digit other than 0 stands past the decimals that can be whole nanometres
}

const (
	// wholeLimit is where the digits before a point stop counting: that many of the smallest unit,
	// the millimetre, are longer than MaxLength, and that many of any unit fit an int64.
	wholeLimit = int64(MaxLength/Millimetre) + 1

	// finest is the finest scale that can be whole nanometres, that of the metre. The inch, which
	// is 2^6·5^5·127 nm, and the foot, 2^8·3·5^5·127 nm, end at 10^6 and 10^8.
	finest = int64(Metre / Nanometre)
)

func (sc *scanner) fail(pos int, reason string) {
	if sc.reason == "" {
		sc.pos, sc.reason = pos, reason
	}
}

// length reads the whole text from where the scanner stands.
func (sc *scanner) length() Length {
	start := sc.i
	first := sc.quantity()
	at := sc.i
	unit := sc.unit()
	if first.sixtyFourths > 0 && unit != Inch {
		sc.fail(at, reasonFractionOf)
	}
	l := sc.product(first, max(unit, Millimetre), start)
	if unit == Foot && sc.i < len(sc.s) {
		if first.scale > 0 {
			sc.fail(start, reasonFeetWhole)
		}
		l += sc.inchesAfterFeet()
	}
	if sc.i < len(sc.s) {
		sc.fail(sc.i, sc.stray(reasonAfter))
	}
	return l
}

func (sc *scanner) inchesAfterFeet() Length {
	if sc.s[sc.i] == ' ' && sc.i+1 < len(sc.s) {
		sc.i++
	}
	start := sc.i
	q := sc.quantity()
	at := sc.i
	if sc.unit() != Inch {
		sc.fail(at, reasonInchesUnit)
	}
	l := sc.product(q, Inch, start)
	if l >= Foot {
		sc.fail(start, reasonTwelve)
	}
	return l
}

// product returns the length of q units. It cannot wrap: see wholeLimit, and decimal < scale <= 10^9.
func (sc *scanner) product(q quantity, unit Length, start int) Length {
	l := Length(q.whole)*unit + Length(q.sixtyFourths)*(Inch/64)
	if q.scale == 0 {
		return l
	}
	n := q.decimal * int64(unit)
	if q.tooFine || n%q.scale != 0 {
		sc.fail(start, reasonNanometre)
	}
	return l + Length(n/q.scale)
}

// minus takes a minus sign and says whether it did.
func (sc *scanner) minus() bool {
	switch c, size := utf8.DecodeRuneInString(sc.s); c {
	case '-', '−':
		sc.i = size
		return true
	default:
		return false
	}
}

// quantity reads a number: a whole one, a decimal, a fraction, or a whole one and a fraction.
func (sc *scanner) quantity() (q quantity) {
	if q.sixtyFourths = sc.vulgar(); q.sixtyFourths > 0 {
		return q
	}
	start := sc.i
	q.whole = sc.digits()
	if sc.i == len(sc.s) {
		return q
	}
	switch c := sc.s[sc.i]; {
	case c == '.':
		sc.i++
		sc.decimals(&q)
	case c == ' ' && sc.fractionNext():
		sc.i++
		q.sixtyFourths = sc.fraction()
	case sc.slash():
		q.whole, q.sixtyFourths = 0, sc.denominator(q.whole, start)
	default:
		q.sixtyFourths = sc.vulgar()
	}
	return q
}

// fractionNext says whether what may be a fraction stands after the next byte.
func (sc *scanner) fractionNext() bool {
	c, _ := utf8.DecodeRuneInString(sc.s[sc.i+1:])
	_, ok := vulgarFraction(c)
	return ok || '0' <= c && c <= '9'
}

// fraction reads a fraction in full and returns it in 64ths.
func (sc *scanner) fraction() int64 {
	if n := sc.vulgar(); n > 0 {
		return n
	}
	start := sc.i
	n := sc.digits()
	if !sc.slash() {
		sc.fail(start, reasonGroup)
		return 0
	}
	return sc.denominator(n, start)
}

// digits reads one digit or more; the value stops at wholeLimit.
func (sc *scanner) digits() (n int64) {
	start := sc.i
	for ; sc.i < len(sc.s) && isDigit(sc.s[sc.i]); sc.i++ {
		n = min(10*n+int64(sc.s[sc.i]-'0'), wholeLimit)
	}
	if sc.i == start {
		sc.fail(start, sc.stray(reasonDigit))
	}
	return n
}

// decimals reads the digits after a point into q.
func (sc *scanner) decimals(q *quantity) {
	start := sc.i
	q.scale = 1
	for ; sc.i < len(sc.s) && isDigit(sc.s[sc.i]); sc.i++ {
		d := int64(sc.s[sc.i] - '0')
		if q.scale == finest {
			q.tooFine = q.tooFine || d > 0
			continue
		}
		q.decimal = 10*q.decimal + d
		q.scale *= 10
	}
	if sc.i == start {
		sc.fail(start-1, reasonPoint)
	}
}

// slash takes a solidus or a fraction slash and says whether it did.
func (sc *scanner) slash() bool {
	switch c, size := utf8.DecodeRuneInString(sc.s[sc.i:]); c {
	case '/', '⁄':
		sc.i += size
		return true
	default:
		return false
	}
}

// denominator reads what stands below a fraction's line and returns the fraction in 64ths. The
// number above the line is n; it stands at byte at.
func (sc *scanner) denominator(n int64, at int) int64 {
	start := sc.i
	d := sc.digits()
	if d < 2 || d > 64 || d&(d-1) != 0 {
		sc.fail(start, reasonDenominator)
		return 0
	}
	if n <= 0 || n >= d {
		sc.fail(at, reasonFraction)
	}
	return n * (64 / d)
}

// vulgar takes a fraction that is one character and returns it in 64ths, or 0 where none stands.
func (sc *scanner) vulgar() int64 {
	if sc.i == len(sc.s) || sc.s[sc.i] < utf8.RuneSelf {
		return 0
	}
	c, size := utf8.DecodeRuneInString(sc.s[sc.i:])
	n, ok := vulgarFraction(c)
	switch {
	case !ok:
		return 0
	case n == 0:
		sc.fail(sc.i, reasonDenominator)
		return 0
	}
	sc.i += size
	return n
}

// vulgarFraction returns the fraction that c stands for in 64ths, 0 for one that is not whole
// 64ths, and whether c is a fraction.
func vulgarFraction(c rune) (sixtyFourths int64, ok bool) {
	switch c {
	case '½':
		return 32, true
	case '¼':
		return 16, true
	case '¾':
		return 48, true
	case '⅛':
		return 8, true
	case '⅜':
		return 24, true
	case '⅝':
		return 40, true
	case '⅞':
		return 56, true
	case '⅓', '⅔', '⅕', '⅖', '⅗', '⅘', '⅙', '⅚', '⅐', '⅑', '⅒', '↉':
		return 0, true
	default:
		return 0, false
	}
}

// unit takes a unit, after a space or not, and returns its length, or 0 where the text ends.
func (sc *scanner) unit() Length {
	if sc.i == len(sc.s) {
		return 0
	}
	space := sc.i
	if sc.s[sc.i] == ' ' {
		sc.i++
	}
	if sc.i == len(sc.s) {
		sc.fail(space, reasonSpace)
		return 0
	}
	var unit Length
	var size int
	rest := sc.s[sc.i:]
	switch rest[0] {
	case '\'':
		unit, size = Foot, 1
	case '"':
		unit, size = Inch, 1
	case 'm':
		unit, size = Metre, 1
		if len(rest) > 1 && rest[1] == 'm' {
			unit, size = Millimetre, 2
		}
	case 'c':
		unit, size = ifNext(rest, 'm', Centimetre)
	case 'i':
		unit, size = ifNext(rest, 'n', Inch)
	case 'f':
		unit, size = ifNext(rest, 't', Foot)
	default:
		switch c, n := utf8.DecodeRuneInString(rest); c {
		case '′':
			unit, size = Foot, n
		case '″':
			unit, size = Inch, n
		}
	}
	if size == 0 || isLetter(rest[0]) && size < len(rest) && isLetter(rest[size]) {
		sc.fail(sc.i, sc.stray(reasonUnit))
		return 0
	}
	sc.i += size
	return unit
}

// ifNext returns the unit of two letters and its size if the second letter of rest is c.
func ifNext(rest string, c byte, unit Length) (Length, int) {
	if len(rest) > 1 && rest[1] == c {
		return unit, 2
	}
	return 0, 0
}

// stray names what is wrong with the character the scanner stands at, where that says more than
// the reason the caller has.
func (sc *scanner) stray(reason string) string {
	c, size := utf8.DecodeRuneInString(sc.s[sc.i:])
	_, fraction := vulgarFraction(c)
	switch {
	case size == 0:
		return reason
	case c == ',':
		return reasonComma
	case c == '_' || reason == reasonUnit && isDigit(sc.s[sc.i]):
		return reasonGroup
	case c == '.':
		return reasonPoint
	case c == '-' || c == '−' || c == '+':
		return reasonSign
	case c == '/' || c == '⁄' || fraction:
		return reasonMixed
	case unicode.IsSpace(c):
		return reasonSpace
	case c >= utf8.RuneSelf && unicode.IsDigit(c):
		return reasonDigit
	case (c == 'e' || c == 'E') && sc.i > 0 && isDigit(sc.s[sc.i-1]):
		return reasonExponent
	default:
		return reason
	}
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }
