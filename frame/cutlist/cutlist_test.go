package cutlist_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

const mm = units.Millimetre

// A rank is what plans are ordered by.
type rank struct {
	cost   int64
	bars   int
	offcut units.Length
}

func (r rank) better(o rank) bool {
	if r.cost != o.cost {
		return r.cost < o.cost
	}
	if r.bars != o.bars {
		return r.bars < o.bars
	}
	return r.offcut > o.offcut
}

func rankOf(p cutlist.Plan) rank {
	r := rank{cost: p.Cost, bars: len(p.Bars)}
	for _, b := range p.Bars {
		r.offcut = max(r.offcut, b.Offcut)
	}
	return r
}

func kerfOf(job cutlist.Job) units.Length {
	if job.Kerf == nil {
		return 4 * mm
	}
	return *job.Kerf
}

func price(job cutlist.Job, s int) int64 {
	if p := job.Stock[s].Price; p != nil {
		n, err := p.TenThousandths()
		if err != nil {
			panic(err)
		}
		return n
	}
	return int64(job.Stock[s].Length)
}

// oracle returns the best rank over every way to put the pieces into bars and to buy these, with no
// cleverness at all; ok is false where there is none.
func oracle(job cutlist.Job) (best rank, ok bool) {
	kerf := kerfOf(job)
	var pieces []units.Length
	for _, p := range job.Pieces {
		for range p.Count {
			pieces = append(pieces, p.Length)
		}
	}
	var groups [][]units.Length
	used := make([]int, len(job.Stock))
	var buy func(g int, r rank)
	buy = func(g int, r rank) {
		if g == len(groups) {
			if !ok || r.better(best) {
				best, ok = r, true
			}
			return
		}
		for s, stock := range job.Stock {
			over := stock.Length - job.EndTrim - kerf*units.Length(len(groups[g])-1)
			for _, l := range groups[g] {
				over -= l
			}
			if over < 0 || stock.Count > 0 && used[s] == stock.Count {
				continue
			}
			used[s]++
			buy(g+1, rank{r.cost + price(job, s), r.bars + 1, max(r.offcut, over-kerf)})
			used[s]--
		}
	}
	var put func(i int)
	put = func(i int) {
		if i == len(pieces) {
			buy(0, rank{})
			return
		}
		for g := range groups {
			groups[g] = append(groups[g], pieces[i])
			put(i + 1)
			groups[g] = groups[g][:len(groups[g])-1]
		}
		groups = append(groups, []units.Length{pieces[i]})
		put(i + 1)
		groups = groups[:len(groups)-1]
	}
	put(0)
	return best, ok
}

// breaks returns what is wrong with plan as a plan of job, or "".
func breaks(job cutlist.Job, plan cutlist.Plan) string {
	kerf := kerfOf(job)
	cut := make([]int, len(job.Pieces))
	used := make([]int, len(job.Stock))
	cost := int64(0)
	for i, b := range plan.Bars {
		used[b.Stock]++
		cost += price(job, b.Stock)
		over := job.Stock[b.Stock].Length - job.EndTrim + kerf
		if len(b.Pieces) == 0 {
			return fmt.Sprintf("bar %d holds nothing", i)
		}
		for k, p := range b.Pieces {
			cut[p]++
			over -= job.Pieces[p].Length + kerf
			if k > 0 && job.Pieces[p].Length > job.Pieces[b.Pieces[k-1]].Length {
				return fmt.Sprintf("bar %d is not longest first", i)
			}
		}
		if over < 0 {
			return fmt.Sprintf("bar %d is overfilled by %v", i, -over)
		}
		if want := max(0, over-kerf); b.Offcut != want {
			return fmt.Sprintf("bar %d: offcut %v, not %v", i, b.Offcut, want)
		}
		if i > 0 && b.Stock < plan.Bars[i-1].Stock {
			return "the bars are not in the order of the stock"
		}
	}
	for i, n := range cut {
		if n != job.Pieces[i].Count {
			return fmt.Sprintf("pieces[%d]: %d cut, not %d", i, n, job.Pieces[i].Count)
		}
	}
	for s, n := range used {
		if k := job.Stock[s].Count; k > 0 && n > k {
			return fmt.Sprintf("stock[%d]: %d bars used of %d", s, n, k)
		}
	}
	switch {
	case cost != plan.Cost:
		return fmt.Sprintf("cost %d, not %d", plan.Cost, cost)
	case plan.Bound > plan.Cost:
		return fmt.Sprintf("bound %d above cost %d", plan.Bound, plan.Cost)
	case plan.Proven != (plan.Bound == plan.Cost):
		return fmt.Sprintf("proven %v, cost %d, bound %d", plan.Proven, plan.Cost, plan.Bound)
	}
	return ""
}

