package opening

import (
	"cmp"
	"fmt"
	"slices"
	"unicode/utf8"

	"example.com/lapspan/units"
)

// MaxReadings bounds each list of readings in a survey.
const MaxReadings = 100

// DefaultAccuracy is the expanded uncertainty (coverage factor 2) of a reading
// whose survey states none: a tape read by hand, common practice.
const DefaultAccuracy = 2 * units.Millimetre

// Survey is what was measured in the room, all of it in the line of the doors.
// The zero value is a survey without readings: it can be measured, and says so.
type Survey struct {
	Widths  []Width  `json:"widths"`          // at several heights
	Heights []Height `json:"heights"`         // at several places
	Depths  []Depth  `json:"depths,omitzero"` // at both ends
	// Levels are taken from one level line; with them the clear height is sure.
	Levels []Level `json:"levels,omitzero"`
	// Leans are read from a plumb line at each wall; with them what three doors or more must cover is sure.
	Leans Leans `json:"leans,omitzero"`
	// Diagonals say whether the opening is square; nil: not read.
	Diagonals *Diagonals `json:"diagonals,omitzero"`
	Skirting  Sides      `json:"skirting,omitzero"` // at each side
	// EndPanel is the thickness of an end panel; zero: as thick as the skirting.
	EndPanel units.Length `json:"end_panel,omitzero"`
	// CarpetToCome is the thickness of a floor covering that will be laid after the survey.
	CarpetToCome units.Length `json:"carpet_to_come,omitzero"`
	// CarpetAtRail says that the rail stays on the bare floor and the covering to
	// come is cut to it, so that it takes nothing off the height.
	CarpetAtRail bool `json:"carpet_at_rail,omitzero"`
	// CarpetNow is the thickness of a soft covering that heights and levels were read on; zero: none.
	CarpetNow units.Length `json:"carpet_now,omitzero"`
	// Joists are where the ceiling can be screwed into; nil: not known.
	Joists *Joists `json:"joists,omitzero"`
	// InTheWay are things in or near the line of the doors.
	InTheWay []Thing `json:"in_the_way,omitzero"`
	// Accuracy is the expanded uncertainty of each reading; zero: DefaultAccuracy.
	Accuracy units.Length `json:"accuracy,omitzero"`
}

// Width is one reading of the width, from wall to wall or between skirtings.
type Width struct {
	At      units.Length `json:"at"`               // above the floor
	Size    units.Length `json:"size"`             // as read
	Between Between      `json:"between,omitzero"` // walls, unless it says otherwise
	Checked bool         `json:"checked,omitzero"` // read again and found right
}

// Height is one reading of the height, floor to ceiling.
type Height struct {
	At      units.Length `json:"at"`               // from the left wall
	Size    units.Length `json:"size"`             // as read
	Checked bool         `json:"checked,omitzero"` // read again and found right
}

// Depth is one reading of the depth, back wall to the front of the side wall.
type Depth struct {
	At   units.Length `json:"at"`   // from the left wall
	Size units.Length `json:"size"` // as read
}

// Level is a pair of distances from one level line: down to the floor and up to the ceiling.
type Level struct {
	At      units.Length `json:"at"`      // from the left wall
	Floor   units.Length `json:"floor"`   // down: a larger one is a lower floor
	Ceiling units.Length `json:"ceiling"` // up
}

// Between says what a width was read between. The zero value means Walls.
type Between string

const (
	Walls     Between = "walls"     // from wall to wall
	Skirtings Between = "skirtings" // from skirting to skirting
)

// Treatment says what becomes of a skirting. The zero value leaves it open: both are tried.
type Treatment string

const (
	NoSkirting Treatment = "none"      // in results only: there is no skirting at that side
	CutBack    Treatment = "cut back"  // the door closes on the wall; nothing is deducted
	EndPanel   Treatment = "end panel" // the door closes on a panel that stands full height
)

// Skirting is the skirting at one side of the opening.
type Skirting struct {
	Thickness units.Length `json:"thickness"`          // from the wall
	Height    units.Length `json:"height"`             // of its top above the floor
	Treatment Treatment    `json:"treatment,omitzero"` // open: both are tried
}

// Sides holds the skirting at each side; nil: none there.
type Sides struct {
	Left  *Skirting `json:"left,omitzero"`  // at the left side wall
	Right *Skirting `json:"right,omitzero"` // at the right side wall
}

func (s Survey) accuracy() units.Length {
	if s.Accuracy == 0 {
		return DefaultAccuracy
	}
	return s.Accuracy
}

