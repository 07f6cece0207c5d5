package cutlist

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// The bounds on what one job may hold. Together with [units.MaxLength] and the bound on money they
// keep every sum inside an int64.
const (
	MaxPieces = units.MaxPieces // pieces of all lines together
	MaxStock  = 1000            // stock lines
)

// DefaultWork is the work limit that a zero [Options] sets: some seconds of one core.
const DefaultWork int64 = 1_000_000_000

// maxPrice is the greatest price of a bar in ten-thousandths.
const maxPrice = 1_000_000_000 * 10_000

// defaultKerf is taken where a job gives none: the cut of a common mitre saw blade.
const defaultKerf = 4 * units.Millimetre

// What can be wrong with a job, for [errors.Is]. The error that [Cut] returns begins with the place,
// such as stock[2].price.
var (
	ErrNoStock    = errors.New("there is no stock to cut from")
	ErrLength     = errors.New("a length must be more than 0 and at most 100 m")
	ErrAllowance  = errors.New("kerf and end trim must be from 0 to 100 m")
	ErrCount      = errors.New("a count is out of range")
	ErrTooMany    = errors.New("too many pieces or stock lines")
	ErrPrices     = errors.New("some stock is priced and some is not")
	ErrPrice      = errors.New("a price must be from 0 to 1 000 000 000, with at most four decimals")
	ErrTooLong    = errors.New("the piece is longer than every bar")
	ErrStockShort = errors.New("the counted stock does not hold the pieces")
	ErrNoPlan     = errors.New("stopped before a plan was found within the counted stock")
	ErrWork       = errors.New("the work limit must not be negative")
)

// Stock is one line of bars to cut from: a length on sale, or offcuts at hand.
type Stock struct {
	// Length is the whole bar before the end trim: more than 0, at most [units.MaxLength].
	Length units.Length
	// Price is what one bar costs. Either every line has one or none has, and then a bar costs its
	// length. An offcut that is already paid for has the price 0, so it is used before a bar that
	// must be bought wherever that saves money.
	Price *units.Money
	// Count is how many bars there are; 0 means as many as are wanted.
	Count int
}

// Piece is one line of equal pieces to cut.
type Piece struct {
	// Length is the finished length: more than 0, at most [units.MaxLength].
	Length units.Length
	// Count is how many are wanted, 1 or more.
	Count int
	// Name says what the piece is for, such as its room. It has no influence on the plan.
	Name string
}

// Job is bar stock of one section and the pieces to cut from it. Several jobs are cut together by
// appending their pieces. A job without pieces has the empty plan.
type Job struct {
	// Kerf is the width of a saw cut, 4 mm where it is nil.
	Kerf *units.Length
	// EndTrim is taken off every bar once, before anything is cut from it.
	EndTrim units.Length
	// Stock is what there is to cut from.
	Stock []Stock
	// Pieces are what is wanted.
	Pieces []Piece
}

// Bar is one bar of a plan.
type Bar struct {
	// Stock is the index of its line in [Job].Stock.
	Stock int
	// Pieces holds one index into [Job].Pieces for each piece cut from the bar, longest first.
	Pieces []int
	// Offcut is what is left whole: length − end trim − pieces − a kerf for each piece, and 0 where
	// the last piece ends the bar.
	Offcut units.Length
}

// Plan says how the pieces are cut. The zero value is the plan of a job without pieces, but for
// Proven, which [Cut] sets for it.
type Plan struct {
	// Bars in the order of the stock lines, those of one line by their longest pieces first.
	Bars []Bar
	// Priced tells what Cost and Bound count: ten-thousandths of the currency if true, nanometres of
	// bar if false.
	Priced bool
	// Cost is the sum over the bars and Bound a cost below which no plan exists, Bound ≤ Cost.
	Cost, Bound int64
	// Proven says that Bound = Cost: no plan is cheaper. It does not speak of the number of bars or
	// of the offcut.
	Proven bool
	// Certificate proves Bound to whoever cares to check it. It is nil where the bound came from
	// trying every plan that could be cheaper, as for a small job without [Options].Certify.
	Certificate *Certificate
}

// Options tune [Cut]. The zero value is ready to use.
type Options struct {
	// Work bounds the search in steps that depend on the job alone, not on the clock, so that the same
	// job gives the same plan on every machine. 0 means [DefaultWork].
	Work int64
	// Certify asks for a [Certificate] even where a small job could be settled faster without one.
	Certify bool
}

