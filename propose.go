package lapspan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// The codes of findings that belong to the whole job or to one proposal.
const (
	CodeMeasureAgain opening.Code = "measure-again"
	CodeMassUnknown  opening.Code = "mass-unknown"
)

// Propose sizes the doors of a job: every treatment of the skirtings × every
// run of doors that closes the opening × every way to use the height, ranked,
// and the best of them written out in full. Same job, same plan.
//
// A job that Validate refuses, or whose search would be too large, is an
// *opening.InputError. A job whose readings are wrong gives a plan without
// proposals whose findings say why. The search stops with the context's error
// when the context is done.
func Propose(ctx context.Context, job Job) (Plan, error) {
	if err := job.Validate(); err != nil {
		return Plan{}, err
	}
	plan := Plan{Findings: opening.Findings{}, Proposals: []Proposal{}, Total: Total{Exact: true}}
	measured, err := opening.Measure(job.Opening)
	if err != nil {
		return Plan{}, err
	}
	s := search{job: &job, buy: buyer{job.Currency.MinorDigits()}, total: Total{Exact: true}}
	_, err = job.Doors.Build.Mass(units.MaxLength, units.MaxLength, nil)
	s.weighs = err == nil
	found := slices.Concat(measured.Findings, job.Gear.Findings(), job.Doors.Beyond(job.Gear), s.depth(), s.mass(), s.packing())
	plan.Findings = append(plan.Findings, found.Sorted()...)
	if plan.Findings.Stops() {
		plan.Cautions = cautions(&job, plan)
		return plan, nil
	}
	if err := s.prepare(ctx, measured.Variants); err != nil {
		return Plan{}, err
	}
	if err := s.run(ctx); err != nil {
		return Plan{}, err
	}
	plan.Findings = slices.Concat(plan.Findings, s.proof()).Sorted()
	plan.Total = s.total
	plan.Proposals = make([]Proposal, 0, len(s.rankings[0].best))
	for _, o := range s.rankings[0].best {
		plan.Proposals = append(plan.Proposals, s.proposal(o))
	}
	plan.NearMisses = s.nearMisses()
	plan.Refused = s.refused
	slices.SortStableFunc(plan.Refused, func(a, b doors.Refusal) int {
		return cmp.Or(cmp.Compare(b.Stock, a.Stock), cmp.Compare(a.Method.Order(), b.Method.Order()))
	})
	plan.Cautions = cautions(&job, plan)
	return plan, nil
}

// search is one job on its way to a plan.
type search struct {
	job      *Job
	buy      buyer
	variants []variant
	refused  []doors.Refusal
	parts    [doors.MaxDoors + 1]*kit // of the gear, by the number of doors; nil until asked for
	price    map[[2]units.Length]int64
	stocks   []units.Length // heights on sale, tallest first; one 0 where doors are only made to measure
	// rankings holds the rank asked for, or the two default ones until a
	// proposal without a price drops the first.
	rankings []ranking
	total    Total
	near     []nearMiss
	// notProven says that a search ended before it could tell that nothing better was left.
	notProven bool
	// weighs says that the build of the doors tells what they weigh.
	weighs bool
	// limited says that a limit of the gear depends on a door's width and height together.
	limited bool
}

// variant is one treatment of the skirtings with what it allows above the doors.
type variant struct {
	index          int
	clear          opening.Clear
	gearOf         *doors.Gear
	gear, sundries kit
	choices        []choice
	findings       opening.Findings
	sideWork       []opening.SideWork
	leaning        *leaning // nil: no wall is known to lean
}

// choice is one way to use the height under one treatment of the skirtings.
type choice struct {
	doors.Height
	stock    int // index of the stock height, tallest first; -1 for made to measure
	sure     bool
	saws     int // cuts on one door
	bulkhead *frame.Bulkhead
	cover    *trim.Cover
	cutDown  *trim.CutDown
	kit      kit
	price    int64          // of all but the doors and the parts
	cuts     []units.Length // what comes out of each panel; none unless cut down
	carried  map[units.Length]carried
	ends     [2]opening.EndDoor // how the end doors close on walls that lean
	findings opening.Findings
}

