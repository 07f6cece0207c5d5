package lapspan_test

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Every proposal of a job by brute force: every set of widths on every arrangement
// in every order, hung in every way its end doors allow. What the packages below
// say of one door, one run or one height is taken as it is; what is judged here is
// which runs a plan finds, and in which order.

type bruteOption struct {
	doors   []doors.Door
	height  doors.Height
	clear   units.Span
	variant int
	sure    bool
	price   int64 // of what differs from proposal to proposal; −1: not known
	access  units.Length
	uneven  *big.Rat
}

type bruteMiss struct {
	doors    []doors.Door
	set      []units.Length // the widths, largest first
	overlaps int
	stock    units.Length
	variant  int
	by       units.Length
}

type brute struct {
	job     lapspan.Job
	t       interface{ Fatal(...any) }
	clear   opening.Clear
	variant int
	widths  []units.Length                     // sold in a stock height
	hung    map[[3]units.Length][]doors.Height // by stock height and the widths of the end doors
	options []bruteOption
	misses  []bruteMiss
}

func bruteForce(t interface{ Fatal(...any) }, job lapspan.Job) *brute {
	b := &brute{job: job, t: t}
	measured, err := opening.Measure(job.Opening)
	if err != nil {
		t.Fatal(err)
	}
	for i, clear := range measured.Variants {
		b.variant, b.clear, b.hung = i, clear, map[[3]units.Length][]doors.Height{}
		for _, stock := range job.Doors.Heights() {
			var widths []units.Length
			for _, s := range job.Doors.Sizes {
				if s.Height == stock {
					widths = append(widths, s.Width)
				}
			}
			slices.Sort(widths)
			b.widths = widths
			b.sets(stock, 0, nil)
		}
	}
	slices.SortFunc(b.options, func(x, y bruteOption) int { return bruteCompare(b.rank(), &x, &y) })
	slices.SortFunc(b.misses, func(x, y bruteMiss) int {
		return cmp.Or(cmp.Compare(x.by, y.by), cmp.Compare(len(x.doors), len(y.doors)), slices.Compare(x.set, y.set),
			cmp.Compare(x.overlaps, y.overlaps), cmp.Compare(x.variant, y.variant), cmp.Compare(y.stock, x.stock))
	})
	return b
}

// sets goes through the sets of widths that begin with some and go on with the
// widths from a number on.
func (b *brute) sets(stock units.Length, from int, set []units.Length) {
	if len(set) >= doors.MinDoors && len(b.job.Gear.Limits(doors.Hung{Doors: len(set)})) == 0 {
		for _, tracks := range bruteTracks(b, len(set)) {
			b.try(stock, set, tracks)
		}
	}
	if len(set) == b.job.Doors.MaxDoors {
		return
	}
	for i := from; i < len(b.widths) && (len(set) == 0 || i == from || b.job.Doors.MixedWidths); i++ {
		b.sets(stock, i, append(slices.Clone(set), b.widths[i]))
	}
}

// try hangs a set on some tracks at every height that doors of the stock can hang at.
func (b *brute) try(stock units.Length, set []units.Length, tracks []int) {
	var heights []units.Length
	for _, left := range b.widths {
		for _, right := range b.widths {
			for _, h := range b.heights(stock, left, right) {
				if !slices.Contains(heights, h.Door) {
					heights = append(heights, h.Door)
				}
			}
		}
	}
	for _, door := range heights {
		clear := b.job.Opening.ClearFor(b.clear, len(set), door)
		run, stands := b.best(set, tracks, clear.Width.Min)
		if !stands {
			continue
		}
		over, under := run.Cover(b.job.Gear)-clear.Width.Max, clear.Width.Min-run.Least(b.job.Gear)
		for _, h := range b.heights(stock, run.At(0).Width, run.At(run.Len()-1).Width) {
			if h.Door != door {
				continue
			}
			if over < 0 || under < 0 {
				largest := slices.Clone(set)
				slices.Sort(largest)
				slices.Reverse(largest)
				b.misses = append(b.misses, bruteMiss{run.Doors(), largest, run.Overlaps(), stock, b.variant, max(-over, -under)})
				break
			}
			b.options = append(b.options, bruteOption{
				doors: run.Doors(), height: h, clear: clear.Width, variant: b.variant,
				sure:  over >= clear.Widest.Uncertainty && under >= clear.Narrowest.Uncertainty && h.Margin.Within(clear.Lowest.Uncertainty),
				price: b.price(run, h), access: run.Access(clear.Width.Min).Width(), uneven: bruteUneven(run, b.job.Gear, clear.Width.Max),
			})
		}
	}
}

