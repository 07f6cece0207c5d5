package doors

import (
	"cmp"
	"errors"
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Gear is the running gear: tracks above that guide, rails on the floor that carry.
type Gear struct {
	// Tracks is how many tracks lie side by side, MinTracks to MaxTracks; track 0 is the room side.
	Tracks int `json:"tracks"`
	// Overlap is how far neighbouring doors may cover each other when closed; its
	// aim is used for doors made to measure.
	Overlap Target `json:"overlap"`
	// Allowance is the height that track and rail take together.
	Allowance Target `json:"allowance"`
	// MeetingGap stays between two doors that meet on one track; nil: none.
	MeetingGap *units.Length `json:"meeting_gap,omitzero"`
	// Showing is how much of a door keeps out from behind each neighbour on
	// another track: handles or stops let it slide no further. Doors then cannot
	// pass each other, and where two of them are parked both edges of the inner
	// one stand that much further out. Zero: doors pass fully.
	Showing units.Length `json:"showing,omitzero"`
	// Depth is the depth of track and rail, back edge to front edge; zero: not known.
	Depth units.Length `json:"depth,omitzero"`
	// Adjuster is how far a wheel can be raised; zero: not known.
	Adjuster units.Length `json:"adjuster,omitzero"`
	// MaxDoorMass is the heaviest door the gear carries; nil: not known.
	MaxDoorMass *units.Mass `json:"max_door_mass,omitzero"`
	// Doors is how many doors a run may have; nil: as many as wanted.
	Doors *Counts `json:"doors,omitzero"`
	// DoorWidth and DoorHeight are the doors it takes, the height as hung; nil: any.
	DoorWidth  *units.Span `json:"door_width,omitzero"`
	DoorHeight *units.Span `json:"door_height,omitzero"` // likewise
	// MaxSlimness is the greatest height of a door against its width, such as 4.5; nil: any.
	MaxSlimness *Share    `json:"max_slimness,omitzero"`
	CarriedBy   CarriedBy `json:"carried_by,omitzero"` // what carries the doors
	Track       *Profile  `json:"track,omitzero"`      // nil: no length is known
	Rail        *Profile  `json:"rail,omitzero"`       // likewise
	Parts       []Part    `json:"parts,omitzero"`      // at most MaxParts
}

// How many tracks a gear may have.
const (
	MinTracks = 2
	MaxTracks = 4
)

// Target is a span with the value aimed at inside it.
type Target struct {
	Min units.Length  `json:"min"`          // the least that serves
	Max units.Length  `json:"max"`          // the most that serves
	Aim *units.Length `json:"aim,omitzero"` // nil: the default of the rule that uses it
}

// Span is the target without its aim.
func (t Target) Span() units.Span { return units.Span{Min: t.Min, Max: t.Max} }

// doubledAim is twice the aim, the middle of the span by default: twice, so
// that the middle stays exact.
func (t Target) doubledAim() units.Length {
	if t.Aim != nil {
		return 2 * *t.Aim
	}
	return t.Min + t.Max
}

// Least is the aim, or where none is given the least of the span.
func (t Target) Least() units.Length {
	if t.Aim != nil {
		return *t.Aim
	}
	return t.Min
}

func (t Target) validate(place string) error {
	if err := cmp.Or(
		opening.CheckPosition(".min", t.Min),
		opening.CheckSize(".max", t.Max),
		checkSpan("", t.Span()),
	); err != nil {
		return under(place, err)
	}
	if t.Aim != nil && !t.Span().Contains(*t.Aim) {
		return opening.Refuse(place+".aim", "%s is outside %s", *t.Aim, t.Span())
	}
	return nil
}

// under puts a place before that of a refusal: so it is written only where
// something is refused.
func under(place string, err error) error {
	if refused, ok := errors.AsType[*opening.InputError](err); ok {
		return &opening.InputError{Place: place + refused.Place, Reason: refused.Reason}
	}
	return err
}

func checkSpan(place string, s units.Span) error {
	if err := s.Validate(); err != nil {
		return opening.Refuse(place, "%v", err)
	}
	return nil
}

// CarriedBy says what carries the doors. The zero value means ByFloor.
type CarriedBy string

const (
	ByFloor CarriedBy = "floor" // the doors roll on the floor rail
	ByHead  CarriedBy = "head"  // the doors hang from above: not covered
)

// CodeHangs is the finding that the gear hangs its doors from above.
const CodeHangs opening.Code = "gear-hangs"

// Findings stops the job for gear that hangs its doors: that loads the bulkhead
// and its fixings, which are not sized here.
func (g Gear) Findings() opening.Findings {
	if g.CarriedBy != ByHead {
		return nil
	}
	return opening.Findings{{
		Code: CodeHangs, Severity: opening.Stop, Place: "gear.carried_by",
		Message: "the gear hangs its doors from above: their weight would load the bulkhead and its fixings",
		Remedy:  "choose gear that rolls on a floor rail, or have the head designed by a qualified person",
	}}
}

// Profile is the track or the rail: the lengths it is sold in, and how much
// shorter than the clear width it is cut.
type Profile struct {
	Lengths   []StockLength `json:"lengths"`            // 1 to MaxStockLengths
	Clearance *units.Length `json:"clearance,omitzero"` // nil: DefaultClearance
}

// DefaultClearance is how much shorter than the clear width a track or rail is cut (common practice).
const DefaultClearance = 3 * units.Millimetre

// Clear is the clearance, or its default. A nil profile has the default.
func (p *Profile) Clear() units.Length {
	if p == nil || p.Clearance == nil {
		return DefaultClearance
	}
	return *p.Clearance
}

func (p *Profile) validate(place string) error {
	if p == nil {
		return nil
	}
	return under(place, cmp.Or(
		opening.CheckPosition(".clearance", p.Clear()),
		checkStock(".lengths", p.Lengths),
	))
}

// StockLength is a length that a bar is sold in.
type StockLength struct {
	Length units.Length `json:"length"`          // of the bar
	Price  *units.Money `json:"price,omitempty"` // nil: not known
}

// MaxStockLengths bounds the lengths one bar is sold in.
const MaxStockLengths = 50

func checkStock(place string, lengths []StockLength) error {
	if len(lengths) == 0 {
		return opening.Refuse(place, "no length is given")
	}
	if len(lengths) > MaxStockLengths {
		return opening.Refuse(place, "%d lengths; at most %d can be used", len(lengths), MaxStockLengths)
	}
	priced := 0
	for i, l := range lengths {
		if err := opening.CheckSize(".length", l.Length); err != nil {
			return under(fmt.Sprintf("%s[%d]", place, i), err)
		}
		if l.Price != nil {
			priced++
		}
	}
	if priced != 0 && priced != len(lengths) {
		return opening.Refuse(place, "%d of %d lengths have a price: give all or none", priced, len(lengths))
	}
	return nil
}

// Part is a part of the gear that is bought with the doors.
type Part struct {
	Item  string       `json:"item"`            // what it is called
	Per   Per          `json:"per"`             // what it is counted by
	Count int          `json:"count"`           // so many for each
	Price *units.Money `json:"price,omitempty"` // for one; nil: not known
}

// Per says what a part is counted by.
type Per string

const (
	PerDoor     Per = "door"     // for each door
	PerRun      Per = "run"      // once for the opening
	PerJunction Per = "junction" // between two neighbours, overlapping or meeting
)

// MaxParts bounds the parts of a gear.
const MaxParts = 100

// For returns how many of the part a run of so many doors needs.
func (p Part) For(doors int) int {
	switch p.Per {
	case PerDoor:
		return p.Count * max(doors, 0)
	case PerJunction:
		return p.Count * max(doors-1, 0)
	}
	return p.Count
}

// Validate refuses gear that cannot be used, with the place.
func (g Gear) Validate() error {
	if g.Tracks < MinTracks || g.Tracks > MaxTracks {
		return opening.Refuse("gear.tracks", "%d is not %d to %d", g.Tracks, MinTracks, MaxTracks)
	}
	if err := cmp.Or(
		g.Overlap.validate("gear.overlap"),
		g.Allowance.validate("gear.allowance"),
		opening.CheckPosition("gear.meeting_gap", g.meetingGap()),
		opening.CheckPosition("gear.showing", g.Showing),
		opening.CheckPosition("gear.depth", g.Depth),
		opening.CheckPosition("gear.adjuster", g.Adjuster),
		g.Track.validate("gear.track"),
		g.Rail.validate("gear.rail"),
	); err != nil {
		return err
	}
	if g.MaxDoorMass != nil && g.MaxDoorMass.Equal(units.Mass{}) {
		return opening.Refuse("gear.max_door_mass", "0 kg is not more than 0")
	}
	if err := g.validateLimits(); err != nil {
		return err
	}
	switch g.CarriedBy {
	case "", ByFloor, ByHead:
	default:
		return opening.Refuse("gear.carried_by", "%s is not floor or head", opening.Quote(string(g.CarriedBy)))
	}
	if len(g.Parts) > MaxParts {
		return opening.Refuse("gear.parts", "%d parts; at most %d can be used", len(g.Parts), MaxParts)
	}
	for i, p := range g.Parts {
		if err := p.validate(); err != nil {
			return under(fmt.Sprintf("gear.parts[%d]", i), err)
		}
	}
	return nil
}

func (p Part) validate() error {
	switch {
	case p.Item == "":
		return opening.Refuse(".item", "the part has no name")
	case p.Count < 1 || p.Count > units.MaxPieces:
		return opening.Refuse(".count", "%d is not 1 to %d", p.Count, units.MaxPieces)
	}
	switch p.Per {
	case PerDoor, PerRun, PerJunction:
		return nil
	}
	return opening.Refuse(".per", "%s is not door, run or junction", opening.Quote(string(p.Per)))
}

func (g Gear) meetingGap() units.Length {
	if g.MeetingGap == nil {
		return 0
	}
	return *g.MeetingGap
}
