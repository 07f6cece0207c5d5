package doors_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func aboveOf(r row, t *testing.T) doors.Above {
	t.Helper()
	var a doors.Above
	a.Allowance.Min, a.Allowance.Max = spanOf(r, t, "allowance")
	a.Allowance.Aim = maybe(t, r, "aim")
	for _, thickness := range lengthsOf(r, t, "boards") {
		a.Boards = append(a.Boards, doors.Board{Thickness: thickness})
	}
	if r["timber"] != "" {
		thickness, width := spanOf(r, t, "timber")
		a.Timber = &doors.Timber{Thickness: thickness, Width: width}
	}
	if step := maybe(t, r, "step"); step != nil {
		a.Cutting.Step = *step
	}
	a.Cutting.Deepest = maybe(t, r, "deepest")
	return a
}

func checkMargin(t *testing.T, name string, got *units.Length, want string) {
	t.Helper()
	text := ""
	if got != nil {
		text = got.Millimetres()
	}
	if text != want {
		t.Errorf("margin %s = %q, want %q", name, text, want)
	}
}

func TestHeightsTable(t *testing.T) {
	table.Each(t, "doors_heights.csv", func(t *testing.T, r row) {
		stock := r.Length(t, "stock")
		heights, refused := doors.HeightsFor(
			doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: stock}}}, r.Length(t, "clear"), aboveOf(r, t))
		method := doors.Method(r["method"])
		i := slices.IndexFunc(heights, func(h doors.Height) bool { return h.Method == method })
		if r["door"] == "" {
			if i >= 0 {
				t.Errorf("%+v is offered", heights[i])
			}
			if !slices.ContainsFunc(refused, func(f doors.Refusal) bool {
				return f.Method == method && f.Stock == stock && f.Reason != ""
			}) {
				t.Errorf("it is not refused: %+v", refused)
			}
			return
		}
		if i < 0 {
			t.Fatalf("not offered: %+v", refused)
		}
		h := heights[i]
		var stack []units.Length
		for _, p := range h.Stack {
			stack = append(stack, p.Thickness)
		}
		got := strings.Join([]string{
			h.Stock.Millimetres(), h.Door.Millimetres(), h.Allowance.Millimetres(), h.Gap.Millimetres(), h.Cut.Millimetres(), millimetres(stack),
		}, "|")
		want := strings.Join([]string{r["stock"], r["door"], r["left"], r["gap"], r["cut"], r["packer"]}, "|")
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
		checkMargin(t, "under", h.Margin.Under, r["under"])
		checkMargin(t, "over", h.Margin.Over, r["over"])
	})
}

func TestMadeToMeasureTable(t *testing.T) {
	table.Each(t, "doors_made_to_measure.csv", func(t *testing.T, r row) {
		m := doors.MadeToMeasure{Step: r.Length(t, "step")}
		m.Height.Min, m.Height.Max = spanOf(r, t, "span")
		heights, refused := doors.HeightsFor(doors.Range{MadeToMeasure: &m}, r.Length(t, "clear"), aboveOf(r, t))
		if r["left"] == "" {
			if len(heights) != 0 || len(refused) != 1 || refused[0].Method != doors.ToMeasure || refused[0].Stock != 0 || refused[0].Reason == "" {
				t.Errorf("%+v, %+v", heights, refused)
			}
			return
		}
		if len(heights) != 1 || len(refused) != 0 {
			t.Fatalf("%+v, %+v", heights, refused)
		}
		h := heights[0]
		if h.Method != doors.ToMeasure || h.Stock != h.Door || h.Door != r.Length(t, "door") || h.Allowance != r.Length(t, "left") || h.Gap != 0 || h.Cut != 0 {
			t.Errorf("%+v", h)
		}
		checkMargin(t, "under", h.Margin.Under, r["under"])
		checkMargin(t, "over", h.Margin.Over, r["over"])
	})
}

