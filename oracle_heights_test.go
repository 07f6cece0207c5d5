package lapspan_test

import (
	"math/big"
	"slices"
)

// oracleHeight is one way of taking up the clear height.
type oracleHeight struct {
	method                           int // 0 as is, then in the order of the rules
	stock, door, allowance, gap, cut oracleNM
	packer                           []oracleNM
	plates                           []oracleNM // nil where they need a joint
	studs                            []oracleStud
	split                            map[int]oraclePanelCut // by panel number, cuts above 0
	builds                           bool
	under, over                      *oracleNM
}

type oracleStud struct{ at, length oracleNM }

type oraclePanelCut struct{ cut, height oracleNM }

var oracleMethods = []string{"as is", "packer", "bulkhead", "cut down", "made to measure"}

const oracleShortestStud = 50 * oracleMM

// oracleHeights is every method that takes a stock door of height s.
func oracleHeights(job *oracleJob, v oracleVariant, tall, s oracleNM) []oracleHeight {
	var found []oracleHeight
	allowance := job.Gear.Allowance
	left := tall - s
	add := func(h oracleHeight, under, over *oracleNM) {
		h.stock, h.under, h.over = s, under, over
		found = append(found, h)
	}
	within := func(given oracleNM) (*oracleNM, *oracleNM) {
		under, over := given-allowance.Min, allowance.Max-given
		return &under, &over
	}
	if allowance.Min <= left && left <= allowance.Max {
		under, over := within(left)
		add(oracleHeight{method: 0, door: s, allowance: left}, under, over)
	}
	if left > allowance.Max {
		if stack := oracleStack(job, left); stack != nil {
			rest := left
			for _, piece := range stack {
				rest -= piece
			}
			under, over := within(rest)
			add(oracleHeight{method: 1, door: s, allowance: rest, packer: stack}, under, over)
		}
		if job.Timber != nil {
			aim := oracleOr(allowance.Aim, allowance.Min)
			gap := left - aim
			if least := 2*job.Timber.Thickness + oracleShortestStud; gap >= least {
				h := oracleHeight{method: 2, door: s, allowance: aim, gap: gap}
				oracleBulkhead(job, v, &h)
				under := gap - least
				add(h, &under, nil)
			}
		}
	}
	if left < allowance.Min {
		aim := oracleOr(allowance.Aim, allowance.Min)
		step := oracleOr(job.Trim.Step, oracleMM)
		h := oracleHeight{method: 3, cut: oracleSteps(big.NewRat(int64(s-tall+aim), 1), step, true)}
		h.door = s - h.cut
		h.allowance = tall - h.door
		deepest, limited := oracleDeepest(job, s, step)
		if allowance.Min <= h.allowance && h.allowance <= allowance.Max && h.door > 0 && (!limited || h.cut <= deepest) {
			if job.Doors.Build != nil {
				h.builds = true
				h.split = oracleSplit(job, s, h.cut/step, step)
			}
			over := allowance.Min - left
			under := deepest - h.cut
			if limited {
				add(h, &under, &over)
			} else {
				add(h, nil, &over)
			}
		}
	}
	return found
}

// oracleMadeHeight is the height of a door made to measure.
func oracleMadeHeight(job *oracleJob, tall oracleNM) (h oracleHeight, ok bool) {
	maker, allowance := job.Doors.MadeToMeasure, job.Gear.Allowance
	aim := big.NewRat(int64(allowance.Min+allowance.Max), 2)
	if allowance.Aim != nil {
		aim.SetInt64(int64(*allowance.Aim))
	}
	exact := new(big.Rat).Sub(big.NewRat(int64(tall), 1), aim)
	door := oracleSteps(exact, oracleOr(maker.Step, oracleMM), false)
	given := tall - door
	if door < maker.Height.Min || door > maker.Height.Max || given < allowance.Min || given > allowance.Max {
		return h, false
	}
	under, over := given-allowance.Min, allowance.Max-given
	return oracleHeight{method: 4, stock: door, door: door, allowance: given, under: &under, over: &over}, true
}

