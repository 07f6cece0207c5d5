package trim

import (
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// CutDown is the schedule of one cut, the same for every door of a run, so that
// the bars of neighbouring doors stay in line.
type CutDown struct {
	Stile  units.Length `json:"stile"`           // off the top of both stiles
	Panels []PanelCut   `json:"panels,omitzero"` // the panels that are cut; none without a build
}

// PanelCut is what comes out of one panel.
type PanelCut struct {
	Panel  int          `json:"panel"`  // from the bottom, 1 up
	Cut    units.Length `json:"cut"`    // out of its height
	Height units.Length `json:"height"` // what the panel keeps
}

// CodeNotMirrored is the note that a cut leaves the upper half of a door unlike the lower.
const CodeNotMirrored opening.Code = "not-mirrored"

// Schedule shares a cut that doors.HeightsFor offers among the stiles and the
// panels of a door. Without a build the stiles alone are scheduled. A cut whose
// panels do not mirror each other about the middle of the door is a note.
//
// The error is units.ErrRange for a cut that is not more than zero or leaves no
// door, else as of doors.PanelCuts.
func Schedule(b *doors.Build, c doors.Cutting, h doors.Height) (CutDown, opening.Findings, error) {
	if h.Cut <= 0 || h.Cut >= h.Stock {
		return CutDown{}, nil, fmt.Errorf("trim: a cut of %s off a door of %s: %w", h.Cut, h.Stock, units.ErrRange)
	}
	schedule := CutDown{Stile: h.Cut}
	if b == nil {
		return schedule, nil, nil
	}
	cuts, err := doors.PanelCuts(b, c, h.Stock, h.Cut)
	if err != nil {
		return CutDown{}, nil, err
	}
	heights, err := b.PanelHeights(h.Stock)
	if err != nil {
		return CutDown{}, nil, err
	}
	for i, cut := range cuts {
		if cut > 0 {
			schedule.Panels = append(schedule.Panels, PanelCut{i + 1, cut, heights[i] - cut})
		}
	}
	mirror := slices.Clone(cuts)
	slices.Reverse(mirror)
	if slices.Equal(cuts, mirror) {
		return schedule, nil, nil
	}
	return schedule, opening.Findings{{
		Code: CodeNotMirrored, Severity: opening.Note, Place: "trim.cut_split",
		Message: "the cut does not come off the upper and the lower half of the door alike",
		Remedy:  "cut every door of the run to the same schedule, so that the bars stay in line",
	}}, nil
}

// Saws returns how many saw cuts the schedule takes on one door: one on each
// stile and one on each panel that is cut.
func (c CutDown) Saws() int { return 2 + len(c.Panels) }

// Steps is the order of work for so many doors that are cut down: one door is
// cut, hung and tried before the next is cut.
func (c CutDown) Steps(doors int) []string {
	steps := []string{
		"take the top bar off one door, the door lying flat",
		"mark " + c.Stile.String() + " at the top of both stiles",
	}
	for _, p := range c.Panels {
		steps = append(steps, fmt.Sprintf("mark panel %d, counted from the bottom, to lose %s and keep %s", p.Panel, p.Cut, p.Height))
	}
	steps = append(steps,
		"cut this one door and put it together",
		"hang it and try it over the whole width of the opening",
	)
	if doors > 1 {
		steps = append(steps, "only then cut the next door, to the same schedule")
	}
	return steps
}
