package lapspan

import (
	"fmt"
	"slices"
	"strings"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Explain returns the plan of a job with what is worked out only when it is
// asked for: of every proposal the working, lines as one writes them on paper, in
// millimetres; and the details that a fitter needs on site, with their findings
// added to the proposal's. The plan given is left as it is.
func Explain(job Job, plan Plan) Plan {
	explained := plan
	explained.Proposals = slices.Clone(plan.Proposals)
	for i := range explained.Proposals {
		explained.Proposals[i] = explain(job, explained.Proposals[i])
	}
	return explained
}

func explain(job Job, p Proposal) Proposal {
	clear, found, ok := p.clear(job)
	if !ok {
		return p // not a proposal that Propose made from the job
	}
	var s sums
	s.opening(job, p, found)
	s.doors(job, p)
	s.height(job, p)
	s.margins(job, p)
	s.order(p)
	p.Working = s
	details, more := details(&job, &p, clear)
	p.Details, p.Findings = details, slices.Concat(p.Findings, more).Sorted()
	if p.Findings == nil {
		p.Findings = opening.Findings{}
	}
	return p
}

// clear is the clear opening that the proposal was made for, and as its doors find it.
func (p *Proposal) clear(job Job) (clear, found opening.Clear, ok bool) {
	measured, err := opening.Measure(job.Opening)
	if err != nil {
		return clear, found, false
	}
	for _, c := range measured.Variants {
		if c.Left == p.Skirting.Left && c.Right == p.Skirting.Right {
			return c, job.Opening.ClearFor(c, len(p.Doors), p.Height.Door), true
		}
	}
	return clear, found, false
}

// sums collects lines of working.
type sums []units.Line

func (s *sums) add(what string, is units.Length, sum string, args ...any) {
	for i, a := range args {
		if l, ok := a.(units.Length); ok {
			args[i] = l.Millimetres()
		}
	}
	*s = append(*s, units.Line{What: what, Sum: fmt.Sprintf(sum, args...), Is: is.Millimetres()})
}

func (s *sums) opening(job Job, p Proposal, c opening.Clear) {
	*s = append(*s, job.Opening.Working(c, len(p.Doors), p.Height.Door)...)
	if in := job.Interior; in != nil && job.Gear.Depth > 0 {
		line, _ := job.Opening.DoorLine(in.Depth, job.Gear.Depth)
		s.add("line of the doors, from the back wall", line, "%s + %s", in.Depth, line-in.Depth)
	}
}

func (s *sums) doors(job Job, p Proposal) {
	run, err := doors.NewRun(p.Doors...)
	if err != nil {
		return // not a proposal that Propose made
	}
	run = run.WithShowing(job.Gear.Showing)
	widths := make([]string, len(p.Doors))
	for i, d := range p.Doors {
		widths[i] = d.Width.Millimetres()
	}
	spread := strings.Join(widths, " + ")
	gap := run.Meetings() > 0 && job.Gear.MeetingGap != nil
	if gap {
		spread += fmt.Sprintf(" + %d × %s", run.Meetings(), job.Gear.MeetingGap.Millimetres())
	}
	laps := run.Overlaps()
	if m := job.Doors.MadeToMeasure; m != nil && p.Height.Method == doors.ToMeasure {
		gaps := ""
		if gap {
			gaps = fmt.Sprintf(" − %d × %s", run.Meetings(), job.Gear.MeetingGap.Millimetres())
		}
		s.add("width made, rounded up to the maker's step", p.Doors[0].Width, "(%s + %d × %s%s) / %d", p.ClearWidth.Max, laps, middle(job.Gear.Overlap, 0), gaps, len(p.Doors))
	}
	s.add("cover", p.Cover, "%s − %d × %s", spread, laps, job.Gear.Overlap.Min)
	inPlace := func(what string, opening units.Length) {
		if shares, err := run.OverlapsIn(job.Gear, opening); err == nil {
			s.add(what, greatest(shares), "(%s − %s) / %d", spread, opening, laps)
		}
	}
	inPlace("overlap in the widest reading", p.ClearWidth.Max)
	inPlace("overlap in the narrowest reading", p.ClearWidth.Min)
	gapAt := run.Access(p.ClearWidth.Min)
	s.add("access", p.Access, "%s − %s − %s", p.ClearWidth.Min, gapAt.From, p.ClearWidth.Min-gapAt.To)
}

func greatest(lengths []units.Length) units.Length {
	var most units.Length
	for _, l := range lengths {
		most = max(most, l)
	}
	return most
}

func (s *sums) height(job Job, p Proposal) {
	h := p.Height
	if h.Method == doors.ToMeasure && job.Doors.MadeToMeasure != nil {
		s.add("door made, rounded down to the maker's step", h.Door, "%s − %s", p.ClearHeight, middle(job.Gear.Allowance, least(job, p)))
	} else {
		s.add("height left over", p.ClearHeight-h.Stock, "%s − %s", p.ClearHeight, h.Stock)
	}
	switch h.Method {
	case doors.AsIs:
		s.add("allowance", h.Allowance, "%s − %s", p.ClearHeight, h.Door)
	case doors.Packer:
		stack := ""
		for _, t := range p.Packer {
			stack += " − " + t.Millimetres()
		}
		s.add("allowance under the packer", h.Allowance, "%s − %s%s", p.ClearHeight, h.Door, stack)
	case doors.Bulkhead:
		s.add("gap for the bulkhead", h.Gap, "%s − %s − %s", p.ClearHeight, h.Door, h.Allowance)
		if job.Timber != nil && p.Bulkhead != nil && len(p.Bulkhead.Studs) > 1 {
			t, studs := job.Timber.Thickness, p.Bulkhead.Studs
			s.add("stud at the lowest ceiling", h.Gap-2*t, "%s − 2 × %s", h.Gap, t)
			for i, stud := range studs {
				if rise := stud.Length - (h.Gap - 2*t); rise > 0 {
					s.add(fmt.Sprintf("stud %d, where the ceiling is higher", i+1), stud.Length, "%s + %s − 2 × %s", h.Gap, rise, t)
				}
			}
			first, last := studs[0].At, studs[len(studs)-1].At
			if !slices.ContainsFunc(studs, func(s frame.Stud) bool { return s.OnJoist }) {
				s.add("bay between studs, at most "+job.Timber.Spacing().Millimetres(), studs[1].At-first, "(%s − %s) / %d", last, first, len(studs)-1)
			}
		}
	case doors.CutDown:
		s.add("cut, rounded up to the saw step", h.Cut, "%s − (%s − %s)", h.Stock, p.ClearHeight, least(job, p))
		s.add("door as cut", h.Door, "%s − %s", h.Stock, h.Cut)
		if p.CutDown != nil {
			for _, c := range p.CutDown.Panels {
				s.add(fmt.Sprintf("panel %d from the bottom keeps", c.Panel), c.Height, "%s − %s", c.Height+c.Cut, c.Cut)
			}
		}
		s.add("allowance", h.Allowance, "%s − %s", p.ClearHeight, h.Door)
	case doors.ToMeasure:
		s.add("allowance", h.Allowance, "%s − %s", p.ClearHeight, h.Door)
	}
	for _, d := range p.EndDoors {
		if d.Raise > 0 {
			end := p.Doors[0]
			if d.Side == opening.Right {
				end = p.Doors[len(p.Doors)-1]
			}
			s.add("raise of the "+string(d.Side)+" end door, rounded up", d.Raise, "%s × %s / %s", end.Width, d.Lean.Abs(), h.Door)
		}
	}
	for _, pack := range job.Opening.Packing() {
		at := " at " + pack.At.Millimetres()
		if pack.Rail > 0 {
			s.add("packing under the rail"+at, pack.Rail, "%s − %s", pack.Rail+leastLevel(job, floorLevel), leastLevel(job, floorLevel))
		}
		if pack.Track > 0 {
			s.add("packing above the track"+at, pack.Track, "%s − %s", pack.Track+leastLevel(job, ceilingLevel), leastLevel(job, ceilingLevel))
		}
	}
}

func floorLevel(l opening.Level) units.Length   { return l.Floor }
func ceilingLevel(l opening.Level) units.Length { return l.Ceiling }

// leastLevel is the least of the levels down to the floor, or up to the ceiling.
func leastLevel(job Job, of func(opening.Level) units.Length) units.Length {
	least := of(job.Opening.Levels[0])
	for _, l := range job.Opening.Levels {
		least = min(least, of(l))
	}
	return least
}

// middle writes the aim of a target, half way between its ends by default, with a
// least that may lie above that of the target.
func middle(t doors.Target, least units.Length) string {
	if t.Aim != nil {
		return max(*t.Aim, least).Millimetres()
	}
	return "(" + max(t.Min, least).Millimetres() + " + " + t.Max.Millimetres() + ") / 2"
}

// least is what a height made to measure on site leaves for track and rail: the
// aim, or more where an end door is raised to its wall.
func least(job Job, p Proposal) units.Length {
	least := job.Gear.Allowance.Least()
	for _, d := range p.EndDoors {
		least = max(least, job.Gear.Allowance.Min+d.Taken)
	}
	return least
}

func (s *sums) margins(job Job, p Proposal) {
	run, err := doors.NewRun(p.Doors...)
	if err != nil {
		return
	}
	s.add("the narrowest width may be less by", p.ClearWidth.Min-run.Least(job.Gear), "%s − %s", p.ClearWidth.Min, run.Least(job.Gear))
	s.add("the widest width may be more by", p.Cover-p.ClearWidth.Max, "%s − %s", p.Cover, p.ClearWidth.Max)
	a, h := job.Gear.Allowance, p.Height
	const less, more = "the height may be less by", "the height may be more by"
	switch u, o := p.Margin.Height.Under, p.Margin.Height.Over; h.Method {
	case doors.Bulkhead:
		if u != nil && job.Timber != nil {
			s.add(less, *u, "%s − (2 × %s + %s)", h.Gap, job.Timber.Thickness, doors.ShortestStud)
		}
	case doors.CutDown:
		if u != nil {
			s.add(less+", until the cut is too deep", *u, "%s − %s", h.Cut+*u, h.Cut)
		}
		if o != nil {
			s.add(more+", until no cut is needed", *o, "%s − (%s − %s)", *o+p.ClearHeight-h.Stock, p.ClearHeight, h.Stock)
		}
	default:
		if u != nil && o != nil {
			raise := ""
			if taken := h.Allowance - a.Min - *u; taken > 0 {
				raise = " − " + taken.Millimetres() + " for the raised end door"
			}
			s.add(less, *u, "%s − %s%s", h.Allowance, a.Min, raise)
			s.add(more, *o, "%s − %s", a.Max, h.Allowance)
		}
	}
}

func (s *sums) order(p Proposal) {
	if p.Price == "" {
		return
	}
	var prices []string
	for _, line := range p.Order {
		prices = append(prices, line.Price)
	}
	*s = append(*s, units.Line{What: "price", Sum: strings.Join(prices, " + "), Is: p.Price})
}
