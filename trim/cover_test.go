package trim_test

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// front reads stations written at:height, with an s where a stud stands.
func front(t *testing.T, text string) []trim.Station {
	t.Helper()
	var out []trim.Station
	for _, word := range strings.Fields(text) {
		at, height, _ := strings.Cut(word, ":")
		height, stud := strings.CutSuffix(height, "s")
		out = append(out, trim.Station{At: units.MustParse(at), Height: units.MustParse(height), Stud: stud})
	}
	return out
}

// sheets reads sheets written length x width @ price.
func sheets(t *testing.T, text string) []trim.Sheet {
	t.Helper()
	var out []trim.Sheet
	for _, word := range strings.Fields(text) {
		size, price, priced := strings.Cut(word, "@")
		length, width, _ := strings.Cut(size, "x")
		s := trim.Sheet{Length: units.MustParse(length), Width: units.MustParse(width)}
		if priced {
			s.Price = new(units.MustMoney(price))
		}
		out = append(out, s)
	}
	return out
}

func TestCoverReference(t *testing.T) {
	table.Each(t, "trim_cover.csv", func(t *testing.T, r row) {
		c, err := trim.CoverBoards(front(t, r["front"]), trim.Covering{Sheets: sheets(t, r["sheets"]), Turn: r["turn"] == "true"})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, b := range c.Boards {
			got = append(got, fmt.Sprintf("%s-%s:%s", b.From.Millimetres(), b.To.Millimetres(), b.Height.Millimetres()))
		}
		if text := strings.Join(got, " "); text != r["boards"] {
			t.Errorf("boards %s, want %s", text, r["boards"])
		}
		if fmt.Sprint(len(c.Sheets)) != r["cut_from"] || !c.Proven {
			t.Errorf("%d sheets, proven %v, want %s", len(c.Sheets), c.Proven, r["cut_from"])
		}
	})
}

func TestCoverBuysTheCheapest(t *testing.T) {
	level := front(t, "0:270 1200:270s 2400:270")
	one := new(1)
	tests := []struct {
		name   string
		front  []trim.Station
		sheets []trim.Sheet
		want   []trim.Used
		err    error
	}{
		{"the cheaper of two", level, sheets(t, "2440x1220@30 2440x610@29.9999"), []trim.Used{{Size: 1}}, nil},
		{"without prices the smaller", level, sheets(t, "2440x1220 2440x610"), []trim.Used{{Size: 1}}, nil},
		{"without prices the fewest", front(t, "0:300 2400:300s 4800:300"), sheets(t, "2440x300 2440x1220"), []trim.Used{{Size: 1}}, nil},
		{"two small ones cheaper than a large one", front(t, "0:300 2400:300s 4800:300"), sheets(t, "2440x300@10 2440x1220@21"), []trim.Used{{}, {}}, nil},
		{"as cheap: the fewest", front(t, "0:300 2400:300s 4800:300"), sheets(t, "2440x300@10 2440x1220@20"), []trim.Used{{Size: 1}}, nil},
		{"one left of the small ones", front(t, "0:300 2400:300s 4800:300"),
			[]trim.Sheet{{Length: 2440 * mm, Width: 300 * mm, Count: one}, {Length: 2440 * mm, Width: 600 * mm}}, []trim.Used{{}, {Size: 1}}, nil},
		{"one left", front(t, "0:300 2400:300s 4800:300"), []trim.Sheet{{Length: 2440 * mm, Width: 300 * mm, Count: one}}, nil, trim.ErrSheets},
		{"none left", level, []trim.Sheet{{Length: 2440 * mm, Width: 300 * mm, Count: new(0)}}, nil, trim.ErrSheets},
		{"too high", level, sheets(t, "2440x269.999999"), nil, trim.ErrSheet},
		{"no stud in reach", front(t, "0:270 1200:270 2400:270s 3600:270"), sheets(t, "2399.999999x1220"), nil, trim.ErrSheet},
		{"a grain: not turned", front(t, "0:1300 1200:1300"), sheets(t, "2440x1220"), nil, trim.ErrSheet},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := trim.CoverBoards(tt.front, trim.Covering{Sheets: tt.sheets})
			if !errors.Is(err, tt.err) {
				t.Fatalf("error %v, want %v", err, tt.err)
			}
			slices.SortFunc(c.Sheets, func(a, b trim.Used) int { return cmp.Compare(a.Size, b.Size) })
			if diff := gocmp.Diff(tt.want, c.Sheets); diff != "" {
				t.Errorf("sheets (-want +got):\n%s", diff)
			}
		})
	}
}

