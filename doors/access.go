package doors

import "example.com/lapspan/units"

// Gap is a clear gap between the doors parked at the left and those parked at
// the right, measured from the left end of the opening.
type Gap struct{ From, To units.Length }

// Width is the width of the gap.
func (g Gap) Width() units.Length { return g.To - g.From }

// Access returns the widest clear gap that any parking of the doors leaves in
// an opening; of gaps equally wide the leftmost. Doors on one track keep their
// order, doors on different tracks pass. Parking some doors of each track at
// the left and the rest at the right, the gap is the opening less the longest
// stack at the left and the longest at the right. Doors wider than the opening
// leave no gap: the zero Gap.
func (r Run) Access(opening units.Length) Gap {
	var best Gap
	r.parkings(func(left, right units.Length) bool {
		gap := Gap{left, opening - right}
		if gap.Width() > best.Width() || gap.Width() == best.Width() && gap.From < best.From {
			best = gap
		}
		return true
	})
	return best
}

// Clears reports whether some parking leaves the stretch of the opening clear:
// its left stacks end at or before from, its right stacks begin at or after to.
func (r Run) Clears(opening units.Length, stretch Gap) bool {
	clear := false
	r.parkings(func(left, right units.Length) bool {
		clear = left <= stretch.From && right <= opening-stretch.To
		return !clear
	})
	return clear
}

// parkings yields the longest left stack with the shortest longest right stack
// that it allows, for every length a left stack can have. No other parking
// leaves more room: each track parks as many doors at the left as fit beside
// the longest left stack. At most MaxDoors+1 pairs are yielded.
func (r Run) parkings(yield func(left, right units.Length) bool) {
	var stacks [MaxDoors + 1]units.Length // stacks[0] = 0: nothing at the left
	n := 1
	var sum [MaxTracks]units.Length
	for _, d := range r.doors[:r.count] {
		sum[d.Track] += d.Width
		stacks[n] = sum[d.Track]
		n++
	}
	for _, limit := range stacks[:n] {
		var parked, rest [MaxTracks]units.Length
		var left, right units.Length
		for _, d := range r.doors[:r.count] {
			if parked[d.Track]+d.Width <= limit && rest[d.Track] == 0 {
				parked[d.Track] += d.Width
				left = max(left, parked[d.Track])
			} else {
				rest[d.Track] += d.Width
				right = max(right, rest[d.Track])
			}
		}
		if !yield(left, right) {
			return
		}
	}
}
