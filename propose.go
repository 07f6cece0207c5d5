package lapspan

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
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
// A job that Validate refuses is an *opening.InputError, and so is one whose range
// is too large: more than doors.MaxWidths widths of one height, or so many on no
// common step that doors.Best refuses them. A job whose readings are wrong gives a
// plan without proposals whose findings say why. The search stops with the
// context's error when the context is done.
func Propose(ctx context.Context, job Job) (Plan, error) { return propose(ctx, job, fewRuns) }

func propose(ctx context.Context, job Job, countable int64) (Plan, error) {
	if err := job.Validate(); err != nil {
		return Plan{}, err
	}
	plan := Plan{Findings: opening.Findings{}, Proposals: []Proposal{}, Total: Total{Exact: true}}
	measured, err := opening.Measure(job.Opening)
	if err != nil {
		return Plan{}, err
	}
	s := search{job: &job, buy: buyer{job.Currency.MinorDigits()}, total: Total{Exact: true}, countable: countable, isRefused: map[doors.Refusal]bool{}}
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
	if err := s.find(ctx); err != nil {
		return Plan{}, err
	}
	if plan.NearMisses, err = s.nearMisses(ctx); err != nil {
		return Plan{}, err
	}
	if proof := s.proof(); proof != nil {
		plan.Findings = slices.Concat(plan.Findings, proof).Sorted()
	}
	plan.Total = s.total
	plan.Proposals = make([]Proposal, 0, len(s.ranking.best))
	for _, o := range s.ranking.best {
		plan.Proposals = append(plan.Proposals, s.proposal(o))
	}
	plan.Refused = s.refused
	slices.SortStableFunc(plan.Refused, func(a, b doors.Refusal) int {
		return cmp.Or(cmp.Compare(b.Stock, a.Stock), cmp.Compare(a.Method.Order(), b.Method.Order()))
	})
	plan.Cautions = cautions(&job, plan)
	return plan, nil
}

// search is one job on its way to a plan.
type search struct {
	job       *Job
	buy       buyer
	refused   []doors.Refusal
	isRefused map[doors.Refusal]bool   // those refused word by word
	parts     [doors.MaxDoors + 1]*kit // of the gear, by the number of doors; nil until asked for
	price     map[[2]units.Length]int64
	stocks    []stock
	lookups   []lookup // for doors from stock
	made      madeRuns // the runs of doors made to measure
	ranking   ranking
	total     Total
	found     memo[doors.Found]
	counts    memo[doors.Total]
	near      memo[[]doors.Miss]
	// countable is how many runs between walls that lean are gone through only to be counted.
	countable int64
	// notProven says that a search ended before it could tell that nothing better was left.
	notProven bool
	// weighs says that the build of the doors tells what they weigh.
	weighs bool
	// limited says that a limit of the gear depends on a door's width and height together.
	limited bool
}

// stock is a height on sale with the widths sold in it that the gear takes, ascending.
type stock struct {
	height units.Length
	offers []doors.Offer
	bare   []doors.Offer // without their prices; nil until asked for
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

// prepare works out everything that does not depend on the run of doors, and
// which searches there are to make; one that is too large is refused here.
func (s *search) prepare(ctx context.Context, clears []opening.Clear) error {
	s.limited = s.job.Gear.MaxSlimness != nil || s.job.Gear.MaxDoorMass != nil && s.weighs
	s.stock()
	var heights []doors.Height
	for i, clear := range clears {
		v := &variant{index: i, clear: clear, sideWork: sideWorks(s.job, clear)}
		var err error
		if v.gear, v.sundries, v.findings, err = s.buy.run(ctx, s.job, clear, v.sideWork); err != nil {
			return err
		}
		if s.leans() {
			err = s.prepareLeaning(ctx, v)
		} else {
			if i == 0 { // the clear height is the same whatever becomes of the skirtings
				heights = s.heights(s.job.Doors, clear.Height, s.job.Gear.Allowance, s.refuse)
			}
			err = s.preparePlumb(ctx, v, heights)
		}
		if err := cmp.Or(err, ctx.Err()); err != nil {
			return err
		}
	}
	if s.leans() {
		s.commonFirst()
	}
	for i := range s.lookups {
		l := &s.lookups[i]
		checked := slices.ContainsFunc(s.lookups[:i], func(o lookup) bool { return sameRuns(&o.query, &l.query) })
		if !checked {
			if err := l.validate(); err != nil {
				return err
			}
		}
	}
	return nil
}

// stock sorts the sizes on sale by their heights, the tallest first.
func (s *search) stock() {
	s.price = make(map[[2]units.Length]int64, len(s.job.Doors.Sizes))
	for _, size := range s.job.Doors.Sizes {
		s.price[[2]units.Length{size.Width, size.Height}] = tenThousandths(size.Price)
	}
	sizes := slices.Clone(s.job.Doors.Sizes)
	slices.SortFunc(sizes, func(a, b doors.Size) int {
		return cmp.Or(cmp.Compare(b.Height, a.Height), cmp.Compare(a.Width, b.Width))
	})
	for i, size := range sizes {
		if i == 0 || size.Height != sizes[i-1].Height {
			s.stocks = append(s.stocks, stock{height: size.Height})
		}
		if w := s.job.Gear.DoorWidth; w != nil && !w.Contains(size.Width) {
			continue
		}
		last := &s.stocks[len(s.stocks)-1]
		last.offers = append(last.offers, doors.Offer{Width: size.Width, Price: tenThousandths(size.Price)})
	}
}

// sidesDiffer reports whether anything tells left from right.
func (s *search) sidesDiffer(v *variant) bool {
	return s.job.Interior != nil && len(s.job.Interior.PullOuts) > 0 ||
		len(s.job.Opening.Levels) > 0 || s.leans() ||
		v.clear.Left != v.clear.Right || v.clear.LeftOff != v.clear.RightOff
}
