package lapspan

import (
	"cmp"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Sheet writes a plan as plain text to take to site: the room, the findings,
// the proposals side by side, the first of them in full with its working,
// margins and order, then the cautions. Lengths are millimetres. Same job and
// plan, same text; lines end in \n.
func Sheet(job Job, plan Plan) string {
	var s page
	s.heading(cmp.Or(job.Reference, "Sliding doors"))
	s.line("All lengths in millimetres. Doors are named from the left; track 0 is the room side.")
	s.room(job)
	s.findings("Findings", plan.Findings)
	s.proposals(job, plan)
	s.misses(plan)
	if len(plan.Proposals) > 0 {
		first := plan.Proposals[0]
		if len(first.Working) == 0 {
			first = explain(job, first)
		}
		s.first(job, first)
	}
	s.heading("Cautions")
	for _, c := range plan.Cautions {
		s.line("- " + c)
	}
	return s.String()
}

// page is a sheet as it is written.
type page struct{ strings.Builder }

func (s *page) line(text string) { s.WriteString(text + "\n") }

func (s *page) heading(text string) {
	if s.Len() > 0 {
		s.line("")
	}
	s.line(text)
	s.line(strings.Repeat("-", len([]rune(text))))
}

// table writes rows with their columns aligned, without blanks at line ends.
func (s *page) table(rows [][]string) {
	var text strings.Builder
	w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	for _, row := range rows {
		// Neither a strings.Builder nor a tabwriter over one can fail.
		_, _ = io.WriteString(w, strings.Join(row, "\t")+"\n")
	}
	_ = w.Flush()
	for line := range strings.Lines(text.String()) {
		s.line(strings.TrimRight(line, " \n"))
	}
}

func (s *page) room(job Job) {
	s.heading("Room")
	rows := [][]string{}
	for _, w := range job.Opening.Widths {
		between := cmp.Or(w.Between, opening.Walls)
		rows = append(rows, []string{"width", w.Size.Millimetres(), "at " + w.At.Millimetres() + " above the floor, between " + string(between)})
	}
	for _, h := range job.Opening.Heights {
		rows = append(rows, []string{"height", h.Size.Millimetres(), "at " + h.At.Millimetres() + " from the left wall"})
	}
	for _, l := range job.Opening.Levels {
		rows = append(rows, []string{"level", l.Floor.Millimetres() + " down, " + l.Ceiling.Millimetres() + " up", "at " + l.At.Millimetres() + " from the left wall"})
	}
	for _, d := range job.Opening.Depths {
		rows = append(rows, []string{"depth", d.Size.Millimetres(), "at " + d.At.Millimetres() + " from the left wall"})
	}
	for _, wall := range []struct {
		name  string
		leans []opening.Lean
	}{{"left", job.Opening.Leans.Left}, {"right", job.Opening.Leans.Right}} {
		for _, l := range wall.leans {
			rows = append(rows, []string{"plumb", l.Size.Millimetres(), "to the " + wall.name + " wall at " + l.At.Millimetres() + " above the floor"})
		}
	}
	if d := job.Opening.Diagonals; d != nil {
		text := "rising and falling"
		if q, err := job.Opening.Square(); err == nil {
			text += fmt.Sprintf("; the top stands %s to the right of the bottom, ± %s", about(q.Shear), about(q.Uncertainty))
		}
		rows = append(rows, []string{"diagonals", d.Rising.Millimetres() + ", " + d.Falling.Millimetres(), text})
	}
	if j := job.Opening.Joists; j != nil {
		rows = append(rows, []string{"joists", places(j.Centres), "from the left wall, " + string(j.Run)})
	}
	for _, t := range job.Opening.InTheWay {
		rows = append(rows, []string{string(t.Kind), stretch(doors.Gap{From: t.From, To: t.To}), t.Bottom.Millimetres() + " to " + t.Top.Millimetres() + " above the floor"})
	}
	for _, side := range []struct {
		name     string
		skirting *opening.Skirting
	}{{"left", job.Opening.Skirting.Left}, {"right", job.Opening.Skirting.Right}} {
		if k := side.skirting; k != nil {
			rows = append(rows, []string{"skirting", sheet(k.Thickness, k.Height), side.name + ", " + string(cmp.Or(k.Treatment, "treatment open"))})
		}
	}
	if t := job.Opening.EndPanel; t > 0 {
		rows = append(rows, []string{"end panel", t.Millimetres(), "thick"})
	}
	if t := job.Opening.CarpetToCome; t > 0 {
		rows = append(rows, []string{"carpet", t.Millimetres(), "to come"})
	}
	if job.Opening.CarpetAtRail {
		rows = append(rows, []string{"carpet", "", "is cut to the rail"})
	}
	if in := job.Interior; in != nil {
		rows = append(rows, []string{"interior", in.Depth.Millimetres(), "deep"})
		for _, p := range in.PullOuts {
			rows = append(rows, []string{"pull-out", p.From.Millimetres() + " to " + p.To.Millimetres(), p.Name})
		}
	}
	s.table(rows)
}

func (s *page) findings(title string, found opening.Findings) {
	if len(found) == 0 {
		return
	}
	s.heading(title)
	for _, f := range found {
		s.line(fmt.Sprintf("%s  %s: %s.", f.Severity, f.Place, f.Message))
		s.line("      " + f.Remedy)
	}
}

// alike groups what is equal: 3 × 650 + 700.
func alike(n int, at func(int) string) string {
	var groups []string
	for i := 0; i < n; {
		j := i + 1
		for j < n && at(j) == at(i) {
			j++
		}
		if j-i > 1 {
			groups = append(groups, fmt.Sprintf("%d × %s", j-i, at(i)))
		} else {
			groups = append(groups, at(i))
		}
		i = j
	}
	return strings.Join(groups, " + ")
}

func widths(run []doors.Door) string {
	return alike(len(run), func(i int) string { return run[i].Width.Millimetres() })
}

func tracks(run []doors.Door) string {
	var b strings.Builder
	for _, d := range run {
		b.WriteString(strconv.Itoa(d.Track))
	}
	return b.String()
}

// String writes both sides, or one word where they are alike: "end panel / none", "cut back".
func (t Treatments) String() string {
	if t.Left == t.Right {
		return string(t.Left)
	}
	return string(t.Left) + " / " + string(t.Right)
}

// about writes a length to the tenth of a millimetre, marked where that is not all of it.
func about(l units.Length) string {
	rounded, err := l.Round(units.Millimetre/10, units.HalfEven)
	if err != nil || rounded == l {
		return l.Millimetres()
	}
	return "~" + rounded.Millimetres()
}

func (s *page) proposals(job Job, plan Plan) {
	s.heading("Proposals")
	if len(plan.Proposals) == 0 {
		s.line("None: see the findings, the near misses and what was refused.")
		return
	}
	of := "of"
	if !plan.Total.Exact {
		of = "of at least"
	}
	s.line(fmt.Sprintf("%d %s %d, the best first.", len(plan.Proposals), of, plan.Total.Count))
	s.line("")
	rows := [][]string{{"no", "doors", "tracks", "skirting", "height", "stock", "door", "overlap", "cover", "access", "spare width", "price", "sure"}}
	for i, p := range plan.Proposals {
		overlap := units.Length(0)
		for _, o := range p.Overlaps {
			overlap = max(overlap, o)
		}
		sure := "yes"
		if p.Findings.Has(CodeMeasureAgain) {
			sure = "measure again"
		}
		rows = append(rows, []string{
			strconv.Itoa(i + 1), widths(p.Doors), tracks(p.Doors), p.Skirting.String(), string(p.Height.Method),
			p.Height.Stock.Millimetres(), p.Height.Door.Millimetres(), about(overlap), p.Cover.Millimetres(),
			about(p.Access), margin(p.Margin.Width), cmp.Or(p.Price, "-"), sure,
		})
	}
	s.table(rows)
	if code := job.Currency.Code; code != "" {
		s.line("Prices in " + code + ".")
	}
}

// margin writes how much a figure may be less and more.
func margin(m doors.Margin) string {
	var ends []string
	if m.Under != nil {
		ends = append(ends, "−"+about(*m.Under))
	}
	if m.Over != nil {
		ends = append(ends, "+"+about(*m.Over))
	}
	return strings.Join(ends, " ")
}

func (s *page) misses(plan Plan) {
	if len(plan.NearMisses) > 0 {
		s.heading("Near misses")
		rows := [][]string{}
		for _, m := range plan.NearMisses {
			rows = append(rows, []string{widths(m.Doors), m.Skirting.String(), "stock " + m.StockHeight.Millimetres(), m.Message, mends(m.Changes)})
		}
		s.table(rows)
	}
	if len(plan.Refused) > 0 {
		s.heading("Not offered")
		rows := [][]string{}
		for _, r := range plan.Refused {
			stock := r.Stock.Millimetres()
			if r.Stock == 0 {
				stock = "-"
			}
			rows = append(rows, []string{stock, string(r.Method), r.Reason})
		}
		s.table(rows)
	}
}

// mends writes what would make a near miss work.
func mends(changes []doors.Change) string {
	var ways []string
	for _, c := range changes {
		switch c.Kind {
		case doors.Liner:
			ways = append(ways, "a liner of "+about(c.By))
		case doors.Widen:
			ways = append(ways, "an opening wider by "+about(c.By))
		case doors.Relap:
			ways = append(ways, "gear that overlaps "+about(c.Overlap.Min)+" to "+about(c.Overlap.Max))
		case doors.Retrack:
			tracks := ""
			for _, t := range c.Tracks {
				tracks += strconv.Itoa(t)
			}
			ways = append(ways, "tracks "+tracks)
		}
	}
	if len(ways) == 0 {
		return ""
	}
	return "would work with " + strings.Join(ways, ", or ")
}

func (s *page) first(job Job, p Proposal) {
	s.heading("Proposal 1 in full")
	rows := [][]string{{"door", "width", "height", "track", "overlap to the next"}}
	for i, d := range p.Doors {
		next := ""
		if i < len(p.Overlaps) {
			next = about(p.Overlaps[i])
		}
		rows = append(rows, []string{strconv.Itoa(i + 1), d.Width.Millimetres(), p.Height.Door.Millimetres(), strconv.Itoa(d.Track), next})
	}
	s.table(rows)
	s.sides(p)
	s.above(p)
	s.reach(p)
	s.line("")
	s.line("Working")
	rows = nil
	for _, w := range p.Working {
		rows = append(rows, []string{"  " + w.What, w.Sum, "= " + w.Is})
	}
	s.table(rows)
	s.line("")
	s.line("Margins: how far a reading may be out before what is ordered, or the method, has to change")
	s.table([][]string{
		{"  width", margin(p.Margin.Width)},
		{"  height", margin(p.Margin.Height)},
	})
	for i, a := range p.MeasureAgain {
		if i == 0 {
			s.line("")
			s.line("Measure again, in this order")
		}
		s.line(fmt.Sprintf("  %s: the %s may be out by %s, but only %s are to spare", a.Place, a.Figure, about(a.Uncertainty), about(a.Margin)))
	}
	s.line("")
	s.line("Order")
	rows = nil
	for _, o := range p.Order {
		rows = append(rows, []string{"  " + strconv.Itoa(o.Count), o.Item, o.Size, o.Price})
	}
	if p.Price != "" {
		rows = append(rows, []string{"", "in all", "", strings.TrimSpace(p.Price + " " + job.Currency.Code)})
	}
	s.table(rows)
	s.cutList(p)
	s.onSite(p)
	s.findings("Findings on proposal 1", p.Findings)
}

// row writes lengths in a row, equal neighbours together.
func row(lengths []units.Length) string {
	return alike(len(lengths), func(i int) string { return about(lengths[i]) })
}

// places writes positions.
func places(at []units.Length) string {
	texts := make([]string, len(at))
	for i, l := range at {
		texts[i] = about(l)
	}
	return strings.Join(texts, ", ")
}

func (s *page) cutList(p Proposal) {
	if len(p.CutList) == 0 {
		return
	}
	s.line("")
	s.line("Cut list")
	rows := [][]string{}
	for _, c := range p.CutList {
		rows = append(rows, []string{"  " + c.Item, "from " + c.Stock.Millimetres(), row(c.Pieces), "leaves " + about(c.Offcut)})
	}
	s.table(rows)
	if c := p.CoverBoards; c != nil {
		s.line("")
		s.line("Cover boards, joined on studs")
		rows = nil
		for i, b := range c.Boards {
			scribed := ""
			if b.Scribed {
				scribed = "scribe the upper edge to the ceiling"
			}
			rows = append(rows, []string{fmt.Sprintf("  board %d, from sheet %d", i+1, b.Sheet+1), sheet(b.To-b.From, b.Height), scribed})
		}
		s.table(rows)
	}
}

// onSite writes what a fitter needs beside the pieces.
func (s *page) onSite(p Proposal) {
	d := p.Details
	if d == nil {
		return
	}
	if d.Packing != nil {
		s.line("")
		s.line("Packing, thickness at each end of the wedge")
		rows := [][]string{}
		for _, side := range []struct {
			where  string
			wedges []frame.Wedge
		}{{"under the rail", d.Packing.UnderRail}, {"above the track", d.Packing.AboveTrack}} {
			for _, w := range side.wedges {
				rows = append(rows, []string{"  " + side.where, stretch(doors.Gap{From: w.From, To: w.To}), about(w.Left) + " to " + about(w.Right)})
			}
		}
		s.table(rows)
	}
	for _, e := range d.Ends {
		s.line("")
		s.line(fmt.Sprintf("%s end of the bulkhead: %s, end stud at %s", e.Side, e.Kind, about(e.Stud)))
		for _, step := range e.Steps {
			s.line("  - " + step)
		}
	}
	for _, f := range d.Fixings {
		s.line("")
		s.line(fmt.Sprintf("Fixings of the %s, no nearer than %s to an end and %s to an edge", f.What, about(f.EndDistance), about(f.EdgeDistance)))
		for _, each := range f.Each {
			least := ""
			if each.Least > 0 {
				least = ", at least " + about(each.Least) + " long"
			}
			s.line(fmt.Sprintf("  %d %s%s, into %s, at %s", each.Count, each.Kind, least, each.Into, places(each.Places)))
		}
	}
	if d.Stiffness != nil {
		s.line("")
		s.line(fmt.Sprintf("Stiffness, for information: %s deflects %s over %s; span/%d is %s", d.Stiffness.Grade, about(d.Stiffness.Deflection), about(d.Stiffness.Span), d.Stiffness.Limit, about(d.Stiffness.Allowed)))
		s.line("  " + d.Stiffness.Advice)
	}
	s.line("")
	s.line("Marks, in the order they are drawn")
	for i, m := range d.Marks {
		s.line(fmt.Sprintf("  %d. on the %s: %s, %s from %s", i+1, m.On, m.What, places(m.At), m.From))
		s.line(fmt.Sprintf("     check: %s %s", m.Check, about(m.Is)))
	}
}

// sides writes what is done at the two sides.
func (s *page) sides(p Proposal) {
	if len(p.SideWork)+len(p.EndDoors) == 0 {
		return
	}
	s.line("")
	s.line("Sides")
	for _, w := range p.SideWork {
		s.line("  " + w.String())
	}
	for _, d := range p.EndDoors {
		switch {
		case d.Liner != nil:
			s.line(fmt.Sprintf("  %s: the wall leans %s over the door; liner %s thick at the foot, %s at the top", d.Side, leanWords(d.Lean), about(d.Liner.Foot), about(d.Liner.Top)))
		case d.Raise > 0:
			s.line(fmt.Sprintf("  %s: the wall leans %s over the door; raise the wheel %s by %s", d.Side, leanWords(d.Lean), d.Wheel, about(d.Raise)))
		}
	}
}

func leanWords(lean units.Length) string {
	if lean < 0 {
		return about(lean.Abs()) + " inwards"
	}
	return about(lean) + " outwards"
}

// reach writes what the doors give access to, measured from the left wall.
func (s *page) reach(p Proposal) {
	s.line("")
	s.line("Reach, from the left wall")
	rows := [][]string{{"  widest clear gap", stretch(p.AccessAt), "all doors parked at the right"}}
	for _, out := range p.PullOuts {
		how := "cannot come out"
		if out.Clear {
			var parked []string
			for track, n := range out.Left {
				if n > 0 {
					parked = append(parked, fmt.Sprintf("%d of track %d", n, track))
				}
			}
			how = "park at the left " + strings.Join(parked, " and ")
			if len(parked) == 0 {
				how = "park all doors at the right"
			}
		}
		gap := ""
		if out.Gap != nil {
			gap = stretch(*out.Gap)
		}
		rows = append(rows, []string{"  " + out.Name, gap, how})
	}
	for _, g := range p.Blind {
		rows = append(rows, []string{"  never clear", stretch(g), ""})
	}
	for i, g := range p.Uprights {
		rows = append(rows, []string{"  upright " + strconv.Itoa(i+1), stretch(g), ""})
	}
	s.table(rows)
	if len(p.DoorMasses) > 0 {
		s.line("Mass of the doors as hung: " + alike(len(p.DoorMasses), func(i int) string { return p.DoorMasses[i].String() }))
	}
}

func stretch(g doors.Gap) string { return about(g.From) + " to " + about(g.To) }

// above writes what is done with the height.
func (s *page) above(p Proposal) {
	s.line("")
	switch {
	case p.Packer != nil:
		s.line("Packer above the track: " + alike(len(p.Packer), func(i int) string { return p.Packer[i].Millimetres() }))
	case p.Bulkhead != nil:
		s.line(fmt.Sprintf("Bulkhead above the track, %s high", about(p.Height.Gap)))
		s.line("  plates  " + alike(len(p.Bulkhead.Plates), func(i int) string { return p.Bulkhead.Plates[i].Millimetres() }))
		rows := [][]string{{"  stud", "centre from the left wall", "length"}}
		for i, stud := range p.Bulkhead.Studs {
			rows = append(rows, []string{"  " + strconv.Itoa(i+1), about(stud.At), about(stud.Length)})
		}
		s.table(rows)
		for _, j := range p.Bulkhead.Joints {
			s.line(fmt.Sprintf("  joint of the %s plate at %s", j.Plate, about(j.At)))
		}
	case p.CutDown != nil:
		s.line("Cut down: " + p.CutDown.Stile.Millimetres() + " off the top of both stiles")
		for _, c := range p.CutDown.Panels {
			s.line(fmt.Sprintf("  panel %d from the bottom: cut %s, keeps %s", c.Panel, c.Cut.Millimetres(), about(c.Height)))
		}
		for i, step := range p.CutDown.Steps(len(p.Doors)) {
			s.line(fmt.Sprintf("  %d. %s", i+1, step))
		}
	default:
		s.line("Above the track: nothing. Track and rail take " + p.Height.Allowance.Millimetres())
	}
}