// drawJob draws a job of at most so many pieces, lengths and stock lines, on a grid of 1 mm.
func drawJob(t *rapid.T, pieces, lengths, lines int) cutlist.Job {
	draw := func(lo, hi int, name string) units.Length {
		return units.Length(rapid.IntRange(lo, hi).Draw(t, name)) * mm
	}
	job := cutlist.Job{EndTrim: draw(0, 20, "end trim")}
	if rapid.Bool().Draw(t, "own kerf") {
		job.Kerf = new(draw(0, 6, "kerf"))
	}
	priced := rapid.Bool().Draw(t, "priced")
	for range rapid.IntRange(1, lines).Draw(t, "lines") {
		s := cutlist.Stock{Length: draw(100, 400, "stock"), Count: rapid.IntRange(0, 3).Draw(t, "bars")}
		if priced {
			s.Price = new(units.MoneyOfTenThousandths(int64(rapid.IntRange(0, 8).Draw(t, "price")) * 5000))
		}
		job.Stock = append(job.Stock, s)
	}
	left := rapid.IntRange(1, pieces).Draw(t, "pieces")
	for k := rapid.IntRange(1, lengths).Draw(t, "lengths"); left > 0; k-- {
		n := left
		if k > 1 {
			n = rapid.IntRange(1, left).Draw(t, "of one length")
		}
		job.Pieces = append(job.Pieces, cutlist.Piece{Length: draw(20, 250, "length"), Count: n})
		left -= n
	}
	return job
}

