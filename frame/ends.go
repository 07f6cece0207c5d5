package frame

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Side is the left or the right end of an opening, seen from the room.
type Side string

// The two sides.
const (
	LeftSide  Side = "left"
	RightSide Side = "right"
)

// End says what the frame meets at one side. The zero value means AtWall.
type End string

// What may stand at a side. The last two are for a free end, where there is no wall.
const (
	AtWall    End = "wall"
	AtPanel   End = "end panel"  // an end panel on the wall, standing full height
	FreePost  End = "post"       // a post from floor to ceiling
	FreePanel End = "free panel" // an end panel from floor to ceiling, held at the back wall
)

// IsFree reports whether there is no wall at the side.
func (e End) IsFree() bool { return e == FreePost || e == FreePanel }

// EndDetail is how the frame ends at one side.
type EndDetail struct {
	Side Side         `json:"side"` // left or right
	Kind End          `json:"kind"` // what stands there, never empty
	Stud units.Length `json:"stud"` // centre of the end stud, from the left wall
	// Post is the post of a free end; nil elsewhere.
	Post *Post `json:"post,omitzero"`
	// Steps are how the corner is made, in order.
	Steps []string `json:"steps"`
}

// Post stands at a free end, outside the clear opening, from floor to ceiling.
type Post struct {
	// At is its centre, from the left wall; at a free left end, where there is none,
	// from the left end of the clear opening, and so less than zero.
	At     units.Length `json:"at"`
	Length units.Length `json:"length"` // floor to ceiling where it stands
	Pieces int          `json:"pieces"` // lengths of the timber, screwed together face to face
}

// The findings about the ends and the plates of a frame.
const (
	CodeFreeEnd     opening.Code = "free-end"
	CodeNarrowPlate opening.Code = "narrow-plate"
)

// postPieces makes a post stiff enough to close a door against (common practice).
const postPieces = 2

// EndDetails returns how a bulkhead ends at both sides, left first. height is the
// clear height, floor to ceiling between level planes: a post is as long as that
// and what floor and ceiling stand off their level planes where it stands. A free
// end is a finding of severity warn: nothing but the post or the panel takes the
// push of the closing doors.
//
// The error is units.ErrRange for a head or a height that is out of range, or for
// an End that is none of the four.
func EndDetails(h Head, t doors.Timber, height units.Length, left, right End) ([]EndDetail, opening.Findings, error) {
	if err := h.check(); err != nil {
		return nil, nil, err
	}
	if opening.CheckSize("", height) != nil || opening.CheckSize("", t.Thickness) != nil {
		return nil, nil, fmt.Errorf("frame: a clear height of %s with timber %s thick: %w", height, t.Thickness, units.ErrRange)
	}
	var details []EndDetail
	var found opening.Findings
	for _, end := range []struct {
		side       Side
		kind       End
		stud, post units.Length
	}{
		{LeftSide, left, h.From + t.Thickness/2, h.From - t.Thickness*postPieces/2},
		{RightSide, right, h.From + h.Width - (t.Thickness+1)/2, h.From + h.Width + t.Thickness*postPieces/2},
	} {
		d := EndDetail{Side: end.side, Kind: end.kind, Stud: end.stud}
		switch end.kind {
		case "", AtWall:
			d.Kind = AtWall
			d.Steps = []string{
				"plumb the line of the end stud on the wall",
				"cut the plates tight to the wall at its narrowest, pack behind the end stud where the wall falls away",
				"fix the end stud to the wall, then the plates to the stud",
			}
		case AtPanel:
			d.Steps = []string{
				"set the end panel plumb, full height from floor to ceiling, packed off the wall where it leans, and fix it",
				"cut the plates tight between the panels, not to the wall",
				"fix the end stud through the panel into the wall behind, or to battens behind the panel, and the plates to the stud",
			}
		case FreePost:
			d.Post = &Post{
				At:     end.post,
				Length: height + floorFall(h.Levels).at(end.post) + ceilingFall(h.Levels).at(end.post),
				Pieces: postPieces,
			}
			d.Steps = []string{
				fmt.Sprintf("screw %d lengths of %s together face to face for the post", d.Post.Pieces, d.Post.Length),
				"stand it plumb outside the clear opening and fix it to floor and ceiling",
				"butt the plates against it, fix the end stud to it along its length",
				"return the cover board round the post to the back wall, or close the side with a panel",
			}
		case FreePanel:
			d.Steps = []string{
				"stand the panel plumb outside the clear opening, from floor to ceiling",
				"fix it to the back wall along its height, to the floor and to the ceiling",
				"butt the plates against it, fix the end stud to it along its length",
			}
		default:
			return nil, nil, fmt.Errorf("frame: %s side: %s is no end of a frame: %w", end.side, opening.Quote(string(end.kind)), units.ErrRange)
		}
		if end.kind.IsFree() {
			found = append(found, freeEnd(end.side, end.kind))
		}
		details = append(details, d)
	}
	return details, found, nil
}

// freeEnd is the finding that nothing but the post or the panel takes the push of the doors.
func freeEnd(side Side, e End) opening.Finding {
	return opening.Finding{
		Code: CodeFreeEnd, Severity: opening.Warn, Place: "frame." + string(side) + "_end",
		Message: fmt.Sprintf("no wall at the %s: the %s alone takes the push of the doors", side, freeName(e)),
		Remedy:  "fix it to floor and ceiling, and a panel to the back wall as well; push it hard before the doors go in",
	}
}

func freeName(e End) string {
	if e == FreePost {
		return "post"
	}
	return "panel"
}

// PlateWidth compares the plates with the track that the bottom one carries: a
// narrower plate is a finding of severity warn that says how many plates side by
// side reach. A track of 0 is not known, and not compared.
func PlateWidth(t doors.Timber, track units.Length) opening.Findings {
	if t.Width <= 0 || t.Width >= track {
		return nil
	}
	return opening.Findings{{
		Code: CodeNarrowPlate, Severity: opening.Warn, Place: "timber.width",
		Message: fmt.Sprintf("a plate %s wide is narrower than the track of %s that it carries", t.Width, track),
		Remedy:  fmt.Sprintf("use wider timber, or %d plates side by side", (track-1)/t.Width+1),
	}}
}
