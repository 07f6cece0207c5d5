package opening

import (
	"fmt"
	"slices"
	"strconv"

	"example.com/lapspan/units"
)

// The codes of slips: readings that cannot be right, with their likely truth.
const (
	CodeNoReadings    Code = "no-readings"
	CodeNotPositive   Code = "not-positive"
	CodeUnitSlip      Code = "unit-slip"
	CodeSwappedDigits Code = "swapped-digits"
	CodeHundred       Code = "hundred-misread"
	CodeTapeCase      Code = "tape-case"
	CodeOutlier       Code = "outlier"
)

// A reading is tested only when it is further from the median of the others
// than the larger of slipLeast and slipPerMille thousandths of that median.
const (
	slipLeast    = 30 * units.Millimetre
	slipPerMille = 15
)

// What a room can be at all (common practice).
var (
	plausibleWidth  = units.Span{Min: 300 * units.Millimetre, Max: 12 * units.Metre}
	plausibleHeight = units.Span{Min: 1 * units.Metre, Max: 6 * units.Metre}
)

// A tape read to its case leaves the case out or counts it twice (common practice).
var tapeCase = units.Span{Min: 50 * units.Millimetre, Max: 90 * units.Millimetre}

// A hundred misread: off by one, give or take what walls are apart in an honest room.
const (
	hundred       = 100 * units.Millimetre
	hundredWithin = 10 * units.Millimetre
)

// sample is one reading on its way through the slip test.
type sample struct {
	index   int
	read    units.Length // as read, whose digits may be swapped
	size    units.Length // what it says of the room: read plus what stood in the way
	checked bool
}

// series is what is read of one kind, with what such a thing can be.
type series struct {
	place, noun string
	reading     string // format of a sample's place, with its index
	plausible   units.Span
	samples     []sample
}

// slips names the readings that cannot be right. The worst is named and set
// aside before the rest are judged, so that one bad reading does not bring the
// good ones under suspicion.
func (s series) slips() Findings {
	var found Findings
	left := slices.Clone(s.samples)
	for len(left) > 1 {
		worst := s.worst(left)
		if worst < 0 {
			break
		}
		found = append(found, s.explain(left[worst], doubledMedian(left, worst), len(left) == 2))
		left = slices.Delete(left, worst, worst+1)
	}
	if len(left) == 0 {
		return found
	}
	if !slices.ContainsFunc(left, func(x sample) bool { return s.plausible.Contains(x.size) }) {
		found = append(found, s.absurd(left))
	}
	return found
}

// worst returns the index of the sample furthest outside its tolerance, -1 when
// all are inside. Of two that are equally far apart the one that no room can
// have is worse, then one that was not checked, then the later.
func (s series) worst(left []sample) int {
	type rank struct {
		far       units.Length
		absurd    bool
		unchecked bool
	}
	worst, of := -1, rank{}
	for i, x := range left {
		median := doubledMedian(left, i)
		far := (2*x.size - median).Abs()
		if far <= doubledTolerance(median) {
			continue
		}
		r := rank{far, !s.plausible.Contains(x.size), !x.checked}
		better := r.far > of.far
		if r.far == of.far {
			better = r.absurd || !of.absurd
			if r.absurd == of.absurd {
				better = r.unchecked || !of.unchecked
			}
		}
		if worst < 0 || better {
			worst, of = i, r
		}
	}
	return worst
}

// doubledMedian is twice the median of the samples but one: twice, so that the
// middle between two readings stays exact.
func doubledMedian(samples []sample, but int) units.Length {
	var room [MaxReadings]units.Length // no series is longer
	sizes := room[:0]
	for i, x := range samples {
		if i != but {
			sizes = append(sizes, x.size)
		}
	}
	slices.Sort(sizes)
	n := len(sizes)
	return sizes[(n-1)/2] + sizes[n/2]
}

func doubledTolerance(doubledMedian units.Length) units.Length {
	return max(2*slipLeast, doubledMedian*slipPerMille/1000)
}

