package doors_test

import (
	"cmp"
	"context"
	"math/big"
	"slices"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// slowBest ranks every run of the plain enumeration.
func slowBest(t interface{ Fatal(...any) }, s doors.Search) []doors.Ranked {
	prices := map[units.Length]int64{}
	var sizes []doors.Size
	for _, o := range s.Widths {
		prices[o.Width] = o.Price
		sizes = append(sizes, doors.Size{Width: o.Width, Height: units.Metre})
	}
	wide := s.Wide
	if wide == (doors.Fit{}) {
		wide = s.Fit
	}
	gear := s.Gear
	gear.Allowance = doors.Target{Min: 1, Max: 2}
	var all []doors.Ranked
	for n := max(s.MinDoors, 2); n <= max(s.MaxDoors, 2); n++ {
		fit := s.Fit
		if n > 2 {
			fit = wide
		}
		candidates, err := doors.Candidates(context.Background(), doors.Query{
			Range:   doors.Range{Sizes: sizes, MaxDoors: n, MixedWidths: s.Mixed, Arrangement: s.Arrangement},
			Gear:    gear,
			Opening: fit.Span, SidesDiffer: s.SidesDiffer,
		})
		if err != nil {
			t.Fatal(err)
		}
		for c, err := range candidates {
			if err != nil {
				t.Fatal(err)
			}
			if c.Len() != n || !c.Closes() {
				continue
			}
			run, ok := c.Run()
			if !ok {
				continue
			}
			all = append(all, doors.Ranked{Run: run, Score: doors.Score{
				Sure:   c.Under >= fit.NarrowDoubt && c.Over >= fit.WideDoubt,
				Width:  c.Width(),
				Doors:  n,
				Access: run.Access(fit.Span.Min).Width(),
				Price:  slowPrice(s, c.Widths(), prices),
				Uneven: slowUneven(run, gear, fit.Span.Max),
			}})
		}
	}
	slices.SortFunc(all, func(a, b doors.Ranked) int { return slowCompare(a, b, s.Rank) })
	return all
}

// slowPrice adds the lines of an order up, rounding each with rational numbers.
func slowPrice(s doors.Search, widths []units.Length, prices map[units.Length]int64) int64 {
	count := map[units.Length]int64{}
	for _, w := range widths {
		if prices[w] == doors.Unpriced {
			return doors.Unpriced
		}
		count[w]++
	}
	sum := s.Fixed[len(widths)]
	for w, n := range count {
		line := n * prices[w]
		if s.PriceStep > 1 {
			steps := new(big.Rat).SetFrac64(line, s.PriceStep)
			twice := new(big.Rat).Mul(steps, big.NewRat(2, 1))
			floor := new(big.Int).Div(steps.Num(), steps.Denom()).Int64()
			switch new(big.Rat).Sub(twice, big.NewRat(2*floor, 1)).Cmp(big.NewRat(1, 1)) {
			case 1:
				floor++
			case 0:
				floor += floor % 2
			}
			line = floor * s.PriceStep
		}
		sum += line
	}
	return sum
}

// slowUneven looks at each door: what its neighbours nearer to the room hide of it.
func slowUneven(r doors.Run, g doors.Gear, opening units.Length) int64 {
	gap := units.Length(0)
	if g.MeetingGap != nil {
		gap = *g.MeetingGap
	}
	over := big.NewRat(int64(r.Width()+units.Length(r.Meetings())*gap-opening), int64(r.Overlaps()))
	var least, most *big.Rat
	for i, d := range r.Doors() {
		seen := big.NewRat(int64(d.Width), 1)
		for _, n := range []int{i - 1, i + 1} {
			if n >= 0 && n < r.Len() && r.At(n).Track < d.Track {
				seen.Sub(seen, over)
			}
		}
		if least == nil || seen.Cmp(least) < 0 {
			least = seen
		}
		if most == nil || seen.Cmp(most) > 0 {
			most = seen
		}
	}
	diff := new(big.Rat).Sub(most, least)
	return diff.Mul(diff, big.NewRat(doors.UnevenParts, 1)).Num().Int64()
}

func slowCompare(a, b doors.Ranked, rank []doors.Key) int {
	yes := map[bool]int{true: 0, false: 1}
	price := func(p int64) uint64 { return uint64(p) } // −1 becomes the largest
	for _, k := range rank {
		c := 0
		switch k {
		case doors.BySure:
			c = cmp.Compare(yes[a.Score.Sure], yes[b.Score.Sure])
		case doors.ByPrice:
			c = cmp.Compare(price(a.Score.Price), price(b.Score.Price))
		case doors.ByWidth:
			c = cmp.Compare(a.Score.Width, b.Score.Width)
		case doors.ByDoors:
			c = cmp.Compare(a.Score.Doors, b.Score.Doors)
		case doors.ByAccess:
			c = -cmp.Compare(a.Score.Access, b.Score.Access)
		case doors.ByEven:
			c = cmp.Compare(a.Score.Uneven, b.Score.Uneven)
		}
		if c != 0 {
			return c
		}
	}
	var aw, at, bw, bt []int64
	for _, d := range a.Run.Doors() {
		aw, at = append(aw, int64(d.Width)), append(at, int64(d.Track))
	}
	for _, d := range b.Run.Doors() {
		bw, bt = append(bw, int64(d.Width)), append(bt, int64(d.Track))
	}
	return cmp.Or(slices.Compare(aw, bw), slices.Compare(at, bt))
}

var allKeys = []doors.Key{doors.BySure, doors.ByPrice, doors.ByWidth, doors.ByDoors, doors.ByAccess, doors.ByEven}

// drawSearch draws a search small enough to enumerate, with every kind of range:
// steps of many sizes, gaps, prices alike, in bands, in proportion and at random.
func drawSearch(t *rapid.T) doors.Search {
	length := func(min, max int64, label string) units.Length {
		return units.Length(rapid.Int64Range(min, max).Draw(t, label))
	}
	unit := units.Length(rapid.SampledFrom([]int64{1, 1_000_000, 1_000_000, 5_000_000, 396_875, 7}).Draw(t, "unit"))
	s := doors.Search{
		Mixed:       rapid.IntRange(0, 5).Draw(t, "mixed") > 0,
		Arrangement: rapid.SampledFrom([]doors.Arrangement{"", doors.Alternate, doors.Stepped, doors.Any}).Draw(t, "arrangement"),
		SidesDiffer: rapid.Bool().Draw(t, "sides differ"),
		MinDoors:    rapid.IntRange(2, 3).Draw(t, "least doors"),
		Limit:       rapid.SampledFrom([]int{1, 2, 3, 10, 10, 50}).Draw(t, "limit"),
		PriceStep:   rapid.SampledFrom([]int64{0, 0, 1, 2, 10}).Draw(t, "price step"),
		Gear:        doors.Gear{Tracks: rapid.IntRange(2, 4).Draw(t, "tracks")},
	}
	s.MaxDoors = rapid.IntRange(s.MinDoors, 5).Draw(t, "most doors")
	if s.Arrangement == doors.Any {
		s.MaxDoors = max(s.MinDoors, min(s.MaxDoors, 4))
	}
	count := rapid.IntRange(1, 7).Draw(t, "widths")
	w := length(20, 60, "narrowest") * unit
	kind := rapid.IntRange(0, 4).Draw(t, "prices")
	for range count {
		o := doors.Offer{Width: w}
		switch kind {
		case 0:
			o.Price = 100
		case 1:
			o.Price = int64(w/unit) / 10 * 37
		case 2:
			o.Price = int64(w / unit)
		default:
			o.Price = rapid.Int64Range(-1, 30).Draw(t, "price")
		}
		s.Widths = append(s.Widths, o)
		w += unit * units.Length(rapid.SampledFrom([]int64{1, 1, 1, 2, 5, 20}).Draw(t, "step"))
	}
	s.Gear.Overlap.Min = length(0, 8, "least overlap") * unit
	s.Gear.Overlap.Max = s.Gear.Overlap.Min + length(1, 20, "overlap")*unit
	if rapid.Bool().Draw(t, "gaps") {
		s.Gear.MeetingGap = new(length(0, 4, "gap") * unit)
	}
	fit := func(label string) doors.Fit {
		var f doors.Fit
		f.Span.Min = length(40, 250, label) * unit
		f.Span.Max = f.Span.Min + length(0, 6, label+" more")*unit
		f.NarrowDoubt = length(0, 12, label+" doubt") * unit
		f.WideDoubt = length(0, 12, label+" doubt at the widest") * unit
		return f
	}
	s.Fit = fit("opening")
	if rapid.Bool().Draw(t, "leans") {
		s.Wide = fit("opening of many")
	}
	if rapid.IntRange(0, 4).Draw(t, "cannot pass") == 0 {
		s.Gear.Showing = length(1, 60, "showing") * unit
	}
	for n := range s.Fixed {
		s.Fixed[n] = int64(n) * rapid.SampledFrom([]int64{0, 0, 5}).Draw(t, "fixed")
	}
	s.Rank = rapid.Permutation(allKeys).Draw(t, "keys")[:rapid.IntRange(0, len(allKeys)).Draw(t, "ranked by")]
	switch rapid.IntRange(0, 5).Draw(t, "usual") {
	case 0:
		s.Rank = []doors.Key{doors.BySure, doors.ByPrice}
	case 1:
		s.Rank = []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}
	}
	return s
}

