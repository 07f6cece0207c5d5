package frame_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func lengthsOf(t *testing.T, text string) []units.Length {
	t.Helper()
	var out []units.Length
	for _, word := range strings.Fields(text) {
		out = append(out, units.MustParse(word))
	}
	return out
}

func TestFixReference(t *testing.T) {
	table.Each(t, "frame_fixings.csv", func(t *testing.T, r row) {
		got, found, err := frame.Fix(
			frame.Fixed{What: "plate", From: r.Length(t, "from"), Pieces: lengthsOf(t, r["pieces"]), Width: 72 * mm, Through: 47 * mm},
			frame.Surface{Behind: frame.Backing(r["behind"]), Centres: lengthsOf(t, r["centres"]), Overhead: r["overhead"] == "true", Place: "here"})
		if err != nil {
			t.Fatal(err)
		}
		var solid, board []units.Length
		for _, f := range got.Each {
			if f.Count != len(f.Places) || f.Count == 0 {
				t.Errorf("%d fixings at %v", f.Count, f.Places)
			}
			if f.Into == frame.BoardOnly {
				board = f.Places
			} else {
				solid = f.Places
			}
		}
		if want := lengthsOf(t, r["solid"]); !slices.Equal(solid, want) {
			t.Errorf("into solid ground at %v, want %v", solid, want)
		}
		if want := lengthsOf(t, r["board"]); !slices.Equal(board, want) {
			t.Errorf("into board at %v, want %v", board, want)
		}
		if fmt.Sprint(len(found)) != r["warnings"] {
			t.Errorf("findings %v, want %s", found, r["warnings"])
		}
		for _, f := range found {
			if f.Place != "here" || f.Remedy == "" {
				t.Errorf("finding %+v", f)
			}
		}
	})
}

func TestFixChoosesItsFixing(t *testing.T) {
	long := []units.Length{1300 * mm}
	tests := []struct {
		behind   frame.Backing
		overhead bool
		kind     string
		least    units.Length
	}{
		// 47 timber, 12.5 board, and 40 or 50 into what is behind.
		{frame.Joist, true, "wood screw", 99_500_000},
		{frame.WallStud, false, "wood screw", 99_500_000},
		{frame.Masonry, false, "screw in a wall plug", 109_500_000},
		{frame.Masonry, true, "screw in a wall plug", 109_500_000},
		{frame.BoardOnly, true, "spring toggle", 0},
		{frame.BoardOnly, false, "hollow-wall anchor", 0},
		{"", true, "spring toggle", 0},
	}
	for _, tt := range tests {
		got, _, err := frame.Fix(frame.Fixed{Pieces: long, Width: 72 * mm, Through: 47 * mm},
			frame.Surface{Behind: tt.behind, Overhead: tt.overhead, Lining: 12_500_000})
		if err != nil || len(got.Each) != 1 || got.Each[0].Kind != tt.kind || got.Each[0].Least != tt.least {
			t.Errorf("%s overhead %v: %+v, %v: want %s of %v", tt.behind, tt.overhead, got.Each, err, tt.kind, tt.least)
		}
	}
}

func TestFixKeepsFromEdges(t *testing.T) {
	tests := []struct {
		width     units.Length
		end, edge units.Length
		drilled   bool
		first     units.Length
		narrow    bool
	}{
		{50 * mm, 50 * mm, 25 * mm, false, 50 * mm, false},
		{50*mm - 1, 35 * mm, 15 * mm, true, 35 * mm, false},
		{30 * mm, 35 * mm, 15 * mm, true, 35 * mm, false},
		{30*mm - 1, 35 * mm, 15 * mm, true, 35 * mm, true},
	}
	for _, tt := range tests {
		got, found, err := frame.Fix(frame.Fixed{What: "plate", Pieces: []units.Length{1300 * mm}, Width: tt.width, Through: 47 * mm},
			frame.Surface{Behind: frame.Masonry})
		if err != nil {
			t.Fatal(err)
		}
		if got.EndDistance != tt.end || got.EdgeDistance != tt.edge || got.Drilled != tt.drilled || got.Each[0].Places[0] != tt.first {
			t.Errorf("%v wide: %+v", tt.width, got)
		}
		if found.Has(frame.CodeNarrowEdge) != tt.narrow {
			t.Errorf("%v wide: %v", tt.width, found)
		}
	}
}

func TestFixSaysWhatItCannotRelyOn(t *testing.T) {
	fixed := frame.Fixed{What: "top plate", Pieces: []units.Length{1000 * mm, 1400 * mm}, Width: 72 * mm, Through: 47 * mm}
	_, found, err := frame.Fix(fixed, frame.Surface{Behind: frame.Joist, Centres: []units.Length{500 * mm, 1500 * mm, 2000 * mm}, Overhead: true, Place: "opening.joists"})
	if err != nil || len(found) != 1 {
		t.Fatalf("%v, %v: want one finding", found, err)
	}
	f := found[0]
	if f.Code != frame.CodeBoardOnly || f.Severity != opening.Warn || f.Place != "opening.joists" || !strings.Contains(f.Message, "piece 1 of 2") || !strings.Contains(f.Message, "1 of its fixings") {
		t.Errorf("finding %+v", f)
	}
	for _, word := range []string{"noggins", "local code"} {
		if !strings.Contains(f.Remedy, word) {
			t.Errorf("remedy %q does not speak of %s", f.Remedy, word)
		}
	}
	_, found, err = frame.Fix(fixed, frame.Surface{})
	if err != nil || !found.Has(frame.CodeBackingUnknown) || found[0].Severity != opening.Note || !strings.Contains(found[0].Remedy, "cables") {
		t.Errorf("%v, %v: want a note that the backing is not known", found, err)
	}
}