// explain finds the likely truth behind a reading that is far from the others.
// Beside one other reading alone it cannot tell which of the two is wrong.
func (s series) explain(x sample, median units.Length, alone bool) Finding {
	tolerance := doubledTolerance(median)
	addition := x.size - x.read
	near := func(read units.Length) bool {
		return (2*(read+addition) - median).Abs() <= tolerance
	}
	code, truth := s.truth(x, median, near)
	if alone && code == CodeOutlier {
		truth = "one of the two is wrong"
	}
	f := Finding{
		Code: code, Severity: Stop, Place: fmt.Sprintf(s.reading, x.index),
		Message: fmt.Sprintf("%s does not fit the other %s, about %s: %s", x.read, s.noun, about(median/2-addition), truth),
		Remedy:  "read it again; if it stands, mark it as checked",
	}
	if x.checked {
		f.Severity, f.Remedy = Warn, "it is marked as checked and is used as it stands"
	}
	return f
}

// truth names the slip that would bring the reading near the others, in the
// order in which slips are looked for.
func (s series) truth(x sample, median units.Length, near func(units.Length) bool) (Code, string) {
	for _, slip := range unitSlips {
		if truth, err := x.read.MulDiv(slip.num, slip.den, units.HalfEven); err == nil && near(truth) {
			return CodeUnitSlip, fmt.Sprintf("%s would be %s", slip.words, about(truth))
		}
	}
	if truth, ok := swapDigits(x.read, near); ok {
		return CodeSwappedDigits, fmt.Sprintf("with two digits swapped it would be %s", truth)
	}
	short := median/2 - x.size
	switch {
	case (short.Abs() - hundred).Abs() <= hundredWithin:
		truth := x.read + hundred
		if short < 0 {
			truth = x.read - hundred
		}
		return CodeHundred, fmt.Sprintf("a hundred misread? It would be %s", truth)
	case tapeCase.Contains(short):
		return CodeTapeCase, fmt.Sprintf("it is short by %s, about the length of a tape case: was the case left out?", about(short))
	case tapeCase.Contains(-short):
		return CodeTapeCase, fmt.Sprintf("it is long by %s, about the length of a tape case: was the case added twice?", about(-short))
	}
	return CodeOutlier, "no likely slip explains it"
}

// unitSlips are the factors from what was written to what was meant.
var unitSlips = []struct {
	num, den int64
	words    string
}{
	{10, 1, "ten times it (centimetres written as millimetres)"},
	{1, 10, "a tenth of it (a digit too many)"},
	{254, 10, "25.4 times it (inches written as millimetres)"},
	{10, 254, "1/25.4 of it (millimetres written as inches)"},
}

// absurd is the finding for readings that agree with each other but not with any room.
func (s series) absurd(left []sample) Finding {
	median := doubledMedian(left, -1) / 2
	f := Finding{
		Code: CodeUnitSlip, Severity: Stop, Place: s.place,
		Message: fmt.Sprintf("%s of about %s are outside %s", s.noun, about(median), s.plausible),
		Remedy:  "check the unit the readings were written in; if they stand, mark them as checked",
	}
	if !slices.ContainsFunc(left, func(x sample) bool { return !x.checked }) {
		f.Severity, f.Remedy = Warn, "they are marked as checked and are used as they stand"
	}
	for _, slip := range unitSlips {
		if truth, err := median.MulDiv(slip.num, slip.den, units.HalfEven); err == nil && s.plausible.Contains(truth) {
			f.Message += fmt.Sprintf(": %s would be %s", slip.words, about(truth))
			break
		}
	}
	return f
}

// swapDigits looks for two digits of the whole millimetres of a reading that,
// swapped, make it near: neighbours first, then any two.
func swapDigits(read units.Length, near func(units.Length) bool) (units.Length, bool) {
	digits := strconv.AppendInt(nil, int64(read/units.Millimetre), 10)
	rest := read % units.Millimetre
	for apart := 1; apart < len(digits); apart++ {
		for i := 0; i+apart < len(digits); i++ {
			j := i + apart
			digits[i], digits[j] = digits[j], digits[i]
			whole, err := strconv.ParseInt(string(digits), 10, 64)
			digits[i], digits[j] = digits[j], digits[i]
			truth := units.Length(whole)*units.Millimetre + rest
			if err == nil && truth != read && near(truth) {
				return truth, true
			}
		}
	}
	return 0, false
}

// about rounds a length for a message to the tenth of a millimetre.
func about(l units.Length) units.Length {
	rounded, err := l.Round(units.Millimetre/10, units.HalfEven)
	if err != nil {
		return l
	}
	return rounded
}
