package lapspan_test

import (
	"fmt"
	"math/big"
	"slices"
	"strconv"
)

// oracleStop is a finding that must, or at least may, stop the job.
type oracleStop struct {
	places []string // the finding's place begins with one of these
	codes  []string // any of these; none: any code
	must   bool
}

func oracleStops(job *oracleJob) []oracleStop {
	var stops []oracleStop
	stop := func(place string, codes ...string) {
		stops = append(stops, oracleStop{[]string{place}, codes, true})
	}
	room := &job.Opening
	back := oraclePutBack(job)
	for _, list := range []struct {
		name      string
		readings  []oracleReading
		sizes     []oracleNM
		low, high oracleNM
	}{
		{"widths", room.Widths, back, 300 * oracleMM, 12_000 * oracleMM},
		{"heights", room.Heights, oracleSizes(room.Heights), 1000 * oracleMM, 6000 * oracleMM},
	} {
		place := "opening." + list.name
		if len(list.readings) == 0 {
			stop(place, "no-readings")
		}
		var sound []int
		for i, reading := range list.readings {
			if reading.Size <= 0 {
				stop(fmt.Sprintf("%s[%d].size", place, i), "not-positive")
				continue
			}
			sound = append(sound, i)
		}
		absurd, unchecked := len(sound) > 0, false
		for _, i := range sound {
			if list.low <= list.sizes[i] && list.sizes[i] <= list.high {
				absurd = false
			}
			unchecked = unchecked || !list.readings[i].Checked
		}
		slips := oracleSlips(list.readings, list.sizes, sound)
		if absurd && unchecked {
			if len(slips) == 0 {
				stop(place, "unit-slip")
			} else {
				stop(place) // absurd and not alike either: any of the two may be said
			}
			continue
		}
		for _, slip := range slips {
			found := oracleStop{codes: slip.codes, must: slip.must}
			for _, i := range slip.at {
				if list.readings[i].Checked {
					found.must = false
					continue
				}
				found.places = append(found.places, fmt.Sprintf("%s[%d].size", place, i))
			}
			stops = append(stops, found)
		}
	}
	for i, reading := range room.Depths {
		if reading.Size <= 0 {
			stop(fmt.Sprintf("opening.depths[%d].size", i), "not-positive")
		}
	}
	for i, level := range room.Levels {
		if level.Floor <= 0 {
			stop(fmt.Sprintf("opening.levels[%d].floor", i), "not-positive")
		}
		if level.Ceiling <= 0 {
			stop(fmt.Sprintf("opening.levels[%d].ceiling", i), "not-positive")
		}
	}
	if job.Gear.CarriedBy == "head" {
		stop("gear.carried_by")
	}
	return stops
}

// oracleSlip is a reading that is out, or several of which one is and nobody
// can tell which.
type oracleSlip struct {
	at    []int
	codes []string
	must  bool
}

// oracleSlips judges the sound readings, the one furthest from the others
// first, without it the rest. Read to the letter the rule also names a good
// reading that a slip has pulled the median away from: such may stop the job.
func oracleSlips(readings []oracleReading, sizes []oracleNM, sound []int) []oracleSlip {
	var slips []oracleSlip
	literal := map[int]bool{}
	for _, i := range sound {
		if off, _ := oracleOff(sizes, sound, i); off {
			literal[i] = true
		}
	}
	left := slices.Clone(sound)
	for {
		var worst []int
		far := new(big.Rat)
		for _, i := range left {
			off, by := oracleOff(sizes, left, i)
			if !off {
				continue
			}
			switch by.Cmp(far) {
			case 1:
				worst, far = []int{i}, by
			case 0:
				worst = append(worst, i)
			}
		}
		if len(worst) == 0 {
			break
		}
		slip := oracleSlip{at: worst, must: true}
		for k, i := range worst {
			codes := oracleSlipCodes(readings[i].Size, sizes[i]-readings[i].Size, oracleMedian(sizes, left, i))
			if k > 0 && (codes == nil || slip.codes == nil) {
				slip.codes = nil
			} else {
				slip.codes = append(slip.codes, codes...)
			}
			delete(literal, i)
		}
		slips = append(slips, slip)
		left = slices.DeleteFunc(left, func(i int) bool { return slices.Contains(worst, i) })
	}
	for i := range literal {
		slips = append(slips, oracleSlip{[]int{i}, nil, false})
	}
	return slips
}

// oracleMedian is the median of the readings of list other than number i.
func oracleMedian(sizes []oracleNM, list []int, i int) *big.Rat {
	var others []oracleNM
	for _, j := range list {
		if j != i {
			others = append(others, sizes[j])
		}
	}
	slices.Sort(others)
	middle := len(others) / 2
	if len(others)%2 == 1 {
		return new(big.Rat).SetInt64(int64(others[middle]))
	}
	return new(big.Rat).SetFrac64(int64(others[middle-1]+others[middle]), 2)
}

func oracleOff(sizes []oracleNM, list []int, i int) (bool, *big.Rat) {
	if len(list) < 2 {
		return false, nil
	}
	median := oracleMedian(sizes, list, i)
	size := new(big.Rat).SetInt64(int64(sizes[i]))
	by := size.Sub(size, median)
	by.Abs(by)
	return by.Cmp(oracleSlack(median)) > 0, by
}

