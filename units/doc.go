// Package units holds the sizes and the sums that the rest of the library is made of: lengths,
// spans, rounding, splits, inches, timber sizes, areas, masses and money. Everything is exact. What
// cannot be exact is rounded once, by a rounding that is named, or refused with an error.
//
// # Lengths
//
// A [Length] is a whole number of nanometres in an int64. Millimetres and inches meet there without
// a remainder: 1 in is 25.4 mm exactly (the international inch, 1959; NIST SP 811, appendix B), so
// 1/64 in is 396 875 nm. Lengths are used as [time.Duration] is used:
//
//	door := 650 * units.Millimetre
//	cover := 4*door - 3*50*units.Millimetre // 2450 mm
//
// Every length that is read lies within ±100 m ([MaxLength]) and every count within 10 000
// ([MaxPieces]), so sums stay within an int64. A product or a ratio goes through [Length.MulDiv],
// which works in 128 bits: a door of width w beside a wall that leans p over h is raised w·p/h,
// 650 × 10 / 2300 = 2.826 mm.
//
// # Reading and writing
//
// [Parse] reads what people write, 2400, 2.4 m, 94 1/2 in, 7' 10 1/2", and states its grammar and
// all it refuses. What could be read in two ways is refused: is 2,400 more than two metres or less
// than three millimetres? What is not a whole number of nanometres is refused as well: a third of an
// inch. A sign is read only by [ParseSigned]. An error is a [*ParseError], which holds the text, the
// reason and the place.
//
// A length is written in millimetres with all its decimals, at most six: 66.666667 mm. In JSON it is
// a number of millimetres, and a number or a string is read. [Length.Imperial] writes inches, or
// feet and inches, to 1/2 … 1/64 in, and says how far that is off: 2400 mm is 94 1/2" with an error
// of 0.3 mm.
//
// # Rounding
//
// A length l rounded to a step s is n·s, where n is the whole number that l/s becomes under one of
// four roundings (ISO 80000-1, Annex B):
//
//	               12.25   12.35   -2.5   to a step of 0.1, and of 1
//	half even      12.2    12.4    -2     rule A: midway, the even multiple
//	half up        12.3    12.4    -2     rule B: midway, the greater multiple
//	up             12.3    12.4    -2     towards +infinity
//	down           12.2    12.3    -3     towards -infinity
//
// It is done once, from the exact value: 12.251 to a step of 0.1 is 12.3, and not 12.2 by way of
// 12.25. The limits of a [Span] are rounded inside it, a minimum up and a maximum down, by
// [Span.RoundInside]. Uncertainties combine as the root of the sum of their squares
// (JCGM 100:2008, 5.1), rounded up, by [RootSumSquares].
//
// # Splits
//
// The parts of a split sum to the whole exactly. Three overlaps of 200 mm together are 66.666667,
// 66.666667 and 66.666666 mm by [Split]. A cut of 131 mm in two, in whole millimetres, is 66 and 65
// by [SplitStep]. [SplitShares] splits in proportion: every share gets its whole steps, and the
// steps left over go to the largest remainders.
//
// # Nominal timber
//
// A nominal size is a name. [Nominal] says what size it is in a named market, and there is no market
// by default: 2x3 is 38 × 64 mm dressed dry and 40 × 65 mm dressed green (NIST PS 20), 38 × 63 mm as
// CLS, 50 × 75 mm sawn and 47 × 72 mm regularised (common practice).
//
// # Areas, masses and money
//
// [Area], [Mass] and [Money] are exact decimals, for the edge of the work and not for the loop of a
// search. A pane of 900 × 2300 mm is 2.07 m²; 4 mm of float glass at 2500 kg/m³ (EN 572-1) is
// 10 kg/m², so it weighs 20.7 kg. Money is read with at most four decimals, written as text, and
// rounded only by [Money.Round].
//
// # Use by many goroutines
//
// There is no state here that changes. All functions, and the methods of values that are not being
// written to, may be called from many goroutines.
package units
