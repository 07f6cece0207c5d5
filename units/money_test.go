package units_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestParseMoney(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"0", "0"},
		{"0.0000", "0"},
		{"12.5", "12.5"},
		{"12.50", "12.5"},
		{"007", "7"},
		{"1000", "1000"},
		{"1200", "1200"},
		{"0.0001", "0.0001"},
		{"999999999.9999", "999999999.9999"},
		{"1000000000", "1000000000"},
		{"1000000000.0000", "1000000000"},
	} {
		got, err := units.ParseMoney(c.in)
		if err != nil || got.String() != c.want {
			t.Errorf("%q is %v (%v), want %s", c.in, got, err, c.want)
		}
	}
}

func TestParseMoneyRefused(t *testing.T) {
	for _, c := range []struct {
		in     string
		pos    int
		reason string
	}{
		{"", 0, "nothing to read"},
		{"-1", 0, "a sign"},
		{"-0", 0, "a sign"},
		{"+1", 0, "a sign"},
		{"1-", 1, "a sign"},
		{"1,50", 1, "a comma"},
		{"1.000,50", 5, "a comma"},
		{"1 000", 1, "a space"},
		{"1_000", 1, "grouped"},
		{" 1", 0, "a space"},
		{"1 ", 1, "a space"},
		{"1 kg", 1, "a space"},
		{"1e3", 1, "an exponent"},
		{"1E-3", 1, "an exponent"},
		{"1e10000000", 1, "an exponent"},
		{".5", 0, "a point"},
		{"5.", 1, "a point"},
		{"5.x", 1, "a point"},
		{"5.5.5", 3, "a point"},
		{"£5", 0, "a digit"},
		{"5€", 1, "nothing may follow"},
		{"5USD", 1, "nothing may follow"},
		{"NaN", 0, "a digit"},
		{"Infinity", 0, "a digit"},
		{"0x1", 1, "nothing may follow"},
		{"٥", 0, "a digit"},
		{"1/2", 1, "a fraction"},
		{"1.00000", 6, "more than four decimals"},
		{"1.23456", 6, "more than four decimals"},
		{"1000000000.0001", 0, "more than 1 000 000 000"},
		{"1000000001", 0, "more than 1 000 000 000"},
		{strings.Repeat("9", 32), 0, "more than 1 000 000 000"},
		{strings.Repeat("9", 33), 0, "more than 32 characters"},
		{strings.Repeat("0", 33), 0, "more than 32 characters"},
	} {
		got, err := units.ParseMoney(c.in)
		checkParseError(t, err, c.in, c.pos, c.reason)
		if !got.IsZero() {
			t.Errorf("%q: refused, and still %v", c.in, got)
		}
	}
}

func TestMoneyArithmetic(t *testing.T) {
	price := units.MustMoney("12.5")
	for _, c := range []struct {
		name string
		got  units.Money
		want string
	}{
		{"add", price.Add(units.MustMoney("0.75")), "13.25"},
		{"add to nothing", units.Money{}.Add(price), "12.5"},
		{"add whole", units.MustMoney("1000").Add(units.MustMoney("0.0001")), "1000.0001"},
		{"three of them", price.Mul(3), "37.5"},
		{"none of them", price.Mul(0), "0"},
		{"a credit", price.Mul(-2), "-25"},
		{"as many as can be", units.MustMoney("2").Mul(math.MaxInt64), "18446744073709551614"},
		{"a metre", price.PerMetre(units.Metre), "12.5"},
		{"2400 mm", price.PerMetre(2400 * mm), "30"},
		{"a nanometre", units.MustMoney("0.0001").PerMetre(1), "0.0000000000001"},
		{"nothing of it", price.PerMetre(0), "0"},
		{"2.07 m²", units.MustMoney("40").PerSquareMetre(units.AreaOf(900*mm, 2300*mm)), "82.8"},
		{"nothing of it", price.PerSquareMetre(units.Area{}), "0"},
		{"ten-thousandths", units.MoneyOfTenThousandths(125_000), "12.5"},
		{"one ten-thousandth", units.MoneyOfTenThousandths(1), "0.0001"},
		{"no ten-thousandths", units.MoneyOfTenThousandths(0), "0"},
		{"minus ten-thousandths", units.MoneyOfTenThousandths(-15_000), "-1.5"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s is %s, want %s", c.name, got, c.want)
		}
	}
	if price.String() != "12.5" {
		t.Errorf("arithmetic changed its operand to %v", price)
	}
}

