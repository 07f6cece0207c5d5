package doors

import (
	"cmp"
	"context"
	"iter"
	"slices"

	"example.com/lapspan/units"
)

// The plain enumeration: every set of widths on every arrangement, one after the
// other, in the best of its orders. It is slow and says nothing clever, so that the
// search can be judged by it.

// Query asks which runs of doors close an opening.
type Query struct {
	Range   Range      // the doors on sale
	Gear    Gear       // what they run on
	Opening units.Span // clear width, narrowest to widest
	// SidesDiffer says that something tells left from right: then a run and its
	// mirror image are two candidates, else one.
	SidesDiffer bool
}

// Candidate is a set of widths on the tracks of one arrangement, not yet in order.
type Candidate struct {
	// Heights has bit i set when every width of the set is sold in height i of
	// Range.Heights.
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
	run, ok, _ := c.pattern.bestOrder(c.widths[:c.Len()], c.query.Gear, c.query.Opening.Min)
	return run, ok
}

// Stands reports whether some order of the set can stand closed.
func (c *Candidate) Stands() bool {
	_, ok := c.Run()
	return ok
}

// Candidates yields every set of widths on every arrangement of 2 to
// Range.MaxDoors doors from stock, whether it closes the opening or not, by plain
// enumeration, fewer doors first. The order is fixed. The candidate is valid until
// the next one is yielded.
func Candidates(ctx context.Context, q Query) (iter.Seq2[*Candidate, error], error) {
	if err := cmp.Or(q.Range.Validate(), q.Gear.Validate()); err != nil {
		return nil, err
	}
	return func(yield func(*Candidate, error) bool) {
		e := enumeration{ctx: ctx, query: &q, yield: yield}
		e.widths, e.sold = q.Range.widths(q.Gear)
		for n := MinDoors; n <= q.Range.maxDoors(); n++ {
			if len(q.Gear.Limits(Hung{Doors: n})) > 0 {
				continue
			}
			e.patterns = q.Range.Arrangement.patterns(n, q.Gear.Tracks, q.SidesDiffer)
			if !e.sets(0, 0, ^uint64(0)) {
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

// enumeration walks through the candidates of one query.
type enumeration struct {
	ctx      context.Context
	query    *Query
	widths   []units.Length
	sold     []uint64
	patterns []pattern // of the number of doors at hand
	yield    func(*Candidate, error) bool
	current  Candidate
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

func (e *enumeration) emitOn(p *pattern) bool {
	if err := e.ctx.Err(); err != nil {
		e.yield(nil, err)
		return false
	}
	c, q := &e.current, e.query
	c.pattern, c.query = p, q
	overlaps := units.Length(p.overlaps)
	spread := c.Width() + units.Length(p.doors-1-p.overlaps)*q.Gear.meetingGap()
	c.Under = q.Opening.Min - (spread - overlaps*q.Gear.Overlap.Max)
	c.Over = spread - overlaps*q.Gear.Overlap.Min - q.Opening.Max
	return e.yield(c, nil)
}
