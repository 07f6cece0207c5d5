package units

import (
	"errors"
	"fmt"
	"strings"
)

// The errors of nominal sizes, for [errors.Is].
var (
	// ErrMarket: the market is not named.
	ErrMarket = errors.New("unknown market")
	// ErrNominal: the market has no such nominal size.
	ErrNominal = errors.New("unknown nominal size")
)

// Market says whose real sizes a nominal size of softwood stands for. There is no default: the
// zero value is invalid.
type Market uint8

const (
	// PS20Dry is North American softwood dressed dry: minimum sizes of NIST Voluntary Product
	// Standard PS 20, in its millimetres. 2x3 is 38 × 64 mm.
	PS20Dry Market = iota + 1
	// PS20Green is North American softwood dressed green: minimum sizes of PS 20, in its
	// millimetres. 2x3 is 40 × 65 mm.
	PS20Green
	// CLS is the North American dry size as sold in the United Kingdom, planed with eased edges:
	// 2x3, 2x4 and 2x6 are 38 × 63, 38 × 89 and 38 × 140 mm. Common practice.
	CLS
	// Sawn is metric sawn softwood, 25 mm to the nominal inch less what whole sizes need: 2x3 is
	// 50 × 75 mm. United Kingdom practice after BS 4471.
	Sawn
	// Regularised is sawn softwood machined to an even size, 3 mm less than sawn, or 5 mm above
	// 150 mm: 2x3 is 47 × 72 mm. Common practice.
	Regularised
)

// String returns the name of the market: "PS 20 dry", "PS 20 green", "CLS", "sawn" or "regularised".
func (m Market) String() string {
	switch m {
	case PS20Dry:
		return "PS 20 dry"
	case PS20Green:
		return "PS 20 green"
	case CLS:
		return "CLS"
	case Sawn:
		return "sawn"
	case Regularised:
		return "regularised"
	default:
		return fmt.Sprintf("Market(%d)", uint8(m))
	}
}

// Section is the real size of a piece of timber across its length.
type Section struct {
	Thickness Length `json:"thickness"` // the smaller side
	Width     Length `json:"width"`     // the larger side
}

// Nominal returns the real size that a nominal size stands for in a market. The name is two
// numbers of inches with an x or a × between them, spaces round it or not, and no unit: "2x3",
// "1 1/4 x 6". The numbers follow the grammar of [Parse]; the smaller is the thickness, in either
// order, as both orders are in use. A nominal size is a name and not a size: nothing in the library
// takes one for the other.
//
// The error is [ErrMarket] for a market that is not named above, and [ErrNominal] for a name that
// cannot be read or that the market has no real size for. Timbers of 5 in and thicker are not here.
func Nominal(m Market, name string) (Section, error) {
	thicknesses, widths := m.sizes()
	if thicknesses == nil {
		return Section{}, fmt.Errorf("units: %v: %w", m, ErrMarket)
	}
	a, b, ok := readNominal(name)
	if !ok {
		return Section{}, fmt.Errorf("units: %s: %w", quote(name), ErrNominal)
	}
	thickness, okThickness := find(thicknesses, min(a, b))
	width, okWidth := find(widths, max(a, b))
	if !okThickness || !okWidth {
		return Section{}, fmt.Errorf("units: %s, %v: %w", quote(name), m, ErrNominal)
	}
	return Section{Thickness: thickness, Width: width}, nil
}

func readNominal(name string) (a, b Length, ok bool) {
	if tooLong(name) {
		return 0, 0, false
	}
	first, second, ok := strings.Cut(strings.Replace(name, "×", "x", 1), "x")
	if !ok {
		return 0, 0, false
	}
	a, okA := readInches(strings.TrimSuffix(first, " "))
	b, okB := readInches(strings.TrimPrefix(second, " "))
	return a, b, okA && okB
}

func readInches(s string) (Length, bool) {
	sc := scanner{s: s}
	l := sc.product(sc.quantity(), Inch, 0)
	return l, sc.reason == "" && sc.i == len(s)
}

// size pairs a nominal size with the real one. The unit of both is that of the table.
type size struct {
	nominal int64 // 1/8 in
	real    int64 // mm
}

func find(sizes []size, nominal Length) (Length, bool) {
	for _, s := range sizes {
		if Length(s.nominal)*Inch/8 == nominal {
			return Length(s.real) * Millimetre, true
		}
	}
	return 0, false
}

// sizes returns the thicknesses and the widths of a market, nil for a market that is none.
func (m Market) sizes() (thicknesses, widths []size) {
	const in = 8
	switch m {
	case PS20Dry:
		return []size{
				{3, 8}, {4, 11}, {5, 14}, {6, 16}, {1 * in, 19}, {10, 25}, {12, 32}, {2 * in, 38},
				{20, 51}, {3 * in, 64}, {28, 76}, {4 * in, 89}, {36, 102},
			}, []size{
				{2 * in, 38}, {3 * in, 64}, {4 * in, 89}, {5 * in, 114}, {6 * in, 140}, {7 * in, 165},
				{8 * in, 184}, {9 * in, 210}, {10 * in, 235}, {11 * in, 260}, {12 * in, 286},
				{14 * in, 337}, {16 * in, 387},
			}
	case PS20Green:
		return []size{
				{3, 9}, {4, 12}, {5, 15}, {6, 17}, {1 * in, 20}, {10, 26}, {12, 33}, {2 * in, 40},
				{20, 52}, {3 * in, 65}, {28, 78}, {4 * in, 90}, {36, 103},
			}, []size{
				{2 * in, 40}, {3 * in, 65}, {4 * in, 90}, {5 * in, 117}, {6 * in, 143}, {7 * in, 168},
				{8 * in, 190}, {9 * in, 216}, {10 * in, 241}, {11 * in, 267}, {12 * in, 292},
				{14 * in, 343}, {16 * in, 394},
			}
	case CLS:
		return []size{{2 * in, 38}}, []size{{3 * in, 63}, {4 * in, 89}, {6 * in, 140}}
	case Sawn:
		return []size{
				{5, 16}, {6, 19}, {1 * in, 25}, {12, 38}, {2 * in, 50}, {20, 63}, {3 * in, 75}, {4 * in, 100},
			}, []size{
				{2 * in, 50}, {3 * in, 75}, {4 * in, 100}, {5 * in, 125}, {6 * in, 150}, {7 * in, 175},
				{8 * in, 200}, {9 * in, 225},
			}
	case Regularised:
		return []size{{2 * in, 47}, {3 * in, 72}}, []size{
			{2 * in, 47}, {3 * in, 72}, {4 * in, 97}, {5 * in, 122}, {6 * in, 147}, {7 * in, 170},
			{8 * in, 195}, {9 * in, 220},
		}
	default:
		return nil, nil
	}
}