// Cut returns the cheapest way to cut the pieces of job from its stock; of equally cheap plans one
// with the fewest bars, and of these one with the longest offcut in one piece. Pieces fit a bar when
// their sum + kerf × (pieces − 1) ≤ length − end trim.
//
// A job that is settled within opts.Work gives the same plan every time. When the work runs out or ctx
// is done, Cut returns the best plan so far, with Proven false if a cheaper one may exist, and no error.
//
// The errors are the Err variables of this package, with the place in the job.
func Cut(ctx context.Context, job Job, opts Options) (Plan, error) {
	if opts.Work < 0 {
		return Plan{}, fmt.Errorf("work: %w: %d", ErrWork, opts.Work)
	}
	if opts.Work == 0 {
		opts.Work = DefaultWork
	}
	var room problemRoom
	p, err := room.problem().read(&job)
	if err != nil {
		return Plan{}, err
	}
	if p.pieces == 0 {
		return Plan{Priced: p.priced, Proven: true}, nil
	}
	var out outcome
	if !opts.Certify && p.fitsDirect() {
		d := direct{p: &p, limit: directWork}
		if d.run() {
			if d.best.bars == 0 {
				return Plan{}, fmt.Errorf("stock: %w", ErrStockShort)
			}
			return d.plan(&job), nil
		}
		out.start = d.found(nil, nil)
	}
	general := p.clone()
	if err := general.settle(ctx, opts.Work, &out); err != nil {
		return Plan{}, err
	}
	slices.SortStableFunc(out.best, compareBars)
	plan := general.plan(&job, out.best)
	plan.Bound = out.bound
	plan.Proven = out.bound == plan.Cost
	plan.Certificate = out.certificate
	return plan, nil
}

// A kind is all pieces of one length. Its size is length + kerf.
type kind struct {
	size int64
	need int
}

// A line is one stock line that can hold a piece. Its room is length − end trim + kerf, so that pieces
// fit when the sum of their sizes is at most the room.
type line struct {
	room  int64
	cost  int64
	count int // never 0: a line without limit has as many bars as there are pieces
	free  bool
	stock int
}

// A problem is a job in the form the searches use: kinds by falling size, lines in the job's order.
type problem struct {
	kinds  []kind
	lines  []line
	order  []int32 // indexes into Job.Pieces by falling length, equal ones in the job's order
	kerf   int64
	pieces int
	unit   int64 // greatest common divisor of the costs: every cost is a multiple
	priced bool
}

// problemRoom holds a small problem without an allocation.
type problemRoom struct {
	kinds [directKinds]kind
	lines [directLines]line
	order [2 * directKinds]int32
}

func (r *problemRoom) problem() problem {
	return problem{kinds: r.kinds[:0], lines: r.lines[:0], order: r.order[:0]}
}

// clone copies p to the heap, so that a problem in a problemRoom need not leave the stack.
func (p *problem) clone() *problem {
	return &problem{
		kinds: slices.Clone(p.kinds), lines: slices.Clone(p.lines), order: slices.Clone(p.order),
		kerf: p.kerf, pieces: p.pieces, unit: p.unit, priced: p.priced,
	}
}

// read checks the job and brings it into the form of a problem. It works on a copy: what is appended
// through a pointer could not stay on the stack.
func (p problem) read(job *Job) (problem, error) {
	kerf := defaultKerf
	if job.Kerf != nil {
		kerf = *job.Kerf
	}
	if kerf < 0 || kerf > units.MaxLength {
		return p, fmt.Errorf("kerf: %w: %v", ErrAllowance, kerf)
	}
	if job.EndTrim < 0 || job.EndTrim > units.MaxLength {
		return p, fmt.Errorf("end_trim: %w: %v", ErrAllowance, job.EndTrim)
	}
	p.kerf = int64(kerf)
	p, err := p.readStock(job)
	if err != nil {
		return p, err
	}
	return p.readPieces(job)
}

