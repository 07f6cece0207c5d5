package frame

import (
	"fmt"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Backing is what a fixing finds behind a surface.
type Backing string

// What may be behind. The zero value is not known, and is fixed as board is.
const (
	Joist     Backing = "joist"
	WallStud  Backing = "stud"
	Masonry   Backing = "masonry"
	BoardOnly Backing = "board"
)

// Surface is a ceiling or a wall that timber is fixed to.
type Surface struct {
	Behind Backing // empty: not known
	// Centres are where joists or studs cross the timber, from the same point as the
	// timber's places. None with Joist or WallStud: one runs along right behind it.
	Centres []units.Length
	Lining  units.Length // thickness of the board or plaster over it
	// Overhead says that the surface is a ceiling.
	Overhead bool
	// Place is where the job says what is behind, for findings.
	Place string
}

// Fixed is timber to be fixed along a surface.
type Fixed struct {
	What    string         // such as "top plate"
	From    units.Length   // place of its first end
	Pieces  []units.Length // end to end
	Width   units.Length   // of the face that is fixed through
	Through units.Length   // what a fixing passes before the lining: the timber, and packing if there is any
}

// Fixings are the fixings of one timber.
type Fixings struct {
	What string `json:"what"` // the timber, such as top plate
	// Each is one kind of fixing, solid backing before board.
	Each         []Fixing     `json:"each"`
	EndDistance  units.Length `json:"end_distance"`  // no fixing is nearer to an end or a joint
	EdgeDistance units.Length `json:"edge_distance"` // nor to an edge
	// Drilled says that the timber must be drilled first, its edges being so near.
	Drilled bool `json:"drilled,omitzero"`
}

// Fixing is so many fixings of one kind.
type Fixing struct {
	Kind   string         `json:"kind"`   // what to buy, such as wood screw
	Into   Backing        `json:"into"`   // what holds it
	Count  int            `json:"count"`  // as many as there are places
	Places []units.Length `json:"places"` // from where the places of the timber are measured
	// Least is the shortest screw that reaches deep enough; 0 for an anchor in
	// board, whose maker says.
	Least units.Length `json:"least,omitzero"`
}

// The findings about fixings.
const (
	CodeBackingUnknown opening.Code = "backing-unknown"
	CodeBoardOnly      opening.Code = "board-only"
	CodeNarrowEdge     opening.Code = "narrow-edge"
)

// The rules of fixings. Spacings and depths are common practice. The distances
// are 10 and 5 diameters of a screw of 5, 7 and 3 in timber drilled first
// (EN 1995-1-1:2004 table 8.2, unloaded end and edge).
const (
	fixingSpacing = 600 * units.Millimetre // the furthest two fixings are apart
	fixingFirst   = 300 * units.Millimetre // the furthest one is from an end
	endPlain      = 50 * units.Millimetre
	edgePlain     = 25 * units.Millimetre
	endDrilled    = 35 * units.Millimetre
	edgeDrilled   = 15 * units.Millimetre
	depthTimber   = 40 * units.Millimetre // into joist or stud
	depthMasonry  = 50 * units.Millimetre
	solidEach     = 2 // fixings into solid ground that a piece needs
)

// MaxCentres bounds the joists or studs behind a surface.
const MaxCentres = 100

// Fix places the fixings of timber along a surface:
//
//	joists, studs  a wood screw into each that a piece crosses, or where one runs
//	               along behind the piece, as in masonry
//	masonry        a screw in a wall plug, first and last at the end distance, evenly
//	               between, at most 600 apart
//	board only     an anchor, placed likewise: a spring toggle overhead, a hollow-wall
//	               anchor in a wall
//
// Where solid ground leaves more than 600 between two fixings, or more than 300 to an
// end, anchors in the board fill up. A screw is at least as long as what it passes
// and 40 into timber, 50 into masonry. A piece with fewer than two fixings into solid
// ground is a finding of severity warn: anchors in board steady a plate, they do not
// carry it. What the makers and local code ask goes before all of this.
//
// The error is units.ErrRange for lengths out of range and for a Backing that is
// none of the four.
func Fix(f Fixed, s Surface) (Fixings, opening.Findings, error) {
	if err := f.check(s); err != nil {
		return Fixings{}, nil, err
	}
	out := Fixings{What: f.What, EndDistance: endPlain, EdgeDistance: edgePlain}
	var found opening.Findings
	if f.Width < 2*edgePlain {
		out.EndDistance, out.EdgeDistance, out.Drilled = endDrilled, edgeDrilled, true
	}
	if f.Width < 2*edgeDrilled {
		found = append(found, opening.Finding{
			Code: CodeNarrowEdge, Severity: opening.Warn, Place: "timber.width",
			Message: fmt.Sprintf("%s: timber %s wide leaves less than %s from a screw to its edges", f.What, f.Width, edgeDrilled),
			Remedy:  "use wider timber, or thinner screws drilled for, as their maker allows",
		})
	}
	if s.Behind == "" {
		found = append(found, opening.Finding{
			Code: CodeBackingUnknown, Severity: opening.Note, Place: s.Place,
			Message: f.What + ": what is behind the surface is not known, so it is fixed as board alone",
			Remedy:  "find the joists, studs or masonry, and any cables and pipes, before drilling",
		})
	}
	var solid, board []units.Length
	from := f.From
	for i, p := range f.Pieces {
		own, filled := s.fix(from, from+p, out.EndDistance)
		if len(own) < solidEach {
			found = append(found, opening.Finding{
				Code: CodeBoardOnly, Severity: opening.Warn, Place: s.Place,
				Message: fmt.Sprintf("%s, piece %d of %d: %d of its fixings reach a joist, a stud or masonry, and %d should", f.What, i+1, len(f.Pieces), len(own), solidEach),
				Remedy:  "let in noggins or a batten to screw to, or move the joints; anchors in board alone only steady it, and their maker and local code say how far to trust them",
			})
		}
		solid, board = append(solid, own...), append(board, filled...)
		from += p
	}
	if len(solid) > 0 {
		out.Each = append(out.Each, Fixing{s.kind(s.Behind), s.Behind, len(solid), solid, f.Through + s.Lining + s.depth()})
	}
	if len(board) > 0 {
		out.Each = append(out.Each, Fixing{s.kind(BoardOnly), BoardOnly, len(board), board, 0})
	}
	return out, found, nil
}

func (f Fixed) check(s Surface) error {
	switch s.Behind {
	case "", Joist, WallStud, Masonry, BoardOnly:
	default:
		return fmt.Errorf("frame: %s is nothing to fix to: %w", opening.Quote(string(s.Behind)), units.ErrRange)
	}
	if len(f.Pieces) == 0 || len(f.Pieces) > units.MaxPieces || len(s.Centres) > MaxCentres {
		return fmt.Errorf("frame: %d pieces over %d joists or studs: %w", len(f.Pieces), len(s.Centres), units.ErrRange)
	}
	total := f.From
	for _, l := range append([]units.Length{f.Width}, f.Pieces...) {
		if opening.CheckSize("", l) != nil {
			return fmt.Errorf("frame: fixing timber of %s: %w", l, units.ErrRange)
		}
		total += l
	}
	for _, l := range append([]units.Length{f.From, f.Through, s.Lining, total}, s.Centres...) {
		if opening.CheckPosition("", l) != nil {
			return fmt.Errorf("frame: fixing at %s: %w", l, units.ErrRange)
		}
	}
	return nil
}

// kind is the fixing for what is behind.
func (s Surface) kind(b Backing) string {
	switch {
	case b == Joist || b == WallStud:
		return "wood screw"
	case b == Masonry:
		return "screw in a wall plug"
	case s.Overhead:
		return "spring toggle"
	}
	return "hollow-wall anchor"
}

func (s Surface) depth() units.Length {
	if s.Behind == Masonry {
		return depthMasonry
	}
	return depthTimber
}

// fix places the fixings of one piece: those into solid ground, and those that
// fill up in board.
func (s Surface) fix(from, to, end units.Length) (solid, board []units.Length) {
	first, last := from+end, to-end
	if first > last {
		// Too short for two: one in the middle, at whatever distance that is.
		first = from + (to-from)/2
		last = first
	}
	crossed := s.Behind == Joist || s.Behind == WallStud
	switch {
	case crossed && len(s.Centres) > 0:
		for _, c := range s.Centres {
			if c >= first && c <= last {
				solid = append(solid, c)
			}
		}
		slices.Sort(solid)
		solid = slices.Compact(solid)
	case crossed || s.Behind == Masonry:
		return spread(first, last), nil
	}
	if len(solid) == 0 {
		return nil, spread(first, last)
	}
	if solid[0]-from > fixingFirst {
		board = append(board, until(first, solid[0])...)
	}
	for i, c := range solid[1:] {
		if c-solid[i] > fixingSpacing {
			board = append(board, until(solid[i], c)[1:]...)
		}
	}
	if at := solid[len(solid)-1]; to-at > fixingFirst {
		board = append(board, spread(at, last)[1:]...)
	}
	return solid, board
}

// spread places fixings from first to last, both included, evenly and at most
// fixingSpacing apart; one where the two are one place.
func spread(first, last units.Length) []units.Length {
	if first == last {
		return []units.Length{first}
	}
	return even(last-first, int64((last-first-1)/fixingSpacing)+1, first)
}

// until is spread without its last place.
func until(first, last units.Length) []units.Length {
	places := spread(first, last)
	return places[:len(places)-1]
}
