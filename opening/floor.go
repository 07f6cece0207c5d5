package opening

import (
	"fmt"

	"example.com/lapspan/units"
)

// The codes of findings about floor coverings.
const (
	CodeCarpetNow    Code = "carpet-now"
	CodeCarpetToRail Code = "carpet-cut-to-rail"
	CodeCarpetNone   Code = "carpet-not-given"
)

// coveringOff is what floor coverings change the clear height by. A covering to
// come takes its thickness off, unless it is cut to a rail on the bare floor; a
// covering there now that it replaces gives its own back.
func (s Survey) coveringOff() units.Length {
	switch {
	case s.CarpetToCome == 0:
		return 0
	case s.CarpetAtRail:
		return s.CarpetNow
	}
	return s.CarpetNow - s.CarpetToCome
}

// StripThickness is the thickness of the strip that lifts the rail to the top of
// a floor covering: of the one to come, or of the one that is there and stays;
// 0 where the rail stands on the bare floor.
func (s Survey) StripThickness() units.Length {
	switch {
	case s.CarpetToCome > 0 && s.CarpetAtRail:
		return 0
	case s.CarpetToCome > 0:
		return s.CarpetToCome
	}
	return s.CarpetNow
}

func (s Survey) carpetFindings() Findings {
	switch {
	case s.CarpetAtRail && s.CarpetToCome == 0:
		return Findings{{
			Code: CodeCarpetNone, Severity: Warn, Place: "opening.carpet_at_rail",
			Message: "a covering is to be cut to the rail, but none is said to come",
			Remedy:  "give its thickness, or leave this out",
		}}
	case s.CarpetAtRail:
		return Findings{{
			Code: CodeCarpetToRail, Severity: Note, Place: "opening.carpet_at_rail",
			Message: fmt.Sprintf("the rail stays on the bare floor and a covering of %s is cut to it: nothing comes off the height", s.CarpetToCome),
			Remedy:  "see that the doors clear the covering where they pass over its edge",
		}}
	case s.CarpetNow > 0 && s.CarpetToCome == 0:
		return Findings{{
			Code: CodeCarpetNow, Severity: Note, Place: "opening.carpet_now",
			Message: fmt.Sprintf("heights were read on a soft covering of %s; a rail on it gives under the doors", s.CarpetNow),
			Remedy:  fmt.Sprintf("cut the covering along the rail and lay a strip of %s under it: the clear height stays as read", s.CarpetNow),
		}}
	}
	return nil
}
