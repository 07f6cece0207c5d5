package doors

// The access of a run is the opening less the greatest total width of one
// track: whatever is parked left and right, the longest left pile and the
// longest right pile together are no shorter than the doors of any one track,
// and with all doors parked left they are no longer than the fullest track. So
// where every order stands, the order offered deals the widths out to the
// tracks with the least greatest total.

// dealer deals a set of widths out to tracks.
type dealer struct {
	widths [MaxDoors]int64 // descending
	count  int
}

// fits reports whether widths from number i on, those not taken, can be dealt
// out to tracks that have so much room for so many doors each. At most
// MaxDoors!/(2!)^MaxTracks ways are tried.
func (d *dealer) fits(i int, taken uint16, doors [MaxTracks]int8, room [MaxTracks]int64) bool {
	for i < d.count && taken>>i&1 == 1 {
		i++
	}
	if i == d.count {
		return true
	}
	w := d.widths[i]
	for t := range doors {
		if doors[t] == 0 || room[t] < w || t > 0 && doors[t] == doors[t-1] && room[t] == room[t-1] {
			continue
		}
		next, left := doors, room
		next[t]--
		left[t] -= w
		if d.fits(i+1, taken, next, left) {
			return true
		}
	}
	return false
}

// least returns the least greatest total of one track. No more than known is returned.
func (d *dealer) least(doors [MaxTracks]int8, known int64) int64 {
	var sum, tracks int64
	for _, w := range d.widths[:d.count] {
		sum += w
	}
	for _, n := range doors {
		if n > 0 {
			tracks++
		}
	}
	s := spreader{dealer: d, floor: max(d.widths[0], ceilDiv(sum, tracks)), best: known}
	s.deal(0, doors, [MaxTracks]int64{}, 0)
	return s.best
}

// spreader looks for the deal with the least greatest total.
type spreader struct {
	*dealer
	floor, best int64
}

func (s *spreader) deal(i int, doors [MaxTracks]int8, totals [MaxTracks]int64, most int64) {
	if i == s.count {
		s.best = most
		return
	}
	w := s.widths[i]
	for t := range doors {
		if doors[t] == 0 || t > 0 && doors[t] == doors[t-1] && totals[t] == totals[t-1] {
			continue
		}
		higher := max(most, totals[t]+w)
		if higher >= s.best {
			continue
		}
		next, sums := doors, totals
		next[t]--
		sums[t] += w
		s.deal(i+1, next, sums, higher)
		if s.best <= s.floor {
			return
		}
	}
}

// leftmost fills order with the numbers of the widths, the larger door leftmost,
// among the orders on the pattern in which no track is wider than most.
func (d *dealer) leftmost(p *pattern, doors [MaxTracks]int8, most int64, order *[MaxDoors]int8) {
	var room [MaxTracks]int64
	for t := range room {
		room[t] = most
	}
	taken := uint16(0)
	for i := range p.doors {
		t := p.tracks[i]
		doors[t]--
		for k := range d.count {
			if taken>>k&1 == 1 || d.widths[k] > room[t] || k > 0 && taken>>(k-1)&1 == 0 && d.widths[k] == d.widths[k-1] {
				continue
			}
			room[t] -= d.widths[k]
			if d.fits(0, taken|1<<k, doors, room) {
				taken |= 1 << k
				order[i] = int8(k)
				break
			}
			room[t] += d.widths[k]
		}
	}
}