func bestProperty(t *rapid.T) { checkAgainstEveryRun(t, drawSearch(t)) }

// checkAgainstEveryRun compares the best runs of a search with every run there is.
func checkAgainstEveryRun(t *rapid.T, s doors.Search) {
	found, err := doors.Best(context.Background(), fewOrSearched(t, s))
	if err != nil {
		t.Fatal(err)
	}
	all := slowBest(t, s)
	want := all[:min(s.Limit, len(all))]
	if !found.Proven {
		t.Fatal("not proven")
	}
	if found.All != (len(all) <= s.Limit) {
		t.Errorf("All is %v of %d runs, %d wanted", found.All, len(all), s.Limit)
	}
	if diff := gocmp.Diff(want, found.Runs, gocmp.AllowUnexported(doors.Run{}), gocmp.Transformer("nil", func(r []doors.Ranked) []doors.Ranked {
		return append([]doors.Ranked{}, r...)
	})); diff != "" && len(want)+len(found.Runs) > 0 {
		t.Fatalf("of %d runs by %v (-want +got):\n%s", len(all), s.Rank, diff)
	}
}

// fewOrSearched lets most of the searches drawn do without looking at sets one by
// one, and some of these with exact bounds of the price throughout.
func fewOrSearched(t *rapid.T, s doors.Search) doors.Search {
	if steps := rapid.SampledFrom([]int{-1, 0, 1, 30}).Draw(t, "searched"); steps >= 0 {
		return doors.Searched(s, steps)
	}
	return s
}

func TestBestAgainstEveryRun(t *testing.T) { rapid.Check(t, bestProperty) }

func FuzzBest(f *testing.F) { f.Fuzz(rapid.MakeFuzz(bestProperty)) }

// However soon a search reaches its limit on work, what it says is proven is right.
func TestWhatIsProvenIsRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := fewOrSearched(t, drawSearch(t))
		found, err := doors.Best(context.Background(), doors.Limited(s, rapid.IntRange(1, 3000).Draw(t, "steps")))
		if err != nil {
			t.Fatal(err)
		}
		if !found.Proven {
			if found.All {
				t.Error("all there is, and not proven")
			}
			return
		}
		all := slowBest(t, s)
		if want := all[:min(s.Limit, len(all))]; len(want)+len(found.Runs) > 0 {
			if diff := gocmp.Diff(want, found.Runs, gocmp.AllowUnexported(doors.Run{})); diff != "" {
				t.Errorf("of %d runs by %v (-want +got):\n%s", len(all), s.Rank, diff)
			}
		}
	})
}
