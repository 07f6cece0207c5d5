package trim

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Station is a place on the front of a bulkhead, from the left wall.
type Station struct {
	At units.Length `json:"at"` // from the left wall
	// Height is that of the front: from the lower edge of the cover board up to the
	// ceiling, straight to the next station.
	Height units.Length `json:"height"`
	// Stud says that a stud's centre is here, so that boards may be joined.
	Stud bool `json:"stud,omitzero"`
}

// Sheet is a size of sheet that cover boards are cut from.
type Sheet struct {
	Length units.Length `json:"length"`          // along the grain, if there is one
	Width  units.Length `json:"width"`           // across it
	Price  *units.Money `json:"price,omitempty"` // for one; nil: not known
	Count  *int         `json:"count,omitzero"`  // how many there are; nil: as many as it takes
}

// Covering is how a front is to be covered.
type Covering struct {
	Sheets []Sheet `json:"sheets"` // the sizes to choose from
	// Kerf is the width of a saw cut; nil: DefaultKerf.
	Kerf *units.Length `json:"kerf,omitzero"`
	// Scribe is left on a board over its greatest height where the ceiling runs out,
	// to be scribed off; nil: DefaultScribe.
	Scribe *units.Length `json:"scribe,omitzero"`
	// Drop is how far the boards hang below the front, to hide the track.
	Drop units.Length `json:"drop,omitzero"`
	// Turn says that a board may be cut across the sheet: there is no grain to match.
	Turn bool `json:"turn,omitzero"`
}

// What holds where a Covering says nothing else (common practice), and the bounds.
const (
	DefaultKerf   = 4 * units.Millimetre
	DefaultScribe = 10 * units.Millimetre
	MaxSheets     = 20   // sizes to choose from
	MaxStations   = 1200 // along one front
	MaxBoards     = 100  // of one front

	coverWork = 100_000 // placings tried
)

// Cover is the cover boards of a bulkhead and the sheets they come from.
type Cover struct {
	Boards []Board `json:"boards"` // from the left
	Sheets []Used  `json:"sheets"` // those that are cut up
	// Proven says that no cheaper choice of sheets holds these boards in strips that
	// run the length of the sheet.
	Proven bool `json:"proven"`
}

// Board is one cover board.
type Board struct {
	From units.Length `json:"from"` // its left end, from the left wall; between boards on a stud
	To   units.Length `json:"to"`   // its right end
	// Height is that of the rectangle to cut out, with what is left on for scribing.
	Height units.Length `json:"height"`
	// Edge is the upper edge as scribed, from the left: where it bends, and how high it is.
	Edge []Station `json:"edge"`
	// Scribed says that the ceiling runs out over the board.
	Scribed bool `json:"scribed,omitzero"`
	Sheet   int  `json:"sheet"`           // the sheet it is cut from, an index of Cover.Sheets
	Strip   int  `json:"strip"`           // the strip of that sheet it lies in, 0 first
	Turned  bool `json:"turned,omitzero"` // it lies across the strip
}

// Used is one sheet that is cut up.
type Used struct {
	Size int `json:"size"` // an index of the sheets offered
}

// What makes a cover impossible, for errors.Is.
var (
	ErrSheet  = errors.New("no sheet is large enough to reach from stud to stud")
	ErrSheets = errors.New("there are not enough sheets")
)

// CoverBoards covers the front of a bulkhead. The stations run from its left end to
// its right one; boards are joined on studs between, as few as the sheets allow, the
// long ones at the left. A board is cut as a rectangle:
//
//	length   from joint to joint
//	height   the greatest over its length, and the scribe where the ceiling runs out
//
// The boards are laid into sheets in strips that run the sheet's length, with a saw
// cut between neighbours and between strips: least price where every sheet has one,
// then fewest sheets, then least area of sheet. The search is bounded; Proven says
// whether it came to its end.
//
// The error is an *opening.InputError for a covering that Validate refuses,
// units.ErrRange for stations that are out of range or out of order, ErrSheet or ErrSheets.
func CoverBoards(front []Station, o Covering) (Cover, error) {
	if err := o.Validate("cover"); err != nil {
		return Cover{}, err
	}
	c := cover{sheets: o.Sheets, kerf: o.kerf(), scribe: o.scribe(), turn: o.Turn}
	if err := c.stations(front, o.Drop); err != nil {
		return Cover{}, err
	}
	for _, s := range o.Sheets {
		c.costs = append(c.costs, s.cost())
	}
	boards, err := c.boards()
	if err != nil {
		return Cover{}, err
	}
	l := layout{cover: c, boards: boards, place: make([]spot, len(boards))}
	l.order = make([]int, len(boards))
	for i := range l.order {
		l.order[i] = i
	}
	// The tallest first: they are the hardest to place.
	slices.SortStableFunc(l.order, func(i, j int) int { return cmp.Compare(boards[j].Height, boards[i].Height) })
	l.try(0)
	if l.best == nil {
		return Cover{}, fmt.Errorf("trim: %d cover boards: %w", len(boards), ErrSheets)
	}
	out := Cover{Boards: boards, Proven: l.work <= coverWork}
	for _, size := range l.best.sizes {
		out.Sheets = append(out.Sheets, Used{size})
	}
	for i, at := range l.best.place {
		out.Boards[i].Sheet, out.Boards[i].Strip, out.Boards[i].Turned = at.sheet, at.strip, at.turned
	}
	return out, nil
}

