package units

import "github.com/shopspring/decimal"

// Area is an area in square metres, exact to the last of the eighteen decimals that a product of
// two lengths has.
//
// The zero value is no area. An Area is compared with [Area.Equal] and [Area.Cmp], not with ==,
// which does not compile. An area is worked out and never read, so it is written as text and has no
// reader.
type Area struct {
	_ [0]func()
	d decimal.Decimal
}

// AreaOf returns width times height, exactly. The sign of a length counts as in any product.
func AreaOf(width, height Length) Area { return Area{d: times(metres(width), metres(height))} }

// Add returns a + o, exactly.
func (a Area) Add(o Area) Area { return Area{d: plus(a.d, o.d)} }

// Mul returns the area of so many, exactly.
func (a Area) Mul(count int64) Area { return Area{d: times(a.d, decimal.New(count, 0))} }

// Cmp returns -1, 0 or 1 as a is less than, equal to or greater than o.
func (a Area) Cmp(o Area) int { return a.d.Cmp(o.d) }

// Equal says whether a and o are the same area.
func (a Area) Equal(o Area) bool { return a.d.Equal(o.d) }

// SquareMetres returns the area in square metres in its shortest plain form: "2.07".
func (a Area) SquareMetres() string { return plain(a.d) }

// String returns the area with its unit: "2.07 m²".
func (a Area) String() string { return plain(a.d) + " m²" }

// AppendText appends the area as [Area.String] writes it. The error is always nil.
func (a Area) AppendText(b []byte) ([]byte, error) { return append(b, a.String()...), nil }

// MarshalText returns the area as [Area.String] writes it. The error is always nil.
func (a Area) MarshalText() ([]byte, error) { return a.AppendText(nil) }
