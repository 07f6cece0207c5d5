package frame

import (
	"fmt"

	"example.com/lapspan/units"
)

// Packing is what makes a rail and a track level on a floor and under a ceiling
// that run out.
type Packing struct {
	Stations   []PackingAt `json:"stations"`             // from the left end of the opening to the right
	UnderRail  []Wedge     `json:"under_rail,omitzero"`  // the pieces, from the left; none where the floor is level
	AboveTrack []Wedge     `json:"above_track,omitzero"` // the same under the ceiling
}

// PackingAt is the packing at one place.
type PackingAt struct {
	At         units.Length `json:"at"`          // from the left wall
	UnderRail  units.Length `json:"under_rail"`  // its thickness there
	AboveTrack units.Length `json:"above_track"` // likewise
}

// Wedge is one piece of packing, of even taper.
type Wedge struct {
	From  units.Length `json:"from"`  // its left end, from the left wall
	To    units.Length `json:"to"`    // its right end
	Left  units.Length `json:"left"`  // its thickness at the left end
	Right units.Length `json:"right"` // its thickness at the right end
}

// Pack returns the packing of an opening whose floor and ceiling were measured
// from one level line. The rail lies level with the highest point of the floor
// and the track, or whatever stands above it, with the lowest of the ceiling:
//
//	under the rail     floor there − least floor
//	above the track    ceiling there − least ceiling
//
// both measured from the level line, straight between two levels and level past
// the outermost, rounded down to a nanometre. The stations are the ends of the
// opening and the levels between them. A piece of packing runs from one station to
// the next, or as far as the longest stock goes; where it would have no thickness
// there is none. Without levels the packing is the zero value.
//
// Only Width, From and Levels of the head are used. The error is units.ErrRange
// for a head or a stock that is out of range.
func Pack(h Head, longest units.Length) (Packing, error) {
	if err := h.check(); err != nil {
		return Packing{}, err
	}
	if h.Width == 0 || longest <= 0 {
		return Packing{}, fmt.Errorf("frame: packing of %s from stock of %s: %w", h.Width, longest, units.ErrRange)
	}
	if len(h.Levels) == 0 {
		return Packing{}, nil
	}
	floor, ceiling := floorFall(h.Levels), ceilingFall(h.Levels)
	var p Packing
	for _, at := range h.stations(floor) {
		p.Stations = append(p.Stations, PackingAt{at, floor.at(at), ceiling.at(at)})
	}
	var err error
	if p.UnderRail, err = h.wedges(floor, longest); err != nil {
		return Packing{}, err
	}
	if p.AboveTrack, err = h.wedges(ceiling, longest); err != nil {
		return Packing{}, err
	}
	return p, nil
}

// stations are the ends of an opening and the places of a fall between them.
func (h Head) stations(f fall) []units.Length {
	places := []units.Length{h.From}
	for _, s := range f {
		if s.at > h.From && s.at < h.From+h.Width {
			places = append(places, s.at)
		}
	}
	return append(places, h.From+h.Width)
}

// wedges are the pieces that fill a fall over the width of an opening.
func (h Head) wedges(f fall, longest units.Length) ([]Wedge, error) {
	var wedges []Wedge
	places := h.stations(f)
	for i, to := range places[1:] {
		from := places[i]
		pieces, err := Strip(to-from, longest)
		if err != nil {
			return nil, err
		}
		for _, p := range pieces {
			w := Wedge{from, from + p, f.at(from), f.at(from + p)}
			if w.Left > 0 || w.Right > 0 {
				wedges = append(wedges, w)
			}
			from = w.To
		}
	}
	return wedges, nil
}