func TestHeightsInOrder(t *testing.T) {
	r := doors.Range{
		Sizes: []doors.Size{
			{Width: 600 * mm, Height: 2000 * mm}, {Width: 700 * mm, Height: 2000 * mm},
			{Width: 600 * mm, Height: 2400 * mm}, {Width: 600 * mm, Height: 2268 * mm},
		},
		MadeToMeasure: &doors.MadeToMeasure{Height: units.Span{Min: 1000 * mm, Max: 2600 * mm}},
	}
	a := doors.Above{
		Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm},
		Boards:    []doors.Board{{Thickness: 90 * mm}},
		Timber:    &doors.Timber{Thickness: 47 * mm, Width: 95 * mm},
	}
	heights, refused := doors.HeightsFor(r, 2300*mm, a)
	var got []string
	for _, h := range heights {
		got = append(got, h.Stock.Millimetres()+" "+string(h.Method))
	}
	want := []string{"2400 cut down", "2268 as is", "2000 packer", "2000 bulkhead", "2267 made to measure"}
	if d := cmp.Diff(want, got); d != "" || len(refused) != 0 {
		t.Errorf("%s%+v", d, refused)
	}
}

func TestMethodOrder(t *testing.T) {
	for i, m := range []doors.Method{doors.AsIs, doors.Packer, doors.Bulkhead, doors.CutDown, doors.ToMeasure} {
		if m.Order() != i {
			t.Errorf("%s is %d, want %d", m, m.Order(), i)
		}
	}
	if got := doors.Method("none").Order(); got != -1 {
		t.Errorf("an unknown method is %d", got)
	}
}

func price(s string) *units.Money { return new(units.MustMoney(s)) }

func TestPackerByCost(t *testing.T) {
	// 30 + 50, 40 + 40 and 20 + 60 leave the same allowance with as many pieces.
	board := func(thickness units.Length, cost string) doors.Board {
		b := doors.Board{Thickness: thickness * mm}
		if cost != "" {
			b.Price = price(cost)
		}
		return b
	}
	for _, c := range []struct {
		name   string
		boards []doors.Board
		want   string
	}{
		{"no prices: the list first number by number", []doors.Board{board(40, ""), board(30, ""), board(50, ""), board(20, ""), board(60, "")}, "20 60"},
		{"the cheapest", []doors.Board{board(40, "2"), board(30, "1"), board(50, "2.99"), board(20, "4"), board(60, "0")}, "30 50"},
		{"equal cost: the list", []doors.Board{board(40, "2"), board(30, "1"), board(50, "3"), board(20, "4"), board(60, "0")}, "20 60"},
		{"a price before none", []doors.Board{board(40, "9"), board(30, ""), board(50, "1"), board(20, "1"), board(60, "")}, "40 40"},
	} {
		heights, _ := doors.HeightsFor(doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: 2190 * mm}}}, 2300*mm,
			doors.Above{Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm}, Boards: c.boards})
		var got []units.Length
		for _, p := range heights[0].Stack {
			got = append(got, p.Thickness)
		}
		if millimetres(got) != c.want {
			t.Errorf("%s: %s, want %s", c.name, millimetres(got), c.want)
		}
	}
}