func (s *search) depth() opening.Findings {
	if s.job.Interior == nil {
		return nil
	}
	_, found := s.job.Opening.DoorLine(s.job.Interior.Depth, s.job.Gear.Depth)
	return found
}

func (s *search) mass() opening.Findings {
	if s.job.Gear.MaxDoorMass == nil {
		return nil
	}
	if s.weighs {
		return nil
	}
	return opening.Findings{{
		Code: CodeMassUnknown, Severity: opening.Note, Place: "gear.max_door_mass",
		Message: fmt.Sprintf("the gear carries a door of at most %s; what the doors weigh is not known here", s.job.Gear.MaxDoorMass),
		Remedy:  "say what stiles, bars and panels are made of, or ask the maker for the mass of a door before ordering",
	}}
}

// CodePackingNotPriced is the note that packing is listed but neither ordered nor priced.
const CodePackingNotPriced opening.Code = "packing-not-priced"

func (s *search) packing() opening.Findings {
	for _, p := range s.job.Opening.Packing() {
		if p.Rail > 0 || p.Track > 0 {
			return opening.Findings{{
				Code: CodePackingNotPriced, Severity: opening.Note, Place: "opening.levels",
				Message: "floor or ceiling runs out: the packing that levels rail and track is listed on the sheet, but it is not in the order or the price",
				Remedy:  "add packing to what is bought",
			}}
		}
	}
	return nil
}

// prepare works out everything that does not depend on the run of doors.
func (s *search) prepare(ctx context.Context, clears []opening.Clear) error {
	s.limited = s.job.Gear.MaxSlimness != nil || s.job.Gear.MaxDoorMass != nil && s.weighs
	s.stocks = s.job.Doors.Heights()
	if len(s.stocks) == 0 {
		s.stocks = []units.Length{0}
	}
	s.price = make(map[[2]units.Length]int64, len(s.job.Doors.Sizes))
	for _, size := range s.job.Doors.Sizes {
		s.price[[2]units.Length{size.Width, size.Height}] = tenThousandths(size.Price)
	}
	var heights []doors.Height
	for i, clear := range clears {
		v := variant{index: i, clear: clear, gearOf: &s.job.Gear, sideWork: sideWorks(s.job, clear)}
		var err error
		if v.gear, v.sundries, v.findings, err = s.buy.run(ctx, s.job, clear); err != nil {
			return err
		}
		if s.leans() {
			v.leaning = newLeaning(s.job, clear)
		} else {
			if i == 0 { // the clear height is the same whatever becomes of the skirtings
				heights = s.heights(s.job.Doors, clear.Height, s.job.Gear.Allowance, s.refuse)
			}
			v.choices = s.choices(ctx, &v, heights)
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		s.variants = append(s.variants, v)
	}
	if len(s.job.Rank) > 0 {
		s.rankings = []ranking{{keys: s.job.Rank, limit: s.job.limit()}}
	} else {
		s.rankings = []ranking{
			{keys: DefaultRank(true), limit: s.job.limit()},
			{keys: DefaultRank(false), limit: s.job.limit()},
		}
	}
	return nil
}

// choices builds the heights that can be built under one treatment of the
// skirtings, and keeps the reasons of those that cannot.
func (s *search) choices(ctx context.Context, v *variant, heights []doors.Height) []choice {
	built := make([]choice, 0, len(heights))
	for _, h := range heights {
		if over := s.job.Gear.Limits(doors.Hung{Height: h.Door}); len(over) > 0 {
			s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: over[0].Reason})
			continue
		}
		c, err := s.choice(ctx, v, h)
		if err != nil {
			s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: reason(err)})
			continue
		}
		built = append(built, c)
	}
	return built
}

// reason is an error as a fitter reads it: without the names of packages.
func reason(err error) string {
	text := err.Error()
	for _, name := range []string{"frame: ", "trim: ", "doors: ", "units: "} {
		text = strings.TrimPrefix(text, name)
	}
	return text
}