// heights are the ways to hang doors of a stock height with two of some widths at the ends.
func (b *brute) heights(stock, left, right units.Length) []doors.Height {
	key := [3]units.Length{stock, left, right}
	if found, known := b.hung[key]; known {
		return found
	}
	taken := func(height units.Length) (most units.Length) {
		for side, width := range map[opening.Side]units.Length{opening.Left: left, opening.Right: right} {
			end, err := b.job.Opening.EndDoor(b.clear, side, width, height, b.job.Gear.Adjuster)
			if err != nil {
				b.t.Fatal(err)
			}
			most = max(most, end.Taken)
		}
		return most
	}
	var found []doors.Height
	allowance := b.job.Gear.Allowance
	if allowance.Min += taken(stock); allowance.Min <= allowance.Max {
		all, _ := doors.HeightsFor(doors.Range{Sizes: []doors.Size{{Width: left, Height: stock}}}, b.clear.Height, doors.Above{
			Allowance: allowance, Boards: b.job.Boards, Timber: b.job.Timber, Cutting: b.job.Trim,
		})
		for _, h := range all {
			if h.Allowance-taken(h.Door) >= b.job.Gear.Allowance.Min {
				found = append(found, h)
			}
		}
	}
	b.hung[key] = found
	return found
}

// best is the order of a set with the widest access, of equal ones that whose
// larger doors stand leftmost.
func (b *brute) best(set []units.Length, tracks []int, narrowest units.Length) (best doors.Run, stands bool) {
	var order []doors.Door
	widest := units.Length(-1)
	var place func(left []units.Length)
	place = func(left []units.Length) {
		if len(left) == 0 {
			run, err := doors.NewRun(order...)
			if err != nil {
				b.t.Fatal(err)
			}
			run = run.WithShowing(b.job.Gear.Showing)
			if access := run.Access(narrowest).Width(); access > widest && run.Stands(b.job.Gear, narrowest) {
				best, widest, stands = run, access, true
			}
			return
		}
		var tried units.Length
		for i := len(left) - 1; i >= 0; i-- {
			if left[i] != tried {
				tried = left[i]
				order = append(order, doors.Door{Width: left[i], Track: tracks[len(order)]})
				place(slices.Delete(slices.Clone(left), i, i+1))
				order = order[:len(order)-1]
			}
		}
	}
	place(slices.Sorted(slices.Values(set)))
	return best, stands
}

// price is what doors, parts and boards cost, in ten-thousandths.
func (b *brute) price(run doors.Run, h doors.Height) int64 {
	sum := units.Money{}
	add := func(m *units.Money, of func(units.Money) units.Money) bool {
		if m != nil {
			sum = sum.Add(of(*m))
		}
		return m != nil
	}
	for _, d := range run.Doors() {
		i := slices.IndexFunc(b.job.Doors.Sizes, func(s doors.Size) bool { return s.Width == d.Width && s.Height == h.Stock })
		if !add(b.job.Doors.Sizes[i].Price, func(m units.Money) units.Money { return m }) {
			return -1
		}
	}
	for _, p := range b.job.Gear.Parts {
		ok := add(p.Price, func(m units.Money) units.Money { return b.cents(m.Mul(int64(p.For(run.Len())))) })
		if !ok {
			return -1
		}
	}
	pieces := map[int]int64{}
	for _, p := range h.Stack {
		pieces[p.Board]++
	}
	if h.Method == doors.Bulkhead || pieces[-1] > 0 {
		return -1 // timber has no price here
	}
	for board, count := range pieces {
		ok := add(b.job.Boards[board].Price, func(m units.Money) units.Money {
			return b.cents(m.PerMetre(b.clear.Width.Min).Mul(count))
		})
		if !ok {
			return -1
		}
	}
	n, err := sum.TenThousandths()
	if err != nil {
		b.t.Fatal(err)
	}
	return n
}