func TestMoneyTenThousandths(t *testing.T) {
	for _, c := range []struct {
		m    units.Money
		want int64
		err  error
	}{
		{units.Money{}, 0, nil},
		{units.MustMoney("12.5"), 125_000, nil},
		{units.MustMoney("0.0001"), 1, nil},
		{units.MustMoney("1000000000"), 10_000_000_000_000, nil},
		{units.MoneyOfTenThousandths(math.MaxInt64), math.MaxInt64, nil},
		{units.MoneyOfTenThousandths(math.MinInt64), math.MinInt64, nil},
		{units.MoneyOfTenThousandths(math.MaxInt64).Add(units.MustMoney("0.0001")), 0, units.ErrRange},
		{units.MustMoney("1000").Mul(math.MaxInt64), 0, units.ErrRange},
		{units.MustMoney("0.0001").PerMetre(units.Metre / 10), 0, units.ErrInexact},
	} {
		if got, err := c.m.TenThousandths(); got != c.want || !errors.Is(err, c.err) {
			t.Errorf("%v is %d (%v), want %d (%v)", c.m, got, err, c.want, c.err)
		}
	}
}

func TestMoneyRound(t *testing.T) {
	amount := func(s string) units.Money { // any decimal of up to seven places
		return units.MustMoney(s).PerMetre(units.Millimetre)
	}
	large := units.MustMoney("1000000000").Mul(1_000_000)
	small := units.MustMoney("0.0001").PerMetre(units.Nanometre).PerMetre(units.Nanometre) // 22 decimals
	for _, c := range []struct {
		m      units.Money
		digits int
		mode   units.Rounding
		want   string
	}{
		{amount("1625"), 2, units.HalfEven, "1.62"}, // ASME A112.18.1 Annex A
		{amount("1655"), 2, units.HalfEven, "1.66"},
		{amount("1625"), 2, units.HalfUp, "1.63"},
		{amount("1625"), 2, units.Up, "1.63"},
		{amount("1625"), 2, units.Down, "1.62"},
		{amount("1625.0001"), 2, units.HalfEven, "1.63"},
		{amount("1624.9999"), 2, units.HalfUp, "1.62"},
		{amount("1625").Mul(-1), 2, units.HalfEven, "-1.62"},
		{amount("1635").Mul(-1), 2, units.HalfEven, "-1.64"},
		{amount("1625").Mul(-1), 2, units.HalfUp, "-1.62"},
		{amount("1621").Mul(-1), 2, units.Up, "-1.62"},
		{amount("1621").Mul(-1), 2, units.Down, "-1.63"},
		{amount("500"), 0, units.HalfEven, "0"},
		{amount("1500"), 0, units.HalfEven, "2"},
		{amount("99500"), 0, units.HalfEven, "100"},
		{amount("1"), 2, units.Up, "0.01"},
		{amount("1625"), 3, units.HalfEven, "1.625"},
		{amount("1625"), 9, units.HalfEven, "1.625"},
		{amount("0.0001"), 6, units.Up, "0.000001"},
		{large.Add(units.MustMoney("1.625")), 2, units.HalfEven, "1000000000000001.62"},
		{large.Add(units.MustMoney("1.635")), 2, units.HalfEven, "1000000000000001.64"},
		{large.Add(units.MustMoney("1.625")), 2, units.HalfUp, "1000000000000001.63"},
		{large.Add(units.MustMoney("1.625")).Mul(-1), 2, units.HalfUp, "-1000000000000001.62"},
		{large.Add(units.MustMoney("1.621")).Mul(-1), 2, units.Down, "-1000000000000001.63"},
		{small, 2, units.Up, "0.01"},
		{small, 2, units.HalfEven, "0"},
		{small.Mul(-1), 2, units.Down, "-0.01"},
		{units.MustMoney("1000"), 0, units.Up, "1000"},
		{units.Money{}, 2, units.Up, "0"},
	} {
		if got, err := c.m.Round(c.digits, c.mode); err != nil || got.String() != c.want {
			t.Errorf("%v to %d decimals %v is %v (%v), want %s", c.m, c.digits, c.mode, got, err, c.want)
		}
	}
	for _, digits := range []int{-1, 10, math.MinInt, math.MaxInt} {
		if got, err := units.MustMoney("1").Round(digits, units.Up); !got.IsZero() || !errors.Is(err, units.ErrRange) {
			t.Errorf("%d decimals: %v, %v", digits, got, err)
		}
	}
	if got, err := units.MustMoney("1").Round(2, 9); !got.IsZero() || !errors.Is(err, units.ErrRounding) {
		t.Errorf("unknown rounding: %v, %v", got, err)
	}
}