// heights are the ways to hang the doors of a range, as numbers; what cannot be is handed to refuse.
func (s *search) heights(r doors.Range, clear units.Length, allowance doors.Target, refuse func(doors.Refusal)) []doors.Height {
	heights, refused := doors.HeightsFor(r, clear, doors.Above{
		Allowance: allowance,
		Boards:    s.job.Boards,
		Timber:    s.job.Timber,
		Cutting:   s.job.Trim,
	})
	for _, r := range refused {
		refuse(r)
	}
	return heights
}

// refuse keeps a reason once.
func (s *search) refuse(r doors.Refusal) {
	if !slices.Contains(s.refused, r) {
		s.refused = append(s.refused, r)
	}
}

// choice builds one way to use the height; an error says why it cannot be built.
func (s *search) choice(ctx context.Context, v *variant, h doors.Height) (choice, error) {
	c := choice{Height: h, stock: slices.Index(s.job.Doors.Heights(), h.Stock)}
	switch h.Method {
	case doors.ToMeasure:
		c.stock = -1
	case doors.CutDown:
		cut, findings, err := trim.Schedule(s.job.Doors.Build, s.job.Trim, h)
		if err != nil {
			return c, err
		}
		c.cutDown, c.saws, c.findings = &cut, cut.Saws(), findings
		if s.job.Doors.Build != nil {
			if c.cuts, err = doors.PanelCuts(s.job.Doors.Build, s.job.Trim, h.Stock, h.Cut); err != nil {
				return c, err
			}
		}
	case doors.Bulkhead:
		b, err := frame.SetOut(head(s.job, v.clear, h), *s.job.Timber)
		if err != nil {
			return c, err
		}
		c.bulkhead = &b
		c.findings = append(c.findings, frame.PlateWidth(*s.job.Timber, s.job.Gear.Depth)...)
		c.findings = append(c.findings, s.cover(v, &c)...)
	}
	findings, err := s.above(ctx, v, &c)
	if err != nil {
		return c, err
	}
	c.findings = append(c.findings, findings...)
	c.carried = make(map[units.Length]carried)
	c.sure = h.Margin.Within(v.clear.Lowest.Uncertainty)
	c.price = addPrices(v.gear.price, v.sundries.price, c.kit.price)
	return c, nil
}

// sidesDiffer reports whether anything tells left from right.
func (s *search) sidesDiffer(v *variant) bool {
	return s.job.Interior != nil && len(s.job.Interior.PullOuts) > 0 ||
		len(s.job.Opening.Levels) > 0 ||
		v.clear.Left != v.clear.Right || v.clear.LeftOff != v.clear.RightOff
}

// enumerated is how many candidates are looked at one by one; of larger ranges,
// up to doors.MaxCandidates, the best are searched for.
const enumerated = 20_000

// run shows every option that can come among the best to the rankings.
func (s *search) run(ctx context.Context) error {
	var searched []*variant
	for i := range s.variants {
		v := &s.variants[i]
		query := s.query(v)
		large := !query.Small(enumerated)
		if large && !query.Small(doors.MaxCandidates) {
			_, err := doors.Candidates(ctx, query) // which says how many they would be
			return err
		}
		if large && s.searchable(v) {
			searched = append(searched, v)
			// Runs of doors all alike tell the near misses; with those made to
			// measure they are few.
			query.Range.MixedWidths = false
		}
		if err := s.enumerate(ctx, v, query, len(searched) > 0 && searched[len(searched)-1] == v); err != nil {
			return err
		}
	}
	if err := s.searchAll(ctx, searched); err != nil {
		return err
	}
	if len(s.rankings) > 1 && s.total.Count == 0 {
		s.rankings = s.rankings[1:]
	}
	return nil
}

func (s *search) query(v *variant) doors.Query {
	q := doors.Query{Range: s.job.Doors, Gear: s.job.Gear, Opening: v.clear.Width, SidesDiffer: s.sidesDiffer(v)}
	if v.leaning != nil {
		q.Wide = v.leaning.wide.Width
	}
	return q
}

