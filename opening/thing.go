package opening

import (
	"cmp"
	"fmt"

	"example.com/lapspan/units"
)

// The codes of findings about things in the way.
const (
	CodeInTheWay       Code = "in-the-way"
	CodeNeverBoxIn     Code = "never-box-in"
	CodeSlopingCeiling Code = "sloping-ceiling"
)

// Kind is what a thing in the way is. The zero value is not a kind.
type Kind string

const (
	Coving   Kind = "coving"          // at the ceiling
	Socket   Kind = "socket"          // an electric socket
	Switch   Kind = "switch"          // a light switch
	Radiator Kind = "radiator"        // or its valves
	Pipe     Kind = "pipe"            // of water or heating
	Slope    Kind = "sloping ceiling" // the ceiling comes down
	Vent     Kind = "vent"            // never boxed in
	Flue     Kind = "flue"            // never boxed in
	Meter    Kind = "meter"           // never boxed in
	Boiler   Kind = "boiler"          // never boxed in
	FuseBox  Kind = "fuse board"      // never boxed in
	Stopcock Kind = "stopcock"        // never boxed in
	Alarm    Kind = "alarm"           // never boxed in
)

// remedies say what to do about each kind when it stands in the doors' way.
var remedies = map[Kind]string{
	Coving:   "cut it back to the depth of the track, or bring the track down below it with a packer",
	Socket:   "have an electrician move it, or bring an end panel out past it",
	Switch:   "have an electrician move it to where it can be reached with the doors open and closed",
	Radiator: "have it moved: doors and their clothes must not stand against it",
	Pipe:     "have it moved, or notch the end panel round it so that it can still be got at",
	Slope:    "size the doors for the height where they stand, or end the run before the slope and close the rest with a fixed panel",
	Vent:     "keep it open to the room: move the run, or have the vent moved by a qualified person",
	Flue:     "keep it clear and ask a qualified person how far off anything must stay",
	Meter:    "keep it where it can be read and switched off",
	Boiler:   "keep the clearances of its maker and the air it needs; ask a qualified person",
	FuseBox:  "keep it where it can be opened at once",
	Stopcock: "keep it where it can be reached and turned at once",
	Alarm:    "keep it where it is heard and where smoke reaches it",
}

// boxed reports whether the kind must never be boxed in.
func (k Kind) boxed() bool {
	switch k {
	case Vent, Flue, Meter, Boiler, FuseBox, Stopcock, Alarm:
		return true
	}
	return false
}

// Thing is a thing in or near the line of the doors.
type Thing struct {
	Kind   Kind         `json:"kind"`   // what it is
	From   units.Length `json:"from"`   // its left end, from the left wall
	To     units.Length `json:"to"`     // its right end
	Bottom units.Length `json:"bottom"` // its lower end, above the floor
	Top    units.Length `json:"top"`    // its upper end
	// StandsOut is how far it stands out from the wall, the ceiling or the floor it is on; zero: flush.
	StandsOut units.Length `json:"stands_out,omitzero"`
}

func validateThings(things []Thing) error {
	if len(things) > MaxReadings {
		return Refuse("opening.in_the_way", "%d things; at most %d can be used", len(things), MaxReadings)
	}
	for i, t := range things {
		place := fmt.Sprintf("opening.in_the_way[%d]", i)
		if _, known := remedies[t.Kind]; !known {
			return Refuse(place+".kind", "%s is not a kind of thing in the way", Quote(string(t.Kind)))
		}
		if err := cmp.Or(
			CheckPosition(place+".from", t.From), CheckPosition(place+".to", t.To),
			CheckPosition(place+".bottom", t.Bottom), CheckPosition(place+".top", t.Top),
			CheckPosition(place+".stands_out", t.StandsOut),
		); err != nil {
			return err
		}
		if t.To < t.From {
			return Refuse(place+".to", "it runs from %s to %s", t.From, t.To)
		}
		if t.Top < t.Bottom {
			return Refuse(place+".top", "it runs from %s up to %s", t.Bottom, t.Top)
		}
	}
	return nil
}

// thingFindings are the findings about things in the way. There must be widths and heights.
func (s Survey) thingFindings() Findings {
	var found Findings
	_, widest := s.ends()
	width := s.wallToWall(s.Widths[widest])
	for i, t := range s.InTheWay {
		if t.From >= width {
			continue // beyond the right wall
		}
		f := Finding{
			Code: CodeInTheWay, Severity: Warn, Place: fmt.Sprintf("opening.in_the_way[%d]", i),
			Message: fmt.Sprintf("a %s from %s to %s, %s to %s above the floor, stands out %s", t.Kind, t.From, t.To, t.Bottom, t.Top, t.StandsOut),
			Remedy:  remedies[t.Kind],
		}
		switch {
		case t.Kind.boxed():
			f.Code = CodeNeverBoxIn
			f.Remedy = "never box it in: " + f.Remedy
		case t.Kind == Slope:
			f.Code = CodeSlopingCeiling
			f.Message = fmt.Sprintf("the ceiling slopes from %s to %s and comes down to %s", t.From, t.To, t.Bottom)
		case t.StandsOut > 0 && t.From <= t.StandsOut && (t.Kind == Socket || t.Kind == Pipe):
			f.Remedy += fmt.Sprintf("; it takes an end panel at least %s thick at the left", t.StandsOut)
		case t.StandsOut > 0 && t.To >= width-t.StandsOut && (t.Kind == Socket || t.Kind == Pipe):
			f.Remedy += fmt.Sprintf("; it takes an end panel at least %s thick at the right", t.StandsOut)
		case t.StandsOut == 0 && t.Kind != Coving:
			f.Severity = Note // flush with its wall: doors pass it
		}
		found = append(found, f)
	}
	return found
}

// HeightOver returns the clear height over a stretch of the opening, measured
// from the left wall, as a door standing there finds it: the clear height, or
// where a sloping ceiling comes down over the stretch the lowest point of it
// there. A slope is straight from its top to its bottom, and comes down towards
// the side wall it is nearer to; doors cannot slide to where they do not fit.
// The clear opening must be one that Measure made from this survey.
func (s Survey) HeightOver(c Clear, from, to units.Length) units.Length {
	height := c.Height
	if len(s.Widths) == 0 {
		return height
	}
	_, widest := s.ends()
	width := s.wallToWall(s.Widths[widest])
	for _, t := range s.InTheWay {
		if t.Kind != Slope || from >= t.To || to <= t.From {
			continue
		}
		low := t.Bottom
		if t.To > t.From {
			// The end of the stretch that lies furthest down the slope.
			down := min(to, t.To) - t.From // rising leftwards: the right end is low
			if t.From < width-t.To {
				down = t.To - max(from, t.From)
			}
			fall, _ := (t.Top - t.Bottom).MulDiv(int64(down), int64(t.To-t.From), units.Up) // down ≤ its length
			low = t.Top - fall
		}
		height = min(height, low+s.coveringOff())
	}
	return height
}