func TestCoverScribesWhereTheCeilingRunsOut(t *testing.T) {
	c, err := trim.CoverBoards(front(t, "0:270 600:270 1200:270s 1800:280 2400:275"), trim.Covering{Sheets: sheets(t, "1220x610"), Scribe: new(5 * mm)})
	if err != nil {
		t.Fatal(err)
	}
	want := []trim.Board{
		{To: 1200 * mm, Height: 270 * mm, Edge: []trim.Station{{At: 0, Height: 270 * mm}, {At: 1200 * mm, Height: 270 * mm}}},
		{From: 1200 * mm, To: 2400 * mm, Height: 285 * mm, Scribed: true, Edge: []trim.Station{
			{At: 1200 * mm, Height: 270 * mm}, {At: 1800 * mm, Height: 280 * mm}, {At: 2400 * mm, Height: 275 * mm}}},
	}
	for i := range c.Boards {
		c.Boards[i].Sheet, c.Boards[i].Strip = 0, 0
	}
	if diff := gocmp.Diff(want, c.Boards); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// The boards hang below the front; their edges are measured from their own lower edge.
func TestCoverHangsBelow(t *testing.T) {
	level := front(t, "0:270 2400:270")
	c, err := trim.CoverBoards(level, trim.Covering{Sheets: sheets(t, "2440x1220"), Drop: 60 * mm})
	if err != nil || c.Boards[0].Height != 330*mm || c.Boards[0].Edge[1].Height != 330*mm || c.Boards[0].Scribed {
		t.Errorf("%+v, %v: want 330 high", c.Boards, err)
	}
	if level[0].Height != 270*mm {
		t.Error("the front given was changed")
	}
}

func TestCoverRefuses(t *testing.T) {
	good, size := front(t, "0:270 2400:270"), sheets(t, "2440x1220")
	many := make([]trim.Station, trim.MaxStations+1)
	for i := range many {
		many[i] = trim.Station{At: units.Length(i) * mm, Height: 270 * mm, Stud: true}
	}
	price := units.MustMoney("20")
	tests := []struct {
		name    string
		front   []trim.Station
		options trim.Covering
		place   string // of the refusal; "range": stations; empty: none
	}{
		{"good", good, trim.Covering{Sheets: size}, ""},
		{"no kerf and nothing to scribe", good, trim.Covering{Sheets: size, Kerf: new(units.Length(0)), Scribe: new(units.Length(0))}, ""},
		{"one station", good[:1], trim.Covering{Sheets: size}, "range"},
		{"as many stations as may be", many[:trim.MaxStations], trim.Covering{Sheets: size}, ""},
		{"a station too many", many, trim.Covering{Sheets: size}, "range"},
		{"stations in one place", front(t, "0:270 0:270"), trim.Covering{Sheets: size}, "range"},
		{"no height", []trim.Station{{}, {At: mm, Height: mm}}, trim.Covering{Sheets: size}, "range"},
		{"left of the wall", []trim.Station{{At: -1, Height: mm}, {At: mm, Height: mm}}, trim.Covering{Sheets: size}, "range"},
		{"no sheets", good, trim.Covering{}, "cover.sheets"},
		{"as many sizes as may be", good, trim.Covering{Sheets: slices.Repeat(size, trim.MaxSheets)}, ""},
		{"a size too many", good, trim.Covering{Sheets: slices.Repeat(size, trim.MaxSheets+1)}, "cover.sheets"},
		{"a sheet of no length", good, trim.Covering{Sheets: []trim.Sheet{size[0], {Width: mm}}}, "cover.sheets[1].length"},
		{"a sheet of no width", good, trim.Covering{Sheets: []trim.Sheet{{Length: mm}}}, "cover.sheets[0].width"},
		{"fewer than none", good, trim.Covering{Sheets: []trim.Sheet{{Length: 2440 * mm, Width: 1220 * mm, Count: new(-1)}}}, "cover.sheets[0].count"},
		{"a price for one of two", good, trim.Covering{Sheets: append(sheets(t, "2440x1220@20"), size...)}, "cover.sheets"},
		{"a price finer than money is", good, trim.Covering{Sheets: []trim.Sheet{{Length: 2440 * mm, Width: 1220 * mm, Price: new(price.PerMetre(mm / 1000))}}}, "cover.sheets[0].price"},
		{"kerf below zero", good, trim.Covering{Sheets: size, Kerf: new(units.Length(-1))}, "cover.kerf"},
		{"scribe below zero", good, trim.Covering{Sheets: size, Scribe: new(units.Length(-1))}, "cover.scribe"},
		{"drop below zero", good, trim.Covering{Sheets: size, Drop: -1}, "cover.drop"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := trim.CoverBoards(tt.front, tt.options)
			var input *opening.InputError
			switch {
			case tt.place == "" && err != nil,
				tt.place == "range" && !errors.Is(err, units.ErrRange),
				tt.place != "" && tt.place != "range" && (!errors.As(err, &input) || input.Place != tt.place):
				t.Fatalf("error %v, want one at %q", err, tt.place)
			}
			if err != nil && !gocmp.Equal(c, trim.Cover{}) {
				t.Errorf("%+v beside an error", c)
			}
		})
	}
}