func TestPackerOfTimberByCost(t *testing.T) {
	// A board and the timber are as thick; the timber's best length decides its price.
	a := doors.Above{Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm}}
	stack := func(board string, lengths ...doors.StockLength) doors.Piece {
		a.Boards = []doors.Board{{Thickness: 40 * mm, Price: price(board)}, {Thickness: 28 * mm}}
		a.Timber = &doors.Timber{Thickness: 30 * mm, Width: 38 * mm, Lengths: lengths}
		heights, _ := doors.HeightsFor(doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: 2230 * mm}}}, 2300*mm, a)
		// 40 leaves 30; 38 leaves 32, nearer the middle: put the aim on both sides of them.
		return heights[0].Stack[0]
	}
	a.Allowance.Aim = new(31 * mm) // 40 and 38 are both 1 off: the larger allowance wins, whatever it costs
	if p := stack("0"); p.Board != -1 || !p.OnEdge {
		t.Errorf("%+v", p)
	}
	tie := func(board string, lengths ...doors.StockLength) doors.Piece {
		a := doors.Above{
			Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm},
			Boards:    []doors.Board{{Thickness: 38 * mm, Price: price(board)}},
			Timber:    &doors.Timber{Thickness: 38 * mm, Width: 38 * mm, Lengths: lengths},
		}
		heights, _ := doors.HeightsFor(doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: 2230 * mm}}}, 2300*mm, a)
		return heights[0].Stack[0]
	}
	four, six := doors.StockLength{Length: 4 * units.Metre, Price: price("8")}, doors.StockLength{Length: 6 * units.Metre, Price: price("9")}
	for _, c := range []struct {
		board   string
		lengths []doors.StockLength
		want    int
	}{
		{"1.5", []doors.StockLength{four, six}, 0}, // as dear as 9/6: the board comes first
		{"1.5001", []doors.StockLength{four, six}, -1},
		{"1.5001", []doors.StockLength{six, four}, -1},
		{"2.0001", []doors.StockLength{four}, -1},
		{"2", []doors.StockLength{four}, 0},
		{"9", []doors.StockLength{four, {Length: units.Metre}}, 0}, // a length without a price: not known
		{"9", nil, 0}, // no lengths: not known
	} {
		if got := tie(c.board, c.lengths...).Board; got != c.want {
			t.Errorf("a board at %s against timber %v: board %d", c.board, c.lengths, got)
		}
	}
}

func TestMarginWithin(t *testing.T) {
	u := 2 * mm
	for _, c := range []struct {
		m    doors.Margin
		want bool
	}{
		{doors.Margin{}, true},
		{doors.Margin{Under: new(u), Over: new(u)}, true},
		{doors.Margin{Under: new(u - 1), Over: new(u)}, false},
		{doors.Margin{Under: new(u), Over: new(u - 1)}, false},
		{doors.Margin{Over: new(u)}, true},
		{doors.Margin{Under: new(u - 1)}, false},
	} {
		if got := c.m.Within(u); got != c.want {
			t.Errorf("%v.Within(%s) = %v", c.m, u, got)
		}
	}
}

func TestSenselessStepsAreRefused(t *testing.T) {
	for _, step := range []units.Length{-1, units.MaxLength} {
		_, refused := doors.HeightsFor(
			doors.Range{
				Sizes:         []doors.Size{{Width: 600 * mm, Height: 2400 * mm}},
				MadeToMeasure: &doors.MadeToMeasure{Step: step, Height: units.Span{Min: mm, Max: 3000 * mm}},
			},
			2300*mm, doors.Above{Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm}, Cutting: doors.Cutting{Step: step}})
		if len(refused) != 2 {
			t.Errorf("step %d: %+v", step, refused)
		}
	}
}

func TestCutDownByBuild(t *testing.T) {
	b := twoPanels() // (2400 − 130)/2 = 1135 a panel
	b.LeastPanel = 1070 * mm
	heights := func(deepest *units.Length) ([]doors.Height, []doors.Refusal) {
		return doors.HeightsFor(doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: 2400 * mm}}, Build: b}, 2300*mm,
			doors.Above{Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm}, Cutting: doors.Cutting{Deepest: deepest}})
	}
	for _, c := range []struct {
		least   units.Length
		deepest *units.Length
		under   string
	}{
		{1070 * mm, nil, "0"},
		{1069 * mm, nil, "2"},
		{1071 * mm, nil, "refused"},
		{1060 * mm, new(131 * mm), "1"},
		{1069 * mm, new(140 * mm), "2"},
		{1060 * mm, new(129 * mm), "refused"},
	} {
		b.LeastPanel = c.least
		h, refused := heights(c.deepest)
		switch {
		case c.under == "refused":
			if len(h) != 0 || len(refused) != 1 {
				t.Errorf("least panel %s: %+v", c.least, h)
			}
		case len(h) != 1:
			t.Errorf("least panel %s: %+v", c.least, refused)
		default:
			checkMargin(t, "under", h[0].Margin.Under, c.under)
		}
	}
	b.Panels[0].CutOnSite, b.Panels[1].CutOnSite = false, false
	if h, refused := heights(nil); len(h) != 0 || !strings.Contains(refused[0].Reason, doors.ErrNoCut.Error()) {
		t.Errorf("glass is cut: %+v %+v", h, refused)
	}
}