type cover struct {
	front        []Station
	sheets       []Sheet
	kerf, scribe units.Length
	turn         bool
	costs        []int64 // of a sheet of each size, in ten-thousandths; 0 where none is known
}

func (o Covering) kerf() units.Length {
	if o.Kerf == nil {
		return DefaultKerf
	}
	return *o.Kerf
}

func (o Covering) scribe() units.Length {
	if o.Scribe == nil {
		return DefaultScribe
	}
	return *o.Scribe
}

// Validate refuses a covering that cannot be used: an *opening.InputError at a place
// under the one given.
func (o Covering) Validate(place string) error {
	if len(o.Sheets) == 0 || len(o.Sheets) > MaxSheets {
		return opening.Refuse(place+".sheets", "%d sizes of sheet; 1 to %d can be used", len(o.Sheets), MaxSheets)
	}
	priced := 0
	for i, s := range o.Sheets {
		at := fmt.Sprintf("%s.sheets[%d]", place, i)
		if err := cmp.Or(opening.CheckSize(at+".length", s.Length), opening.CheckSize(at+".width", s.Width)); err != nil {
			return err
		}
		if s.Count != nil && *s.Count < 0 {
			return opening.Refuse(at+".count", "%d is less than 0", *s.Count)
		}
		if s.Price != nil {
			priced++
			if _, err := s.Price.TenThousandths(); err != nil {
				return opening.Refuse(at+".price", "%v", err)
			}
		}
	}
	if priced != 0 && priced != len(o.Sheets) {
		return opening.Refuse(place+".sheets", "%d of %d sheets have a price: give all or none", priced, len(o.Sheets))
	}
	return cmp.Or(
		opening.CheckPosition(place+".kerf", o.kerf()),
		opening.CheckPosition(place+".scribe", o.scribe()),
		opening.CheckPosition(place+".drop", o.Drop),
	)
}

// cost is the price of a sheet in ten-thousandths; 0 where none is known.
func (s Sheet) cost() int64 {
	if s.Price == nil {
		return 0
	}
	n, _ := s.Price.TenThousandths() // Validate has seen that it has no finer part
	return n
}

// stations takes the front, as far down as the boards hang.
func (c *cover) stations(front []Station, drop units.Length) error {
	if len(front) < 2 || len(front) > MaxStations {
		return fmt.Errorf("trim: a front of %d stations, 2 to %d: %w", len(front), MaxStations, units.ErrRange)
	}
	c.front = slices.Clone(front)
	for i, s := range front {
		if opening.CheckPosition("", s.At) != nil || opening.CheckSize("", s.Height) != nil || i > 0 && s.At <= front[i-1].At {
			return fmt.Errorf("trim: a front %s high at %s, from the left: %w", s.Height, s.At, units.ErrRange)
		}
		c.front[i].Height += drop
	}
	return nil
}

// boards parts the front: each board reaches as far as a sheet allows, which is
// fewest, since a part of what fits fits.
func (c cover) boards() ([]Board, error) {
	var boards []Board
	last := len(c.front) - 1
	for from := 0; from < last; {
		to := from
		for next := from + 1; next <= last; next++ {
			if next != last && !c.front[next].Stud {
				continue
			}
			if !c.fits(c.board(from, next)) {
				break
			}
			to = next
		}
		if to == from {
			return nil, fmt.Errorf("trim: a cover board from %s on: %w", c.front[from].At, ErrSheet)
		}
		if len(boards) == MaxBoards {
			return nil, fmt.Errorf("trim: more than %d cover boards: %w", MaxBoards, units.ErrRange)
		}
		boards, from = append(boards, c.board(from, to)), to
	}
	return boards, nil
}

func (c cover) board(from, to int) Board {
	b := Board{From: c.front[from].At, To: c.front[to].At}
	least := c.front[from].Height
	for i := from; i <= to; i++ {
		s := c.front[i]
		least, b.Height = min(least, s.Height), max(b.Height, s.Height)
		if i == from || i == to || !straight(c.front[i-1], s, c.front[i+1]) {
			b.Edge = append(b.Edge, Station{At: s.At, Height: s.Height})
		}
	}
	if least != b.Height {
		b.Scribed = true
		b.Height += c.scribe
	}
	return b
}

