package doors_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var sameRuns = gocmp.AllowUnexported(doors.Run{})

// checkLarge finds the best runs and checks what holds of each of them.
func checkLarge(t *testing.T, s doors.Search) doors.Found {
	t.Helper()
	found, err := doors.Best(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	if !found.Proven {
		t.Fatalf("%v: not proven", s.Rank)
	}
	for i, r := range found.Runs {
		if i > 0 && r.Compare(found.Runs[i-1], s.Rank) <= 0 {
			t.Errorf("run %d does not come after the one before", i)
		}
		if got := r.Run.Access(s.Fit.Span.Min).Width(); got != r.Score.Access {
			t.Errorf("access %s, scored %s", got, r.Score.Access)
		}
		if !r.Run.Stands(s.Gear, s.Fit.Span.Min) || r.Run.Cover(s.Gear) < s.Fit.Span.Max || r.Run.Least(s.Gear) > s.Fit.Span.Min {
			t.Errorf("%v does not close the opening", r.Run.Doors())
		}
	}
	return found
}

func TestBestOfManyWidths(t *testing.T) {
	if testing.Short() {
		t.Skip("a large search")
	}
	rng := rand.New(rand.NewPCG(3, 4))
	for _, kind := range rangeKinds {
		for _, prices := range priceKinds {
			t.Run(kind+" "+prices, func(t *testing.T) {
				offers := priced(prices, widthsOnSale(kind, 24, rng), rng)
				s := benchSearch(offers, 1000*mm+units.Length(rng.Int64N(1500))*mm)
				s.MaxDoors = 4
				want := slowBest(t, s)
				for _, rank := range [][]doors.Key{
					{doors.BySure, doors.ByPrice},
					{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess},
					{doors.ByAccess, doors.ByPrice},
				} {
					s.Rank = rank
					found := checkLarge(t, s)
					slices.SortFunc(want, func(a, b doors.Ranked) int { return slowCompare(a, b, rank) })
					if diff := gocmp.Diff(want[:min(10, len(want))], found.Runs, sameRuns); diff != "" && len(want) > 0 {
						t.Errorf("%v of %d runs (-want +got):\n%s", rank, len(want), diff)
					}
				}
			})
		}
	}
}

func TestBestStopsWithinTheContext(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	offers := priced("none", widthsOnSale("1 mm", 500, rng), rng)
	s := benchSearch(offers, 4137*mm)
	s.Rank = []doors.Key{doors.ByEven}
	s.Limit = doors.MaxFound
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Millisecond)
	defer cancel()
	began := time.Now()
	if _, err := doors.Best(ctx, s); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("got %v", err)
	}
	if took := time.Since(began); took > 20*time.Second { // far more than it takes, for slow machines
		t.Errorf("took %s", took)
	}
	cancel()
	if _, err := doors.Best(ctx, s); err == nil {
		t.Error("a context that was done before did not stop it")
	}
	if _, err := doors.Count(ctx, s); err == nil {
		t.Error("counting went on")
	}
}