func TestCoverHasABound(t *testing.T) {
	long := make([]trim.Station, trim.MaxBoards+2)
	for i := range long {
		long[i] = trim.Station{At: units.Length(i) * 900 * mm, Height: 300*mm + units.Length(i%7)*mm, Stud: true}
	}
	size := sheets(t, "1000x1000 1000x700")
	c, err := trim.CoverBoards(long[:trim.MaxBoards+1], trim.Covering{Sheets: size})
	if err != nil || len(c.Boards) != trim.MaxBoards || c.Proven {
		t.Errorf("%d boards, proven %v, %v: want %d, and a search that is cut short", len(c.Boards), c.Proven, err, trim.MaxBoards)
	}
	if _, err := trim.CoverBoards(long, trim.Covering{Sheets: size}); !errors.Is(err, units.ErrRange) {
		t.Errorf("a board too many: error %v", err)
	}
}

// coverHolds looks at every way to join and to lay out a small front.
func coverHolds(t *rapid.T) {
	const step = 100 * mm
	var stations []trim.Station
	at := units.Length(0)
	for i := range rapid.IntRange(2, 6).Draw(t, "stations") {
		if i > 0 {
			at += units.Length(rapid.Int64Range(1, 8).Draw(t, "bay")) * step
		}
		stations = append(stations, trim.Station{At: at,
			Height: units.Length(rapid.Int64Range(1, 6).Draw(t, "height")) * step, Stud: rapid.Bool().Draw(t, "stud")})
	}
	priced := rapid.Bool().Draw(t, "priced")
	var sizes []trim.Sheet
	for range rapid.IntRange(1, 2).Draw(t, "sizes") {
		s := trim.Sheet{
			Length: units.Length(rapid.Int64Range(4, 20).Draw(t, "length"))*step + 4*mm,
			Width:  units.Length(rapid.Int64Range(2, 10).Draw(t, "width"))*step + 4*mm,
		}
		if priced {
			s.Price = new(units.MustMoney(fmt.Sprint(rapid.IntRange(1, 4).Draw(t, "price"))))
		}
		if rapid.Bool().Draw(t, "counted") {
			s.Count = new(rapid.IntRange(0, 2).Draw(t, "count"))
		}
		sizes = append(sizes, s)
	}
	o := trim.Covering{Sheets: sizes, Turn: rapid.Bool().Draw(t, "turn"), Scribe: new(units.Length(0))}
	c, err := trim.CoverBoards(stations, o)

	fewest := fewestBoards(stations, sizes, o.Turn)
	if fewest == 0 {
		if !errors.Is(err, trim.ErrSheet) {
			t.Fatalf("error %v, and no way to join", err)
		}
		return
	}
	if err != nil && !errors.Is(err, trim.ErrSheets) {
		t.Fatal(err)
	}
	if err == nil {
		checkCover(t, stations, sizes, c, o.Turn)
		if len(c.Boards) != fewest {
			t.Errorf("%d boards, and %d serve", len(c.Boards), fewest)
		}
	}
	if fewest > 3 {
		return
	}
	if err != nil {
		// The same boards from as many sheets as it takes: there must be no way with those there are.
		unlimited := slices.Clone(sizes)
		for i := range unlimited {
			unlimited[i].Count = nil
		}
		o.Sheets = unlimited
		c, err := trim.CoverBoards(stations, o)
		if err != nil {
			t.Fatal(err)
		}
		if cost, count := cheapest(c.Boards, sizes, o.Turn); count > 0 {
			t.Errorf("not enough sheets, and %d for %d serve", count, cost)
		}
		return
	}
	cost, count := cheapest(c.Boards, sizes, o.Turn)
	gotCost := 0
	for _, u := range c.Sheets {
		gotCost += price(sizes[u.Size])
	}
	if gotCost != cost || len(c.Sheets) != count || !c.Proven {
		t.Errorf("%d sheets for %d, proven %v; the best are %d for %d", len(c.Sheets), gotCost, c.Proven, count, cost)
	}
}