func TestFixRefuses(t *testing.T) {
	good := frame.Fixed{Pieces: []units.Length{1000 * mm}, Width: 72 * mm, Through: 47 * mm}
	masonry := frame.Surface{Behind: frame.Masonry}
	with := func(change func(*frame.Fixed)) frame.Fixed { f := good; change(&f); return f }
	many := make([]units.Length, frame.MaxCentres+1)
	for i := range many {
		many[i] = units.Length(i+1) * mm
	}
	pieces := func(n int) []units.Length { return slices.Repeat([]units.Length{mm}, n) }
	tests := []struct {
		name    string
		fixed   frame.Fixed
		surface frame.Surface
		ok      bool
	}{
		{"good", good, masonry, true},
		{"no such backing", good, frame.Surface{Behind: "straw"}, false},
		{"no pieces", with(func(f *frame.Fixed) { f.Pieces = nil }), masonry, false},
		{"as many pieces as may be", with(func(f *frame.Fixed) { f.Pieces = pieces(units.MaxPieces) }), masonry, true},
		{"a piece too many", with(func(f *frame.Fixed) { f.Pieces = slices.Repeat([]units.Length{1}, units.MaxPieces+1) }), masonry, false},
		{"a piece of nothing", with(func(f *frame.Fixed) { f.Pieces = []units.Length{0} }), masonry, false},
		{"pieces past the bound", with(func(f *frame.Fixed) { f.Pieces = slices.Repeat([]units.Length{50 * units.Metre}, 3) }), masonry, false},
		{"no width", with(func(f *frame.Fixed) { f.Width = 0 }), masonry, false},
		{"nothing to pass", with(func(f *frame.Fixed) { f.Through = 0 }), masonry, true},
		{"less than nothing to pass", with(func(f *frame.Fixed) { f.Through = -1 }), masonry, false},
		{"from below zero", with(func(f *frame.Fixed) { f.From = -1 }), masonry, false},
		{"lining below zero", good, frame.Surface{Behind: frame.Masonry, Lining: -1}, false},
		{"a joist below zero", good, frame.Surface{Behind: frame.Joist, Centres: []units.Length{-1}}, false},
		{"as many joists as may be", good, frame.Surface{Behind: frame.Joist, Centres: many[:frame.MaxCentres]}, true},
		{"a joist too many", good, frame.Surface{Behind: frame.Joist, Centres: many}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, found, err := frame.Fix(tt.fixed, tt.surface)
			if tt.ok != (err == nil) || !tt.ok && !errors.Is(err, units.ErrRange) {
				t.Fatalf("error %v", err)
			}
			if !tt.ok && (!cmp.Equal(got, frame.Fixings{}) || found != nil) {
				t.Errorf("%+v, %v beside an error", got, found)
			}
		})
	}
}

// fixHolds: whatever is behind, no two fixings are further apart than 600 and none is further
// than 300 from an end of its piece or nearer than 50; solid ones are where solid ground is.
func fixHolds(t *rapid.T) {
	f := frame.Fixed{Width: 72 * mm, Through: 47 * mm, From: units.Length(rapid.Int64Range(0, 50).Draw(t, "from")) * mm}
	for range rapid.IntRange(1, 3).Draw(t, "pieces") {
		f.Pieces = append(f.Pieces, units.Length(rapid.Int64Range(101, 3000).Draw(t, "piece"))*mm)
	}
	s := frame.Surface{Behind: rapid.SampledFrom([]frame.Backing{"", frame.Joist, frame.WallStud, frame.Masonry, frame.BoardOnly}).Draw(t, "behind")}
	for range rapid.IntRange(0, 8).Draw(t, "joists") {
		s.Centres = append(s.Centres, units.Length(rapid.Int64Range(0, 9000).Draw(t, "joist"))*mm)
	}
	crossed := (s.Behind == frame.Joist || s.Behind == frame.WallStud) && len(s.Centres) > 0
	got, found, err := frame.Fix(f, s)
	if err != nil {
		t.Fatal(err)
	}
	var all, solid []units.Length
	for _, each := range got.Each {
		all = append(all, each.Places...)
		if each.Into != frame.BoardOnly {
			solid = append(solid, each.Places...)
		}
	}
	slices.Sort(all)
	from, weak := f.From, 0
	for _, p := range f.Pieces {
		var own []units.Length
		reached := 0
		for _, at := range all {
			if at >= from && at <= from+p {
				own = append(own, at)
				if slices.Contains(solid, at) {
					reached++
				}
			}
		}
		if len(own) == 0 || own[0]-from < 50*mm || own[0]-from > 300*mm || from+p-own[len(own)-1] < 50*mm || from+p-own[len(own)-1] > 300*mm {
			t.Fatalf("piece from %v, %v long: fixed at %v", from, p, own)
		}
		for i, at := range own[1:] {
			if at-own[i] > 600*mm || at <= own[i] {
				t.Errorf("fixings at %v", own)
			}
		}
		if crossed {
			for _, c := range s.Centres {
				if c >= from+50*mm && c <= from+p-50*mm && !slices.Contains(solid, c) {
					t.Errorf("no screw into the joist at %v", c)
				}
			}
		}
		if reached < 2 {
			weak++
		}
		from += p
	}
	for _, at := range solid {
		if crossed && !slices.Contains(s.Centres, at) || s.Behind == "" || s.Behind == frame.BoardOnly {
			t.Errorf("solid ground at %v of %v", at, s)
		}
	}
	warned := 0
	for _, f := range found {
		if f.Code == frame.CodeBoardOnly {
			warned++
		}
	}
	if warned != weak {
		t.Errorf("%d pieces hang on board, %d findings", weak, warned)
	}
}

func TestFixHolds(t *testing.T) { rapid.Check(t, fixHolds) }
