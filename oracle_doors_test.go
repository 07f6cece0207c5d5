package lapspan_test

import (
	"math/big"
	"slices"
)

// oracleRun is a run of doors, left to right.
type oracleRun struct {
	widths   []oracleNM
	tracks   []int
	overlaps []oracleNM
	cover    oracleNM
	access   oracleNM
	uneven   *big.Rat
	under    oracleNM
	over     oracleNM
}

func (r *oracleRun) width() oracleNM {
	var sum oracleNM
	for _, w := range r.widths {
		sum += w
	}
	return sum
}

// oracleLaps counts the junctions whose doors overlap.
func oracleLaps(tracks []int) int64 {
	laps := int64(0)
	for i := 1; i < len(tracks); i++ {
		if tracks[i] != tracks[i-1] {
			laps++
		}
	}
	return laps
}

// oracleArrangements is every assignment of n doors to tracks that the job
// allows, tried one by one.
func oracleArrangements(job *oracleJob, n int, v oracleVariant) [][]int {
	var all [][]int
	tracks := make([]int, n)
	for {
		if oracleAllowed(job, tracks) {
			reverse := slices.Clone(tracks)
			slices.Reverse(reverse)
			if !oracleSidesAlike(job, v) || slices.Compare(tracks, reverse) <= 0 || !oracleAllowed(job, reverse) {
				all = append(all, slices.Clone(tracks))
			}
		}
		i := n - 1
		for i >= 0 && tracks[i] == job.Gear.Tracks-1 {
			tracks[i] = 0
			i--
		}
		if i < 0 {
			return all
		}
		tracks[i]++
	}
}

func oracleAllowed(job *oracleJob, tracks []int) bool {
	if oracleLaps(tracks) == 0 {
		return false
	}
	last := job.Gear.Tracks - 1
	for i, track := range tracks {
		switch job.Doors.Arrangement {
		case "any":
			if i > 0 && max(track-tracks[i-1], tracks[i-1]-track) > 1 {
				return false
			}
		case "stepped":
			step := i % (2 * last)
			if step > last {
				step = 2*last - step
			}
			if track != step {
				return false
			}
		default:
			if track != i%2 {
				return false
			}
		}
	}
	return true
}

// oracleSidesAlike says whether nothing tells the left of the room from its
// right, so that a mirror image is the same run.
func oracleSidesAlike(job *oracleJob, v oracleVariant) bool {
	return v.left == v.right && v.leftTaken == v.rightTaken && len(job.Opening.Levels) == 0 &&
		(job.Interior == nil || len(job.Interior.PullOuts) == 0)
}

// oracleRuns is every run that closes the variant's opening with doors of one
// height on sale.
func oracleRuns(job *oracleJob, v oracleVariant, height oracleNM) []oracleRun {
	var widths []oracleNM
	for _, size := range job.Doors.Sizes {
		if size.Height == height {
			widths = append(widths, size.Width)
		}
	}
	slices.Sort(widths)
	var runs []oracleRun
	for n := 2; n <= oracleOr(job.Doors.MaxDoors, 6); n++ {
		for _, set := range oracleSets(widths, n, job.Doors.MixedWidths) {
			for _, tracks := range oracleArrangements(job, n, v) {
				if run, ok := oracleBest(job, v, set, tracks); ok {
					runs = append(runs, run)
				}
			}
		}
	}
	return runs
}

// oracleSets is every set of n widths, ascending.
func oracleSets(widths []oracleNM, n int, mixed bool) [][]oracleNM {
	var sets [][]oracleNM
	if !mixed {
		for _, w := range widths {
			sets = append(sets, slices.Repeat([]oracleNM{w}, n))
		}
		return sets
	}
	if n == 0 {
		return [][]oracleNM{nil}
	}
	for i, w := range widths {
		for _, rest := range oracleSets(widths[i:], n-1, true) {
			sets = append(sets, append([]oracleNM{w}, rest...))
		}
	}
	return sets
}

// oracleBest is the order of the set with the widest access, of equals the
// one with the larger door leftmost.
func oracleBest(job *oracleJob, v oracleVariant, set []oracleNM, tracks []int) (best oracleRun, found bool) {
	laps := oracleLaps(tracks)
	spare := oracleSpare(job, set, tracks)
	overlap := job.Gear.Overlap
	if spare-v.width.Max < oracleNM(laps)*overlap.Min || spare-v.width.Min > oracleNM(laps)*overlap.Max {
		return best, false
	}
	order := slices.Clone(set)
	slices.Sort(order)
	for {
		if oracleCloses(job, order, tracks, v.width.Min) && oracleCloses(job, order, tracks, v.width.Max) {
			access := oracleAccess(order, tracks, v.width.Min)
			if !found || access > best.access || access == best.access && slices.Compare(order, best.widths) > 0 {
				best, found = oracleRun{widths: slices.Clone(order), tracks: tracks, access: access}, true
			}
		}
		if !oracleNextOrder(order) {
			break
		}
	}
	if !found {
		return best, false
	}
	best.uneven = oracleUneven(best.widths, tracks, big.NewRat(int64(spare-v.width.Max), laps))
	best.cover = spare - oracleNM(laps)*overlap.Min
	best.over = best.cover - v.width.Max
	best.under = v.width.Min - (spare - oracleNM(laps)*overlap.Max)
	// The sum to share out, a nanometre more for the first ones.
	share := int64(spare - v.width.Max)
	part, more := share/laps, share%laps
	for i := 1; i < len(tracks); i++ {
		var here oracleNM
		if tracks[i] != tracks[i-1] {
			here = oracleNM(part)
			if more > 0 {
				here++
				more--
			}
		}
		best.overlaps = append(best.overlaps, here)
	}
	return best, true
}