func (p problem) readStock(job *Job) (problem, error) {
	if len(job.Stock) > MaxStock {
		return p, fmt.Errorf("stock: %w: %d lines, at most %d", ErrTooMany, len(job.Stock), MaxStock)
	}
	for i := range job.Stock {
		s := &job.Stock[i]
		if s.Length <= 0 || s.Length > units.MaxLength {
			return p, fmt.Errorf("stock[%d].length: %w: %v", i, ErrLength, s.Length)
		}
		if s.Count < 0 {
			return p, fmt.Errorf("stock[%d].count: %w: %d", i, ErrCount, s.Count)
		}
		if (s.Price == nil) != (job.Stock[0].Price == nil) {
			return p, fmt.Errorf("stock[%d].price: %w", i, ErrPrices)
		}
		cost := int64(s.Length)
		if s.Price != nil {
			var err error
			if cost, err = s.Price.TenThousandths(); err != nil || cost < 0 || cost > maxPrice {
				return p, fmt.Errorf("stock[%d].price: %w: %v", i, ErrPrice, s.Price)
			}
			p.priced = true
		}
		p.lines = append(p.lines, line{
			room:  int64(s.Length) - int64(job.EndTrim) + p.kerf,
			cost:  cost,
			count: s.Count,
			free:  s.Count == 0,
			stock: i,
		})
		p.unit = gcd(p.unit, cost)
	}
	p.unit = max(p.unit, 1)
	return p, nil
}

func (p problem) readPieces(job *Job) (problem, error) {
	if len(job.Pieces) > MaxPieces {
		return p, fmt.Errorf("pieces: %w: %d lines, at most %d pieces", ErrTooMany, len(job.Pieces), MaxPieces)
	}
	for i := range job.Pieces {
		piece := &job.Pieces[i]
		if piece.Length <= 0 || piece.Length > units.MaxLength {
			return p, fmt.Errorf("pieces[%d].length: %w: %v", i, ErrLength, piece.Length)
		}
		if piece.Count < 1 {
			return p, fmt.Errorf("pieces[%d].count: %w: %d, must be 1 or more", i, ErrCount, piece.Count)
		}
		if piece.Count > MaxPieces-p.pieces {
			return p, fmt.Errorf("pieces[%d].count: %w: more than %d in all", i, ErrTooMany, MaxPieces)
		}
		p.pieces += piece.Count
		p.order = append(p.order, int32(i))
	}
	if p.pieces == 0 {
		return p, nil
	}
	if len(p.lines) == 0 {
		return p, fmt.Errorf("stock: %w", ErrNoStock)
	}
	slices.SortFunc(p.order, func(a, b int32) int {
		if la, lb := job.Pieces[a].Length, job.Pieces[b].Length; la != lb {
			if la > lb {
				return -1
			}
			return 1
		}
		return int(a - b)
	})
	for _, i := range p.order {
		size := int64(job.Pieces[i].Length) + p.kerf
		if n := len(p.kinds); n > 0 && p.kinds[n-1].size == size {
			p.kinds[n-1].need += job.Pieces[i].Count
			continue
		}
		p.kinds = append(p.kinds, kind{size: size, need: job.Pieces[i].Count})
	}
	longest := int64(0)
	for _, l := range p.lines {
		longest = max(longest, l.room)
	}
	if p.kinds[0].size > longest {
		i := p.order[0]
		return p, fmt.Errorf("pieces[%d].length: %w: %v, the longest bar takes %v",
			i, ErrTooLong, job.Pieces[i].Length, max(0, units.Length(longest-p.kerf)))
	}
	return p.keepUseful(), nil
}

// keepUseful drops every line that cannot hold the shortest piece, and every line for which another
// without limit is at least as long and costs no more (the first of equals stays), and gives a line
// without limit as many bars as there are pieces.
func (p problem) keepUseful() problem {
	shortest := p.kinds[len(p.kinds)-1].size
	kept := p.lines[:0]
	for i, l := range p.lines {
		useful := l.room >= shortest
		for k := 0; useful && k < len(p.lines); k++ {
			o := &p.lines[k]
			// kept overwrites lines before i with lines before i: those dropped had a better one, which
			// is still there or comes later.
			if k == i || !o.free || o.room < l.room || o.cost > l.cost {
				continue
			}
			if l.free && o.room == l.room && o.cost == l.cost && o.stock >= l.stock {
				continue
			}
			useful = false
		}
		if !useful {
			continue
		}
		kept = append(kept, l)
	}
	p.lines = kept
	for i := range p.lines {
		if l := &p.lines[i]; l.free || l.count > p.pieces {
			l.count = p.pieces
		}
	}
	return p
}

// offcut returns what is left whole of a bar with this room left.
func (p *problem) offcut(room int64) int64 {
	return max(0, room-p.kerf)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
