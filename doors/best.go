package doors

import (
	"context"
	"fmt"
	"iter"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Search asks for the best runs of doors of one height from the widths on sale.
type Search struct {
	// Widths on sale, ascending and different: 1 to MaxWidths.
	Widths []Offer
	// Fit is the opening that two doors must close; with more than two Wide is,
	// or where that is the zero Fit the same.
	Fit, Wide   Fit
	Gear        Gear        // Tracks, Overlap, MeetingGap and Showing are used
	Arrangement Arrangement // which tracks the doors may stand on
	MinDoors    int         // zero: the least, 2
	MaxDoors    int         // zero: DefaultMaxDoors
	// Mixed lets doors of different widths stand in one run.
	Mixed bool
	// SidesDiffer says that something tells left from right: then a run and its
	// mirror image are two, else one.
	SidesDiffer bool
	// Fixed is what a run costs beside its doors, by the number of doors.
	Fixed [MaxDoors + 1]int64
	// PriceStep rounds the price of all doors of one width, half even, to a
	// multiple; zero: no rounding.
	PriceStep int64
	// Rank is what the runs are ranked by, the first key first. Runs equal in all
	// of them are ordered by their widths from left to right, the list that comes
	// first number by number, and then by their tracks.
	Rank []Key
	// Limit is how many runs are wanted, 1 to MaxFound; zero: DefaultFound.
	Limit int

	few  int // sets of widths that are looked at one by one; zero: fewSets
	hull int // steps of a walk before exact bounds of the price are built; zero: hullSteps
	work int // steps in all; zero: MaxWork
}

// Offer is a width on sale with the price of one door, in any whole unit of
// money: 0 to MaxPrice, or Unpriced.
type Offer struct {
	Width units.Length // of a door
	Price int64        // of one door
}

// Fit is an opening from its narrowest to its widest reading, and how far each
// of the two readings may be out. A run is sure when its margins are at least that.
type Fit struct {
	Span                   units.Span   // narrowest to widest reading
	NarrowDoubt, WideDoubt units.Length // expanded uncertainties of the two
}

// What a search may ask for.
const (
	MaxWidths    = 1000
	MaxFound     = 10_000
	DefaultFound = 10
	// MaxPrice bounds the price of a door and PriceStep, MaxFixed what is fixed.
	MaxPrice = 1 << 54
	MaxFixed = 1 << 57
	// Unpriced is the price of a door without one. A run with such a door has no
	// price and comes after those that have one.
	Unpriced int64 = -1
)

// Found is the answer to a search.
type Found struct {
	Runs []Ranked // the best first
	// All says that there are no more runs than these.
	All bool
	// Proven says that no better run was left out. It is false only when the
	// search reached MaxWork.
	Proven bool
}

// Best returns the best runs of a search in rank order, exactly: no run left
// out comes before one returned. The same search gives the same answer.
//
// # Why it is exact
//
// The keys are taken one after the other. For the values of the first key, the
// best first, the runs of that value are ranked by the next key, and so on, until
// enough are found: all others have a worse value of a key that decides. Runs alike
// in all keys are walked through in the order of their widths from left to right.
// Branches are left only when integers prove them empty:
//
//   - Widths are counted in their greatest common step, and bit sets say which
//     totals any few of them make; a total is tried only where a bit says so.
//   - The access is the opening less the widest track's doors, in whatever order they
//     stand: no pile at the left and pile at the right together are shorter than the
//     doors of one track. So the least greatest total of a track decides.
//   - What doors still to be chosen cost is bounded from below by the convex hull of
//     price over width, rounded up to a price there is, and where that is too
//     loose by the least price for every total, worked out for the widths that matter.
//   - What is seen of all doors comes to the opening, so that with the total known
//     each door of a run that looks even has few widths.
//   - An order that changing over some doors of two tracks would better is not the
//     one offered of its set.
//
// Doors that cannot pass (Gear.Showing) are searched for as if they could, which
// is no worse, and each run found is then put in the order it can have, until all
// to come are worse even as they are.
//
// # Limits
//
// At most MaxWidths widths of at most MaxDoors doors. A search is refused before it
// starts when the widths lie on no common step coarse enough to hold their totals in
// 32 MiB and make more than MaxSets sets. MaxWork bounds the steps. Where they do not
// do and there are no more than MaxSets sets, these are looked at one by one, with as many
// steps again. Found.Proven is false when the steps were used up: as they can be
// in ranges of hundreds of widths where inches and tenths of millimetres are
// mixed, with [Any] on four tracks by evenness behind price, for a thousand runs by evenness behind
// price behind access, and with doors that cannot pass, in ranges of dozens of
// widths, where thousands of runs are alike in the rank or access or evenness come first.
//
// # Errors
//
// An *opening.InputError refuses a search that cannot be used, and one too
// large, before work starts. When the context is done its error is returned.
func Best(ctx context.Context, s Search) (Found, error) {
	p, err := prepare(ctx, s)
	if err != nil {
		return Found{}, err
	}
	return p.best(ctx, s.Fit, s.wide(), s.limit())
}

// InOrder yields the runs of a search in rank order, as many as are drawn, at
// most MaxFound; Limit is ignored. It works ahead in lots that grow, so drawing few is cheap.
// The search is checked before anything is yielded; an error that comes later,
// of the context or an errors.Is-able ErrWork, is yielded last with the zero Ranked.
func InOrder(ctx context.Context, s Search) (iter.Seq2[Ranked, error], error) {
	s.Limit = 0
	p, err := prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	return p.inOrder(ctx), nil
}

func (p *prepared) inOrder(ctx context.Context) iter.Seq2[Ranked, error] {
	return func(yield func(Ranked, error) bool) {
		drawn := 0
		for lot := DefaultFound; ; lot = min(8*lot, MaxFound) {
			found, err := p.best(ctx, p.search.Fit, p.search.wide(), lot)
			if err == nil && !found.Proven {
				err = ErrWork
			}
			if err != nil {
				yield(Ranked{}, err)
				return
			}
			for _, r := range found.Runs[drawn:] {
				if !yield(r, nil) {
					return
				}
			}
			drawn = len(found.Runs)
			if found.All || lot == MaxFound {
				return
			}
		}
	}
}

func (s *Search) wide() Fit {
	if s.Wide == (Fit{}) {
		return s.Fit
	}
	return s.Wide
}

func (s *Search) limit() int {
	if s.Limit == 0 {
		return DefaultFound
	}
	return s.Limit
}

func (s *Search) doors() (least, most int) {
	least, most = s.MinDoors, s.MaxDoors
	if least == 0 {
		least = MinDoors
	}
	if most == 0 {
		most = DefaultMaxDoors
	}
	return least, most
}

// Validate refuses a search that cannot be used, or is too large, with the place.
func (s *Search) Validate() error {
	if err := s.validate(); err != nil {
		return err
	}
	var p prepared
	_, err := p.outline(*s, max(s.Fit.Span.Max, s.wide().Span.Max))
	return err
}

func (s *Search) validate() error {
	if len(s.Widths) == 0 || len(s.Widths) > MaxWidths {
		return opening.Refuse("doors.sizes", "%d widths are not 1 to %d", len(s.Widths), MaxWidths)
	}
	for i, o := range s.Widths {
		switch {
		case opening.CheckSize("", o.Width) != nil:
			return opening.CheckSize(fmt.Sprintf("doors.sizes[%d].width", i), o.Width)
		case i > 0 && o.Width <= s.Widths[i-1].Width:
			return opening.Refuse(fmt.Sprintf("doors.sizes[%d].width", i), "%s does not come after %s", o.Width, s.Widths[i-1].Width)
		case o.Price != Unpriced && (o.Price < 0 || o.Price > MaxPrice):
			return opening.Refuse(fmt.Sprintf("doors.sizes[%d].price", i), "%d is not 0 to %d", o.Price, int64(MaxPrice))
		}
	}
	for _, f := range []Fit{s.Fit, s.wide()} {
		if err := f.validate(); err != nil {
			return err
		}
	}
	if s.Gear.Tracks < MinTracks || s.Gear.Tracks > MaxTracks {
		return opening.Refuse("gear.tracks", "%d is not %d to %d", s.Gear.Tracks, MinTracks, MaxTracks)
	}
	if err := s.Gear.Overlap.validate("gear.overlap"); err != nil {
		return err
	}
	if err := opening.CheckPosition("gear.meeting_gap", s.Gear.meetingGap()); err != nil {
		return err
	}
	if err := opening.CheckPosition("gear.showing", s.Gear.Showing); err != nil {
		return err
	}
	if err := s.Arrangement.validate(); err != nil {
		return err
	}
	if least, most := s.doors(); least < MinDoors || most > MaxDoors || least > most {
		return opening.Refuse("doors.max_doors", "%d to %d doors are not within %d to %d", least, most, MinDoors, MaxDoors)
	}
	for n, price := range s.Fixed {
		if price < 0 || price > MaxFixed {
			return opening.Refuse("gear.parts", "the price %d for %d doors is not 0 to %d", price, n, int64(MaxFixed))
		}
	}
	if s.PriceStep < 0 || s.PriceStep > MaxPrice {
		return opening.Refuse("currency.digits", "the price step %d is not 0 to %d", s.PriceStep, int64(MaxPrice))
	}
	if s.limit() < 1 || s.limit() > MaxFound {
		return opening.Refuse("limit", "%d is not 1 to %d", s.limit(), MaxFound)
	}
	return opening.CheckWords("rank", s.Rank, keys)
}

func (f Fit) validate() error {
	if err := opening.CheckSize("opening.widths", f.Span.Min); err != nil {
		return err
	}
	if err := opening.CheckSize("opening.widths", f.Span.Max); err != nil {
		return err
	}
	if err := checkSpan("opening.widths", f.Span); err != nil {
		return err
	}
	if err := opening.CheckPosition("opening.accuracy", f.NarrowDoubt); err != nil {
		return err
	}
	return opening.CheckPosition("opening.accuracy", f.WideDoubt)
}

func (a Arrangement) validate() error {
	switch a {
	case "", Alternate, Stepped, Any:
		return nil
	}
	return opening.Refuse("doors.arrangement", "%s is not alternate, stepped or any", opening.Quote(string(a)))
}
