package frame

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Options are what a job asks of the frame over its doors. The zero value asks for
// nothing but the frame: studs in their even places, as long as the ceiling has it.
type Options struct {
	// PackedLevel packs the top plate level, so that all studs are alike.
	PackedLevel bool `json:"packed_level,omitzero"`
	// OntoJoists moves studs onto the joists that cross the plates.
	OntoJoists bool `json:"onto_joists,omitzero"`
	// What is behind the ceiling and the walls, where there is no better knowledge;
	// empty: fixings are not worked out there. Joists that were measured count before Ceiling.
	Ceiling   Backing `json:"ceiling,omitzero"`
	LeftWall  Backing `json:"left_wall,omitzero"`  // likewise
	RightWall Backing `json:"right_wall,omitzero"` // likewise
	// Lining is the thickness of the board or plaster on them.
	Lining units.Length `json:"lining,omitzero"`
	// What closes a side without a wall: FreePost or FreePanel; empty: there is a wall.
	LeftEnd  End `json:"left_end,omitzero"`
	RightEnd End `json:"right_end,omitzero"` // likewise
	// Stiffness is compared when asked for; nil: it is not.
	Stiffness *StiffnessAsked `json:"stiffness,omitzero"`
}

// StiffnessAsked is the question how far a plate bends.
type StiffnessAsked struct {
	Grade string `json:"grade"` // of the timber, such as C16
	Limit int    `json:"limit"` // the n of span/n, the caller's to choose
	Load  Load   `json:"load"`  // what it carries
	// Span is between supports; 0: the widest between two studs.
	Span units.Length `json:"span,omitzero"`
	// OnEdge says that the timber stands on edge; else it lies flat, as plates do.
	OnEdge bool `json:"on_edge,omitzero"`
}

// Validate refuses options that cannot be used: an *opening.InputError with the place.
func (o Options) Validate() error {
	for _, b := range []struct {
		place   string
		backing Backing
	}{{"frame.ceiling", o.Ceiling}, {"frame.left_wall", o.LeftWall}, {"frame.right_wall", o.RightWall}} {
		switch b.backing {
		case "", Joist, WallStud, Masonry, BoardOnly:
		default:
			return opening.Refuse(b.place, "%s is not joist, stud, masonry or board", opening.Quote(string(b.backing)))
		}
	}
	for _, e := range []struct {
		place string
		end   End
	}{{"frame.left_end", o.LeftEnd}, {"frame.right_end", o.RightEnd}} {
		if e.end != "" && !e.end.IsFree() {
			return opening.Refuse(e.place, "%s is not post or free panel", opening.Quote(string(e.end)))
		}
	}
	if err := opening.CheckPosition("frame.lining", o.Lining); err != nil {
		return err
	}
	return o.Stiffness.validate("frame.stiffness")
}

func (s *StiffnessAsked) validate(place string) error {
	if s == nil {
		return nil
	}
	if _, err := GradeOf(s.Grade); err != nil {
		return opening.Refuse(place+".grade", "%s is no softwood class of EN 338, C14 to C50", opening.Quote(s.Grade))
	}
	if s.Limit < MinLimit || s.Limit > MaxLimit {
		return opening.Refuse(place+".limit", "%d is not %d to %d", s.Limit, MinLimit, MaxLimit)
	}
	for _, f := range []struct {
		place string
		force Force
	}{{".load.uniform", s.Load.Uniform}, {".load.centre", s.Load.Centre}, {".load.pair", s.Load.Pair}} {
		if f.force < 0 || f.force > MaxForce {
			return opening.Refuse(place+f.place, "%s is not 0 to %s", f.force, MaxForce)
		}
	}
	return cmp.Or(
		opening.CheckPosition(place+".load.pair_at", s.Load.PairAt),
		opening.CheckPosition(place+".span", s.Span),
	)
}

// Details are what a fitter needs beside the pieces of a frame.
type Details struct {
	Packing   *Packing    `json:"packing,omitzero"`   // none where floor and ceiling are level
	Ends      []EndDetail `json:"ends,omitzero"`      // of a bulkhead
	Fixings   []Fixings   `json:"fixings,omitzero"`   // where it is known what is behind
	Stiffness *Stiffness  `json:"stiffness,omitzero"` // when asked for
	Marks     []Mark      `json:"marks"`              // in the order they are drawn
}