// oracleStack tries every stack of one, two and three pieces.
func oracleStack(job *oracleJob, left oracleNM) []oracleNM {
	var pieces []oracleNM
	for _, board := range job.Boards {
		pieces = append(pieces, board.Thickness)
	}
	if job.Timber != nil {
		pieces = append(pieces, job.Timber.Thickness, job.Timber.Width)
	}
	var stacks [][]oracleNM
	for _, a := range pieces {
		stacks = append(stacks, []oracleNM{a})
		for _, b := range pieces {
			stacks = append(stacks, []oracleNM{a, b})
			for _, c := range pieces {
				stacks = append(stacks, []oracleNM{a, b, c})
			}
		}
	}
	allowance := job.Gear.Allowance
	aim2 := allowance.Min + allowance.Max // twice the aim
	if allowance.Aim != nil {
		aim2 = 2 * *allowance.Aim
	}
	var best []oracleNM
	var bestRest oracleNM
	for _, stack := range stacks {
		slices.Sort(stack)
		rest := left
		for _, piece := range stack {
			rest -= piece
		}
		if rest < allowance.Min || rest > allowance.Max {
			continue
		}
		far, bestFar := max(2*rest-aim2, aim2-2*rest), max(2*bestRest-aim2, aim2-2*bestRest)
		better := best == nil
		switch {
		case better:
		case len(stack) != len(best):
			better = len(stack) < len(best)
		case far != bestFar:
			better = far < bestFar
		case rest != bestRest:
			better = rest > bestRest
		default:
			better = slices.Compare(stack, best) < 0
		}
		if better {
			best, bestRest = stack, rest
		}
	}
	return best
}

func oracleBulkhead(job *oracleJob, v oracleVariant, h *oracleHeight) {
	wide, thick := v.width.Min, job.Timber.Thickness
	for _, stock := range job.Timber.Lengths {
		if stock.Length >= wide {
			h.plates = []oracleNM{wide, wide}
		}
	}
	spacing := oracleOr(job.Timber.StudSpacing, 1000*oracleMM)
	gaps := int64(1)
	for oracleNM(gaps)*spacing < wide-thick {
		gaps++
	}
	levels := slices.Clone(job.Opening.Levels)
	slices.SortFunc(levels, func(a, b oracleLevel) int { return int(a.At - b.At) })
	for i := range gaps + 1 {
		// From the left end of the plate, exact in 1/gaps of a nanometre.
		at := new(big.Rat).SetFrac64(int64(wide-thick)*i, gaps)
		at.Add(at, new(big.Rat).SetFrac64(int64(2*v.leftTaken+thick), 2))
		length := new(big.Rat).SetInt64(int64(h.gap - 2*thick))
		if len(levels) > 0 {
			length.Add(length, oracleCeiling(levels, at))
			least := levels[0].Ceiling
			for _, level := range levels {
				least = min(least, level.Ceiling)
			}
			length.Sub(length, new(big.Rat).SetInt64(int64(least)))
		}
		h.studs = append(h.studs, oracleStud{oracleSteps(at, 1, false), oracleSteps(length, 1, false)})
	}
}

// oracleCeiling is the ceiling above the level line at a place: straight from
// station to station, level outside them.
func oracleCeiling(levels []oracleLevel, at *big.Rat) *big.Rat {
	place := func(i int) *big.Rat { return new(big.Rat).SetInt64(int64(levels[i].At)) }
	up := func(i int) *big.Rat { return new(big.Rat).SetInt64(int64(levels[i].Ceiling)) }
	last := len(levels) - 1
	switch {
	case at.Cmp(place(0)) <= 0:
		return up(0)
	case at.Cmp(place(last)) >= 0:
		return up(last)
	}
	for i := range last {
		if at.Cmp(place(i+1)) > 0 {
			continue
		}
		part := new(big.Rat).Sub(at, place(i))
		part.Quo(part, new(big.Rat).Sub(place(i+1), place(i)))
		rise := new(big.Rat).Sub(up(i+1), up(i))
		return rise.Mul(rise, part).Add(rise, up(i))
	}
	return up(last)
}

