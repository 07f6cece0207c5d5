package opening

import (
	"fmt"

	"example.com/lapspan/units"
)

// Common practice: what is left on an end panel for scribing where no plumb
// readings say how far the wall is out, and what a skirting is cut back beyond
// the doors at either end.
const (
	DefaultScribe = 10 * units.Millimetre
	CutBackSpare  = 5 * units.Millimetre
)

// SideWork is what is done at one side of the opening. Without a skirting
// there is nothing: Panel and CutBack are nil.
type SideWork struct {
	Side      Side      `json:"side"`              // of the opening
	Treatment Treatment `json:"treatment"`         // of its skirting
	Panel     *Panel    `json:"panel,omitzero"`    // nil: none there, or its size is not known
	CutBack   *Cutout   `json:"cut_back,omitzero"` // nil: nothing is cut, or its length is not known
}

// Panel is an end panel as it is bought: scribed to the wall at its back edge
// and to the ceiling at its top.
type Panel struct {
	Thickness units.Length `json:"thickness"` // what it takes off the width
	// Depth is from the back wall to the front edge of track and rail, and the scribe.
	Depth units.Length `json:"depth"`
	// Height is the height at that side, and the scribe.
	Height units.Length `json:"height"`
	// Scribe is what is left on Depth and on Height for scribing.
	Scribe units.Length `json:"scribe"`
	// Packing fills what the plumb panel leaves open to the wall at its furthest point.
	Packing units.Length `json:"packing,omitzero"`
}

// Cutout is the length of skirting that makes way for the doors.
type Cutout struct {
	From   units.Length `json:"from"`   // from the back wall; 0 where the line of the doors is not known
	Length units.Length `json:"length"` // along the wall
}

// SideWorks returns what is done at the left and at the right side under one
// treatment: the size of an end panel, or how much of a skirting is cut back.
// line is where the back edge of the track is, from the back wall (see
// Survey.DoorLine), gear the depth of track and rail; zero: not known. An end
// panel is line + gear deep, as high as the room at its side, with a scribe on
// both; a skirting is cut back for the depth of the gear and 5 mm at each end.
// Without a gear depth neither has a size and both stay nil.
func (s Survey) SideWorks(c Clear, line, gear units.Length) [2]SideWork {
	return [2]SideWork{
		s.sideWork(Left, c.Left, c.LeftOff, line, gear),
		s.sideWork(Right, c.Right, c.RightOff, line, gear),
	}
}

func (s Survey) sideWork(side Side, treatment Treatment, off, line, gear units.Length) SideWork {
	work := SideWork{Side: side, Treatment: treatment}
	if gear <= 0 || line < 0 {
		return work
	}
	switch treatment {
	case EndPanel:
		wall := s.wall(side)
		in, out := wall.reach(units.MaxLength)
		p := Panel{Thickness: off, Scribe: DefaultScribe, Packing: out.size - in.size}
		if len(wall.leans) > 1 {
			p.Scribe = max(p.Packing, CutBackSpare)
		}
		p.Depth, p.Height = line+gear+p.Scribe, s.heightAt(side)+s.coveringOff()+p.Scribe
		work.Panel = &p
	case CutBack:
		from := max(line-CutBackSpare, 0)
		if line == 0 {
			work.CutBack = &Cutout{Length: gear + 2*CutBackSpare}
		} else {
			work.CutBack = &Cutout{From: from, Length: line + gear + CutBackSpare - from}
		}
	}
	return work
}

// heightAt is the height at a side wall: that of the tape reading or the levels
// nearest to it, the larger where both were taken.
func (s Survey) heightAt(side Side) units.Length {
	better := func(at, best units.Length) bool { return at < best }
	if side == Right {
		better = func(at, best units.Length) bool { return at > best }
	}
	var height units.Length
	for i, best := 0, units.Length(0); i < len(s.Heights); i++ {
		if h := s.Heights[i]; i == 0 || better(h.At, best) {
			best, height = h.At, h.Size
		}
	}
	var level, best units.Length
	for i, l := range s.Levels {
		if i == 0 || better(l.At, best) {
			best, level = l.At, l.Floor+l.Ceiling
		}
	}
	return max(height, level)
}

// String says the work in a line, as on a list of jobs.
func (w SideWork) String() string {
	switch {
	case w.Panel != nil:
		return fmt.Sprintf("%s: end panel %s × %s × %s, of which %s to scribe", w.Side, w.Panel.Depth.Millimetres(), w.Panel.Height.Millimetres(), w.Panel.Thickness, w.Panel.Scribe)
	case w.CutBack != nil && w.CutBack.From > 0:
		return fmt.Sprintf("%s: cut %s of skirting back, from %s off the back wall", w.Side, w.CutBack.Length, w.CutBack.From)
	case w.CutBack != nil:
		return fmt.Sprintf("%s: cut %s of skirting back", w.Side, w.CutBack.Length)
	}
	return fmt.Sprintf("%s: %s", w.Side, w.Treatment)
}