func TestBestRefuses(t *testing.T) {
	sound := func() doors.Search {
		return benchSearch([]doors.Offer{{Width: 600 * mm, Price: 1}, {Width: 700 * mm, Price: doors.Unpriced}}, 1200*mm)
	}
	if _, err := doors.Best(context.Background(), sound()); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		place  string
		change func(s *doors.Search)
	}{
		{"doors.sizes", func(s *doors.Search) { s.Widths = nil }},
		{"doors.sizes", func(s *doors.Search) { s.Widths = make([]doors.Offer, doors.MaxWidths+1) }},
		{"doors.sizes[0].width", func(s *doors.Search) { s.Widths[0].Width = 0 }},
		{"doors.sizes[1].width", func(s *doors.Search) { s.Widths[1].Width = 600 * mm }},
		{"doors.sizes[0].price", func(s *doors.Search) { s.Widths[0].Price = -2 }},
		{"doors.sizes[0].price", func(s *doors.Search) { s.Widths[0].Price = doors.MaxPrice + 1 }},
		{"opening.widths", func(s *doors.Search) { s.Fit.Span.Min = 0 }},
		{"opening.widths", func(s *doors.Search) { s.Fit.Span.Max = 0 }},
		{"opening.widths", func(s *doors.Search) { s.Fit.Span.Min = s.Fit.Span.Max + 1 }},
		{"opening.accuracy", func(s *doors.Search) { s.Fit.NarrowDoubt = -1 }},
		{"opening.accuracy", func(s *doors.Search) { s.Fit.WideDoubt = -1 }},
		{"opening.widths", func(s *doors.Search) { s.Wide.Span.Min = 1 }},
		{"gear.tracks", func(s *doors.Search) { s.Gear.Tracks = 1 }},
		{"gear.tracks", func(s *doors.Search) { s.Gear.Tracks = 5 }},
		{"gear.overlap", func(s *doors.Search) { s.Gear.Overlap.Min = 71 * mm }},
		{"gear.meeting_gap", func(s *doors.Search) { s.Gear.MeetingGap = new(units.Length(-1)) }},
		{"doors.arrangement", func(s *doors.Search) { s.Arrangement = "scattered" }},
		{"doors.max_doors", func(s *doors.Search) { s.MinDoors = 1 }},
		{"doors.max_doors", func(s *doors.Search) { s.MaxDoors = 9 }},
		{"doors.max_doors", func(s *doors.Search) { s.MinDoors, s.MaxDoors = 4, 3 }},
		{"gear.parts", func(s *doors.Search) { s.Fixed[8] = -1 }},
		{"gear.parts", func(s *doors.Search) { s.Fixed[0] = doors.MaxFixed + 1 }},
		{"currency.digits", func(s *doors.Search) { s.PriceStep = -1 }},
		{"currency.digits", func(s *doors.Search) { s.PriceStep = doors.MaxPrice + 1 }},
		{"limit", func(s *doors.Search) { s.Limit = -1 }},
		{"limit", func(s *doors.Search) { s.Limit = doors.MaxFound + 1 }},
		{"rank[0]", func(s *doors.Search) { s.Rank = []doors.Key{"height"} }},
		{"rank[1]", func(s *doors.Search) { s.Rank = []doors.Key{doors.ByWidth, doors.ByWidth} }},
	} {
		s := sound()
		test.change(&s)
		var refused *opening.InputError
		if _, err := doors.Best(context.Background(), s); !errors.As(err, &refused) || refused.Place != test.place {
			t.Errorf("%s: got %v", test.place, err)
		}
		if _, err := doors.InOrder(context.Background(), s); test.place != "limit" && !errors.As(err, &refused) {
			t.Errorf("InOrder, %s: got %v", test.place, err)
		}
	}
}

