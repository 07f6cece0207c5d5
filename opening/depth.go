package opening

import (
	"fmt"

	"example.com/lapspan/units"
)

// The codes of findings about the depth.
const (
	CodeTooDeep Code = "too-deep"
	CodeNoDepth Code = "no-depth"
)

// The setback is how far behind the doors the interior stays clear (common
// practice, 30 to 50 mm). DefaultSetback is kept where the depth allows it.
const (
	LeastSetback   = 30 * units.Millimetre
	DefaultSetback = 40 * units.Millimetre
)

// DoorLine returns the line of the doors: the distance of the back edge of the
// track from the back wall, interior + setback. The setback is DefaultSetback,
// or as much of it, down to LeastSetback, as the least depth leaves once the
// gear stands in front. A sum that does not fit at LeastSetback, the doors then
// standing past the front of the side walls, is a finding of severity warn.
//
// interior is the depth the interior needs, gear that of track and rail; both
// more than zero, else there is no sum: the line is zero and there is nothing to find.
func (s Survey) DoorLine(interior, gear units.Length) (units.Length, Findings) {
	if interior <= 0 || gear <= 0 {
		return 0, nil
	}
	if len(s.Depths) == 0 {
		return interior + DefaultSetback, Findings{{
			Code: CodeNoDepth, Severity: Note, Place: "opening.depths",
			Message: fmt.Sprintf("no depth was read: interior, setback and gear need %s", interior+DefaultSetback+gear),
			Remedy:  "measure the depth at both ends",
		}}
	}
	least := 0
	for i, d := range s.Depths {
		if d.Size < s.Depths[least].Size {
			least = i
		}
	}
	room := s.Depths[least].Size - interior - gear
	if room < LeastSetback {
		return interior + LeastSetback, Findings{{
			Code: CodeTooDeep, Severity: Warn, Place: fmt.Sprintf("opening.depths[%d].size", least),
			Message: fmt.Sprintf("interior %s, setback %s and gear %s need %s; the side walls end at %s", interior, LeastSetback, gear, interior+LeastSetback+gear, s.Depths[least].Size),
			Remedy:  fmt.Sprintf("make the interior %s shallower, or let the doors stand forward with a return at the side", LeastSetback-room),
		}}
	}
	return interior + min(room, DefaultSetback), nil
}
