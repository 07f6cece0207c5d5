package doors

// Sight is how a closed run looks from the room: where neighbours overlap, the
// one on the track nearer to the room hides the other by the overlap.

// hidden is how many overlaps hide a part of door i: of the neighbours beside it
// those on a track nearer to the room.
func (p *pattern) hidden(i int) int64 {
	n := int64(0)
	if i > 0 && p.tracks[i-1] < p.tracks[i] {
		n++
	}
	if i+1 < p.doors && p.tracks[i+1] < p.tracks[i] {
		n++
	}
	return n
}

// seen is the visible width of a door of width w when the overlaps in place,
// added up, are over: w − hidden × over/L, in UnevenParts.
func (p *pattern) seen(i int, w, over int64) int64 {
	return UnevenParts*w - p.hidden(i)*(UnevenParts/int64(p.overlaps))*over
}

// uneven is the largest less the smallest visible width of a run on the pattern.
func (p *pattern) uneven(widths *[MaxDoors]int64, over int64) int64 {
	least := p.seen(0, widths[0], over)
	most := least
	for i := 1; i < p.doors; i++ {
		s := p.seen(i, widths[i], over)
		least, most = min(least, s), max(most, s)
	}
	return most - least
}
