package doors

import (
	"context"
	"math/bits"
	"slices"
)

// grid holds widths as base + step × d, and which sums of d any few of them can
// make: row j, u has bit x set when j widths none larger than number u make x.
// That is what keeps a search for an exact total from running into dead ends.
type grid struct {
	width      []int64 // nanometres, ascending
	base, step int64
	d          []int64
	rows       [MaxDoors][][]uint64
	top        [MaxDoors + 1][]uint64 // row n of all widths
}

// maxGridWords bounds the rows: 32 MiB.
const maxGridWords = 4 << 20

// newGrid returns the grid of the widths without its rows; there is room for as many numbers.
func newGrid(width, room []int64) grid {
	g := grid{width: width, base: width[0]}
	for _, w := range width[1:] {
		g.step = gcd(g.step, w-g.base)
	}
	g.step = max(g.step, 1)
	g.d = room[:len(width)]
	for i, w := range width {
		g.d[i] = (w - g.base) / g.step
	}
	return g
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// words is how many words the rows for up to so many doors take, when sums of j
// widths past most[j] do not matter.
func (g *grid) words(doors int, most *[MaxDoors + 1]int64) int64 {
	var n int64
	for _, d := range g.d {
		for j := 1; j < doors; j++ {
			n += min(int64(j)*d, most[j])/64 + 1
		}
	}
	return n
}

// built reports whether the rows are filled.
func (g *grid) built() bool { return g.top[1] != nil }

// build fills the rows for up to so many doors, as far as most, unless the context ends.
func (g *grid) build(ctx context.Context, doors int, most *[MaxDoors + 1]int64) error {
	store := make([]uint64, g.words(doors, most))
	for j := 1; j < doors; j++ {
		g.rows[j] = make([][]uint64, len(g.d))
		for u, d := range g.d {
			if u%16 == 0 && ctx.Err() != nil {
				return ctx.Err()
			}
			size := int(min(int64(j)*d, most[j])/64 + 1)
			row := store[:size:size]
			store = store[size:]
			if u > 0 {
				copy(row, g.rows[j][u-1])
			}
			orShifted(row, g.row(j-1, u), d)
			g.rows[j][u] = row
		}
		g.top[j] = g.rows[j][len(g.d)-1]
	}
	row := make([]uint64, min(int64(doors)*g.d[len(g.d)-1], most[doors])/64+1)
	for u, d := range g.d {
		orShifted(row, g.row(doors-1, u), d)
	}
	g.top[doors] = row
	return nil
}

// orShifted adds the bits of from, each moved up by so many, to the bits of to,
// as far as they have room there.
func orShifted(to, from []uint64, by int64) {
	if by/64 >= int64(len(to)) {
		return
	}
	to = to[by/64:]
	shift := uint(by % 64)
	carry := uint64(0)
	for i, w := range from[:min(len(from), len(to))] {
		to[i] |= w<<shift | carry
		carry = w >> (64 - shift) // 0 when nothing is moved inside a word
	}
	if len(from) < len(to) {
		to[len(from)] |= carry
	}
}

var noWidths = []uint64{1}

// row is which sums j widths up to number u make, j below the doors built for.
func (g *grid) row(j, u int) []uint64 {
	if j == 0 {
		return noWidths
	}
	return g.rows[j][u]
}

// none is what nextBit returns past the last bit.
const none = 1 << 62

// nextBit is the least bit set at or after from, or none.
func nextBit(row []uint64, from int64) int64 {
	from = max(from, 0)
	i := from / 64
	if i >= int64(len(row)) {
		return none
	}
	if w := row[i] >> uint(from%64); w != 0 {
		return from + int64(bits.TrailingZeros64(w))
	}
	for i++; i < int64(len(row)); i++ {
		if row[i] != 0 {
			return i*64 + int64(bits.TrailingZeros64(row[i]))
		}
	}
	return none
}

// atLeast is the number of the narrowest width with d or more, len(g.d) when there is none.
func (g *grid) atLeast(d int64) int {
	if d <= 0 {
		return 0
	}
	i, _ := slices.BinarySearch(g.d, d)
	return i
}

// up and down bring a total width of n doors to the sum of d, rounded to the inside.
func (g *grid) up(n int, total int64) int64   { return ceilDiv(total-int64(n)*g.base, g.step) }
func (g *grid) down(n int, total int64) int64 { return floorDiv(total-int64(n)*g.base, g.step) }

// total is the width of n doors whose d make a sum.
func (g *grid) total(n int, sum int64) int64 { return int64(n)*g.base + sum*g.step }

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func floorMod(a, b int64) int64 { return a - floorDiv(a, b)*b }

func ceilDiv(a, b int64) int64 { return -floorDiv(-a, b) }