// oracleSlack is the larger of 30 mm and 1.5 % of the median.
func oracleSlack(median *big.Rat) *big.Rat {
	share := new(big.Rat).Mul(median, big.NewRat(15, 1000))
	if least := new(big.Rat).SetInt64(int64(30 * oracleMM)); share.Cmp(least) < 0 {
		return least
	}
	return share
}

// oracleSlipCodes tries what the tape may have read in truth: what is put back
// for the skirting comes on top of that.
func oracleSlipCodes(size, back oracleNM, median *big.Rat) []string {
	slack := oracleSlack(median)
	onTop := new(big.Rat).SetInt64(int64(back))
	near := func(truth, slack *big.Rat) bool {
		by := new(big.Rat).Add(truth, onTop)
		by.Sub(by, median)
		return by.Abs(by).Cmp(slack) <= 0
	}
	read := new(big.Rat).SetInt64(int64(size))
	var codes []string
	for _, factor := range []*big.Rat{big.NewRat(10, 1), big.NewRat(1, 10), big.NewRat(254, 10), big.NewRat(10, 254)} {
		truth := new(big.Rat).Quo(read, factor)
		if near(truth, slack) {
			return []string{"unit-slip"}
		}
		// The limit may also be taken at the size of the reading.
		at := oracleSlack(new(big.Rat).Mul(median, factor))
		if near(truth, at.Quo(at, factor)) {
			codes = append(codes, "unit-slip")
		}
	}
	digits := []byte(strconv.FormatInt(int64(size/oracleMM), 10))
	for i := range digits {
		for j := i + 1; j < len(digits); j++ {
			swapped := slices.Clone(digits)
			swapped[i], swapped[j] = swapped[j], swapped[i]
			whole, _ := strconv.ParseInt(string(swapped), 10, 64)
			truth := new(big.Rat).SetInt64(whole*int64(oracleMM) + int64(size%oracleMM))
			if !near(truth, slack) || digits[i] == digits[j] {
				continue
			}
			if j == i+1 && len(codes) == 0 {
				return []string{"swapped-digits"}
			}
			codes = append(codes, "swapped-digits")
		}
	}
	// A hundred or a tape-case length misread has no code fixed by the rule.
	reach := new(big.Rat).Add(slack, new(big.Rat).SetInt64(int64(150*oracleMM)))
	if len(codes) > 0 || near(read, reach) {
		return nil
	}
	return []string{"outlier"}
}

func oracleSizes(readings []oracleReading) []oracleNM {
	var sizes []oracleNM
	for _, reading := range readings {
		sizes = append(sizes, reading.Size)
	}
	return sizes
}

// oraclePutBack is the widths between the walls: one read between the
// skirtings gets their thickness back.
func oraclePutBack(job *oracleJob) []oracleNM {
	sizes := oracleSizes(job.Opening.Widths)
	for i, reading := range job.Opening.Widths {
		if reading.Between != "skirtings" {
			continue
		}
		for _, side := range []*oracleSkirting{job.Opening.Skirting.Left, job.Opening.Skirting.Right} {
			if side != nil {
				sizes[i] += side.Thickness
			}
		}
	}
	return sizes
}

// oracleVariant is one way of treating the skirting.
type oracleVariant struct {
	left, right           string
	leftTaken, rightTaken oracleNM
	width                 oracleSpan
}

func oracleVariants(job *oracleJob) []oracleVariant {
	room := &job.Opening
	treatments := func(side *oracleSkirting) []string {
		switch {
		case side == nil:
			return []string{"none", "none"}
		case side.Treatment == "":
			return []string{"cut back", "end panel"}
		}
		return []string{side.Treatment, side.Treatment}
	}
	taken := func(side *oracleSkirting, treatment string) oracleNM {
		if treatment != "end panel" {
			return 0
		}
		return max(side.Thickness, room.EndPanel)
	}
	left, right := treatments(room.Skirting.Left), treatments(room.Skirting.Right)
	var variants []oracleVariant
	for i := range 2 {
		if i == 1 && left[0] == left[1] && right[0] == right[1] {
			break // nothing open
		}
		v := oracleVariant{left: left[i], right: right[i]}
		v.leftTaken, v.rightTaken = taken(room.Skirting.Left, v.left), taken(room.Skirting.Right, v.right)
		sizes := oraclePutBack(job)
		for j := range sizes {
			sizes[j] -= v.leftTaken + v.rightTaken
		}
		v.width = oracleSpan{slices.Min(sizes), slices.Max(sizes)}
		if v.left == "end panel" && v.right == "end panel" {
			v.width.Max = v.width.Min
		}
		variants = append(variants, v)
	}
	return variants
}

func oracleClearHeight(job *oracleJob) oracleNM {
	room := &job.Opening
	height := slices.Min(oracleSizes(room.Heights))
	if len(room.Levels) > 0 {
		floor, ceiling := room.Levels[0].Floor, room.Levels[0].Ceiling
		for _, level := range room.Levels {
			floor, ceiling = min(floor, level.Floor), min(ceiling, level.Ceiling)
		}
		height = floor + ceiling
	}
	return height - room.CarpetToCome
}
