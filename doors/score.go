package doors

// Score returns what [Best] makes of a run in the opening, without a price:
// Unpriced. It is false where the run does not close the opening or cannot stand
// closed in it. Of the gear Overlap, MeetingGap and Showing are used.
func (f Fit) Score(r Run, g Gear) (Score, bool) {
	under, over := f.Span.Min-r.Least(g), r.Cover(g)-f.Span.Max
	if under < 0 || over < 0 || !r.Stands(g, f.Span.Min) {
		return Score{}, false
	}
	p := pattern{doors: r.count, overlaps: r.Overlaps()}
	var widths [MaxDoors]int64
	for i, d := range r.doors[:r.count] {
		p.tracks[i], widths[i] = int8(d.Track), int64(d.Width)
	}
	return Score{
		Sure:   under >= f.NarrowDoubt && over >= f.WideDoubt,
		Width:  r.Width(),
		Doors:  r.count,
		Access: r.WithShowing(g.Showing).Access(f.Span.Min).Width(),
		Price:  Unpriced,
		Uneven: p.uneven(&widths, int64(r.spread(g)-f.Span.Max)),
	}, true
}
