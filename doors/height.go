package doors

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// Method says what is done with the height that a door leaves over.
type Method string

// The methods, in the order they are tried and, last of all, ranked.
const (
	AsIs      Method = "as is"           // track and rail take what is left
	Packer    Method = "packer"          // a stack of boards above the track
	Bulkhead  Method = "bulkhead"        // two plates and studs above the track
	CutDown   Method = "cut down"        // the door is cut to the height found
	ToMeasure Method = "made to measure" // the door is made to the height found
)

var methods = []Method{AsIs, Packer, Bulkhead, CutDown, ToMeasure}

// Order is the method's place in the order of the methods, 0 first.
func (m Method) Order() int { return slices.Index(methods, m) }

// Height is one way to hang doors of one stock height under a clear height.
type Height struct {
	Method    Method       `json:"method"`    // how the height is used
	Stock     units.Length `json:"stock"`     // height of the door as bought
	Door      units.Length `json:"door"`      // height of the door as hung
	Allowance units.Length `json:"allowance"` // what is left for track and rail
	Gap       units.Length `json:"gap"`       // height of a bulkhead; 0 for other methods
	Cut       units.Length `json:"cut"`       // what is cut off a door; 0 for other methods
	// Stack is the packer's pieces, thinnest first; none for other methods.
	Stack  []Piece `json:"-"`
	Margin Margin  `json:"-"` // of the clear height
}

// Margin says how far a reading may be out before what is ordered, or the
// method, has to change. A nil end has no limit.
type Margin struct {
	Under *units.Length `json:"under,omitzero"` // the true value may be smaller by this
	Over  *units.Length `json:"over,omitzero"`  // the true value may be larger by this
}

// Within reports whether no end of the margin is smaller than the uncertainty.
func (m Margin) Within(uncertainty units.Length) bool {
	return (m.Under == nil || *m.Under >= uncertainty) && (m.Over == nil || *m.Over >= uncertainty)
}

// Refusal says why a method was not offered for a stock height.
type Refusal struct {
	Stock  units.Length `json:"stock"`  // 0 for doors made to measure
	Method Method       `json:"method"` // what was not offered
	Reason string       `json:"reason"` // why, in words
}

// Above is what the methods need to know beside the doors and the clear height.
type Above struct {
	Allowance Target  // for track and rail together
	Boards    []Board // what packers are stacked from
	Timber    *Timber // nil: no bulkhead, and no timber in a packer
	Cutting   Cutting // how doors are cut down
}

// HeightsFor returns every way to hang the doors of a range under the clear
// height, tallest stock first and then in the order of the methods, and the
// methods refused with the reason. With H the clear height, s the stock height
// and a the allowance:
//
//	as is            a.min ≤ H − s ≤ a.max
//	packer           H − s > a.max; a stack of at most MaxStack pieces leaves an allowance inside a
//	bulkhead         H − s > a.max; gap = H − s − aim ≥ 2 plates + ShortestStud
//	cut down         H − s < a.min; cut = s − (H − aim), rounded up to the saw step
//	made to measure  door = H − aim, rounded down to the maker's step
//
// The aim is by default a.min for bulkhead and cut down, made to the height
// found, and the middle of a for packer and made to measure, bought before it.
func HeightsFor(r Range, clear units.Length, above Above) (heights []Height, refused []Refusal) {
	for _, stock := range r.Heights() {
		left := clear - stock
		try := func(m Method, h Height, err error) {
			if err != nil {
				refused = append(refused, Refusal{stock, m, err.Error()})
				return
			}
			h.Method, h.Stock = m, stock
			heights = append(heights, h)
		}
		switch {
		case left > above.Allowance.Max:
			h, err := above.pack(clear, stock)
			try(Packer, h, err)
			h, err = above.frame(clear, stock)
			try(Bulkhead, h, err)
		case left < above.Allowance.Min:
			h, err := above.cutDown(r.Build, clear, stock)
			try(CutDown, h, err)
		default:
			try(AsIs, above.bought(stock, left), nil)
		}
	}
	if r.MadeToMeasure != nil {
		h, err := above.toMeasure(*r.MadeToMeasure, clear)
		if err != nil {
			refused = append(refused, Refusal{0, ToMeasure, err.Error()})
		} else {
			heights = append(heights, h)
		}
	}
	return heights, refused
}

// bought is a height whose allowance stands once the doors are bought.
func (a Above) bought(door, allowance units.Length) Height {
	return Height{
		Door: door, Allowance: allowance,
		Margin: Margin{new(allowance - a.Allowance.Min), new(a.Allowance.Max - allowance)},
	}
}

// MaxStack bounds the pieces of a packer.
const MaxStack = 3

func (a Above) pack(clear, stock units.Length) (Height, error) {
	stack, ok := a.bestStack(clear - stock)
	if !ok {
		return Height{}, fmt.Errorf("no stack of at most %d pieces out of the boards and the timber fills %s less an allowance of %s", MaxStack, clear-stock, a.Allowance.Span())
	}
	left := clear - stock
	for _, p := range stack {
		left -= p.Thickness
	}
	h := a.bought(stock, left)
	h.Stack = stack
	return h, nil
}

// stackKey orders stacks of equally many pieces: the smaller is better.
type stackKey struct {
	off    units.Length // twice the distance of the allowance from the aim
	low    bool         // below the aim
	rate   int64        // the dearest there is where a piece has no price
	pieces int
	stack  [MaxStack]units.Length
}

