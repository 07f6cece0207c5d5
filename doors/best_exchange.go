package doors

// Changing doors over between two tracks shows that an order is not the one
// offered of its set: where that makes the widest track narrower and no other as
// wide, the access is wider.

// exchange takes in what changing over door i, the last placed, with doors of
// other tracks would do: alone, and together with another door of its track.
func (s *state) exchange(k *walker, i int) {
	g, t, x := &k.solver.grid, k.pattern.tracks[i], k.at[i]
	mine := k.on[t][:k.rooms[t]-s.left[t]-1]
	for o, n := range k.rooms {
		if o == int(t) {
			continue
		}
		theirs := k.on[o][:n-s.left[o]]
		for j, y := range theirs {
			by := (g.d[x] - g.d[y]) * g.step
			if by > 0 {
				s.rise[o] = min(s.rise[o], by)
			}
			s.differ(t, o, by)
			for _, with := range mine {
				for _, and := range theirs[:j] {
					s.differ(t, o, by+(g.d[with]-g.d[and])*g.step)
				}
			}
		}
	}
}

// differ takes in that some doors of track t are wider by so much than as many of track o.
func (s *state) differ(t int8, o int, by int64) {
	if by > 0 {
		s.fall[t][o] = min(s.fall[t][o], by)
	} else if by < 0 {
		s.fall[o][t] = min(s.fall[o][t], -by)
	}
}

// lopsided reports whether one track will be the only widest, and changing over
// one of its doors with a narrower one elsewhere would make it narrower and no other as wide.
func (k *walker) lopsided(s *state, widest *[MaxTracks]int64) bool {
	rest := k.solver.grid.total(k.pattern.doors, k.lo)
	for _, w := range widest {
		rest -= w
	}
	for t, n := range k.rooms {
		if n == 0 {
			continue
		}
		least := max(k.solver.grid.total(int(n), s.sum[t]), rest+widest[t])
		only, over := true, false
		for o := range k.rooms {
			if o != t && k.rooms[o] > 0 {
				only = only && widest[o] < least
				over = over || s.fall[t][o] < none && widest[o]+s.fall[t][o] < least
			}
		}
		if only && over {
			return true
		}
	}
	return false
}

// tooWide reports whether track t is lopsided by what stands on it, so that a
// wider door in place of the last one leaves it so: the track grows as much as
// the difference of two doors can.
func (k *walker) tooWide(t int8, before, s *state) bool {
	g := &k.solver.grid
	if before.left[t] == k.rooms[t] {
		return false // other tracks may have to begin with a door no wider
	}
	least, over := g.total(int(k.rooms[t]), s.sum[t]), false
	for o, n := range k.rooms {
		if o == int(t) || n == 0 {
			continue
		}
		widest := g.total(int(n), s.sum[o]+int64(s.left[o])*g.d[s.most[o]])
		if widest >= least {
			return false
		}
		over = over || s.fall[t][o] < none && widest+s.fall[t][o] < least
	}
	return over
}

// narrow lowers what each track can come to, by what its first door and those of
// the others allow, and reports whether the total can still be made.
func (k *walker) narrow(s *state, widest *[MaxTracks]int64) bool {
	var limits [MaxTracks]int64
	all := int64(0)
	for t, n := range k.rooms {
		if n == 0 {
			continue
		}
		others, alone := int64(0), int64(none)
		for o, n := range k.rooms {
			if o != t && n > 0 {
				others = max(others, widest[o])
				alone = min(alone, k.alone(s, t, o, widest[o]))
			}
		}
		limits[t] = min(widest[t], max(others, alone))
		all += limits[t]
	}
	*widest = limits
	return all >= k.solver.grid.total(k.pattern.doors, k.lo)
}

// alone is how wide track t can be as the only widest one, above all wider than
// track o, which can be at most so wide. Let x be the first, the widest door of o,
// and r the number of doors of t wider than it; y is the narrowest
// of those. Changing over y and x must not better the order, so that t is wider than
// o by no more than y − x. Then
//
//   - with r at most 1, t has at most its first door and others no wider than x;
//   - with more, t comes to no more than o + y − x, and its doors, y at least r
//     times among them, all fit into that;
//   - the last door of t, with y, against the two widest of o: either these two
//     are no narrower, which for r = 2 comes to the first case, or changing them
//     over must not better the order either, so that the doors of t but these two
//     come to no more than o less its two widest doors.
//
// All of that grows with x, so that where o has no door yet the widest it may have will do.
func (k *walker) alone(s *state, t, o int, most int64) int64 {
	g, n := &k.solver.grid, int64(k.rooms[t])
	first, known := g.width[s.most[t]], s.left[t] < k.rooms[t]
	if known {
		first = g.width[k.on[t][0]]
	}
	x := g.width[s.most[o]]
	begun := s.left[o] < k.rooms[o]
	spare := int64(k.rooms[o]-1) * x // of o but its first
	if begun {
		x = g.width[k.on[o][0]]
		spare = most - x
	}
	others := min(spare-g.base, int64(k.rooms[o]-2)*x) // of o but its two widest
	if k.rooms[o]-s.left[o] > 1 {
		others = spare - g.width[k.on[o][1]]
	}
	widest := first + (n-1)*min(x, first)
	for r := int64(2); r <= n; r++ {
		room := spare - (n-r)*g.base // for the wider doors, y counted once less
		y := min(first, room/(r-1))
		fits := !known || first <= room
		if known && r > 2 {
			y = min(y, (room-first)/(r-2))
			fits = fits && (!begun || first+(r-2)*x <= room)
		}
		if pair := others - (n-3)*g.base; n > 2 && (r == 2 || r == n) {
			y = min(y, pair)
			fits = fits && (!known || first <= pair)
		}
		if fits && (y > x || !begun) {
			widest = max(widest, min(spare+y, r*first+(n-r)*x))
		}
	}
	return widest
}