func TestMoneyFixed(t *testing.T) {
	for _, c := range []struct {
		m      units.Money
		digits int
		want   string
		err    error
	}{
		{units.MustMoney("12.5"), 2, "12.50", nil},
		{units.MustMoney("12.5"), 1, "12.5", nil},
		{units.MustMoney("12.5"), 0, "", units.ErrInexact},
		{units.MustMoney("12.345"), 2, "", units.ErrInexact},
		{units.MustMoney("1000"), 0, "1000", nil},
		{units.MustMoney("1000"), 2, "1000.00", nil},
		{units.Money{}, 2, "0.00", nil},
		{units.Money{}, 0, "0", nil},
		{units.MustMoney("0.05"), 9, "0.050000000", nil},
		{units.MustMoney("0.5").Mul(-1), 2, "-0.50", nil},
		{units.MustMoney("1"), 10, "", units.ErrRange},
		{units.MustMoney("1"), -1, "", units.ErrRange},
	} {
		if got, err := c.m.Fixed(c.digits); got != c.want || !errors.Is(err, c.err) {
			t.Errorf("%v with %d decimals is %q (%v), want %q (%v)", c.m, c.digits, got, err, c.want, c.err)
		}
	}
}

func TestMoneyCompare(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"1", "2", -1}, {"2", "1", 1}, {"1.5", "1.50", 0}, {"0", "0.0000", 0}, {"1000", "999.9999", 1}, {"0.1", "0.09", 1},
	} {
		a, b := units.MustMoney(c.a), units.MustMoney(c.b)
		if a.Cmp(b) != c.want || b.Cmp(a) != -c.want || a.Equal(b) != (c.want == 0) || cmp.Equal(a, b) != (c.want == 0) {
			t.Errorf("%s against %s: Cmp %d, Equal %v, want %d", c.a, c.b, a.Cmp(b), a.Equal(b), c.want)
		}
	}
	if units.MustMoney("0.0001").IsZero() || !units.MustMoney("1").Mul(0).IsZero() {
		t.Error("IsZero")
	}
}

// Values that are equal are kept alike, whatever way they came about, so reflection agrees too.
func TestNormalForm(t *testing.T) {
	for _, c := range []struct{ a, b any }{
		{units.MustMoney("1000"), units.MustMoney("999.5").Add(units.MustMoney("0.50"))},
		{units.MustMoney("12.50"), units.MoneyOfTenThousandths(125_000)},
		{units.MustMoney("30"), units.MustMoney("12.5").PerMetre(2400 * mm)},
		{units.Money{}, units.MustMoney("5").Mul(0)},
		{units.MustMass("20.7"), units.MustMass("10.35").Mul(2)},
		{units.Mass{}, units.MustMass("0.000")},
		{units.AreaOf(2*units.Metre, units.Metre), units.AreaOf(units.Metre, units.Metre).Mul(2)},
		{units.Area{}, units.AreaOf(0, units.Metre)},
	} {
		if !reflect.DeepEqual(c.a, c.b) {
			t.Errorf("%#v is not kept as %#v", c.a, c.b)
		}
	}
}

func TestMoneyText(t *testing.T) {
	price := units.MustMoney("12.50")
	if got, err := price.MarshalText(); string(got) != "12.5" || err != nil {
		t.Errorf("text %s (%v)", got, err)
	}
	if got, err := price.AppendText([]byte("x")); string(got) != "x12.5" || err != nil {
		t.Errorf("appended %s (%v)", got, err)
	}
	if got, err := json.Marshal(struct {
		Price units.Money `json:"price"`
		None  units.Money `json:"none,omitzero"`
	}{Price: price}); string(got) != `{"price":"12.5"}` || err != nil {
		t.Errorf("JSON %s (%v)", got, err)
	}
	for _, in := range []string{`12.5`, `12.50`, `"12.5"`, ` "12.5000" `} {
		var got units.Money
		if err := got.UnmarshalJSON([]byte(in)); err != nil || !got.Equal(price) {
			t.Errorf("%s is %v (%v)", in, got, err)
		}
	}
	for _, in := range []string{`null`, `true`, `[]`, `{}`, ``, `1e3`, `"1e3"`, `-1`, `"-1"`, `"1,5"`, `1.00001`, `"12.5 "`, `1000000001`, `"1`, `1 2`, `0.1e1`} {
		got := price
		var parse *units.ParseError
		if err := got.UnmarshalJSON([]byte(in)); !errors.As(err, &parse) || !got.Equal(price) {
			t.Errorf("%s: %v left %v", in, err, got)
		}
	}
	var read units.Money
	if err := read.UnmarshalText([]byte("3.25")); err != nil || read.String() != "3.25" {
		t.Errorf("text reads as %v (%v)", read, err)
	}
	if err := read.UnmarshalText([]byte("3.")); err == nil || read.String() != "3.25" {
		t.Errorf("a failed read left %v (%v)", read, err)
	}
}