func (b *brute) cents(m units.Money) units.Money {
	line, err := m.Round(2, units.HalfEven)
	if err != nil {
		b.t.Fatal(err)
	}
	return line
}

// bruteTracks is every assignment of tracks that the job allows; of two that mirror
// each other the first where the sides are alike.
func bruteTracks(b *brute, n int) [][]int {
	var all [][]int
	alike := len(b.job.Opening.Leans.Left)+len(b.job.Opening.Leans.Right) == 0 && b.clear.Left == b.clear.Right && b.clear.LeftOff == b.clear.RightOff
	var place func(tracks []int)
	place = func(tracks []int) {
		if len(tracks) < n {
			for t := range b.job.Gear.Tracks {
				place(append(slices.Clone(tracks), t))
			}
			return
		}
		laps := 0
		for i, t := range tracks {
			want := i % 2
			if b.job.Doors.Arrangement == doors.Stepped {
				turn := 2 * (b.job.Gear.Tracks - 1)
				want = min(i%turn, turn-i%turn)
			}
			if b.job.Doors.Arrangement != doors.Any && t != want {
				return
			}
			if i > 0 && t != tracks[i-1] {
				laps++
				if d := t - tracks[i-1]; d < -1 || d > 1 {
					return
				}
			}
		}
		mirror := slices.Clone(tracks)
		slices.Reverse(mirror)
		if laps > 0 && (!alike || b.job.Doors.Arrangement != doors.Any || slices.Compare(tracks, mirror) <= 0) {
			all = append(all, tracks)
		}
	}
	place(nil)
	return all
}

// bruteUneven is the largest less the smallest width seen: of a door its width less
// the overlap for each neighbour nearer to the room.
func bruteUneven(run doors.Run, g doors.Gear, widest units.Length) *big.Rat {
	gaps := units.Length(0)
	if g.MeetingGap != nil {
		gaps = units.Length(run.Meetings()) * *g.MeetingGap
	}
	overlap := big.NewRat(int64(run.Width()+gaps-widest), int64(run.Overlaps()))
	var seen []*big.Rat
	for i, d := range run.Doors() {
		s := big.NewRat(int64(d.Width), 1)
		for _, k := range []int{i - 1, i + 1} {
			if k >= 0 && k < run.Len() && run.At(k).Track < d.Track {
				s.Sub(s, overlap)
			}
		}
		seen = append(seen, s)
	}
	least, most := slices.MinFunc(seen, (*big.Rat).Cmp), slices.MaxFunc(seen, (*big.Rat).Cmp)
	return new(big.Rat).Sub(most, least)
}

// rank is the rank of the job: the default one by price when every option has one.
func (b *brute) rank() []lapspan.Key {
	if len(b.job.Rank) > 0 {
		return b.job.Rank
	}
	return lapspan.DefaultRank(!slices.ContainsFunc(b.options, func(o bruteOption) bool { return o.price < 0 }))
}