// oracleUneven is by how much the widths seen of the doors differ: a neighbour on a
// track nearer to the room hides an overlap of a door.
func oracleUneven(widths []oracleNM, tracks []int, lap *big.Rat) *big.Rat {
	var least, most *big.Rat
	for i, w := range widths {
		seen := new(big.Rat).SetInt64(int64(w))
		if i > 0 && tracks[i-1] < tracks[i] {
			seen.Sub(seen, lap)
		}
		if i+1 < len(tracks) && tracks[i+1] < tracks[i] {
			seen.Sub(seen, lap)
		}
		if least == nil || seen.Cmp(least) < 0 {
			least = seen
		}
		if most == nil || seen.Cmp(most) > 0 {
			most = seen
		}
	}
	return new(big.Rat).Sub(most, least)
}

// oracleSpare is the widths of the doors and the gaps where they meet.
func oracleSpare(job *oracleJob, widths []oracleNM, tracks []int) oracleNM {
	sum := oracleNM(int64(len(tracks))-1-oracleLaps(tracks)) * job.Gear.MeetingGap
	for _, w := range widths {
		sum += w
	}
	return sum
}

// oracleNextOrder steps to the next order of the list, first to last.
func oracleNextOrder(list []oracleNM) bool {
	i := len(list) - 2
	for i >= 0 && list[i] >= list[i+1] {
		i--
	}
	if i < 0 {
		return false
	}
	j := len(list) - 1
	for list[j] <= list[i] {
		j--
	}
	list[i], list[j] = list[j], list[i]
	slices.Reverse(list[i+1:])
	return true
}

// oracleCloses puts the closed doors where they stand in an opening and looks
// whether any two on one track are in each other's way or one is in the wall.
func oracleCloses(job *oracleJob, widths []oracleNM, tracks []int, opening oracleNM) bool {
	laps := oracleNM(oracleLaps(tracks))
	lap := oracleSpare(job, widths, tracks) - opening // of all junctions; one is 1/laps of it
	if lap < laps*job.Gear.Overlap.Min || lap > laps*job.Gear.Overlap.Max {
		return false
	}
	// Places are counted in 1/laps of a nanometre: exact.
	from, to := make([]oracleNM, len(widths)), make([]oracleNM, len(widths))
	for i, w := range widths {
		if i > 0 {
			from[i] = to[i-1] + laps*job.Gear.MeetingGap
			if tracks[i] != tracks[i-1] {
				from[i] = to[i-1] - lap
			}
		}
		to[i] = from[i] + laps*w
		if from[i] < 0 || to[i] > laps*opening {
			return false
		}
		for j := range i {
			if tracks[j] == tracks[i] && to[j] > from[i] {
				return false
			}
		}
	}
	return true
}

// oracleAccess tries every parking: on each track some doors at the left and
// the rest at the right.
func oracleAccess(widths []oracleNM, tracks []int, opening oracleNM) oracleNM {
	lanes := map[int][]oracleNM{}
	for i, track := range tracks {
		lanes[track] = append(lanes[track], widths[i])
	}
	var names []int
	for track := range lanes {
		names = append(names, track)
	}
	best, found := oracleNM(0), false
	var park func(k int, left, right oracleNM)
	park = func(k int, left, right oracleNM) {
		if k == len(names) {
			if gap := opening - left - right; !found || gap > best {
				best, found = gap, true
			}
			return
		}
		lane := lanes[names[k]]
		for split := range len(lane) + 1 {
			var l, r oracleNM
			for i, w := range lane {
				if i < split {
					l += w
				} else {
					r += w
				}
			}
			park(k+1, max(left, l), max(right, r))
		}
	}
	park(0, 0, 0)
	return best
}

// oracleMadeRuns is every run of doors made to measure.
func oracleMadeRuns(job *oracleJob, v oracleVariant) []oracleRun {
	maker := job.Doors.MadeToMeasure
	if maker == nil {
		return nil
	}
	step := oracleOr(maker.Step, oracleMM)
	aim := big.NewRat(int64(job.Gear.Overlap.Min+job.Gear.Overlap.Max), 2)
	if job.Gear.Overlap.Aim != nil {
		aim.SetInt64(int64(*job.Gear.Overlap.Aim))
	}
	var runs []oracleRun
	for n := 2; n <= oracleOr(job.Doors.MaxDoors, 6); n++ {
		for _, tracks := range oracleArrangements(job, n, v) {
			laps := oracleLaps(tracks)
			exact := new(big.Rat).Mul(aim, big.NewRat(laps, 1))
			exact.Add(exact, big.NewRat(int64(v.width.Max), 1))
			exact.Sub(exact, big.NewRat((int64(n)-1-laps)*int64(job.Gear.MeetingGap), 1))
			exact.Quo(exact, big.NewRat(int64(n), 1))
			width := oracleSteps(exact, step, true)
			if width < maker.Width.Min || width > maker.Width.Max {
				continue
			}
			if run, ok := oracleBest(job, v, slices.Repeat([]oracleNM{width}, n), tracks); ok {
				runs = append(runs, run)
			}
		}
	}
	return runs
}

// oracleSteps rounds to whole steps, up or down.
func oracleSteps(exact *big.Rat, step oracleNM, up bool) oracleNM {
	steps := new(big.Rat).Quo(exact, big.NewRat(int64(step), 1))
	whole := new(big.Int).Div(steps.Num(), steps.Denom()) // Euclidean: down, the denominator is positive
	if up && !steps.IsInt() {
		whole.Add(whole, big.NewInt(1))
	}
	return oracleNM(whole.Int64()) * step
}
