package frame

import (
	"fmt"
	"math/big"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Beam is a rectangular timber on two simple supports.
type Beam struct {
	Span  units.Length `json:"span"`  // between the supports
	Width units.Length `json:"width"` // across, level
	Depth units.Length `json:"depth"` // upright: the way it bends
	E     int64        `json:"e"`     // modulus of elasticity, N/mm²: E₀,mean of its Grade
}

// Load is what a beam carries; its parts act together. The zero value is no load.
type Load struct {
	Uniform Force `json:"uniform,omitzero"` // w, on each metre of the span
	Centre  Force `json:"centre,omitzero"`  // P, at midspan
	Pair    Force `json:"pair,omitzero"`    // P, each of two, alike
	// PairAt is a, the distance of each of the pair from the support next to it, at
	// most half the span.
	PairAt units.Length `json:"pair_at,omitzero"`
}

// MaxE bounds a modulus of elasticity, in N/mm²: some times that of steel.
const MaxE = 1_000_000

// Deflection returns how far the beam bends at midspan under the load, in bending
// alone, rounded up once to a nanometre from the exact sum. With b the width, h the
// depth and I = b·h³/12:
//
//	uniform load w       5·w·L⁴/(384·E·I)
//	point load P         P·L³/(48·E·I)
//	two loads P at a     P·a·(3·L² − 4·a²)/(24·E·I)
//
// Shear adds some hundredths to this in timber of usual proportions. Source: AISC
// Steel Construction Manual table 3-23, cases 1, 7 and 9; AWC Design Aid No. 6 (2005).
//
// The error is units.ErrRange for a size, a modulus or a load that is out of range,
// for a pair further than half the span from its supports, and for a deflection
// beyond units.MaxLength.
func (b Beam) Deflection(l Load) (units.Length, error) {
	if err := b.check(l); err != nil {
		return 0, err
	}
	// In nanometres and micronewtons, E in N/mm² is E·10⁶/10¹² µN/nm², and w on a
	// metre is w/10⁹ µN/nm. Over the common divisor 384·E·I = 32·E·b·h³:
	//
	//	δ = 10⁶·(5·w·L⁴/10⁹ + 8·P·L³ + 16·P·a·(3·L² − 4·a²)) / (32·E·b·h³)
	//
	// and 1000 times above and below keeps it whole.
	span, at := big.NewInt(int64(b.Span)), big.NewInt(int64(l.PairAt))
	square := product(span, span)
	sum := product(big.NewInt(5*int64(l.Uniform)), square, square)
	point := product(big.NewInt(8*int64(l.Centre)), square, span)
	inner := new(big.Int).Sub(product(big.NewInt(3), square), product(big.NewInt(4), at, at))
	pair := product(big.NewInt(16*int64(l.Pair)), at, inner)
	sum.Add(sum, product(big.NewInt(1_000_000_000), point.Add(point, pair)))

	depth := big.NewInt(int64(b.Depth))
	divisor := product(big.NewInt(32*b.E), big.NewInt(int64(b.Width)), depth, depth, depth, big.NewInt(1000))

	quotient, rest := new(big.Int).QuoRem(sum, divisor, new(big.Int))
	if rest.Sign() > 0 {
		quotient.Add(quotient, big.NewInt(1))
	}
	if quotient.Cmp(big.NewInt(int64(units.MaxLength))) > 0 {
		return 0, fmt.Errorf("frame: a deflection beyond %s: %w", units.MaxLength, units.ErrRange)
	}
	return units.Length(quotient.Int64()), nil
}

func product(factors ...*big.Int) *big.Int {
	p := big.NewInt(1)
	for _, f := range factors {
		p.Mul(p, f)
	}
	return p
}

func (b Beam) check(l Load) error {
	for _, size := range []units.Length{b.Span, b.Width, b.Depth} {
		if opening.CheckSize("", size) != nil {
			return fmt.Errorf("frame: a beam of %s × %s over %s: %w", b.Width, b.Depth, b.Span, units.ErrRange)
		}
	}
	if b.E <= 0 || b.E > MaxE {
		return fmt.Errorf("frame: a modulus of %d N/mm²: %w", b.E, units.ErrRange)
	}
	for _, f := range []Force{l.Uniform, l.Centre, l.Pair} {
		if f < 0 || f > MaxForce {
			return fmt.Errorf("frame: a load of %s: %w", f, units.ErrRange)
		}
	}
	if l.PairAt < 0 || 2*l.PairAt > b.Span {
		return fmt.Errorf("frame: a pair of loads %s from the ends of %s: %w", l.PairAt, b.Span, units.ErrRange)
	}
	return nil
}

// Stiffness is a deflection against a limit, for information.
type Stiffness struct {
	Grade      string       `json:"grade"`      // of the timber, such as C16
	Span       units.Length `json:"span"`       // between the supports
	Deflection units.Length `json:"deflection"` // at midspan
	Limit      int          `json:"limit"`      // the n of span/n, as the caller set it
	Allowed    units.Length `json:"allowed"`    // span/n, rounded down to a nanometre
	Within     bool         `json:"within"`     // the deflection is no more than allowed
	// Advice says what this is worth, in plain words.
	Advice string `json:"advice"`
}

// The limits that may be set, as the n of span/n.
const (
	MinLimit = 1
	MaxLimit = 10_000
)

// advice goes with every stiffness.
const advice = "for information: bending alone, on two simple supports. Timber that carries load, and the limit it is held to, are for a qualified engineer and local code to say"

// CheckStiffness compares how far timber of a grade bends with span/limit; the limit
// is the caller's. EN 1995-1-1:2004 table 7.2 has l/300 to l/500 for a beam on two
// supports, at once under load. The modulus is E₀,mean of the grade, whatever b.E says.
//
// The error is ErrGrade for an unknown grade, units.ErrRange for a limit outside
// MinLimit to MaxLimit, else as of Beam.Deflection.
func CheckStiffness(b Beam, grade string, l Load, limit int) (Stiffness, error) {
	g, err := GradeOf(grade)
	if err != nil {
		return Stiffness{}, err
	}
	if limit < MinLimit || limit > MaxLimit {
		return Stiffness{}, fmt.Errorf("frame: a limit of span/%d: %w", limit, units.ErrRange)
	}
	b.E = g.MeanE
	deflection, err := b.Deflection(l)
	if err != nil {
		return Stiffness{}, err
	}
	allowed := b.Span / units.Length(limit)
	return Stiffness{
		Grade: g.Name, Span: b.Span, Deflection: deflection,
		Limit: limit, Allowed: allowed, Within: deflection <= allowed, Advice: advice,
	}, nil
}

// Working returns the sums behind a stiffness, as one writes them on paper: in
// millimetres, newtons and N/mm², a deflection for each part of the load that there is.
func (b Beam) Working(l Load) ([]units.Line, error) {
	if err := b.check(l); err != nil {
		return nil, err
	}
	mm := units.Length.Millimetres
	lines := []units.Line{{
		What: "I = b·h³/12",
		Sum:  fmt.Sprintf("%s × %s³ / 12", mm(b.Width), mm(b.Depth)),
		Is:   b.inertia() + " mm⁴",
	}}
	for _, part := range []struct {
		load Load
		what string
		sum  string
	}{
		{Load{Uniform: l.Uniform}, "5·w·L⁴/(384·E·I)", fmt.Sprintf("5 × %s/1000 × %s⁴ / (384 × %d × I)", l.Uniform.Newtons(), mm(b.Span), b.E)},
		{Load{Centre: l.Centre}, "P·L³/(48·E·I)", fmt.Sprintf("%s × %s³ / (48 × %d × I)", l.Centre.Newtons(), mm(b.Span), b.E)},
		{Load{Pair: l.Pair, PairAt: l.PairAt}, "P·a·(3·L² − 4·a²)/(24·E·I)",
			fmt.Sprintf("%s × %s × (3 × %s² − 4 × %s²) / (24 × %d × I)", l.Pair.Newtons(), mm(l.PairAt), mm(b.Span), mm(l.PairAt), b.E)},
	} {
		if part.load.Uniform+part.load.Centre+part.load.Pair == 0 {
			continue
		}
		is, err := b.Deflection(part.load)
		if err != nil {
			return nil, err
		}
		lines = append(lines, units.Line{What: part.what, Sum: part.sum, Is: is.String()})
	}
	return lines, nil
}

// inertia is I in mm⁴ to three decimals, half up.
func (b Beam) inertia() string {
	depth := big.NewInt(int64(b.Depth))
	i := new(big.Rat).SetFrac(product(big.NewInt(int64(b.Width)), depth, depth, depth), big.NewInt(12))
	fourth := new(big.Int).Exp(big.NewInt(int64(units.Millimetre)), big.NewInt(4), nil)
	return i.Quo(i, new(big.Rat).SetInt(fourth)).FloatString(3)
}
