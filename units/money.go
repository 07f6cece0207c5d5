package units

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Money is an amount of money or a price for something, in major units of a currency that the
// caller keeps: exact decimal, never rounded except by [Money.Round].
//
// The zero value is 0. A Money is compared with [Money.Equal] and [Money.Cmp], not with ==, which
// does not compile. What is read is never negative; arithmetic with a negative count or length may
// give a negative amount, which is written but not read back.
type Money struct {
	_ [0]func()
	d decimal.Decimal
}

const maxMoneyDecimals = 4

func moneyNumber() number {
	return number{
		most: 1_000_000_000, decimals: maxMoneyDecimals,
		tooGreat: "more than 1 000 000 000", tooFine: "more than four decimals", after: "nothing may follow an amount",
	}
}

// ParseMoney reads an amount as plain digits: digit { digit } [ "." digit { digit } ], at most four
// decimals, at most 1 000 000 000, at most 32 characters. Everything else is a [*ParseError]: signs,
// exponents, commas, groups of digits, currency signs and codes, spaces.
func ParseMoney(s string) (Money, error) {
	d, err := moneyNumber().read(s)
	return Money{d: d}, err
}

// MustMoney is [ParseMoney] for texts written into a program. It panics where ParseMoney returns an
// error.
func MustMoney(s string) Money {
	m, err := ParseMoney(s)
	if err != nil {
		panic(err)
	}
	return m
}

// MoneyOfTenThousandths returns n ten-thousandths of the major unit: 125000 is 12.5.
func MoneyOfTenThousandths(n int64) Money {
	return Money{d: decimal.New(n, -maxMoneyDecimals).Normalize()}
}

// smallDigits is a number of digits that fits an int64 with maxMoneyDecimals zeros behind it.
const smallDigits = 14

// TenThousandths returns the amount in ten-thousandths of the major unit, for sums in a loop. The
// error is [ErrInexact] for an amount of more than four decimals and [ErrRange] for one that does
// not fit an int64.
func (m Money) TenThousandths() (int64, error) {
	if places(m.d) > maxMoneyDecimals {
		return 0, fmt.Errorf("units: %v in ten-thousandths: %w", m, ErrInexact)
	}
	// Amounts that are read have few digits: no need for a number without bound.
	if exponent := m.d.Exponent(); exponent <= 0 && m.d.NumDigits() <= smallDigits {
		n := m.d.CoefficientInt64()
		for range maxMoneyDecimals + exponent {
			n *= 10
		}
		return n, nil
	}
	n := m.d.Shift(maxMoneyDecimals).BigInt()
	if !n.IsInt64() {
		return 0, fmt.Errorf("units: %v in ten-thousandths: %w", m, ErrRange)
	}
	return n.Int64(), nil
}

// Add returns m + o, exactly.
func (m Money) Add(o Money) Money { return Money{d: plus(m.d, o.d)} }

// Mul returns the price of so many, exactly.
func (m Money) Mul(count int64) Money { return Money{d: times(m.d, decimal.New(count, 0))} }

// PerMetre takes m as the price of a metre and returns the price of l, exactly: up to nine decimals
// more than m has.
func (m Money) PerMetre(l Length) Money { return Money{d: times(m.d, metres(l))} }

// PerSquareMetre takes m as the price of a square metre and returns the price of a, exactly: as many
// decimals more as a has.
func (m Money) PerSquareMetre(a Area) Money { return Money{d: times(m.d, a.d)} }

// Round returns the amount rounded once to so many decimals, 0 to 9. The error is [ErrRange] for
// any other number of decimals and [ErrRounding] for an unknown rounding.
func (m Money) Round(digits int, mode Rounding) (Money, error) {
	d, err := roundTo(m.d, digits, mode)
	return Money{d: d}, err
}

// Cmp returns -1, 0 or 1 as m is less than, equal to or greater than o.
func (m Money) Cmp(o Money) int { return m.d.Cmp(o.d) }

// Equal says whether m and o are the same amount.
func (m Money) Equal(o Money) bool { return m.d.Equal(o.d) }

// IsZero says whether the amount is 0. It makes omitzero leave out an amount of 0.
func (m Money) IsZero() bool { return m.d.IsZero() }

// String returns the amount in its shortest plain form: "12.5", "1000", "0".
func (m Money) String() string { return plain(m.d) }

// Fixed returns the amount with so many decimals, 0 to 9, padded with zeros: "12.50". It rounds
// nothing: the error is [ErrInexact] when decimals would be lost and [ErrRange] for any other number
// of decimals.
func (m Money) Fixed(digits int) (string, error) {
	if digits < 0 || digits > maxDigits {
		return "", fmt.Errorf("units: %d decimals: %w", digits, ErrRange)
	}
	if places(m.d) > digits {
		return "", fmt.Errorf("units: %v with %d decimals: %w", m, digits, ErrInexact)
	}
	return m.d.StringFixed(int32(digits)), nil
}

// AppendText appends the amount as [Money.String] writes it. The error is always nil.
func (m Money) AppendText(b []byte) ([]byte, error) { return append(b, plain(m.d)...), nil }

// MarshalText returns the amount as [Money.String] writes it. The error is always nil.
func (m Money) MarshalText() ([]byte, error) { return m.AppendText(nil) }

// UnmarshalText reads what [ParseMoney] reads. On an error the receiver keeps its value.
func (m *Money) UnmarshalText(text []byte) error {
	d, err := moneyNumber().read(string(text))
	if err != nil {
		return err
	}
	m.d = d
	return nil
}

// MarshalJSON writes the amount as a JSON string, "12.5", so that no reader makes a binary fraction
// of it. The error is always nil.
func (m Money) MarshalJSON() ([]byte, error) { return []byte(`"` + plain(m.d) + `"`), nil }

// UnmarshalJSON reads a JSON number or string that is what [ParseMoney] reads. Everything else is a
// [*ParseError], null and exponents too. On an error the receiver keeps its value.
func (m *Money) UnmarshalJSON(data []byte) error {
	d, err := moneyNumber().readJSON(data)
	if err != nil {
		return err
	}
	m.d = d
	return nil
}
