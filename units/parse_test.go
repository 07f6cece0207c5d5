package units_test

import (
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestParseReference(t *testing.T) {
	table.Each(t, "units_parse.csv", func(t *testing.T, r row) {
		got, err := units.Parse(r["input"])
		if err != nil || fmt.Sprint(int64(got)) != r["nanometres"] {
			t.Errorf("%q is %d nm (%v), want %s", r["input"], int64(got), err, r["nanometres"])
		}
		checkParse(t, r["input"])
	})
}

func TestParseLimits(t *testing.T) {
	for _, c := range []struct {
		in   string
		want units.Length
	}{
		{"100 m", units.MaxLength},
		{"100000", units.MaxLength},
		{"10000cm", units.MaxLength},
		{"99999.999999", units.MaxLength - 1},
		{"3937 in", 3937 * units.Inch},
		{"328 ft 0 in", 328 * units.Foot},
		{"0", 0},
		{"000", 0},
		{"0' 0\"", 0},
		{"0012 mm", 12 * units.Millimetre},
		{"2400.000000000000000000000000000", 2400 * units.Millimetre}, // 32 characters
		{"7' 11 63/64\"", 7*units.Foot + 11*units.Inch + 63*units.Inch/64},
		{"7' 11.5\"", 7*units.Foot + 23*units.Inch/2},
		{"7' 1/2\"", 7*units.Foot + units.Inch/2},
		{"2/4 in", units.Inch / 2},
		{"32/64 in", units.Inch / 2},
		{"94 9/16 in", 94*units.Inch + 9*units.Inch/16},
		{"1 63/64 in", units.Inch + 63*units.Inch/64},
		{"12\"", units.Foot},
		{"144 in", 12 * units.Foot},
		{"7 1⁄2\"", 15 * units.Inch / 2},
	} {
		got, err := units.Parse(c.in)
		if err != nil || got != c.want {
			t.Errorf("%q is %v (%v), want %v", c.in, got, err, c.want)
		}
		checkParse(t, c.in)
	}
}

func TestParseSigned(t *testing.T) {
	for _, c := range []struct {
		in   string
		want units.Length
	}{
		{"-3", -3 * units.Millimetre},
		{"−3 mm", -3 * units.Millimetre},
		{"3", 3 * units.Millimetre},
		{"-0", 0},
		{"-7' 10 1/2\"", -24003 * units.Millimetre / 10},
		{"-½\"", -units.Inch / 2},
		{"-100 m", -units.MaxLength},
		{"100 m", units.MaxLength},
	} {
		got, err := units.ParseSigned(c.in)
		if err != nil || got != c.want {
			t.Errorf("%q is %v (%v), want %v", c.in, got, err, c.want)
		}
	}
	for _, c := range []struct {
		in     string
		pos    int
		reason string
	}{
		{"", 0, "nothing to read"},
		{"-", 1, "a digit"},
		{"--3", 1, "a sign"},
		{"−-3", 3, "a sign"},
		{"-−3", 1, "a sign"},
		{"+3", 0, "a sign"},
		{"- 3", 1, "a space"},
		{"3-", 1, "a sign"},
		{"-100000.000001", 0, "longer than 100 m"},
		{"-1/3 in", 3, "halves"},
		{"-7' -3\"", 4, "a sign"},
	} {
		_, err := units.ParseSigned(c.in)
		checkParseError(t, err, c.in, c.pos, c.reason)
	}
}

func TestParseRefused(t *testing.T) {
	digits := strings.Repeat("9", 32)
	for _, c := range []struct {
		in     string
		pos    int
		reason string
	}{
		{"", 0, "nothing to read"},
		{"2,400", 1, "a comma may mean thousands or a decimal"},
		{"2,4 m", 1, "a comma"},
		{"2.400,5", 5, "a comma"},
		{"1'234\"", 2, "less than 12"},
		{"NaN", 0, "a digit"},
		{"Inf", 0, "a digit"},
		{"infinity", 0, "a digit"},
		{"mm", 0, "a digit"},
		{"1e3", 1, "an exponent"},
		{"1E3 mm", 1, "an exponent"},
		{"2.4e3", 3, "an exponent"},
		{"e3", 0, "a digit"},
		{"1 e3", 2, "unknown unit"},
		{"5' e", 3, "a digit"},
		{"0x10", 1, "unknown unit"},
		{"2_400", 1, "grouped"},
		{"2 400", 2, "grouped"},
		{"2 400 mm", 2, "grouped"},
		{"94.5 1/2 in", 5, "grouped"},
		{"1 1/2 1/2 in", 6, "grouped"},
		{"-5", 0, "a sign"},
		{"−5", 0, "a sign"},
		{"+5", 0, "a sign"},
		{"5-", 1, "a sign"},
		{"94-1/2 in", 2, "a sign"},
		{"7'-10\"", 2, "a sign"},
		{" 5", 0, "a space"},
		{"5 ", 1, "a space"},
		{"5 mm ", 4, "a space"},
		{"5  mm", 2, "a space"},
		{"5\tmm", 1, "a space"},
		{"5\nmm", 1, "a space"},
		{"5\u00a0mm", 1, "a space"},
		{"7' ", 2, "a space"},
		{"7'  1\"", 3, "a space"},
		{"94  1/2 in", 3, "a space"},
		{"94  ½ in", 3, "a space"},
		{"1 / 2 in", 2, "a fraction follows a whole number"},
		{"1/ 2 in", 2, "a space"},
		{"٣", 0, "a digit"},
		{"٢٤٠٠ mm", 0, "a digit"},
		{"2٤00", 1, "a digit"},
		{"²", 0, "a digit"},
		{".5", 0, "a point"},
		{"5.", 1, "a point"},
		{"5. mm", 1, "a point"},
		{"5.mm", 1, "a point"},
		{"5..5", 1, "a point"},
		{"5.5.5", 3, "a point"},
		{"5 .5", 2, "a point"},
		{"5 MM", 2, "unknown unit"},
		{"5 Mm", 2, "unknown unit"},
		{"5 mM", 2, "unknown unit"},
		{"5 c", 2, "unknown unit"},
		{"5 cn", 2, "unknown unit"},
		{"5 i", 2, "unknown unit"},
		{"5 im", 2, "unknown unit"},
		{"5 f", 2, "unknown unit"},
		{"5 fr", 2, "unknown unit"},
		{"5 km", 2, "unknown unit"},
		{"5 yd", 2, "unknown unit"},
		{"5 inch", 2, "unknown unit"},
		{"5 inches", 2, "unknown unit"},
		{"5 feet", 2, "unknown unit"},
		{"5 ftz", 2, "unknown unit"},
		{"5mmm", 1, "unknown unit"},
		{"5mmA", 1, "unknown unit"},
		{"5mZ", 1, "unknown unit"},
		{"5cma", 1, "unknown unit"},
		{"5”", 1, "unknown unit"},
		{"5’", 1, "unknown unit"},
		{"5\xff", 1, "unknown unit"},
		{"\xff5", 0, "a digit"},
		{"5mm5", 3, "nothing may follow"},
		{"5mm@", 3, "nothing may follow"},
		{"5mm[", 3, "nothing may follow"},
		{"5mm{", 3, "nothing may follow"},
		{"5mm`", 3, "nothing may follow"},
		{"5\"5", 2, "nothing may follow"},
		{"5''", 2, "a digit"},
		{"5 m 3 in", 3, "a space"},
		{"5\" 3'", 2, "a space"},
		{"1/3 in", 2, "halves"},
		{"1/1 in", 2, "halves"},
		{"0/1 in", 2, "halves"},
		{"1/0 in", 2, "halves"},
		{"1/12 in", 2, "halves"},
		{"1/128 in", 2, "halves"},
		{"1/65 in", 2, "halves"},
		{"94 1/3 in", 5, "halves"},
		{"⅓ in", 0, "halves"},
		{"94⅔ in", 2, "halves"},
		{"94 ⅚ in", 3, "halves"},
		{"0/2 in", 0, "more than 0 and less than 1"},
		{"2/2 in", 0, "more than 0 and less than 1"},
		{"3/2 in", 0, "more than 0 and less than 1"},
		{"64/64 in", 0, "more than 0 and less than 1"},
		{"94 0/2 in", 3, "more than 0 and less than 1"},
		{"94 2/2 in", 3, "more than 0 and less than 1"},
		{"941/2 in", 0, "more than 0 and less than 1"},
		{"1/ in", 2, "a space"},
		{"1/", 2, "a digit"},
		{"/2 in", 0, "a fraction follows a whole number"},
		{"94.5/2 in", 4, "a fraction follows a whole number"},
		{"94.5⁄2 in", 4, "a fraction follows a whole number"},
		{"94.5½ in", 4, "a fraction follows a whole number"},
		{"½½ in", 2, "a fraction follows a whole number"},
		{"1/2½ in", 3, "a fraction follows a whole number"},
		{"1/2", 3, "a fraction is of inches"},
		{"½", 2, "a fraction is of inches"},
		{"94 1/2", 6, "a fraction is of inches"},
		{"94 1/2 mm", 6, "a fraction is of inches"},
		{"½ m", 2, "a fraction is of inches"},
		{"7 1/2 ft", 5, "a fraction is of inches"},
		{"7½' 3\"", 3, "a fraction is of inches"},
		{"7.5' 3\"", 0, "feet before inches"},
		{"7.0 ft 3 in", 0, "feet before inches"},
		{"7' 10", 5, "inches after feet need their unit"},
		{"7' 10.5", 7, "inches after feet need their unit"},
		{"7' 10 mm", 5, "inches after feet need their unit"},
		{"7' 10'", 5, "inches after feet need their unit"},
		{"7' 12\"", 3, "less than 12"},
		{"7' 12.0\"", 3, "less than 12"},
		{"7' 99\"", 3, "less than 12"},
		{"0.0000001", 0, "not a whole number of nanometres"},
		{"0.1234567 mm", 0, "not a whole number of nanometres"},
		{"0.00000001 cm", 0, "not a whole number of nanometres"},
		{"0.0000000001 m", 0, "not a whole number of nanometres"},
		{"1.0000000000000001 m", 0, "not a whole number of nanometres"},
		{"0.0078125 in", 0, "not a whole number of nanometres"},
		{"0.3333333 in", 0, "not a whole number of nanometres"},
		{"0.001953125 ft", 0, "not a whole number of nanometres"},
		{"7' 0.0078125\"", 3, "not a whole number of nanometres"},
		{"100000.000001", 0, "longer than 100 m"},
		{"100001", 0, "longer than 100 m"},
		{"100.000000001 m", 0, "longer than 100 m"},
		{"101 m", 0, "longer than 100 m"},
		{"3938 in", 0, "longer than 100 m"},
		{"329 ft", 0, "longer than 100 m"},
		{"328 ft 1.01 in", 0, "longer than 100 m"},
		{digits, 0, "longer than 100 m"},
		{digits + "9", 0, "more than 32 characters"},
		{digits[1:] + "mm", 0, "more than 32 characters"},
		{strings.Repeat("′", 32), 0, "a digit"},
		{strings.Repeat("′", 33), 0, "more than 32 characters"},
		{strings.Repeat("\xff", 33), 0, "more than 32 characters"},
		{strings.Repeat("𝟘", 32), 0, "a digit"},
		{strings.Repeat("𝟘", 32) + "0", 0, "more than 32 characters"},
		{strings.Repeat("5", 1_000_000), 0, "more than 32 characters"},
	} {
		got, err := units.Parse(c.in)
		checkParseError(t, err, c.in, c.pos, c.reason)
		if got != 0 {
			t.Errorf("%.40q: refused, and still %v", c.in, got)
		}
		checkParse(t, c.in)
	}
}

func checkParseError(t *testing.T, err error, in string, pos int, reason string) {
	t.Helper()
	var parse *units.ParseError
	if !errors.As(err, &parse) {
		t.Errorf("%.40q: error %v, want %q", in, err, reason)
		return
	}
	if parse.Input != in || parse.Pos != pos || !strings.Contains(parse.Reason, reason) {
		t.Errorf("%.40q: %q at byte %d, want %q at byte %d", in, parse.Reason, parse.Pos, reason, pos)
	}
}

func TestParseErrorMessage(t *testing.T) {
	for _, c := range []struct {
		err  units.ParseError
		want string
	}{
		{units.ParseError{Input: "2,400", Reason: "why", Pos: 1}, `cannot read "2,400": why (at byte 1)`},
		{units.ParseError{Input: "a\nb", Reason: "why"}, `cannot read "a\nb": why (at byte 0)`},
		{units.ParseError{Input: strings.Repeat("½", 40), Reason: "why"}, `cannot read "` + strings.Repeat("½", 40) + `": why (at byte 0)`},
		{units.ParseError{Input: strings.Repeat("½", 41), Reason: "why"}, `cannot read "` + strings.Repeat("½", 40) + `"…: why (at byte 0)`},
	} {
		if got := c.err.Error(); got != c.want {
			t.Errorf("message %q, want %q", got, c.want)
		}
	}
}

func TestMustParse(t *testing.T) {
	if got := units.MustParse("94 1/2 in"); got != 189*units.Inch/2 {
		t.Errorf("94 1/2 in is %v", got)
	}
	mustPanic(t, "a length", func() { units.MustParse("-5") })
	mustPanic(t, "money", func() { units.MustMoney("-5") })
	mustPanic(t, "a mass", func() { units.MustMass("-5") })
}

func mustPanic(t *testing.T, what string, f func()) {
	t.Helper()
	defer func() {
		if err, ok := recover().(*units.ParseError); !ok || err.Input != "-5" {
			t.Errorf("%s: panic with %v, want the ParseError", what, err)
		}
	}()
	f()
}

// The grammar as regular expressions, and the value by rational numbers: slow and plain.
var (
	slowMetric = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?)(?: ?(mm|cm|m))?$`)
	slowFeet   = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?) ?(?:ft|'|′)$`)
	slowInches = regexp.MustCompile(`^(?:([0-9]+) ?(?:ft|'|′) ?)?` +
		`(?:([0-9]+\.[0-9]+)|(?:([0-9]+) )?([0-9]+)[/⁄]([0-9]+)|(?:([0-9]+) ?)?([½¼¾⅛⅜⅝⅞])|([0-9]+)) ?(?:in|"|″)$`)
	slowVulgar = map[string]string{"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
)

