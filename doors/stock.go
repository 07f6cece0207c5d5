package doors

import (
	"cmp"
	"fmt"
	"math"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Timber is the timber to hand: for plates and studs, and laid flat or on edge as a packer.
type Timber struct {
	Thickness units.Length  `json:"thickness"` // the smaller side: the height of a plate laid flat
	Width     units.Length  `json:"width"`     // the larger side: the depth of a plate laid flat
	Lengths   []StockLength `json:"lengths"`   // 1 to MaxStockLengths
	// Kerf is the width of a saw cut; nil: DefaultKerf.
	Kerf *units.Length `json:"kerf,omitzero"`
	// StudSpacing is the widest spacing of stud centres; zero: DefaultStudSpacing.
	StudSpacing units.Length `json:"stud_spacing,omitzero"`
}

// What holds where timber says nothing else (common practice).
const (
	DefaultKerf        = 4 * units.Millimetre
	DefaultStudSpacing = units.Metre
	ShortestStud       = 50 * units.Millimetre // a shorter one splits when it is fixed
)

// Cut is the kerf, or its default.
func (t Timber) Cut() units.Length {
	if t.Kerf == nil {
		return DefaultKerf
	}
	return *t.Kerf
}

// Spacing is the widest spacing of stud centres, or its default.
func (t Timber) Spacing() units.Length {
	if t.StudSpacing == 0 {
		return DefaultStudSpacing
	}
	return t.StudSpacing
}

// Validate refuses timber that cannot be used, with the place.
func (t Timber) Validate() error {
	return cmp.Or(
		opening.CheckSize("timber.thickness", t.Thickness),
		opening.CheckSize("timber.width", t.Width),
		opening.CheckPosition("timber.kerf", t.Cut()),
		opening.CheckSize("timber.stud_spacing", t.Spacing()),
		checkStock("timber.lengths", t.Lengths),
	)
}

// Board is a board that packers are cut from.
type Board struct {
	Thickness units.Length `json:"thickness"`       // as it is stacked
	Price     *units.Money `json:"price,omitempty"` // a metre run of the strip; nil: not known
}

// MaxBoards bounds the boards to choose from: every stack of three is tried.
const MaxBoards = 50

// ValidateBoards refuses boards that cannot be used, with the place.
func ValidateBoards(boards []Board) error {
	if len(boards) > MaxBoards {
		return opening.Refuse("boards", "%d boards; at most %d can be used", len(boards), MaxBoards)
	}
	for i, b := range boards {
		if err := opening.CheckSize(".thickness", b.Thickness); err != nil {
			return under(fmt.Sprintf("boards[%d]", i), err)
		}
	}
	return nil
}

// Piece is one piece of a packer: a board, or the timber laid flat or on edge.
type Piece struct {
	Thickness units.Length // as it is stacked
	Board     int          // index of the board; -1: timber
	OnEdge    bool         // timber standing on edge
}

// unknownRate comes after every price that can be read.
const unknownRate = math.MaxInt64

// packerPieces are the pieces a packer can be stacked from, boards first. The
// rate is the price of a metre run in ten-thousandths, or unknownRate.
func packerPieces(boards []Board, timber *Timber) (pieces []Piece, rates []int64) {
	pieces, rates = make([]Piece, 0, len(boards)+2), make([]int64, 0, len(boards)+2)
	for i, b := range boards {
		pieces, rates = append(pieces, Piece{Thickness: b.Thickness, Board: i}), append(rates, tenThousandths(b.Price))
	}
	if timber == nil {
		return pieces, rates
	}
	rate := timber.rate()
	pieces, rates = append(pieces, Piece{Thickness: timber.Thickness, Board: -1}), append(rates, rate)
	if timber.Width != timber.Thickness {
		pieces, rates = append(pieces, Piece{Thickness: timber.Width, Board: -1, OnEdge: true}), append(rates, rate)
	}
	return pieces, rates
}

// rate is what a metre of the timber costs at the best of its lengths, in
// ten-thousandths rounded half even, or unknownRate. It only breaks a tie
// between stacks: what is bought is whole lengths.
func (t Timber) rate() int64 {
	least := int64(unknownRate)
	for _, l := range t.Lengths {
		price := tenThousandths(l.Price)
		if price == unknownRate {
			return unknownRate
		}
		rate, err := units.Length(price).MulDiv(int64(units.Metre), int64(l.Length), units.HalfEven)
		if err != nil {
			return unknownRate
		}
		least = min(least, int64(rate))
	}
	return least
}

// tenThousandths is a price as a whole number, or unknownRate.
func tenThousandths(price *units.Money) int64 {
	if price == nil {
		return unknownRate
	}
	n, err := price.TenThousandths()
	if err != nil {
		return unknownRate
	}
	return n
}
