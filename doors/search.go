package doors

import (
	"cmp"
	"context"
	"iter"
	"math/big"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// MaxCandidates bounds a search: width sets times arrangements.
const MaxCandidates = 5_000_000

// Query asks which runs of doors close an opening.
type Query struct {
	Range   Range      // the doors on sale
	Gear    Gear       // what they run on
	Opening units.Span // clear width, narrowest to widest
	// Wide is the clear width for three doors or more, where it is another; the
	// zero Span: the same.
	Wide units.Span
	// SidesDiffer says that something tells left from right: then a run and its
	// mirror image are two candidates, else one.
	SidesDiffer bool
}

// opening is the clear width that so many doors must close.
func (q *Query) opening(doors int) units.Span {
	if doors == 2 || q.Wide == (units.Span{}) {
		return q.Opening
	}
	return q.Wide
}

// Candidate is a set of widths on the tracks of one arrangement, not yet in order.
type Candidate struct {
	// MadeToMeasure says that the doors are made to measure, not from stock.
	MadeToMeasure bool
	// Heights has bit i set when every width of the set is sold in height i of
	// Range.Heights; 0 for doors made to measure.
	Heights uint64
	// Under and Over are the margins of the width: narrowest − (Σw + meeting gaps −
	// L × greatest overlap), and cover − widest. The set closes the opening
	// when neither is negative.
	Under, Over units.Length

	widths  [MaxDoors]units.Length // ascending
	pattern *pattern
	query   *Query
}

// Closes reports whether the overlap lies in the gear's span at the widest and at the narrowest reading.
func (c *Candidate) Closes() bool { return c.Under >= 0 && c.Over >= 0 }

// Len is the number of doors; 0 for the zero Candidate.
func (c *Candidate) Len() int {
	if c.pattern == nil {
		return 0
	}
	return c.pattern.doors
}

// Widths returns the widths in ascending order.
func (c *Candidate) Widths() []units.Length { return slices.Clone(c.widths[:c.Len()]) }

// WidthAt is the width of door i of the ascending set, 0 first; 0 for an i outside it.
func (c *Candidate) WidthAt(i int) units.Length {
	if i < 0 || i >= c.Len() {
		return 0
	}
	return c.widths[i]
}

// Width is the sum of the widths.
func (c *Candidate) Width() units.Length {
	var sum units.Length
	for _, w := range c.widths[:c.Len()] {
		sum += w
	}
	return sum
}

// Overlaps is L, the number of junctions that overlap.
func (c *Candidate) Overlaps() int {
	if c.pattern == nil {
		return 0
	}
	return c.pattern.overlaps
}

// Run returns the set in the order offered: the widest access at the narrowest
// reading, ties by the larger door leftmost, among the orders that can stand
// closed. It is false when none can.
func (c *Candidate) Run() (Run, bool) {
	if c.pattern == nil {
		return Run{}, false
	}
	return c.pattern.bestOrder(c.widths[:c.Len()], c.query.Gear, c.query.opening(c.Len()).Min)
}

// Stands reports whether some order of the set can stand closed. Doors at
// least two overlaps wide always can: the doors between two of one track cover
// the overlaps on both their sides.
func (c *Candidate) Stands() bool {
	if c.pattern == nil {
		return false
	}
	if c.query.Gear.Showing > 0 {
		_, ok := c.pattern.showingOrder(c.widths[:c.Len()], c.query.Gear, c.query.opening(c.Len()).Min, true)
		return ok
	}
	o := c.pattern.ordering(c.widths[:c.Len()], c.query.Gear, c.query.opening(c.Len()).Min)
	return o.free() || o.any(0)
}

// AccessBound is an access that no order of the set exceeds.
func (c *Candidate) AccessBound() units.Length {
	if c.pattern == nil {
		return 0
	}
	return c.query.opening(c.Len()).Min - c.pattern.leastLongest(c.widths[:c.Len()])
}

// Candidates yields every set of widths on every arrangement of 2 to
// Range.MaxDoors doors, whether it closes the opening or not, by plain
// enumeration: first from stock, fewer doors first, then made to measure. The
// order is fixed. The candidate is valid until the next one is yielded.
//
// The arguments are checked before anything is enumerated: an
// *opening.InputError refuses a query that cannot be used, or one of more than
// MaxCandidates width sets times arrangements.
func Candidates(ctx context.Context, q Query) (iter.Seq2[*Candidate, error], error) {
	if err := q.Range.Validate(); err != nil {
		return nil, err
	}
	if err := q.Gear.Validate(); err != nil {
		return nil, err
	}
	if err := cmp.Or(
		opening.CheckSize("opening.widths", q.Opening.Min),
		opening.CheckSize("opening.widths", q.Opening.Max),
		checkSpan("opening.widths", q.Opening),
		opening.CheckSize("opening.widths", q.opening(MaxDoors).Min),
		opening.CheckSize("opening.widths", q.opening(MaxDoors).Max),
		checkSpan("opening.widths", q.opening(MaxDoors)),
	); err != nil {
		return nil, err
	}
	widths, sold := q.Range.widths(q.Gear)
	arrangements := q.arrangements()
	if sets, total := q.Range.size(len(widths), arrangements); total.Cmp(big.NewInt(MaxCandidates)) > 0 {
		most := 0
		for _, a := range arrangements {
			most = max(most, len(a))
		}
		return nil, opening.Refuse("doors", "%d width sets in up to %d arrangements make %d candidates; at most %d can be enumerated: offer fewer sizes or fewer doors", sets, most, total, MaxCandidates)
	}
	return func(yield func(*Candidate, error) bool) {
		e := enumeration{ctx: ctx, query: &q, widths: widths, sold: sold, yield: yield}
		for n := MinDoors; n < len(arrangements); n++ {
			e.patterns = arrangements[n]
			if len(e.patterns) > 0 && !e.sets(0, 0, ^uint64(0)) {
				return
			}
		}
		if q.Range.MadeToMeasure == nil {
			return
		}
		for n := MinDoors; n < len(arrangements); n++ {
			e.patterns = arrangements[n]
			if !e.made() {
				return
			}
		}
	}, nil
}

// widths returns the different widths on sale that the gear takes, ascending,
// each with the heights it is sold in.
func (r Range) widths(g Gear) (widths []units.Length, sold []uint64) {
	heights := r.Heights()
	for _, s := range r.Sizes {
		if g.DoorWidth == nil || g.DoorWidth.Contains(s.Width) {
			widths = append(widths, s.Width)
		}
	}
	slices.Sort(widths)
	widths = slices.Compact(widths)
	sold = make([]uint64, len(widths))
	for _, s := range r.Sizes {
		if i, taken := slices.BinarySearch(widths, s.Width); taken {
			sold[i] |= 1 << slices.Index(heights, s.Height)
		}
	}
	return widths, sold
}

// arrangements returns the patterns of every number of doors that the gear takes.
func (q *Query) arrangements() [][]pattern {
	arrangements := make([][]pattern, q.Range.maxDoors()+1)
	for n := MinDoors; n < len(arrangements); n++ {
		if len(q.Gear.Limits(Hung{Doors: n})) == 0 {
			arrangements[n] = q.Range.Arrangement.patterns(n, q.Gear.Tracks, q.SidesDiffer)
		}
	}
	return arrangements
}

// size counts before anything is enumerated: C(m+n−1, n) sets of n doors from m
// widths, m when all are alike, times the arrangements of n doors.
func (r Range) size(widths int, arrangements [][]pattern) (sets, total *big.Int) {
	sets, total = new(big.Int), new(big.Int)
	for n := MinDoors; n < len(arrangements); n++ {
		if len(arrangements[n]) == 0 {
			continue
		}
		of := big.NewInt(int64(widths))
		if r.MixedWidths && widths > 0 {
			of.Binomial(int64(widths+n-1), int64(n))
		}
		sets.Add(sets, of)
		total.Add(total, of.Mul(of, big.NewInt(int64(len(arrangements[n])))))
	}
	return sets, total
}

// Small reports whether the candidates are no more than so many, without
// enumerating them. The query is one that Candidates takes.
func (q Query) Small(most int64) bool {
	widths, _ := q.Range.widths(q.Gear)
	_, total := q.Range.size(len(widths), q.arrangements())
	return total.Cmp(big.NewInt(most)) <= 0
}

// enumeration walks through the candidates of one query.
type enumeration struct {
	ctx      context.Context
	query    *Query
	widths   []units.Length
	sold     []uint64
	patterns []pattern // of the number of doors at hand
	yield    func(*Candidate, error) bool
	current  Candidate
	yielded  int
}

// sets fills door i and the rest from widths[from:]; at most MaxDoors deep.
func (e *enumeration) sets(i, from int, heights uint64) bool {
	if i == e.patterns[0].doors {
		e.current.Heights = heights
		return e.emit()
	}
	for k := from; k < len(e.widths); k++ {
		shared := heights & e.sold[k]
		if shared == 0 {
			continue
		}
		if e.query.Range.MixedWidths {
			e.current.widths[i] = e.widths[k]
			if !e.sets(i+1, k, shared) {
				return false
			}
			continue
		}
		e.alike(e.widths[k])
		e.current.Heights = shared
		if !e.emit() {
			return false
		}
	}
	return true
}

func (e *enumeration) alike(width units.Length) {
	for i := range e.patterns[0].doors {
		e.current.widths[i] = width
	}
}

// emit yields the widths at hand on each arrangement.
func (e *enumeration) emit() bool {
	for i := range e.patterns {
		if !e.emitOn(&e.patterns[i]) {
			return false
		}
	}
	return true
}

// pollEvery is how many candidates pass between two looks at the context.
const pollEvery = 1 << 12

func (e *enumeration) emitOn(p *pattern) bool {
	if e.yielded%pollEvery == 0 {
		if err := e.ctx.Err(); err != nil {
			e.yield(nil, err)
			return false
		}
	}
	e.yielded++
	c, q := &e.current, e.query
	c.pattern, c.query = p, q
	overlaps := units.Length(p.overlaps)
	spread := c.Width() + units.Length(p.doors-1-p.overlaps)*q.Gear.meetingGap()
	c.Under = q.opening(p.doors).Min - (spread - overlaps*q.Gear.Overlap.Max)
	c.Over = spread - overlaps*q.Gear.Overlap.Min - q.opening(p.doors).Max
	return e.yield(c, nil)
}

// made yields doors made to measure: (widest reading + L × overlap aim −
// meeting gaps)/n, rounded up to the maker's step, where the maker makes them.
func (e *enumeration) made() bool {
	m, q := e.query.Range.MadeToMeasure, e.query
	e.current.MadeToMeasure, e.current.Heights = true, 0
	for i := range e.patterns {
		p := &e.patterns[i]
		overlaps, meetings := units.Length(p.overlaps), units.Length(p.doors-1-p.overlaps)
		doubled := 2*q.opening(p.doors).Max + overlaps*q.Gear.Overlap.doubledAim() - 2*meetings*q.Gear.meetingGap()
		steps, err := doubled.MulDiv(1, 2*int64(p.doors)*int64(m.step()), units.Up)
		width := steps * m.step()
		if err != nil || !m.Width.Contains(width) || q.Gear.DoorWidth != nil && !q.Gear.DoorWidth.Contains(width) {
			continue
		}
		e.alike(width)
		if !e.emitOn(p) {
			return false
		}
	}
	return true
}
