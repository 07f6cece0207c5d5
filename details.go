package lapspan

import (
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// The codes of findings about cover boards and details.
const (
	CodeNoCover        opening.Code = "no-cover"
	CodeCoverNotProven opening.Code = "cover-not-proven"
	CodeNoDetails      opening.Code = "no-details"
)

// head is the place above the doors that a bulkhead fills.
func head(job *Job, c opening.Clear, h doors.Height) frame.Head {
	head := frame.Head{
		Width: c.Width.Min, Gap: h.Gap, From: c.LeftOff,
		Levels: job.Opening.Levels, PackedLevel: job.Frame.PackedLevel,
	}
	if job.Frame.OntoJoists {
		head.Joists = job.Opening.Joists.Crossing()
	}
	return head
}

// posts are the pieces of timber that stand at the free ends of a bulkhead.
func (s *search) posts(v *variant, c *choice) ([]units.Length, error) {
	if c.bulkhead == nil {
		return nil, nil
	}
	ends, _, err := frame.EndDetails(head(s.job, v.clear, c.Height), *s.job.Timber, v.clear.Height, s.job.Frame.LeftEnd, s.job.Frame.RightEnd)
	if err != nil {
		return nil, err
	}
	var pieces []units.Length
	for _, e := range ends {
		if e.Post != nil {
			pieces = append(pieces, slices.Repeat([]units.Length{e.Post.Length}, e.Post.Pieces)...)
		}
	}
	return pieces, nil
}

// cover finds the cover boards of a bulkhead. Sheets that do not serve are a
// finding: the doors can be hung without.
func (s *search) cover(v *variant, c *choice) opening.Findings {
	if s.job.Cover == nil {
		return nil
	}
	front, err := frame.Front(head(s.job, v.clear, c.Height), *c.bulkhead)
	stations := make([]trim.Station, len(front))
	for i, f := range front {
		stations[i] = trim.Station(f)
	}
	var cover trim.Cover
	if err == nil {
		cover, err = trim.CoverBoards(stations, *s.job.Cover)
	}
	if err != nil {
		return opening.Findings{{
			Code: CodeNoCover, Severity: opening.Warn, Place: "cover.sheets",
			Message: "the bulkhead cannot be covered from these sheets: " + err.Error(),
			Remedy:  "add a larger sheet, or more of them",
		}}
	}
	c.cover = &cover
	if cover.Proven {
		return nil
	}
	return opening.Findings{{
		Code: CodeCoverNotProven, Severity: opening.Note, Place: "cover.sheets",
		Message: "the sheets ordered may not be the cheapest",
		Remedy:  "offer fewer sizes of sheet",
	}}
}

// coverSheets buys the sheets that cover boards are cut from, in the order of the job.
func (b buyer) coverSheets(k *kit, sheets []trim.Sheet, cover *trim.Cover) {
	if cover == nil {
		return
	}
	counts := make([]int, len(sheets))
	for _, used := range cover.Sheets {
		counts[used.Size]++
	}
	for i, n := range counts {
		if n > 0 {
			k.add(b, "cover board sheet", sheet(sheets[i].Length, sheets[i].Width), n, b.times(tenThousandths(sheets[i].Price), n))
		}
	}
}

// details works out what a fitter needs beside the pieces: packing, ends,
// fixings, stiffness and marks, and what there is to say about them.
func details(job *Job, p *Proposal, c opening.Clear) (*frame.Details, opening.Findings) {
	layout := frame.Layout{
		Head: head(job, c, p.Height), ClearHeight: c.Height, Strip: job.Opening.StripThickness(),
		Height: p.Height.Door + p.Height.Allowance, Depth: job.Gear.Depth, Bulkhead: p.Bulkhead,
		LeftPanel: c.LeftOff, RightPanel: c.RightOff,
		Joists: job.Opening.Joists.Crossing(), JoistsAlong: job.Opening.Joists.RunAlong(),
	}
	if p.Height.Method == doors.Packer {
		layout.Above = "packer"
	}
	for _, thickness := range p.Packer {
		layout.Stack += thickness
	}
	if in := job.Interior; in != nil {
		layout.Line, _ = job.Opening.DoorLine(in.Depth, job.Gear.Depth)
	}
	details, found, err := frame.Detail(layout, job.Timber, job.Frame)
	if err != nil {
		return nil, opening.Findings{{
			Code: CodeNoDetails, Severity: opening.Warn, Place: "frame",
			Message: "marks and fixings cannot be worked out: " + err.Error(),
			Remedy:  "check the levels and the joists",
		}}
	}
	return &details, found
}