// Every height offered obeys its rule, every stock height is offered or refused
// by exactly the methods that are for it, and a packer is the best of all stacks.
func TestHeightsObeyTheirRules(t *testing.T) { rapid.Check(t, heightProperty) }

func FuzzHeights(f *testing.F) { f.Fuzz(rapid.MakeFuzz(heightProperty)) }

func heightProperty(t *rapid.T) {
	draw := func(name string, lo, hi int64) units.Length {
		return units.Length(rapid.Int64Range(lo, hi).Draw(t, name)) * mm
	}
	var a doors.Above
	a.Allowance.Min = draw("allowance", 0, 40)
	a.Allowance.Max = a.Allowance.Min + draw("span", 1, 10)
	if rapid.Bool().Draw(t, "aimed") {
		a.Allowance.Aim = new(a.Allowance.Min + (a.Allowance.Max-a.Allowance.Min)/2)
	}
	for range rapid.IntRange(0, 4).Draw(t, "boards") {
		b := doors.Board{Thickness: draw("thickness", 5, 60)}
		if rapid.Bool().Draw(t, "priced") {
			b.Price = new(units.MoneyOfTenThousandths(rapid.Int64Range(0, 3).Draw(t, "price") * 10000))
		}
		a.Boards = append(a.Boards, b)
	}
	if rapid.Bool().Draw(t, "timber") {
		a.Timber = &doors.Timber{Thickness: draw("flat", 20, 50), Width: draw("edge", 20, 100)}
	}
	a.Cutting.Step = draw("saw", 1, 7)
	if rapid.Bool().Draw(t, "limited") {
		a.Cutting.Deepest = new(draw("deepest", 0, 300))
	}
	clear := draw("clear", 1900, 2500)
	stock := draw("stock", 1900, 2500)
	r := doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: stock}}}
	if rapid.Bool().Draw(t, "maker") {
		r.MadeToMeasure = &doors.MadeToMeasure{Step: draw("step", 1, 7)}
		r.MadeToMeasure.Height.Min = draw("least", 1800, 2300)
		r.MadeToMeasure.Height.Max = r.MadeToMeasure.Height.Min + draw("reach", 0, 300)
	}
	heights, refused := doors.HeightsFor(r, clear, a)

	left := clear - stock
	var tried []doors.Method
	switch {
	case left > a.Allowance.Max:
		tried = []doors.Method{doors.Packer, doors.Bulkhead}
	case left < a.Allowance.Min:
		tried = []doors.Method{doors.CutDown}
	default:
		tried = []doors.Method{doors.AsIs}
	}
	if r.MadeToMeasure != nil {
		tried = append(tried, doors.ToMeasure)
	}
	var met []doors.Method
	for _, h := range heights {
		met = append(met, h.Method)
		checkHeight(t, h, r, a, clear)
	}
	for _, f := range refused {
		met = append(met, f.Method)
		if f.Method == doors.Packer {
			if _, ok := slowStack(a, left); ok {
				t.Fatalf("a packer is refused: %s", f.Reason)
			}
		}
	}
	slices.SortFunc(met, func(a, b doors.Method) int { return a.Order() - b.Order() })
	if d := cmp.Diff(tried, met); d != "" {
		t.Fatal(d)
	}
}

