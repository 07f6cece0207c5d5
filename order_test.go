package lapspan_test

import (
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

func price(text string) *units.Money { return new(units.MustMoney(text)) }

// shop is a room whose order can be worked out by hand: clear 2396 to 2400 ×
// 2300, four doors of 650.
func shop() lapspan.Job {
	job := room()
	job.Gear.Track = &doors.Profile{Lengths: []doors.StockLength{{Length: 2400 * mm, Price: price("40")}, {Length: 3000 * mm, Price: price("39.99")}}}
	job.Gear.Rail = &doors.Profile{Lengths: []doors.StockLength{{Length: 2393 * mm, Price: price("21")}, {Length: 2392 * mm, Price: price("20")}}, Clearance: new(3 * mm)}
	job.Gear.Parts = []doors.Part{
		{Item: "wheel", Per: doors.PerDoor, Count: 2, Price: price("3.333")},
		{Item: "stop", Per: doors.PerRun, Count: 1, Price: price("1.005")},
		{Item: "seal", Per: doors.PerJunction, Count: 1, Price: price("0.125")},
	}
	return job
}

func propose(t *testing.T, job lapspan.Job) lapspan.Plan {
	t.Helper()
	plan, err := lapspan.Propose(t.Context(), job)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func first(t *testing.T, job lapspan.Job) lapspan.Proposal {
	t.Helper()
	plan := propose(t, job)
	if len(plan.Proposals) == 0 {
		t.Fatal("no proposal")
	}
	return plan.Proposals[0]
}

func TestOrder(t *testing.T) {
	got := first(t, shop())
	want := []lapspan.OrderLine{
		{Item: "door", Size: "650 × 2200 mm", Count: 4, Price: "380.00"},
		{Item: "track", Size: "3000 mm", Count: 1, Price: "39.99"},              // cheaper than the shorter bar
		{Item: "rail", Size: "2393 mm", Count: 1, Price: "21.00"},               // 2396 − 3 fits to the millimetre
		{Item: "wheel", Count: 8, Price: "26.66"},                               // 8 × 3.333 = 26.664
		{Item: "stop", Count: 1, Price: "1.00"},                                 // 1.005, half to even
		{Item: "seal", Count: 3, Price: "0.38"},                                 // 0.375, half to even
		{Item: "packer board 70 mm", Size: "2396 mm", Count: 1, Price: "14.86"}, // 6.20 × 2.396 = 14.8552
	}
	if diff := cmp.Diff(want, got.Order); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
	if want := "483.89"; got.Price != want {
		t.Errorf("price %s, want %s", got.Price, want)
	}
}

func TestOrderInACurrencyWithoutMinorUnit(t *testing.T) {
	job := shop()
	job.Currency.Digits = new(0)
	got := first(t, job)
	var prices []string
	for _, line := range got.Order {
		prices = append(prices, line.Price)
	}
	if diff := cmp.Diff([]string{"380", "40", "21", "27", "1", "0", "15"}, prices); diff != "" {
		t.Errorf("prices (-want +got):\n%s", diff)
	}
	if got.Price != "484" {
		t.Errorf("price %s, want 484", got.Price)
	}
}

func TestOrderOfWhatTheRoomNeeds(t *testing.T) {
	job := shop()
	job.Opening.Skirting = opening.Sides{
		Left:  &opening.Skirting{Thickness: 18 * mm, Height: 100 * mm, Treatment: opening.EndPanel},
		Right: &opening.Skirting{Thickness: 18 * mm, Height: 100 * mm, Treatment: opening.EndPanel},
	}
	job.Opening.EndPanel = 22 * mm
	job.Opening.Depths = []opening.Depth{{Size: 600 * mm}, {At: 2400 * mm, Size: 610 * mm}}
	job.Opening.CarpetToCome = 9 * mm
	for i := range job.Opening.Heights {
		job.Opening.Heights[i].Size = 2300 * mm
	}
	job.Interior, job.Gear.Depth = &lapspan.Interior{Depth: 480 * mm}, 70*mm
	job.Doors.Sizes[0].Width = 640 * mm
	job.Boards[0].Thickness = 61 * mm
	job.Sundries = lapspan.Sundries{EndPanel: price("50"), Strip: price("2")}
	got := first(t, job)
	// 2396 − 2 × 22 = 2352 clear, both ends plumb; 2300 − 9 = 2291 high. The panels
	// reach from the back wall to the front of the track, 480 + 40 + 70, with 10
	// left on to scribe at the back and at the top.
	want := []lapspan.OrderLine{
		{Item: "end panel 22 mm", Size: "600 × 2301 mm", Count: 2, Price: "100.00"},
		{Item: "strip under the rail 9 mm", Size: "2352 mm", Count: 1, Price: "4.70"},
	}
	if diff := cmp.Diff(want, got.Order[len(got.Order)-2:]); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
	if got.ClearHeight != 2291*mm || got.ClearWidth != (units.Span{Min: 2352 * mm, Max: 2352 * mm}) {
		t.Errorf("clear %v × %v", got.ClearWidth, got.ClearHeight)
	}
}

func TestOrderBuysWholeBarsOfTimber(t *testing.T) {
	job := shop()
	job.Boards = nil
	job.Doors.Sizes[0].Height = 2000 * mm
	job.Timber = &doors.Timber{
		Thickness: 47 * mm, Width: 72 * mm,
		Lengths: []doors.StockLength{{Length: 2400 * mm, Price: price("8")}, {Length: 4800 * mm, Price: price("15.50")}},
	}
	got := first(t, job)
	// Gap 2300 − 2000 − 25 = 275: two plates of 2396 and four studs of 181. The plates
	// fill a bar each of 2400, or 2396 + 4 + 2396 = 4796 one of 4800; the studs take
	// one more: 8 + 15.50 beats 3 × 8.
	last := got.Order[len(got.Order)-2:]
	want := []lapspan.OrderLine{
		{Item: "timber 47 × 72 mm", Size: "2400 mm", Count: 1, Price: "8.00"},
		{Item: "timber 47 × 72 mm", Size: "4800 mm", Count: 1, Price: "15.50"},
	}
	if diff := cmp.Diff(want, last); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
	if n := len(got.Bulkhead.Studs); n != 4 || got.Bulkhead.Studs[0].Length != 181*mm {
		t.Errorf("%d studs of %v", n, got.Bulkhead.Studs[0].Length)
	}
}

func TestOrderOfATrackInPieces(t *testing.T) {
	job := shop()
	job.Gear.Track.Lengths = []doors.StockLength{{Length: 1200 * mm, Price: price("10")}, {Length: 900 * mm, Price: price("9")}}
	got := first(t, job)
	// 2393 needs two bars of 1200: 1200 + 1193.
	if diff := cmp.Diff(lapspan.OrderLine{Item: "track", Size: "1200 mm", Count: 2, Price: "20.00"}, got.Order[1]); diff != "" {
		t.Errorf("track (-want +got):\n%s", diff)
	}
	if !got.Findings.Has(lapspan.CodeJoint) {
		t.Errorf("no finding of a joint: %v", got.Findings)
	}
}

// The price that ranks a proposal is the sum of the lines it is ordered by.
func TestPriceIsTheSumOfTheOrder(t *testing.T) {
	job := shop()
	job.Doors.MixedWidths = true
	job.Doors.Sizes = nil
	for i := range 6 {
		for _, h := range []units.Length{2000, 2200} {
			job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{
				Width: units.Length(550+45*i) * mm, Height: h * mm, Price: new(units.MoneyOfTenThousandths(int64(901111 + 71237*i))),
			})
		}
	}
	job.Doors.MadeToMeasure = &doors.MadeToMeasure{
		Width: units.Span{Min: 400 * mm, Max: 900 * mm}, Height: units.Span{Min: 1500 * mm, Max: 2600 * mm}, Price: price("61.4321"),
	}
	job.Boards = append(job.Boards, doors.Board{Thickness: 18 * mm, Price: price("1.1111")})
	job.Timber = &doors.Timber{Thickness: 47 * mm, Width: 72 * mm, Lengths: []doors.StockLength{{Length: 2400 * mm, Price: price("8.1234")}}}
	job.Limit = lapspan.MaxLimit
	plan := propose(t, job)
	if len(plan.Proposals) < 20 {
		t.Fatalf("only %d proposals", len(plan.Proposals))
	}
	before := units.Money{}
	for i, p := range plan.Proposals {
		sum := units.Money{}
		for _, line := range p.Order {
			sum = sum.Add(units.MustMoney(line.Price))
		}
		if !sum.Equal(units.MustMoney(p.Price)) {
			t.Errorf("proposal %d: %s, its lines sum to %s", i, p.Price, sum)
		}
		// The default rank of a fully priced job: sure first, then price.
		if i > 0 && p.Findings.Has(lapspan.CodeMeasureAgain) == plan.Proposals[i-1].Findings.Has(lapspan.CodeMeasureAgain) && sum.Cmp(before) < 0 {
			t.Errorf("proposal %d is cheaper than the one before", i)
		}
		before = sum
	}
}

func TestNoPriceWhereALineHasNone(t *testing.T) {
	job := shop()
	job.Gear.Parts[1].Price = nil
	got := first(t, job)
	if got.Price != "" {
		t.Errorf("price %s, want none", got.Price)
	}
	if got.Order[4].Price != "" || got.Order[3].Price == "" {
		t.Errorf("order %v", got.Order)
	}
}

// A side without a wall is closed by what is ordered for it, and no line is drawn on a wall that is not there.
func TestFreeEnds(t *testing.T) {
	job := shop()
	job.Frame.LeftEnd = frame.FreePanel
	job.Sundries.EndPanel = price("50")
	plan := lapspan.Explain(job, propose(t, job))
	p := plan.Proposals[0]
	want := lapspan.OrderLine{Item: "end panel, free standing", Size: "2300 mm", Count: 1, Price: "50.00"}
	if diff := cmp.Diff(want, p.Order[len(p.Order)-1]); diff != "" {
		t.Errorf("order (-want +got):\n%s", diff)
	}
	if !p.Findings.Has(frame.CodeFreeEnd) {
		t.Errorf("findings %v", p.Findings)
	}
	for _, m := range p.Details.Marks {
		if m.On == frame.OnLeftWall || m.From == frame.FromLeftWall {
			t.Errorf("mark %+v", m)
		}
	}
	job.Opening.Skirting.Left = &opening.Skirting{Thickness: 18 * mm, Height: 100 * mm}
	if err := job.Validate(); err == nil {
		t.Error("a skirting where there is no wall is accepted")
	}
}
