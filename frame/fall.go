package frame

import (
	"cmp"
	"slices"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// fall is a floor or a ceiling as levels give it: by place, how far it stands off
// the level plane through its nearest point.
type fall []station

type station struct{ at, off units.Length }

func ceilingFall(levels []opening.Level) fall {
	f := make(fall, len(levels))
	for i, l := range levels {
		f[i] = station{l.At, l.Ceiling}
	}
	return f.fromNearest()
}

func floorFall(levels []opening.Level) fall {
	f := make(fall, len(levels))
	for i, l := range levels {
		f[i] = station{l.At, l.Floor}
	}
	return f.fromNearest()
}

// fromNearest sorts the stations by place and counts them from the nearest. Of
// several readings at one place the nearest counts.
func (f fall) fromNearest() fall {
	if len(f) == 0 {
		return nil
	}
	slices.SortFunc(f, func(a, b station) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.off, b.off))
	})
	f = slices.CompactFunc(f, func(a, b station) bool { return a.at == b.at })
	nearest := slices.MinFunc(f, func(a, b station) int { return cmp.Compare(a.off, b.off) }).off
	for i := range f {
		f[i].off -= nearest
	}
	return f
}

// at is how far off the surface stands at a place: straight between two stations,
// level beyond the outermost, rounded down to a nanometre.
func (f fall) at(place units.Length) units.Length {
	if len(f) == 0 {
		return 0
	}
	i, _ := slices.BinarySearchFunc(f, place, func(s station, place units.Length) int { return cmp.Compare(s.at, place) })
	switch i {
	case 0:
		return f[0].off
	case len(f):
		return f[i-1].off
	}
	a, b := f[i-1], f[i]
	// A part of a difference between bounded lengths cannot be out of range.
	rise, _ := (b.off - a.off).MulDiv(int64(place-a.at), int64(b.at-a.at), units.Down)
	return a.off + rise
}