// straight reports whether the middle one of three stations lies level with both;
// an edge that rises is given station by station.
func straight(a, b, c Station) bool { return a.Height == b.Height && b.Height == c.Height }

func (b Board) length() units.Length { return b.To - b.From }

func (c cover) fits(b Board) bool {
	return slices.ContainsFunc(c.sheets, func(s Sheet) bool {
		return b.length() <= s.Length && b.Height <= s.Width || c.turn && b.Height <= s.Length && b.length() <= s.Width
	})
}

// layout is a search for the sheets to cut boards from: each board in turn goes into
// every strip it fits, a new strip of every sheet begun, and a new sheet of every size.
type layout struct {
	cover
	boards []Board
	order  []int
	place  []spot // of each board
	open   []begun
	price  int64 // of the sheets begun, in ten-thousandths
	best   *laid
	work   int
}

// begun is a sheet that boards are laid into.
type begun struct {
	size   int
	strips []strip
	used   units.Length // across the sheet, with the saw cuts between strips
}

type strip struct{ used, height units.Length }

// laid is a finished layout.
type laid struct {
	price int64
	sizes []int
	area  units.Area
	place []spot
}

// spot is where a board lies.
type spot struct {
	sheet, strip int
	turned       bool
}

func (l *layout) try(k int) {
	if l.best != nil {
		// Of one size the same number of sheets has the same area.
		worse := cmp.Or(cmp.Compare(l.price, l.best.price), cmp.Compare(len(l.open), len(l.best.sizes)))
		if worse > 0 || worse == 0 && len(l.sheets) == 1 {
			return
		}
	}
	if k == len(l.order) {
		l.finish()
		return
	}
	b := l.boards[l.order[k]]
	ways := []bool{false}
	if l.turn && b.length() != b.Height {
		ways = append(ways, true)
	}
	for s := range l.open {
		for _, turned := range ways {
			l.lay(k, s, turned)
		}
	}
	for size := range l.sheets {
		if !l.left(size) {
			continue
		}
		before := l.price
		l.open, l.price = append(l.open, begun{size: size}), l.price+l.costs[size]
		for _, turned := range ways {
			l.lay(k, len(l.open)-1, turned)
		}
		l.open, l.price = l.open[:len(l.open)-1], before
	}
}

// lay puts the k-th board into every strip of sheet s that takes it, and into a new
// one, and goes on with the next board each time.
func (l *layout) lay(k, s int, turned bool) {
	size, b := l.sheets[l.open[s].size], l.boards[l.order[k]]
	length, height := b.length(), b.Height
	if turned {
		length, height = height, length
	}
	// What is begun is looked up anew after each try: it may have moved.
	for i := range l.open[s].strips {
		used, was := l.open[s].used, l.open[s].strips[i]
		grown := max(height-was.height, 0)
		if slices.Index(l.open[s].strips, was) < i || // like an earlier one
			was.used+l.kerf+length > size.Length || used+grown > size.Width || !l.more() {
			continue
		}
		l.place[l.order[k]] = spot{s, i, turned}
		l.open[s].strips[i], l.open[s].used = strip{was.used + l.kerf + length, was.height + grown}, used+grown
		l.try(k + 1)
		l.open[s].strips[i], l.open[s].used = was, used
	}
	before := l.open[s]
	used := before.used + height
	if len(before.strips) > 0 {
		used += l.kerf
	}
	if length > size.Length || used > size.Width || !l.more() {
		return
	}
	l.place[l.order[k]] = spot{s, len(before.strips), turned}
	l.open[s].strips, l.open[s].used = append(before.strips, strip{length, height}), used
	l.try(k + 1)
	l.open[s].strips, l.open[s].used = before.strips, before.used
}

// more counts one more placing, and reports whether it may be tried.
func (l *layout) more() bool {
	l.work++
	return l.work <= coverWork
}

// left reports whether there is another sheet of a size.
func (l *layout) left(size int) bool {
	if l.sheets[size].Count == nil {
		return true
	}
	n := 0
	for _, s := range l.open {
		if s.size == size {
			n++
		}
	}
	return n < *l.sheets[size].Count
}

// finish keeps the layout if it is the best so far.
func (l *layout) finish() {
	now := laid{price: l.price}
	for _, s := range l.open {
		now.sizes = append(now.sizes, s.size)
		now.area = now.area.Add(units.AreaOf(l.sheets[s.size].Length, l.sheets[s.size].Width))
	}
	if l.best == nil || cmp.Or(
		cmp.Compare(now.price, l.best.price),
		cmp.Compare(len(now.sizes), len(l.best.sizes)),
		now.area.Cmp(l.best.area),
	) < 0 {
		now.place = slices.Clone(l.place)
		l.best = &now
	}
}