// oraclePanels is the exact panel heights of a door, from the bottom up.
func oraclePanels(build *oracleBuild, s oracleNM) []*big.Rat {
	rest, shares := s-build.TopBar-build.BottomBar-oracleNM(len(build.Panels)-1)*build.Bar, int64(0)
	for _, panel := range build.Panels {
		shares += panel.Share
	}
	var heights []*big.Rat
	for _, panel := range build.Panels {
		height := new(big.Rat).SetInt64(int64(rest))
		heights = append(heights, height.Mul(height, big.NewRat(panel.Share, shares)))
	}
	return heights
}

// oracleParts is how many saw steps each panel gives up for a cut of so many
// steps.
func oracleParts(job *oracleJob, s, steps oracleNM) []oracleNM {
	build := job.Doors.Build
	parts := make([]oracleNM, len(build.Panels))
	var may []int
	tallest, shares := -1, int64(0)
	for i, panel := range build.Panels {
		if !panel.CutOnSite {
			continue
		}
		may = append(may, i)
		shares += panel.Share
		if tallest < 0 || panel.Share >= build.Panels[tallest].Share {
			tallest = i
		}
	}
	if len(may) == 0 {
		return nil
	}
	switch job.Trim.CutSplit {
	case "panel":
		parts[tallest] = steps
	case "even":
		for _, at := range may {
			parts[at] = steps / oracleNM(len(may))
		}
		// Steps left over: in mirrored pairs from the outside in, an odd one
		// to the lowest panel without.
		rest := int(steps) % len(may)
		for i := range rest / 2 {
			parts[may[i]]++
			parts[may[len(may)-1-i]]++
		}
		if rest%2 == 1 {
			parts[may[rest/2]]++
		}
	case "shares":
		given := oracleNM(0)
		rest := map[int]int64{}
		for _, at := range may {
			product := int64(steps) * build.Panels[at].Share
			parts[at] = oracleNM(product / shares)
			rest[at] = product % shares
			given += parts[at]
		}
		for ; given < steps; given++ {
			most := may[0]
			for _, at := range may {
				if rest[at] > rest[most] {
					most = at
				}
			}
			parts[most]++
			rest[most] = -1
		}
	default:
		low, high := may[0], may[len(may)-1]
		parts[low] += steps - steps/2
		parts[high] += steps / 2
	}
	return parts
}

// oracleFits says whether every panel keeps the least height.
func oracleFits(job *oracleJob, s, steps, step oracleNM) bool {
	parts := oracleParts(job, s, steps)
	if parts == nil {
		return steps == 0
	}
	for i, height := range oraclePanels(job.Doors.Build, s) {
		after := new(big.Rat).Sub(height, new(big.Rat).SetInt64(int64(parts[i]*step)))
		if parts[i] > 0 && after.Cmp(new(big.Rat).SetInt64(int64(job.Doors.Build.LeastPanel))) < 0 {
			return false
		}
	}
	return true
}

// oracleDeepest counts the cut up, step by step, until a panel is too low.
func oracleDeepest(job *oracleJob, s, step oracleNM) (deepest oracleNM, limited bool) {
	if job.Doors.Build != nil {
		limited = true
		for oracleFits(job, s, deepest/step+1, step) {
			deepest += step
		}
	}
	if given := job.Trim.DeepestCut; given != nil && (!limited || *given < deepest) {
		deepest, limited = *given, true
	}
	return deepest, limited
}

func oracleSplit(job *oracleJob, s, steps, step oracleNM) map[int]oraclePanelCut {
	cuts := map[int]oraclePanelCut{}
	heights := oraclePanels(job.Doors.Build, s)
	for i, part := range oracleParts(job, s, steps) {
		if part > 0 {
			after := new(big.Rat).Sub(heights[i], new(big.Rat).SetInt64(int64(part*step)))
			cuts[i+1] = oraclePanelCut{part * step, oracleSteps(after, 1, false)}
		}
	}
	return cuts
}