// 300 widths without a common step coarser than a nanometre.
func TestHopelessRangeIsRefused(t *testing.T) {
	var offers []doors.Offer
	w := 300 * mm
	for i := range 300 {
		w += 5*mm + units.Length(i*i%977+1)
		offers = append(offers, doors.Offer{Width: w})
	}
	s := benchSearch(offers, 2400*mm)
	var refused *opening.InputError
	if _, err := doors.Best(context.Background(), s); !errors.As(err, &refused) || !strings.Contains(refused.Reason, "common step") {
		t.Errorf("got %v", err)
	}
	s.MaxDoors = 2 // few enough to look at one by one
	found, err := doors.Best(context.Background(), s)
	if err != nil || !found.Proven {
		t.Errorf("two doors: %v", err)
	}
	want := slowBest(t, s)
	if diff := gocmp.Diff(want[:min(10, len(want))], found.Runs, sameRuns); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func orderedProperty(t *rapid.T) {
	s := drawSearch(t)
	all := slowBest(t, s)
	total, err := doors.Count(context.Background(), fewOrSearched(t, s))
	if err != nil {
		t.Fatal(err)
	}
	if total.Exact && total.Count != int64(len(all)) || !total.Exact && total.Count > int64(len(all)) {
		t.Errorf("counted %v, there are %d", total, len(all))
	}
	if s.Gear.Showing == 0 && s.Widths[0].Width >= 2*s.Gear.Overlap.Max && !total.Exact {
		t.Error("the count is not exact")
	}
	draw := rapid.IntRange(0, len(all)+1).Draw(t, "drawn")
	seq, err := doors.InOrder(context.Background(), fewOrSearched(t, s))
	if err != nil {
		t.Fatal(err)
	}
	got := []doors.Ranked{}
	if draw > 0 {
		for r, err := range seq {
			if err != nil {
				t.Fatal(err)
			}
			if got = append(got, r); len(got) == draw {
				break
			}
		}
	}
	if diff := gocmp.Diff(append([]doors.Ranked{}, all[:min(draw, len(all))]...), got, sameRuns); diff != "" {
		t.Errorf("the first %d of %d by %v (-want +got):\n%s", draw, len(all), s.Rank, diff)
	}
}

func TestInOrderAndCount(t *testing.T) { rapid.Check(t, orderedProperty) }

func tableProperty(t *rapid.T) {
	s := drawSearch(t)
	from := s.Fit.Span.Min
	step := s.Widths[0].Width/10 + 1
	rows, err := doors.Table(context.Background(), fewOrSearched(t, s), units.Span{Min: from, Max: from + 5*step - 1}, step)
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 5 {
		t.Fatalf("%d rows", len(rows))
	}
	for i, row := range rows {
		one := s
		one.Wide = doors.Fit{}
		one.Fit.Span = units.Span{Min: from + units.Length(i)*step, Max: from + units.Length(i)*step}
		want := doors.TableRow{Opening: one.Fit.Span.Min}
		if all := slowBest(t, one); len(all) > 0 {
			want.Fits, want.Best = true, all[0]
		}
		if diff := gocmp.Diff(want, row, sameRuns); diff != "" {
			t.Errorf("-want +got:\n%s", diff)
		}
	}
}

func TestTableAgainstEveryRun(t *testing.T) { rapid.Check(t, tableProperty) }

func TestTableRefuses(t *testing.T) {
	s := benchSearch([]doors.Offer{{Width: 600 * mm}}, 1200*mm)
	for name, table := range map[string]func() error{
		"no step": func() error {
			_, err := doors.Table(context.Background(), s, s.Fit.Span, 0)
			return err
		},
		"too many rows": func() error {
			_, err := doors.Table(context.Background(), s, units.Span{Min: 1, Max: units.MaxPieces + 1}, 1)
			return err
		},
		"no widths": func() error {
			_, err := doors.Table(context.Background(), doors.Search{}, s.Fit.Span, mm)
			return err
		},
	} {
		var refused *opening.InputError
		if err := table(); !errors.As(err, &refused) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	if rows, err := doors.Table(context.Background(), s, units.Span{Min: 1, Max: units.MaxPieces}, 1); err != nil || len(rows) != units.MaxPieces {
		t.Errorf("as many rows as can be: %d, %v", len(rows), err)
	}
}

// Nothing is kept for each run looked at: ten times the sets take no more memory.
func TestBestAllocatesNothingARun(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for _, rank := range [][]doors.Key{{doors.BySure, doors.ByPrice}, {doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}} {
		var count []float64
		for _, m := range []int{30, 60, 240} {
			s := benchSearch(priced("rising", widthsOnSale("5 mm", m, rng), rng), 3000*mm)
			s.Rank = rank
			count = append(count, testing.AllocsPerRun(5, func() { doors.Best(context.Background(), s) }))
		}
		if slices.Max(count) > 400 {
			t.Errorf("%v: %v allocations", rank, count)
		}
	}
}

func TestBestSameAnswer(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	s := benchSearch(priced("bands", widthsOnSale("gaps", 60, rng), rng), 3333*mm)
	s.Arrangement, s.Gear.Tracks = doors.Any, 3
	want := checkLarge(t, s)
	for range 20 {
		if diff := gocmp.Diff(want, checkLarge(t, s), sameRuns); diff != "" {
			t.Fatal(diff)
		}
	}
}