// enumerate looks at every candidate of a query. Doors from stock that close the
// opening are left to the search where the variant is searched.
func (s *search) enumerate(ctx context.Context, v *variant, query doors.Query, searched bool) error {
	candidates, err := doors.Candidates(ctx, query)
	if err != nil {
		return err
	}
	var offered uint64 // stock heights that can be hung at all
	for _, c := range v.choices {
		if c.stock >= 0 {
			offered |= 1 << c.stock
		}
	}
	for c, err := range candidates {
		switch {
		case err != nil:
			return err
		case v.leaning != nil:
			s.offerLeaning(ctx, v, c)
		case !c.MadeToMeasure && c.Heights&offered == 0:
		case !c.Closes():
			s.missedAt(v, c)
		case searched && !c.MadeToMeasure:
		case c.Stands():
			s.offer(v, c)
		}
	}
	return nil
}

// tallest is the tallest stock height that the set of doors could be hung at.
func (v *variant) tallest(c *doors.Candidate) units.Length {
	var tallest units.Length
	for i := range v.choices {
		if h := &v.choices[i]; v.hangs(h, c) {
			tallest = max(tallest, h.Stock)
		}
	}
	return tallest
}

// hangs reports whether the choice is for the height and kind of the doors.
func (v *variant) hangs(h *choice, c *doors.Candidate) bool {
	if c.MadeToMeasure || h.stock < 0 {
		return c.MadeToMeasure && h.stock < 0
	}
	return c.Heights>>h.stock&1 == 1
}

// missedAt keeps a near miss, unless it is further off than those there are.
func (s *search) missedAt(v *variant, c *doors.Candidate) {
	if len(s.near) == nearLimit && -min(c.Under, c.Over) >= s.near[nearLimit-1].by() {
		return
	}
	s.missed(nearMiss{option{variant: v, clear: &v.clear, under: c.Under, over: c.Over, set: setOf(c), candidate: *c}, v.tallest(c)})
}

// offer shows a run of doors that closes the opening with every height it is sold in.
func (s *search) offer(v *variant, c *doors.Candidate) {
	for i := range v.choices {
		h := &v.choices[i]
		if set := setOf(c); v.hangs(h, c) && s.carries(h, set) {
			s.show(&option{variant: v, height: h, clear: &v.clear, under: c.Under, over: c.Over, set: set, candidate: *c})
		}
	}
}

// show counts and prices an option and shows it to the rankings.
func (s *search) show(o *option) {
	s.total.Count++
	o.price = addPrices(o.height.price, s.partsFor(o.set.count).price, s.doorsPrice(o.height, &o.set))
	if o.price == unpriced && len(s.rankings) > 1 {
		s.rankings = s.rankings[1:]
	}
	for r := range s.rankings {
		s.rankings[r].show(o)
	}
}

// carried is a door as the gear would carry it at one height.
type carried struct {
	mass *units.Mass // nil: not known
	over []doors.Over
}

// carried looks a door up, or works it out when it is first asked for.
func (s *search) carried(h *choice, width units.Length) carried {
	if c, known := h.carried[width]; known {
		return c
	}
	var c carried
	if mass, err := s.job.Doors.Build.Mass(width, h.Stock, h.cuts); err == nil {
		c.mass = &mass
	}
	c.over = s.job.Gear.Limits(doors.Hung{Width: width, Height: h.Door, Mass: c.mass})
	h.carried[width] = c
	return c
}

// carries reports whether the gear takes every door of the set at the height. A
// door that it does not take is refused once, by name of the limit.
func (s *search) carries(h *choice, set widthSet) bool {
	if !s.limited {
		return true
	}
	for _, w := range set.widths[:set.count] {
		if over := s.carried(h, w).over; len(over) > 0 {
			s.refuse(doors.Refusal{Stock: h.Stock, Method: h.Method, Reason: over[0].Reason})
			return false
		}
	}
	return true
}