func bruteCompare(rank []lapspan.Key, a, b *bruteOption) int {
	width := func(o *bruteOption) (sum units.Length) {
		for _, d := range o.doors {
			sum += d.Width
		}
		return sum
	}
	saws := func(o *bruteOption) int {
		if o.height.Method == doors.CutDown {
			return 2 * len(o.doors) // its two stiles
		}
		return 0
	}
	for _, key := range rank {
		c := 0
		switch key {
		case lapspan.BySure:
			if a.sure != b.sure {
				c = 1
				if a.sure {
					c = -1
				}
			}
		case lapspan.ByPrice:
			c = cmp.Compare(uint64(a.price), uint64(b.price)) // −1 comes last
		case lapspan.ByWidth:
			c = cmp.Compare(width(a), width(b))
		case lapspan.ByDoors:
			c = cmp.Compare(len(a.doors), len(b.doors))
		case lapspan.ByAccess:
			c = cmp.Compare(b.access, a.access)
		case lapspan.ByHeight:
			c = cmp.Compare(b.height.Door, a.height.Door)
		case lapspan.ByCuts:
			c = cmp.Compare(saws(a), saws(b))
		case lapspan.ByEven:
			c = a.uneven.Cmp(b.uneven)
		}
		if c != 0 {
			return c
		}
	}
	return cmp.Or(
		cmp.Compare(a.height.Method.Order(), b.height.Method.Order()), cmp.Compare(a.variant, b.variant), cmp.Compare(b.height.Stock, a.height.Stock),
		slices.CompareFunc(a.doors, b.doors, func(a, b doors.Door) int { return cmp.Compare(a.Width, b.Width) }),
		slices.CompareFunc(a.doors, b.doors, func(a, b doors.Door) int { return cmp.Compare(a.Track, b.Track) }),
	)
}

// check compares a plan's proposals with the best of all options, and its total
// with how many there are.
func (b *brute) check(t interface{ Fatalf(string, ...any) }, plan lapspan.Plan, counted bool) {
	if plan.Findings.Has(lapspan.CodeNotProven) {
		t.Fatalf("not proven")
	}
	if want := (lapspan.Total{Count: len(b.options), Exact: true}); counted && plan.Total != want {
		t.Fatalf("total %v, want %v", plan.Total, want)
	}
	want := b.options[:min(len(b.options), b.job.Limit)]
	if len(plan.Proposals) != len(want) {
		t.Fatalf("%d proposals, want %d of %d", len(plan.Proposals), len(want), len(b.options))
	}
	for i, p := range plan.Proposals {
		w := want[i]
		if fmt.Sprint(p.Doors, p.Height.Method, p.Height.Stock, p.Height.Door) != fmt.Sprint(w.doors, w.height.Method, w.height.Stock, w.height.Door) {
			t.Fatalf("by %v proposal %d of %d is %v %s %s as %s, want %v %s %s as %s", b.rank(), i, len(b.options),
				p.Doors, p.Height.Method, p.Height.Stock, p.Height.Door, w.doors, w.height.Method, w.height.Stock, w.height.Door)
		}
		if p.ClearWidth != w.clear || p.Access != w.access {
			t.Fatalf("proposal %d: access %s in %v, want %s in %v", i, p.Access, p.ClearWidth, w.access, w.clear)
		}
	}
}

// checkNear compares a plan's near misses with the nearest of all, a set of widths
// once for each treatment of the skirtings.
func (b *brute) checkNear(t interface{ Fatalf(string, ...any) }, plan lapspan.Plan) {
	var want []string
	var listed []bruteMiss
	for _, m := range b.misses {
		again := slices.ContainsFunc(listed, func(l bruteMiss) bool { return l.variant == m.variant && slices.Equal(l.set, m.set) })
		if again || len(listed) == 5 || len(b.options) > 0 && m.by > 50*mm {
			continue
		}
		listed = append(listed, m)
		want = append(want, fmt.Sprint(m.doors, m.by, m.stock))
	}
	var got []string
	for _, m := range plan.NearMisses {
		got = append(got, fmt.Sprint(m.Doors, m.By, m.StockHeight))
	}
	if !slices.Equal(got, want) {
		t.Fatalf("near misses\n%v\nwant\n%v", got, want)
	}
}