func (k stackKey) less(o stackKey) bool {
	switch {
	case k.off != o.off:
		return k.off < o.off
	case k.low != o.low:
		return !k.low
	case k.rate != o.rate:
		return k.rate < o.rate
	}
	return slices.Compare(k.stack[:k.pieces], o.stack[:o.pieces]) < 0
}

// bestStack tries every stack of one piece, then of two, then of three: at most
// MaxBoards+2 kinds of piece, taken MaxStack at a time.
func (a Above) bestStack(fill units.Length) ([]Piece, bool) {
	pieces, rates := packerPieces(a.Boards, a.Timber)
	for n := 1; n <= MaxStack; n++ {
		if chosen, ok := a.bestOf(n, fill, pieces, rates); ok {
			stack := make([]Piece, n)
			for i, c := range chosen[:n] {
				stack[i] = pieces[c]
			}
			slices.SortStableFunc(stack, func(p, q Piece) int { return cmp.Compare(p.Thickness, q.Thickness) })
			return stack, true
		}
	}
	return nil, false
}

// bestOf is the best stack of n pieces, as indexes of the pieces.
func (a Above) bestOf(n int, fill units.Length, pieces []Piece, rates []int64) (best [MaxStack]int, ok bool) {
	var bestKey stackKey
	var chosen [MaxStack]int
	var add func(from, i int, allowance units.Length)
	add = func(from, i int, allowance units.Length) {
		if allowance < a.Allowance.Min {
			return
		}
		if i < n {
			for c := from; c < len(pieces); c++ {
				chosen[i] = c
				add(c, i+1, allowance-pieces[c].Thickness)
			}
			return
		}
		if allowance > a.Allowance.Max {
			return
		}
		off := 2*allowance - a.Allowance.doubledAim()
		key := stackKey{off: off.Abs(), low: off < 0, pieces: n}
		for k, c := range chosen[:n] {
			key.stack[k] = pieces[c].Thickness
			key.rate = addRates(key.rate, rates[c])
		}
		slices.Sort(key.stack[:n])
		if !ok || key.less(bestKey) {
			best, bestKey, ok = chosen, key, true
		}
	}
	add(0, 0, fill)
	return best, ok
}

// addRates is the rate of pieces together, unknown when one is.
func addRates(a, b int64) int64 {
	if a == unknownRate || b == unknownRate {
		return unknownRate
	}
	return a + b
}

var errNoTimber = errors.New("no timber is given for plates and studs")

func (a Above) frame(clear, stock units.Length) (Height, error) {
	if a.Timber == nil {
		return Height{}, errNoTimber
	}
	allowance := a.Allowance.Least()
	gap := clear - stock - allowance
	spare := gap - (2*a.Timber.Thickness + ShortestStud)
	if spare < 0 {
		return Height{}, fmt.Errorf("a gap of %s is less than two plates of %s and a stud of %s", gap, a.Timber.Thickness, ShortestStud)
	}
	return Height{Door: stock, Allowance: allowance, Gap: gap, Margin: Margin{Under: new(spare)}}, nil
}

func (a Above) cutDown(b *Build, clear, stock units.Length) (Height, error) {
	cut, err := (stock - (clear - a.Allowance.Least())).Round(a.Cutting.step(), units.Up)
	if err != nil {
		return Height{}, err
	}
	door := stock - cut
	if door <= 0 {
		return Height{}, fmt.Errorf("a cut of %s leaves no door", cut)
	}
	allowance := clear - door
	if !a.Allowance.Span().Contains(allowance) {
		return Height{}, fmt.Errorf("in saw steps of %s the allowance comes to %s, outside %s", a.Cutting.step(), allowance, a.Allowance.Span())
	}
	h := Height{Door: door, Allowance: allowance, Cut: cut}
	h.Margin.Over = new(a.Allowance.Min - (clear - stock))
	limit := func(deepest units.Length) error {
		if cut > deepest {
			return fmt.Errorf("a cut of %s is deeper than %s: %w", cut, deepest, ErrTooDeep)
		}
		if h.Margin.Under == nil || deepest-cut < *h.Margin.Under {
			h.Margin.Under = new(deepest - cut)
		}
		return nil
	}
	if a.Cutting.Deepest != nil {
		if err := limit(*a.Cutting.Deepest); err != nil {
			return Height{}, err
		}
	}
	if b != nil {
		deepest, err := DeepestCut(b, a.Cutting, stock)
		if err != nil {
			return Height{}, err
		}
		if err := limit(deepest); err != nil {
			return Height{}, err
		}
	}
	return h, nil
}

func (a Above) toMeasure(m MadeToMeasure, clear units.Length) (Height, error) {
	// Rounded from the exact value: the aim may lie in the middle between two nanometres.
	steps, err := (2*clear - a.Allowance.doubledAim()).MulDiv(1, 2*int64(m.step()), units.Down)
	if err != nil {
		return Height{}, err
	}
	door := steps * m.step()
	if !m.Height.Contains(door) {
		return Height{}, fmt.Errorf("a door of %s is outside what the maker makes, %s", door, m.Height)
	}
	allowance := clear - door
	if !a.Allowance.Span().Contains(allowance) {
		return Height{}, fmt.Errorf("in steps of %s the allowance comes to %s, outside %s", m.step(), allowance, a.Allowance.Span())
	}
	h := a.bought(door, allowance)
	h.Method, h.Stock = ToMeasure, door
	return h, nil
}