// slowParse returns the nanometres of s by the documented grammar, and whether s is a length.
func slowParse(s string) (*big.Int, bool) {
	if utf8.RuneCountInString(s) > 32 {
		return nil, false
	}
	number := func(s string) *big.Rat {
		if s == "" {
			s = "0"
		}
		r, ok := new(big.Rat).SetString(s)
		if !ok {
			panic(s)
		}
		return r
	}
	total := new(big.Rat)
	add := func(r *big.Rat, unit units.Length) {
		total.Add(total, r.Mul(r, new(big.Rat).SetInt64(int64(unit))))
	}
	if m := slowMetric.FindStringSubmatch(s); m != nil {
		add(number(m[1]), map[string]units.Length{
			"": units.Millimetre, "mm": units.Millimetre, "cm": units.Centimetre, "m": units.Metre,
		}[m[2]])
	} else if m := slowFeet.FindStringSubmatch(s); m != nil {
		add(number(m[1]), units.Foot)
	} else if m := slowInches.FindStringSubmatch(s); m != nil {
		inches := number(m[2])
		inches.Add(inches, number(m[3])).Add(inches, number(m[6])).Add(inches, number(m[8]))
		if m[4] != "" {
			n, d := number(m[4]), number(m[5])
			switch d.RatString() {
			case "2", "4", "8", "16", "32", "64":
			default:
				return nil, false
			}
			if n.Sign() == 0 || n.Cmp(d) >= 0 {
				return nil, false
			}
			inches.Add(inches, n.Quo(n, d))
		}
		inches.Add(inches, number(slowVulgar[m[7]]))
		if m[1] != "" && inches.Cmp(big.NewRat(12, 1)) >= 0 {
			return nil, false
		}
		add(inches, units.Inch)
		add(number(m[1]), units.Foot)
	} else {
		return nil, false
	}
	if !total.IsInt() || total.Cmp(new(big.Rat).SetInt64(int64(units.MaxLength))) > 0 {
		return nil, false
	}
	return total.Num(), true
}

