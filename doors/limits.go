package doors

import (
	"fmt"
	"math/bits"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Limit names a limit of the running gear.
type Limit string

const (
	LimitDoors    Limit = "doors"    // how many doors a run has: Gear.Doors
	LimitWidth    Limit = "width"    // of a door: Gear.DoorWidth
	LimitHeight   Limit = "height"   // of a door as hung: Gear.DoorHeight
	LimitSlim     Limit = "slimness" // height against width: Gear.MaxSlimness
	LimitMass     Limit = "mass"     // of a door: Gear.MaxDoorMass
	LimitAdjuster Limit = "adjuster" // how far a wheel must be raised: Gear.Adjuster
)

// Counts is a span of whole numbers.
type Counts struct {
	Min int `json:"min"` // at least so many
	Max int `json:"max"` // at most so many
}

// Hung is a door as the gear would carry it. What is zero or nil is not looked at.
type Hung struct {
	Doors  int          // of the run
	Width  units.Length // of the door
	Height units.Length // of the door as hung
	Mass   *units.Mass  // of the door; nil: not known
	Raise  units.Length // how far one wheel must be raised above the other
}

// Over is a limit of the gear that a door does not keep.
type Over struct {
	Limit  Limit  `json:"limit"`  // which limit
	Reason string `json:"reason"` // with the figures, in words
}

// Limits returns the limits of the gear that the door does not keep, in the
// order of the constants; none when the gear carries it. A limit that the gear
// does not state is kept.
func (g Gear) Limits(d Hung) []Over {
	var over []Over
	add := func(limit Limit, reason string, args ...any) {
		over = append(over, Over{limit, fmt.Sprintf(reason, args...)})
	}
	if c := g.Doors; c != nil && d.Doors != 0 && (d.Doors < c.Min || d.Doors > c.Max) {
		add(LimitDoors, "a run of %d doors: the gear takes %d to %d", d.Doors, c.Min, c.Max)
	}
	if s := g.DoorWidth; s != nil && d.Width != 0 && !s.Contains(d.Width) {
		add(LimitWidth, "a door %s wide: the gear takes %s", d.Width, s)
	}
	if s := g.DoorHeight; s != nil && d.Height != 0 && !s.Contains(d.Height) {
		add(LimitHeight, "a door %s high: the gear takes %s", d.Height, s)
	}
	if r := g.MaxSlimness; r != nil && d.Width > 0 && d.Height > 0 && slimmer(d.Height, d.Width, *r) {
		add(LimitSlim, "a door %s high and %s wide: the gear takes a height of at most %s times the width", d.Height, d.Width, r)
	}
	if m := g.MaxDoorMass; m != nil && d.Mass != nil && d.Mass.Cmp(*m) > 0 {
		add(LimitMass, "a door of %s: the gear carries %s", d.Mass, m)
	}
	if g.Adjuster > 0 && d.Raise > g.Adjuster {
		add(LimitAdjuster, "a wheel must be raised by %s: the adjuster has %s", d.Raise, g.Adjuster)
	}
	return over
}

// slimmer reports whether height / width > ratio, exactly.
func slimmer(height, width units.Length, ratio Share) bool {
	hi, lo := bits.Mul64(uint64(height), uint64(OneShare))
	rhi, rlo := bits.Mul64(uint64(width), uint64(ratio))
	return hi > rhi || hi == rhi && lo > rlo
}

// Raise returns how far one wheel of a door must be raised so that the door
// closes tight on a wall that leans by lean, either way, over the door's height:
// width × lean / height, rounded up to a nanometre. It is an error (errors.Is
// units.ErrStep or units.ErrRange) where the height is not more than zero or the result
// is beyond units.MaxLength. A door of 650 × 2300 on a lean of 10 needs 2.83 mm
// (common practice).
func Raise(width, height, lean units.Length) (units.Length, error) {
	raise, err := width.MulDiv(int64(lean.Abs()), int64(height), units.Up)
	if err != nil {
		return 0, fmt.Errorf("doors: raise of a wheel: %w", err)
	}
	return raise, nil
}

func (g *Gear) validateLimits() error {
	if c := g.Doors; c != nil && (c.Min < 1 || c.Max < c.Min || c.Max > units.MaxPieces) {
		return opening.Refuse("gear.doors", "%d to %d is not a span of 1 to %d doors", c.Min, c.Max, units.MaxPieces)
	}
	for _, l := range []struct {
		place string
		span  *units.Span
	}{{"gear.door_width", g.DoorWidth}, {"gear.door_height", g.DoorHeight}} {
		if l.span == nil {
			continue
		}
		if err := (Target{Min: l.span.Min, Max: l.span.Max}).validate(l.place); err != nil {
			return err
		}
	}
	if r := g.MaxSlimness; r != nil && (*r <= 0 || *r > MaxShare) {
		return opening.Refuse("gear.max_slimness", "%s is not more than 0 and at most %s", r, MaxShare)
	}
	return nil
}

// CodeGearLimit is the note that doors on sale are left out because the gear does not take them.
const CodeGearLimit opening.Code = "gear-limit"

// Beyond returns a note for every size that the gear does not take, whatever
// height it is hung at. It names the limit. A
// height is judged where the door is hung, as it may be cut.
func (r Range) Beyond(g Gear) opening.Findings {
	var found opening.Findings
	for i, s := range r.Sizes {
		for _, over := range g.Limits(Hung{Width: s.Width}) {
			found = append(found, opening.Finding{
				Code: CodeGearLimit, Severity: opening.Note, Place: fmt.Sprintf("doors.sizes[%d].%s", i, over.Limit),
				Message: over.Reason,
				Remedy:  "choose gear that takes the door, or a door that the gear takes",
			})
		}
	}
	return found
}