func checkHeight(t *rapid.T, h doors.Height, r doors.Range, a doors.Above, clear units.Length) {
	var stack units.Length
	for _, p := range h.Stack {
		stack += p.Thickness
	}
	if h.Door+h.Allowance+h.Gap+stack != clear {
		t.Fatalf("%+v does not fill %s", h, clear)
	}
	if !a.Allowance.Span().Contains(h.Allowance) || h.Door != h.Stock-h.Cut || h.Door <= 0 {
		t.Fatalf("%+v breaks its rule", h)
	}
	least := a.Allowance.Least()
	twiceAim := a.Allowance.Min + a.Allowance.Max
	if a.Allowance.Aim != nil {
		twiceAim = 2 * *a.Allowance.Aim
	}
	switch h.Method {
	case doors.Packer:
		want, ok := slowStack(a, clear-h.Stock)
		var got []units.Length
		for _, p := range h.Stack {
			got = append(got, p.Thickness)
		}
		if !ok || !slices.Equal(got, want) {
			t.Fatalf("packer %v, want %v", got, want)
		}
	case doors.Bulkhead:
		if h.Allowance != least || h.Gap < 2*a.Timber.Thickness+doors.ShortestStud || *h.Margin.Under != h.Gap-2*a.Timber.Thickness-doors.ShortestStud || h.Margin.Over != nil {
			t.Fatalf("%+v", h)
		}
	case doors.CutDown:
		// The smallest whole number of steps that leaves the aim.
		if h.Cut%a.Cutting.Step != 0 || h.Allowance < least || h.Allowance-a.Cutting.Step >= least {
			t.Fatalf("%+v", h)
		}
		if d := a.Cutting.Deepest; (d == nil) != (h.Margin.Under == nil) || d != nil && (*h.Margin.Under != *d-h.Cut || h.Cut > *d) {
			t.Fatalf("%+v", h)
		}
	case doors.ToMeasure:
		// The largest whole number of steps that leaves the aim.
		step := r.MadeToMeasure.Step
		if h.Door%step != 0 || 2*h.Allowance < twiceAim || 2*(h.Allowance-step) >= twiceAim {
			t.Fatalf("%+v", h)
		}
	}
}

// slowStack lists every stack, then drops the worse half of the rule at a time.
func slowStack(a doors.Above, fill units.Length) ([]units.Length, bool) {
	type stack struct {
		list      []units.Length
		allowance units.Length
		cost      *units.Money
	}
	type piece struct {
		thickness units.Length
		cost      *units.Money
	}
	var pieces []piece
	for _, b := range a.Boards {
		pieces = append(pieces, piece{b.Thickness, b.Price})
	}
	if a.Timber != nil {
		pieces = append(pieces, piece{a.Timber.Thickness, nil}, piece{a.Timber.Width, nil})
	}
	var all []stack
	var grow func(s stack)
	grow = func(s stack) {
		if n := len(s.list); n > 0 && a.Allowance.Span().Contains(s.allowance) {
			slices.Sort(s.list)
			all = append(all, s)
		}
		if len(s.list) == doors.MaxStack {
			return
		}
		for _, p := range pieces {
			next := stack{append(slices.Clone(s.list), p.thickness), s.allowance - p.thickness, nil}
			if s.cost != nil && p.cost != nil {
				next.cost = new(s.cost.Add(*p.cost))
			}
			grow(next)
		}
	}
	grow(stack{nil, fill, new(units.Money)})
	keep := func(better func(a, b stack) bool) {
		all = slices.DeleteFunc(slices.Clone(all), func(s stack) bool {
			return slices.ContainsFunc(all, func(o stack) bool { return better(o, s) })
		})
	}
	aim := func(s stack) units.Length {
		if a.Allowance.Aim != nil {
			return 2 * (s.allowance - *a.Allowance.Aim).Abs()
		}
		return (2*s.allowance - a.Allowance.Min - a.Allowance.Max).Abs()
	}
	keep(func(a, b stack) bool { return len(a.list) < len(b.list) })
	keep(func(a, b stack) bool { return aim(a) < aim(b) })
	keep(func(a, b stack) bool { return a.allowance > b.allowance })
	keep(func(a, b stack) bool { return a.cost != nil && (b.cost == nil || a.cost.Cmp(*b.cost) < 0) })
	keep(func(a, b stack) bool { return slices.Compare(a.list, b.list) < 0 })
	if len(all) == 0 {
		return nil, false
	}
	return all[0].list, true
}