var slowMoney = regexp.MustCompile(`^[0-9]+(\.[0-9]{1,4})?$`)

// checkMoney holds reading, arithmetic and rounding against rational numbers.
func checkMoney(t interface {
	Helper()
	Errorf(string, ...any)
}, text string, count, nm int64, digits int, mode units.Rounding) {
	t.Helper()
	m, err := units.ParseMoney(text)
	want := new(big.Rat)
	ok := slowMoney.MatchString(text) && utf8.RuneCountInString(text) <= 32
	if ok {
		want.SetString(text)
		ok = want.Cmp(big.NewRat(1_000_000_000, 1)) <= 0
	}
	if ok != (err == nil) {
		t.Errorf("%q: error %v, but by the grammar it is an amount: %v", text, err, ok)
	}
	if !ok {
		return
	}
	is := func(what string, got units.Money, want *big.Rat) {
		t.Helper()
		if r, ok := new(big.Rat).SetString(got.String()); !ok || r.Cmp(want) != 0 {
			t.Errorf("%q %s is %v, want %v", text, what, got, want.RatString())
		}
		if s := got.String(); strings.ContainsAny(s, "eE") || strings.Contains(s, ".") && strings.HasSuffix(s, "0") {
			t.Errorf("%q %s is written %s", text, what, s)
		}
	}
	times := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
	is("read", m, want)
	is("plus itself", m.Add(m), times(want, big.NewRat(2, 1)))
	is("times the count", m.Mul(count), times(want, big.NewRat(count, 1)))
	exact := times(want, big.NewRat(nm, 1_000_000_000))
	is("of the length", m.PerMetre(units.Length(nm)), exact)
	is("of the area", m.PerSquareMetre(units.AreaOf(units.Length(nm), units.Length(nm))), times(exact, big.NewRat(nm, 1_000_000_000)))
	power := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(digits)), nil)
	scaled := times(exact, new(big.Rat).SetInt(power))
	rounded, err := m.PerMetre(units.Length(nm)).Round(digits, mode)
	if err != nil {
		t.Errorf("%q: %v", text, err)
	}
	is("rounded", rounded, new(big.Rat).SetFrac(slowRound(scaled.Num(), scaled.Denom(), mode), power))
	fixed, err := rounded.Fixed(digits)
	if r, ok := new(big.Rat).SetString(fixed); err != nil || !ok || r.FloatString(digits) != fixed {
		t.Errorf("%q with %d decimals is %q (%v)", text, digits, fixed, err)
	}
	if back, err := units.ParseMoney(m.String()); err != nil || !back.Equal(m) {
		t.Errorf("%v reads as %v (%v)", m, back, err)
	}
	if n, err := m.TenThousandths(); err != nil || !units.MoneyOfTenThousandths(n).Equal(m) {
		t.Errorf("%v is %d ten-thousandths (%v)", m, n, err)
	}
}

func TestMoneyAgainstRationals(t *testing.T) {
	text := rapid.OneOf(
		rapid.StringMatching(`[0-9]{1,10}(\.[0-9]{1,5})?`),
		rapid.StringMatching(`[0-9.,eE+\-_ ]{0,8}`),
		rapid.StringMatching(`[0-9]{1,3}\.[0-9]{3}5`),
	)
	rapid.Check(t, func(t *rapid.T) {
		checkMoney(t, text.Draw(t, "text"), anyInt64().Draw(t, "count"), anyInt64().Draw(t, "nm"),
			rapid.IntRange(0, 9).Draw(t, "digits"), anyMode().Draw(t, "mode"))
	})
}

func FuzzMoney(f *testing.F) {
	f.Add("12.5", int64(3), int64(2_400_000_000), uint8(2), uint8(0))
	f.Add("1000000000", int64(-1), int64(-1), uint8(9), uint8(3))
	f.Add("1,5", int64(0), int64(0), uint8(0), uint8(1))
	f.Fuzz(func(t *testing.T, text string, count, nm int64, digits, mode uint8) {
		checkMoney(t, text, count, nm, int(digits%10), units.Rounding(mode%4))
	})
}