// property is everything that holds for the plan of a job small enough for the oracle.
func property(t *rapid.T) {
	job := drawJob(t, 6, 6, 3)
	want, ok := oracle(job)
	for _, opts := range []cutlist.Options{{}, {Certify: true}} {
		plan, err := cutlist.Cut(context.Background(), job, opts)
		if !ok {
			if !errors.Is(err, cutlist.ErrStockShort) && !errors.Is(err, cutlist.ErrTooLong) {
				t.Fatalf("%+v: error %v where there is no plan", opts, err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("%+v: %v", opts, err)
		}
		if wrong := breaks(job, plan); wrong != "" {
			t.Fatalf("%+v: %s: %+v", opts, wrong, plan)
		}
		if !plan.Proven || plan.Cost != want.cost {
			t.Fatalf("%+v: %+v, the least cost is %d", opts, plan, want.cost)
		}
		if opts.Certify {
			if got := certified(job, plan.Certificate, 0, nil); got < plan.Bound {
				t.Fatalf("the certificate proves %d, not %d", got, plan.Bound)
			}
			continue
		}
		if got := rankOf(plan); got != want {
			t.Fatalf("%+v, not %+v", got, want)
		}
	}
}

func TestSmallJobs(t *testing.T) { rapid.Check(t, property) }

func FuzzSmallJobs(f *testing.F) { f.Fuzz(rapid.MakeFuzz(property)) }

// invariants hold for jobs too large for the oracle.
func invariants(t *rapid.T) {
	job := drawJob(t, 40, 12, 5)
	opts := cutlist.Options{Work: int64(rapid.IntRange(1, 3_000_000).Draw(t, "work"))}
	plan, err := cutlist.Cut(context.Background(), job, opts)
	if err != nil {
		if errors.Is(err, cutlist.ErrTooLong) || errors.Is(err, cutlist.ErrStockShort) || errors.Is(err, cutlist.ErrNoPlan) {
			return
		}
		t.Fatal(err)
	}
	if wrong := breaks(job, plan); wrong != "" {
		t.Fatalf("%s: %+v", wrong, plan)
	}
	again, err := cutlist.Cut(context.Background(), job, opts)
	if err != nil || !reflect.DeepEqual(plan, again) {
		t.Fatalf("a second run differs: %+v, %+v, %v", plan, again, err)
	}
	// One more line of stock, without a limit.
	more := job
	more.Stock = append(append([]cutlist.Stock{}, job.Stock...), cutlist.Stock{Length: 333 * mm})
	if job.Stock[0].Price != nil {
		more.Stock[len(job.Stock)].Price = new(units.MoneyOfTenThousandths(12_500))
	}
	larger, err := cutlist.Cut(context.Background(), more, opts)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Proven && larger.Bound > plan.Cost || larger.Proven && larger.Cost > plan.Cost {
		t.Fatalf("more stock is dearer: %d to %d, was %d to %d", larger.Bound, larger.Cost, plan.Bound, plan.Cost)
	}
}

func TestInvariants(t *testing.T) { rapid.Check(t, invariants) }

func FuzzInvariants(f *testing.F) { f.Fuzz(rapid.MakeFuzz(invariants)) }

func TestCutByHand(t *testing.T) {
	money := func(s string) *units.Money { return new(units.MustMoney(s)) }
	none := new(units.Length(0))
	for _, test := range []struct {
		id   string
		job  cutlist.Job
		want rank
	}{
		{"two pieces fill a bar but for one cut", cutlist.Job{
			Stock:  []cutlist.Stock{{Length: 2004 * mm}},
			Pieces: []cutlist.Piece{{Length: 1000 * mm, Count: 2}},
		}, rank{int64(2004 * mm), 1, 0}},
		{"a nanometre short of the cut", cutlist.Job{
			Stock:  []cutlist.Stock{{Length: 2004*mm - 1}},
			Pieces: []cutlist.Piece{{Length: 1000 * mm, Count: 2}},
		}, rank{2 * int64(2004*mm-1), 2, 1000*mm - 1}},
		{"end trim comes off each bar once", cutlist.Job{
			EndTrim: 10 * mm,
			Stock:   []cutlist.Stock{{Length: 2014 * mm}},
			Pieces:  []cutlist.Piece{{Length: 1000 * mm, Count: 2}},
		}, rank{int64(2014 * mm), 1, 0}},
		{"the offcut pays its cut", cutlist.Job{
			Stock:  []cutlist.Stock{{Length: 2000 * mm}},
			Pieces: []cutlist.Piece{{Length: 1500 * mm, Count: 1}},
		}, rank{int64(2000 * mm), 1, 496 * mm}},
		{"a remnant shorter than the kerf is sawdust", cutlist.Job{
			Stock:  []cutlist.Stock{{Length: 2000 * mm}},
			Pieces: []cutlist.Piece{{Length: 1997 * mm, Count: 1}},
		}, rank{int64(2000 * mm), 1, 0}},
		{"an offcut that is paid for is used first", cutlist.Job{
			Stock:  []cutlist.Stock{{Length: 3000 * mm, Price: money("9.60")}, {Length: 1000 * mm, Price: money("0"), Count: 1}},
			Pieces: []cutlist.Piece{{Length: 900 * mm, Count: 4}},
		}, rank{96_000, 2, 3000*mm - 3*904*mm}},
		{"of equally cheap plans the one with fewer bars", cutlist.Job{
			Kerf:   none,
			Stock:  []cutlist.Stock{{Length: 1000 * mm, Price: money("1")}, {Length: 2000 * mm, Price: money("2")}},
			Pieces: []cutlist.Piece{{Length: 1000 * mm, Count: 2}},
		}, rank{20_000, 1, 0}},
		{"of as many bars the one with the longest offcut", cutlist.Job{
			// 600 + 300 and 500 + 100 leave 100 and 400; 600 + 300 + 100 and 500 leave 0 and 500.
			Kerf:  none,
			Stock: []cutlist.Stock{{Length: 1000 * mm}},
			Pieces: []cutlist.Piece{
				{Length: 600 * mm, Count: 1}, {Length: 500 * mm, Count: 1},
				{Length: 300 * mm, Count: 1}, {Length: 100 * mm, Count: 1},
			},
		}, rank{int64(2000 * mm), 2, 500 * mm}},
		{"first fit alone needs a bar more", cutlist.Job{
			// Longest first gives 45+40, 35+30+25 and 25; but 45+30+25 and 40+35+25 fill two bars.
			Kerf:  none,
			Stock: []cutlist.Stock{{Length: 100 * mm}},
			Pieces: []cutlist.Piece{
				{Length: 45 * mm, Count: 1}, {Length: 40 * mm, Count: 1}, {Length: 35 * mm, Count: 1},
				{Length: 30 * mm, Count: 1}, {Length: 25 * mm, Count: 2},
			},
		}, rank{int64(200 * mm), 2, 0}},
	} {
		t.Run(test.id, func(t *testing.T) {
			for _, certify := range []bool{false, true} {
				plan, err := cutlist.Cut(context.Background(), test.job, cutlist.Options{Certify: certify})
				if err != nil {
					t.Fatal(err)
				}
				if wrong := breaks(test.job, plan); wrong != "" {
					t.Fatal(wrong)
				}
				if got := rankOf(plan); got != test.want || !plan.Proven {
					t.Errorf("certify %v: %+v proven %v, want %+v", certify, got, plan.Proven, test.want)
				}
			}
		})
	}
}

func TestErrors(t *testing.T) {
	money := new(units.MustMoney("1"))
	stock := []cutlist.Stock{{Length: 2000 * mm}}
	pieces := []cutlist.Piece{{Length: 100 * mm, Count: 1}}
	for _, test := range []struct {
		id    string
		job   cutlist.Job
		work  int64
		want  error
		place string
	}{
		{"no stock", cutlist.Job{Pieces: pieces}, 0, cutlist.ErrNoStock, "stock:"},
		{"kerf below zero", cutlist.Job{Kerf: new(-mm), Stock: stock, Pieces: pieces}, 0, cutlist.ErrAllowance, "kerf:"},
		{"kerf beyond measure", cutlist.Job{Kerf: new(units.MaxLength + 1), Stock: stock, Pieces: pieces}, 0, cutlist.ErrAllowance, "kerf:"},
		{"end trim below zero", cutlist.Job{EndTrim: -1, Stock: stock, Pieces: pieces}, 0, cutlist.ErrAllowance, "end_trim:"},
		{"end trim beyond measure", cutlist.Job{EndTrim: units.MaxLength + 1, Stock: stock, Pieces: pieces}, 0, cutlist.ErrAllowance, "end_trim:"},
		{"stock without length", cutlist.Job{Stock: []cutlist.Stock{{}}, Pieces: pieces}, 0, cutlist.ErrLength, "stock[0].length:"},
		{"stock beyond measure", cutlist.Job{Stock: []cutlist.Stock{{Length: units.MaxLength + 1}}, Pieces: pieces}, 0, cutlist.ErrLength, "stock[0].length:"},
		{"stock count below zero", cutlist.Job{Stock: []cutlist.Stock{{Length: mm, Count: -1}}, Pieces: pieces}, 0, cutlist.ErrCount, "stock[0].count:"},
		{"second line not priced", cutlist.Job{Stock: []cutlist.Stock{{Length: mm, Price: money}, {Length: mm}}, Pieces: pieces}, 0, cutlist.ErrPrices, "stock[1].price:"},
		{"first line not priced", cutlist.Job{Stock: []cutlist.Stock{{Length: mm}, {Length: mm, Price: money}}, Pieces: pieces}, 0, cutlist.ErrPrices, "stock[1].price:"},
		{"price below zero", cutlist.Job{Stock: []cutlist.Stock{{Length: mm, Price: new(units.MoneyOfTenThousandths(-1))}}, Pieces: pieces}, 0, cutlist.ErrPrice, "stock[0].price:"},
		{"price beyond measure", cutlist.Job{Stock: []cutlist.Stock{{Length: mm, Price: new(units.MoneyOfTenThousandths(1e13 + 1))}}, Pieces: pieces}, 0, cutlist.ErrPrice, "stock[0].price:"},
		{"stock lines", cutlist.Job{Stock: make([]cutlist.Stock, cutlist.MaxStock+1), Pieces: pieces}, 0, cutlist.ErrTooMany, "stock:"},
		{"piece lines", cutlist.Job{Stock: stock, Pieces: make([]cutlist.Piece, cutlist.MaxPieces+1)}, 0, cutlist.ErrTooMany, "pieces:"},
		{"piece without length", cutlist.Job{Stock: stock, Pieces: []cutlist.Piece{{Count: 1}}}, 0, cutlist.ErrLength, "pieces[0].length:"},
		{"piece beyond measure", cutlist.Job{Stock: stock, Pieces: []cutlist.Piece{{Length: units.MaxLength + 1, Count: 1}}}, 0, cutlist.ErrLength, "pieces[0].length:"},
		{"piece without count", cutlist.Job{Stock: stock, Pieces: []cutlist.Piece{{Length: mm}}}, 0, cutlist.ErrCount, "pieces[0].count:"},
		{"pieces in all", cutlist.Job{Stock: stock, Pieces: []cutlist.Piece{{Length: mm, Count: 1}, {Length: mm, Count: cutlist.MaxPieces}}}, 0, cutlist.ErrTooMany, "pieces[1].count:"},
		{"piece too long", cutlist.Job{EndTrim: 1, Stock: stock, Pieces: []cutlist.Piece{{Length: mm, Count: 1}, {Length: 2000 * mm, Count: 1}}}, 0, cutlist.ErrTooLong, "pieces[1].length:"},
		{"bars used up", cutlist.Job{Stock: []cutlist.Stock{{Length: 2000 * mm, Count: 1}}, Pieces: []cutlist.Piece{{Length: 1000 * mm, Count: 2}}}, 0, cutlist.ErrStockShort, "stock:"},
		{"work below zero", cutlist.Job{Stock: stock, Pieces: pieces}, -1, cutlist.ErrWork, "work:"},
	} {
		t.Run(test.id, func(t *testing.T) {
			plan, err := cutlist.Cut(context.Background(), test.job, cutlist.Options{Work: test.work})
			if !errors.Is(err, test.want) || !strings.HasPrefix(err.Error(), test.place) {
				t.Errorf("%v, want %s %v", err, test.place, test.want)
			}
			if !reflect.DeepEqual(plan, cutlist.Plan{}) {
				t.Errorf("a plan beside the error: %+v", plan)
			}
		})
	}
}

func TestLimitsOfAJob(t *testing.T) {
	job := cutlist.Job{
		Kerf:   new(units.MaxLength),
		Stock:  []cutlist.Stock{{Length: units.MaxLength}},
		Pieces: []cutlist.Piece{{Length: units.MaxLength, Count: cutlist.MaxPieces}},
	}
	plan, err := cutlist.Cut(context.Background(), job, cutlist.Options{})
	if err != nil || !plan.Proven || len(plan.Bars) != cutlist.MaxPieces || plan.Cost != int64(units.MaxLength)*cutlist.MaxPieces {
		t.Errorf("%d bars, cost %d, proven %v, %v", len(plan.Bars), plan.Cost, plan.Proven, err)
	}
}

func TestNoPieces(t *testing.T) {
	plan, err := cutlist.Cut(context.Background(), cutlist.Job{}, cutlist.Options{})
	if err != nil || !reflect.DeepEqual(plan, cutlist.Plan{Proven: true}) {
		t.Errorf("%+v, %v", plan, err)
	}
}

// TestContext stops a job that takes far longer to settle.
func TestContext(t *testing.T) {
	job := fullBars(40, 1)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	plan, err := cutlist.Cut(ctx, job, cutlist.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if wrong := breaks(job, plan); wrong != "" {
		t.Error(wrong)
	}
	if plan.Bound < 38*int64(6000*mm) {
		t.Errorf("bound %d is not even that by material", plan.Bound)
	}
	ctx, cancel = context.WithTimeout(context.Background(), 20*time.Millisecond)
	defer cancel()
	done := make(chan struct{})
	go func() {
		defer close(done)
		plan, err = cutlist.Cut(ctx, job, cutlist.Options{Work: 1 << 60})
	}()
	select {
	case <-done:
	case <-time.After(5 * time.Second): // generous: only a search that does not stop takes so long
		t.Fatal("still running")
	}
	if err != nil {
		t.Fatal(err)
	}
	if wrong := breaks(job, plan); wrong != "" {
		t.Error(wrong)
	}
}

func TestManyAtOnce(t *testing.T) {
	job := fullBars(8, 3)
	want, err := cutlist.Cut(context.Background(), job, cutlist.Options{Certify: true})
	if err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			got, err := cutlist.Cut(context.Background(), job, cutlist.Options{Certify: true})
			if err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("another plan: %v", err)
			}
		})
	}
	all.Wait()
}