// doorsPrice is what the order's lines for the doors will cost.
func (s *search) doorsPrice(h *choice, set *widthSet) int64 {
	var sum int64
	for i := 0; i < set.count && sum != unpriced; {
		w, count := set.widths[i], 0
		for i < set.count && set.widths[i] == w {
			count, i = count+1, i+1
		}
		sum = addPrices(sum, s.doorPrice(h, w, count))
	}
	return sum
}

// partsFor is what the parts of the gear cost for so many doors.
func (s *search) partsFor(n int) *kit {
	if s.parts[n] == nil {
		s.parts[n] = new(kit)
		s.buy.parts(s.parts[n], s.job.Gear.Parts, n)
	}
	return s.parts[n]
}

// proposal writes an option out in full.
func (s *search) proposal(o *option) Proposal {
	v, h, run := o.variant, o.height, o.arranged()
	p := Proposal{
		Skirting:    Treatments{v.clear.Left, v.clear.Right},
		ClearWidth:  o.clear.Width,
		ClearHeight: v.clear.Height,
		Doors:       run.Doors(),
		Cover:       run.Cover(s.job.Gear),
		Access:      run.Access(o.clear.Width.Min).Width(),
		AccessAt:    fromWall(run.Access(o.clear.Width.Min), v),
		Height:      h.Height,
		Bulkhead:    h.bulkhead,
		CutDown:     h.cutDown,
		CoverBoards: h.cover,
		Margin: Margins{
			Width:  doors.Margin{Under: new(o.under), Over: new(o.over)},
			Height: h.Margin,
		},
	}
	// A run that closes the widest reading has overlaps to share.
	p.Overlaps, _ = run.OverlapsIn(s.job.Gear, o.clear.Width.Max)
	p.Sight, _ = run.Sight(s.job.Gear, o.clear.Width.Max)
	lifting := s.masses(&p, h)
	inside := s.interior(&p, o)
	for _, piece := range h.Stack {
		p.Packer = append(p.Packer, piece.Thickness)
	}
	var k kit
	s.doors(&k, h, &o.set)
	p.Order = slices.Concat(k.lines, v.gear.lines, s.partsFor(run.Len()).lines, h.kit.lines, v.sundries.lines)
	p.SideWork = v.sideWork
	uses := o.uses()
	p.MeasureAgain = opening.MeasureAgain(uses...)
	p.CutList = slices.Concat(v.gear.cuts, h.kit.cuts)
	p.Price = s.buy.text(o.price)
	p.Findings = slices.Concat(v.findings, h.findings, again(uses), lifting, inside, s.ends(&p, o), s.slopes(o)).Sorted()
	if p.Findings == nil {
		p.Findings = opening.Findings{}
	}
	return p
}

// uses are the four uses that a proposal makes of its readings, each with how far it may be out.
func (o *option) uses() []opening.Use {
	uses := []opening.Use{
		{Figure: "narrowest width", Deciding: o.clear.Narrowest, Margin: o.under},
		{Figure: "widest width", Deciding: o.clear.Widest, Margin: o.over},
	}
	if u := o.height.Margin.Under; u != nil {
		uses = append(uses, opening.Use{Figure: "clear height, if less", Deciding: o.clear.Lowest, Margin: *u})
	}
	if v := o.height.Margin.Over; v != nil {
		uses = append(uses, opening.Use{Figure: "clear height, if more", Deciding: o.clear.Lowest, Margin: *v})
	}
	return uses
}

// again names the readings to take again before ordering: those whose
// uncertainty is larger than the margin they decide.
func again(uses []opening.Use) opening.Findings {
	var found opening.Findings
	for _, use := range uses {
		if use.Margin >= use.Deciding.Uncertainty {
			continue
		}
		for _, place := range use.Deciding.Places {
			found = append(found, opening.Finding{
				Code: CodeMeasureAgain, Severity: opening.Warn, Place: place,
				Message: fmt.Sprintf("the %s may be out by %s, but only %s are to spare", use.Figure, use.Deciding.Uncertainty, use.Margin),
				Remedy:  "measure it again, finer, before anything is ordered",
			})
		}
	}
	return found
}