// Validate refuses what cannot be read as a survey, with its place: a position
// below zero, any size that is not a reading and not more than zero, more than
// MaxReadings readings of a kind, an unknown word, a thing that ends before it
// begins. Readings that are zero or less are readable; Measure stops on them.
// Only a plumb reading may be zero or less and right.
func (s Survey) Validate() error {
	for i, w := range s.Widths {
		if err := checkReading("opening.widths", i, w.At, w.Size); err != nil {
			return err
		}
		if w.Between != "" && w.Between != Walls && w.Between != Skirtings {
			return Refuse(fmt.Sprintf("opening.widths[%d].between", i), "%s is not walls or skirtings", Quote(string(w.Between)))
		}
	}
	for i, h := range s.Heights {
		if err := checkReading("opening.heights", i, h.At, h.Size); err != nil {
			return err
		}
	}
	for i, d := range s.Depths {
		if err := checkReading("opening.depths", i, d.At, d.Size); err != nil {
			return err
		}
	}
	for i, l := range s.Levels {
		if CheckPosition("", l.At) == nil && CheckBound("", l.Floor) == nil && CheckBound("", l.Ceiling) == nil {
			continue
		}
		place := fmt.Sprintf("opening.levels[%d]", i)
		return cmp.Or(
			CheckPosition(place+".at", l.At),
			CheckBound(place+".floor", l.Floor),
			CheckBound(place+".ceiling", l.Ceiling),
		)
	}
	for _, list := range []struct {
		place string
		count int
	}{
		{"opening.widths", len(s.Widths)}, {"opening.heights", len(s.Heights)},
		{"opening.depths", len(s.Depths)}, {"opening.levels", len(s.Levels)},
	} {
		if list.count > MaxReadings {
			return Refuse(list.place, "%d readings; at most %d can be used", list.count, MaxReadings)
		}
	}
	for _, side := range []struct {
		place    string
		skirting *Skirting
	}{{"opening.skirting.left", s.Skirting.Left}, {"opening.skirting.right", s.Skirting.Right}} {
		if side.skirting == nil {
			continue
		}
		if side.skirting.validate("") != nil {
			return side.skirting.validate(side.place)
		}
	}
	for _, size := range []struct {
		place string
		size  units.Length
	}{
		{"opening.end_panel", s.EndPanel},
		{"opening.carpet_to_come", s.CarpetToCome},
		{"opening.carpet_now", s.CarpetNow},
		{"opening.accuracy", s.Accuracy},
	} {
		if size.size == 0 {
			continue
		}
		if err := CheckSize(size.place, size.size); err != nil {
			return err
		}
	}
	return cmp.Or(s.Leans.validate(), s.Diagonals.validate(), s.Joists.validate("opening.joists"), validateThings(s.InTheWay))
}

func (k *Skirting) validate(place string) error {
	if err := cmp.Or(
		CheckSize(place+".thickness", k.Thickness),
		CheckSize(place+".height", k.Height),
	); err != nil {
		return err
	}
	switch k.Treatment {
	case "", CutBack, EndPanel:
		return nil
	}
	return Refuse(place+".treatment", "%s is not cut back or end panel", Quote(string(k.Treatment)))
}

// checkReading builds the place only for a reading that it refuses.
func checkReading(list string, i int, at, size units.Length) error {
	if CheckPosition("", at) == nil && CheckBound("", size) == nil {
		return nil
	}
	place := fmt.Sprintf("%s[%d]", list, i)
	return cmp.Or(CheckPosition(place+".at", at), CheckBound(place+".size", size))
}

// CheckSize refuses a size that is not more than zero or is beyond units.MaxLength.
func CheckSize(place string, size units.Length) error {
	if size <= 0 {
		return Refuse(place, "%s is not more than 0", size)
	}
	return CheckBound(place, size)
}

// CheckPosition refuses a position or a gap below zero or beyond units.MaxLength.
func CheckPosition(place string, at units.Length) error {
	if at < 0 {
		return Refuse(place, "%s is less than 0", at)
	}
	return CheckBound(place, at)
}

// CheckBound refuses a length beyond units.MaxLength either way.
func CheckBound(place string, l units.Length) error {
	if l > units.MaxLength || l < -units.MaxLength {
		return Refuse(place, "%s is beyond %s", l, units.MaxLength)
	}
	return nil
}

// CheckWords refuses a list with a word that is not one of those known, or one that is repeated.
func CheckWords[W ~string](place string, list, known []W) error {
	for i, w := range list {
		if !slices.Contains(known, w) {
			return Refuse(fmt.Sprintf("%s[%d]", place, i), "%s is not one of %s", Quote(string(w)), known)
		}
		if slices.Contains(list[:i], w) {
			return Refuse(fmt.Sprintf("%s[%d]", place, i), "%s is repeated", w)
		}
	}
	return nil
}

// Quote shortens a text from outside to at most 40 characters and quotes it, so
// that a message stays one line.
func Quote(text string) string {
	const most = 40
	if utf8.RuneCountInString(text) > most {
		text = string([]rune(text)[:most]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