func price(s trim.Sheet) int {
	if s.Price == nil {
		return 0
	}
	n, _ := s.Price.TenThousandths()
	return int(n / 10_000)
}

// fewestBoards tries every set of joints; 0 where none serves.
func fewestBoards(stations []trim.Station, sizes []trim.Sheet, turn bool) int {
	best := 0
	inner := len(stations) - 2
	for set := range 1 << inner {
		ends := []int{0}
		ok := true
		for i := range inner {
			if set>>i&1 == 1 {
				ok = ok && stations[i+1].Stud
				ends = append(ends, i+1)
			}
		}
		ends = append(ends, inner+1)
		for k, to := range ends[1:] {
			length := stations[to].At - stations[ends[k]].At
			var height units.Length
			for _, s := range stations[ends[k] : to+1] {
				height = max(height, s.Height)
			}
			ok = ok && slices.ContainsFunc(sizes, func(s trim.Sheet) bool {
				return length <= s.Length && height <= s.Width || turn && height <= s.Length && length <= s.Width
			})
		}
		if n := len(ends) - 1; ok && (best == 0 || n < best) {
			best = n
		}
	}
	return best
}

// checkCover checks that boards tile the front and lie in their sheets, saw cuts and all.
func checkCover(t *rapid.T, stations []trim.Station, sizes []trim.Sheet, c trim.Cover, turn bool) {
	at := stations[0].At
	type strip struct{ sheet, strip int }
	long, high, count := map[strip]units.Length{}, map[strip]units.Length{}, map[int]int{}
	for _, b := range c.Boards {
		if b.From != at || b.To <= at {
			t.Errorf("board %+v, the one before ends at %v", b, at)
		}
		at = b.To
		joint := slices.ContainsFunc(stations, func(s trim.Station) bool { return s.At == at && s.Stud })
		if !joint && at != stations[len(stations)-1].At {
			t.Errorf("joined at %v, where no stud is", at)
		}
		if b.Turned && !turn {
			t.Errorf("board %+v is turned against the grain", b)
		}
		length, height := b.To-b.From, b.Height
		if b.Turned {
			length, height = height, length
		}
		s := strip{b.Sheet, b.Strip}
		if long[s] > 0 {
			length += trim.DefaultKerf
		}
		long[s] += length
		high[s] = max(high[s], height)
	}
	if at != stations[len(stations)-1].At {
		t.Errorf("boards end at %v", at)
	}
	across := map[int]units.Length{}
	for s, h := range high {
		if across[s.sheet] > 0 {
			h += trim.DefaultKerf
		}
		across[s.sheet] += h
		if long[s] > sizes[c.Sheets[s.sheet].Size].Length {
			t.Errorf("strip %v is %v long in %+v", s, long[s], sizes[c.Sheets[s.sheet].Size])
		}
	}
	for i, u := range c.Sheets {
		count[u.Size]++
		if across[i] == 0 || across[i] > sizes[u.Size].Width {
			t.Errorf("sheet %d of %+v: strips take %v", i, sizes[u.Size], across[i])
		}
	}
	for i, s := range sizes {
		if s.Count != nil && count[i] > *s.Count {
			t.Errorf("%d sheets of %d", count[i], *s.Count)
		}
	}
}

