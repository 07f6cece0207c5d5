package units

import "github.com/shopspring/decimal"

// Mass is a mass in kilograms, or the mass of a metre, a square metre or a cubic metre of
// something: exact decimal, never rounded except by [Mass.Round].
//
// The zero value is no mass. A Mass is compared with [Mass.Equal] and [Mass.Cmp], not with ==,
// which does not compile. What is read is never negative and has at most nine decimals; what is
// worked out may have more, and is then written whole.
type Mass struct {
	_ [0]func()
	d decimal.Decimal
}

func massNumber() number {
	return number{
		most: 1_000_000, decimals: 9, unit: "kg",
		tooGreat: "more than 1 000 000 kg", tooFine: "more than nine decimals", after: "unknown unit: use kg",
	}
}

// ParseMass reads a mass as plain digits with or without its unit, which is the kilogram:
// digit { digit } [ "." digit { digit } ] [ [ " " ] "kg" ], at most nine decimals, at most
// 1 000 000 kg, at most 32 characters. Everything else is a [*ParseError]: signs, exponents, commas,
// groups of digits, other units, other spaces.
func ParseMass(s string) (Mass, error) {
	d, err := massNumber().read(s)
	return Mass{d: d}, err
}

// MustMass is [ParseMass] for texts written into a program. It panics where ParseMass returns an
// error.
func MustMass(s string) Mass {
	m, err := ParseMass(s)
	if err != nil {
		panic(err)
	}
	return m
}

// SheetMass returns the mass of a sheet, exactly: area times thickness times the mass of a cubic
// metre. Float glass is 2500 kg/m³ (EN 572-1), so 4 mm of it are 10 kg/m².
func SheetMass(a Area, thickness Length, perCubicMetre Mass) Mass {
	return Mass{d: times(times(a.d, metres(thickness)), perCubicMetre.d)}
}

// BarMass returns the mass of a bar, exactly: length times the mass of a metre.
func BarMass(l Length, perMetre Mass) Mass { return Mass{d: times(metres(l), perMetre.d)} }

// Add returns m + o, exactly.
func (m Mass) Add(o Mass) Mass { return Mass{d: plus(m.d, o.d)} }

// Mul returns the mass of so many, exactly.
func (m Mass) Mul(count int64) Mass { return Mass{d: times(m.d, decimal.New(count, 0))} }

// Round returns the mass rounded once to so many decimals of a kilogram, 0 to 9. The error is
// [ErrRange] for any other number of decimals and [ErrRounding] for an unknown rounding.
func (m Mass) Round(digits int, mode Rounding) (Mass, error) {
	d, err := roundTo(m.d, digits, mode)
	return Mass{d: d}, err
}

// Cmp returns -1, 0 or 1 as m is less than, equal to or greater than o.
func (m Mass) Cmp(o Mass) int { return m.d.Cmp(o.d) }

// Equal says whether m and o are the same mass.
func (m Mass) Equal(o Mass) bool { return m.d.Equal(o.d) }

// Kilograms returns the mass in kilograms in its shortest plain form: "20.7".
func (m Mass) Kilograms() string { return plain(m.d) }

// String returns the mass with its unit: "20.7 kg".
func (m Mass) String() string { return plain(m.d) + " kg" }

// AppendText appends the mass as [Mass.String] writes it. The error is always nil.
func (m Mass) AppendText(b []byte) ([]byte, error) { return append(b, m.String()...), nil }

// MarshalText returns the mass as [Mass.String] writes it. The error is always nil.
func (m Mass) MarshalText() ([]byte, error) { return m.AppendText(nil) }

// UnmarshalText reads what [ParseMass] reads. On an error the receiver keeps its value.
func (m *Mass) UnmarshalText(text []byte) error {
	d, err := massNumber().read(string(text))
	if err != nil {
		return err
	}
	m.d = d
	return nil
}

// MarshalJSON writes the mass as a JSON number of kilograms, in its shortest plain form. The error
// is always nil.
func (m Mass) MarshalJSON() ([]byte, error) { return []byte(plain(m.d)), nil }

// UnmarshalJSON reads a JSON number or string that is what [ParseMass] reads. Everything else is a
// [*ParseError], null and exponents too. On an error the receiver keeps its value.
func (m *Mass) UnmarshalJSON(data []byte) error {
	d, err := massNumber().readJSON(data)
	if err != nil {
		return err
	}
	m.d = d
	return nil
}