// Detail works out what a fitter needs to put the layout up: the packing, the ends
// of a bulkhead, the fixings into ceiling and walls, the stiffness of the bottom
// plate when it is asked for, and the marks. A nil timber goes with a layout
// without a bulkhead.
//
// The error is an *opening.InputError for options that Validate refuses, else as of
// Pack, EndDetails, Fix, CheckStiffness and Marks.
func Detail(l Layout, t *doors.Timber, o Options) (Details, opening.Findings, error) {
	if err := o.Validate(); err != nil {
		return Details{}, nil, err
	}
	if err := l.check(); err != nil {
		return Details{}, nil, err
	}
	d := detailing{layout: l, options: o}
	if l.Bulkhead != nil {
		if t == nil {
			return Details{}, nil, fmt.Errorf("frame: a bulkhead without timber: %w", units.ErrRange)
		}
		d.timber = *t
	}
	for _, step := range []func() error{d.packing, d.ends, d.ceiling, d.walls, d.stiffness, d.marks} {
		if err := step(); err != nil {
			return Details{}, nil, err
		}
	}
	return d.out, d.found.Sorted(), nil
}

type detailing struct {
	layout  Layout
	options Options
	timber  doors.Timber // of the bulkhead
	out     Details
	found   opening.Findings
}

func (d *detailing) packing() error {
	longest := units.MaxLength
	if d.layout.Bulkhead != nil {
		longest = longestOf(d.timber.Lengths)
	}
	p, err := Pack(d.layout.Head, longest)
	if err != nil {
		return err
	}
	if d.layout.Bulkhead != nil {
		// Its studs, or the packing on its top plate, take up the ceiling.
		p.AboveTrack = nil
	}
	if p.UnderRail != nil || p.AboveTrack != nil {
		d.out.Packing = &p
	}
	return nil
}

// end is what stands at a side.
func end(free End, panel units.Length) End {
	if panel > 0 && free == "" {
		return AtPanel
	}
	return cmp.Or(free, AtWall)
}

func (d *detailing) ends() error {
	if d.layout.Bulkhead == nil {
		for _, e := range []struct {
			side Side
			end  End
		}{{LeftSide, d.options.LeftEnd}, {RightSide, d.options.RightEnd}} {
			if e.end.IsFree() {
				d.found = append(d.found, freeEnd(e.side, e.end))
			}
		}
		return nil
	}
	ends, found, err := EndDetails(d.layout.Head, d.timber, d.layout.ClearHeight,
		end(d.options.LeftEnd, d.layout.LeftPanel), end(d.options.RightEnd, d.layout.RightPanel))
	d.out.Ends, d.found = ends, append(d.found, found...)
	return err
}

// ceiling fixes the top plate, or where there is no bulkhead the track with what is packed above it.
func (d *detailing) ceiling() error {
	l := d.layout
	s := Surface{Behind: d.options.Ceiling, Lining: d.options.Lining, Overhead: true, Place: "frame.ceiling"}
	switch {
	case len(l.Joists) > 0:
		s.Behind, s.Centres, s.Place = Joist, l.Joists, "opening.joists"
	case l.JoistsAlong:
		// Whether one lies right above is not known, so none is counted on.
		s.Behind, s.Place = BoardOnly, "opening.joists"
	case s.Behind == "":
		return nil
	}
	f := Fixed{What: "track", From: l.Head.From, Pieces: []units.Length{l.Head.Width}, Width: l.Depth, Through: l.Stack}
	if l.Stack > 0 {
		f.What = "packer and track"
	}
	var wedges []Wedge
	switch {
	case l.Bulkhead != nil:
		f.What, f.Width, f.Through = "top plate", d.timber.Width, d.timber.Thickness
		f.Pieces = l.Bulkhead.top(l.Head.Width)
		wedges = l.Bulkhead.Packing
	case l.Depth == 0:
		return nil
	case d.out.Packing != nil:
		wedges = d.out.Packing.AboveTrack
	}
	var thickest units.Length
	for _, w := range wedges {
		thickest = max(thickest, w.Left, w.Right)
	}
	f.Through += thickest
	return d.fix(f, s)
}