// checkParse holds Parse and ParseSigned against slowParse, and an error against what it promises.
func checkParse(t interface {
	Helper()
	Errorf(string, ...any)
}, s string) {
	t.Helper()
	got, err := units.Parse(s)
	want, ok := slowParse(s)
	if ok != (err == nil) {
		t.Errorf("%q: error %v, but by the grammar it is a length: %v", s, err, ok)
		return
	}
	if ok && want.Cmp(big.NewInt(int64(got))) != 0 {
		t.Errorf("%q is %d nm, want %v", s, int64(got), want)
	}
	if signed, errSigned := units.ParseSigned("-" + s); ok && utf8.RuneCountInString(s) < 32 && (errSigned != nil || signed != -got) {
		t.Errorf("-%q is %v (%v), want %v", s, signed, errSigned, -got)
	}
	var parse *units.ParseError
	if errors.As(err, &parse) {
		if parse.Input != s || parse.Reason == "" || parse.Pos < 0 || parse.Pos > len(s) {
			t.Errorf("%q: error %#v", s, parse)
		}
		if strings.Contains(err.Error(), "\n") || len(err.Error()) > 1000 {
			t.Errorf("%q: message %q", s, err)
		}
	}
}

// Texts built from the parts of the grammar, in and out of order, agree with the slow parser.
func TestParseAgainstGrammar(t *testing.T) {
	parts := rapid.SliceOfN(rapid.SampledFrom([]string{
		"0", "1", "2", "7", "11", "12", "64", "2400", "100000", " ", " ", ".", "5", "25", "015625", ",", "/", "⁄", "-", "_", "e",
		"½", "¼", "⅞", "⅓", "1/2", "3/64", "mm", "cm", "m", "in", "ft", "'", "\"", "′", "″",
	}), 0, 8)
	rapid.Check(t, func(t *rapid.T) {
		checkParse(t, strings.Join(parts.Draw(t, "parts"), ""))
	})
}

// Every way to write feet, inches and a fraction gives the same length.
func TestParseFeetAndInches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet := rapid.Int64Range(0, 327).Draw(t, "feet")
		inches := rapid.Int64Range(0, 11).Draw(t, "inches")
		below := int64(1) << rapid.Int64Range(1, 6).Draw(t, "log2")
		above := rapid.Int64Range(1, below-1).Draw(t, "above")
		want := units.Length(feet)*units.Foot + units.Length(inches)*units.Inch + units.Length(above)*units.Inch/units.Length(below)
		for _, form := range []string{"%d' %d %d/%d\"", "%d'%d %d/%d″", "%d ft %d %d/%d in", "%dft%d %d⁄%din", "%d′ %d %d/%d \""} {
			s := fmt.Sprintf(form, feet, inches, above, below)
			if got, err := units.Parse(s); err != nil || got != want {
				t.Fatalf("%q is %v (%v), want %v", s, got, err, want)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"2400", "2400 mm", "2.4 m", "94 1/2 in", "94½\"", "7' 10 1/2\"", "7 ft 10 1⁄2 in", "2,400", "1/3 in", "1e3", "-5", "5\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { checkParse(t, s) })
}