// cheapest puts every board into every strip of every sheet, either way round.
func cheapest(boards []trim.Board, sizes []trim.Sheet, turn bool) (cost, count int) {
	n := len(boards)
	cost = 1 << 30
	chosen := make([]int, n) // size of each sheet
	spots := make([]int, n)  // sheet, strip and turn of each board in one number
	var place func(k int)
	check := func() {
		type strip struct{ sheet, strip int }
		long, high := map[strip]units.Length{}, map[strip]units.Length{}
		for i, b := range boards {
			length, height := b.To-b.From, b.Height
			if spots[i]%2 == 1 {
				length, height = height, length
			}
			s := strip{spots[i] / 2 / n, spots[i] / 2 % n}
			if long[s] > 0 {
				length += trim.DefaultKerf
			}
			long[s] += length
			high[s] = max(high[s], height)
		}
		across, left := map[int]units.Length{}, map[int]int{}
		for s, h := range high {
			if across[s.sheet] > 0 {
				h += trim.DefaultKerf
			}
			across[s.sheet] += h
			if long[s] > sizes[chosen[s.sheet]].Length {
				return
			}
		}
		sum := 0
		for sheet, h := range across {
			size := sizes[chosen[sheet]]
			if h > size.Width {
				return
			}
			left[chosen[sheet]]++
			if size.Count != nil && left[chosen[sheet]] > *size.Count {
				return
			}
			sum += price(size)
		}
		if sum < cost || sum == cost && len(across) < count {
			cost, count = sum, len(across)
		}
	}
	place = func(k int) {
		if k == n {
			check()
			return
		}
		last := 2 * n * n
		if k == 0 {
			last = 2 // the first sheet and strip are the first board's
		}
		for spot := range last {
			if spot%2 == 1 && !turn {
				continue
			}
			spots[k] = spot
			place(k + 1)
		}
	}
	var choose func(k int)
	choose = func(k int) {
		if k == n {
			place(0)
			return
		}
		for size := range sizes {
			chosen[k] = size
			choose(k + 1)
		}
	}
	choose(0)
	return cost, count
}

func TestCoverHolds(t *testing.T) { rapid.Check(t, coverHolds) }

func TestEdges(t *testing.T) {
	// 300-400-500 triangles: stretches of 500 each, over 400 along.
	c, err := trim.CoverBoards(front(t, "100:400 500:700s 900:400"), trim.Covering{Sheets: sheets(t, "600x1220")})
	if err != nil {
		t.Fatal(err)
	}
	got, err := trim.Edges(c.Boards)
	want := []trim.Edge{
		{Where: trim.LowerEdge, Length: 800 * mm},
		{Where: trim.UpperEdge, Length: 1000 * mm},
		{Where: trim.LeftEnd, Length: 400 * mm},
		{Where: trim.RightEnd, Length: 400 * mm},
		{Where: trim.OverJoint, Length: 700 * mm},
	}
	if diff := gocmp.Diff(want, got); diff != "" || err != nil {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
	for name, boards := range map[string][]trim.Board{
		"none":     nil,
		"too many": make([]trim.Board, trim.MaxBoards+1),
		"no edge":  {{To: mm}},
		"far":      {{To: mm, Edge: []trim.Station{{At: 1 << 62}, {At: 1 << 62}}}},
		"high":     {{To: mm, Edge: []trim.Station{{Height: -1}, {Height: 1}}}},
		"long":     {{To: mm, Edge: make([]trim.Station, trim.MaxStations+1)}},
	} {
		if got, err := trim.Edges(boards); !errors.Is(err, units.ErrRange) || got != nil {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

func BenchmarkCoverBoards(b *testing.B) {
	var stations []trim.Station
	for i := range units.Length(9) {
		stations = append(stations, trim.Station{At: i * 900 * mm, Height: 270*mm + i*mm, Stud: true})
	}
	o := trim.Covering{Sheets: []trim.Sheet{{Length: 2440 * mm, Width: 1220 * mm}, {Length: 2440 * mm, Width: 610 * mm}}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := trim.CoverBoards(stations, o); err != nil {
			b.Fatal(err)
		}
	}
}