// walls fix the end studs of a bulkhead.
func (d *detailing) walls() error {
	l := d.layout
	if l.Bulkhead == nil || len(l.Bulkhead.Studs) == 0 {
		return nil
	}
	studs := l.Bulkhead.Studs
	for _, side := range []struct {
		side   Side
		behind Backing
		free   End
		panel  units.Length
		stud   Stud
	}{
		{LeftSide, d.options.LeftWall, d.options.LeftEnd, l.LeftPanel, studs[0]},
		{RightSide, d.options.RightWall, d.options.RightEnd, l.RightPanel, studs[len(studs)-1]},
	} {
		if side.behind == "" || side.free != "" {
			continue
		}
		err := d.fix(Fixed{
			What: string(side.side) + " end stud",
			// Up from the highest point of the floor.
			From:    l.Strip + l.Height + d.timber.Thickness,
			Pieces:  []units.Length{side.stud.Length},
			Width:   d.timber.Width,
			Through: d.timber.Thickness + side.panel,
		}, Surface{Behind: side.behind, Lining: d.options.Lining, Place: "frame." + string(side.side) + "_wall"})
		if err != nil {
			return err
		}
	}
	return nil
}

func (d *detailing) fix(f Fixed, s Surface) error {
	fixings, found, err := Fix(f, s)
	if err != nil {
		return err
	}
	d.out.Fixings, d.found = append(d.out.Fixings, fixings), append(d.found, found...)
	if s.Overhead {
		d.layout.Ceiling = &d.out.Fixings[len(d.out.Fixings)-1]
	}
	return nil
}

// stiffness looks at the bottom plate between two studs, or over the span asked for.
func (d *detailing) stiffness() error {
	asked := d.options.Stiffness
	if asked == nil || d.layout.Bulkhead == nil {
		return nil
	}
	b := Beam{Span: asked.Span, Width: d.timber.Width, Depth: d.timber.Thickness}
	if asked.OnEdge {
		b.Width, b.Depth = b.Depth, b.Width
	}
	if b.Span == 0 {
		studs := d.layout.Bulkhead.Studs
		for i := 1; i < len(studs); i++ {
			b.Span = max(b.Span, studs[i].At-studs[i-1].At)
		}
	}
	if 2*asked.Load.PairAt > b.Span {
		return opening.Refuse("frame.stiffness.load.pair_at", "%s is more than half of the span of %s", asked.Load.PairAt, b.Span)
	}
	s, err := CheckStiffness(b, asked.Grade, asked.Load, asked.Limit)
	if err != nil {
		return err
	}
	d.out.Stiffness = &s
	return nil
}

func (d *detailing) marks() error {
	marks, err := Marks(d.layout)
	// Where there is no wall the lines go on what closes the side, once it stands.
	for _, side := range []struct {
		side Side
		end  End
		wall string
	}{{LeftSide, d.options.LeftEnd, OnLeftWall}, {RightSide, d.options.RightEnd, OnRightWall}} {
		if !side.end.IsFree() {
			continue
		}
		for i := range marks {
			if marks[i].On == side.wall {
				marks[i].On = freeName(side.end) + " at the " + string(side.side)
			}
			if marks[i].From == FromLeftWall && side.side == LeftSide {
				marks[i].From = "left end of the opening"
			}
		}
	}
	d.out.Marks = marks
	return err
}

// top returns the pieces of the top plate.
func (b Bulkhead) top(width units.Length) []units.Length {
	var laid units.Length
	for i, p := range b.Plates {
		if laid >= width {
			return b.Plates[i:]
		}
		laid += p
	}
	return nil
}

// FrontAt is a place on the front of a bulkhead.
type FrontAt struct {
	At     units.Length `json:"at"`            // from the left wall
	Height units.Length `json:"height"`        // from the underside of the bottom plate up to the ceiling
	Stud   bool         `json:"stud,omitzero"` // a stud's centre is here
}

// Front returns the front of a bulkhead from its left end to its right one, for the
// boards that cover it: its ends, its studs, and the levels between, the height
// straight from each to the next, rounded down to a nanometre. A trim.Station is of
// the same shape: trim.Station(f) converts one.
//
// The error is units.ErrRange for a head that is out of range.
func Front(h Head, b Bulkhead) ([]FrontAt, error) {
	if err := h.check(); err != nil {
		return nil, err
	}
	if h.Width == 0 {
		return nil, fmt.Errorf("frame: a front without a width: %w", units.ErrRange)
	}
	ceiling := ceilingFall(h.Levels)
	places := h.stations(ceiling)
	for _, s := range b.Studs {
		if s.At > h.From && s.At < h.From+h.Width {
			places = append(places, s.At)
		}
	}
	slices.Sort(places)
	var front []FrontAt
	for _, at := range slices.Compact(places) {
		stud := slices.ContainsFunc(b.Studs, func(s Stud) bool { return s.At == at })
		front = append(front, FrontAt{at, h.Gap + ceiling.at(at), stud})
	}
	return front, nil
}
