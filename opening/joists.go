package opening

import (
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// CodeJoistMissed is the finding that a joist may have been missed.
const CodeJoistMissed Code = "joist-missed"

// Joists are the joists of the ceiling, as found.
type Joists struct {
	Centres []units.Length `json:"centres"` // from the left wall, in any order; at most MaxReadings
	Run     Direction      `json:"run"`     // which way they run
}

// Direction says which way joists run. The zero value is not a direction.
type Direction string

const (
	FrontToBack Direction = "front to back" // across the line of the doors
	AlongDoors  Direction = "along"         // along the line of the doors
)

// Crossing returns the centres of joists that cross the line of the doors; none
// where they run along it, or for a nil receiver.
func (j *Joists) Crossing() []units.Length {
	if j == nil || j.Run != FrontToBack {
		return nil
	}
	return j.Centres
}

// RunAlong reports whether the joists run along the line of the doors.
func (j *Joists) RunAlong() bool { return j != nil && j.Run == AlongDoors }

func (j *Joists) validate(place string) error {
	if j == nil {
		return nil
	}
	if len(j.Centres) > MaxReadings {
		return Refuse(place+".centres", "%d joists; at most %d can be used", len(j.Centres), MaxReadings)
	}
	for i, c := range j.Centres {
		if err := CheckPosition(fmt.Sprintf("%s.centres[%d]", place, i), c); err != nil {
			return err
		}
	}
	if j.Run != FrontToBack && j.Run != AlongDoors {
		return Refuse(place+".run", "%s is not front to back or along", Quote(string(j.Run)))
	}
	return nil
}

// findings names each bay more than half as wide again as the middle one of three or more.
func (j *Joists) findings() Findings {
	if j == nil {
		return nil
	}
	centres := slices.Compact(slices.Sorted(slices.Values(j.Centres)))
	if len(centres) < 4 {
		return nil
	}
	bays := make([]units.Length, len(centres)-1)
	for i := range bays {
		bays[i] = centres[i+1] - centres[i]
	}
	usual := slices.Sorted(slices.Values(bays))[len(bays)/2]
	var found Findings
	for i, bay := range bays {
		if 2*bay > 3*usual {
			found = append(found, Finding{
				Code: CodeJoistMissed, Severity: Note, Place: "opening.joists.centres",
				Message: fmt.Sprintf("from the joist at %s to that at %s there are %s, elsewhere about %s", centres[i], centres[i+1], bay, usual),
				Remedy:  "look for a joist between them before choosing fixings",
			})
		}
	}
	return found
}
