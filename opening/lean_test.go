package opening_test

import (
	"errors"
	"math/big"
	"strconv"
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// pairs reads "at size;at size".
func pairs(t *testing.T, s string) [][2]units.Length {
	t.Helper()
	var list [][2]units.Length
	for part := range strings.SplitSeq(s, ";") {
		if l := lengths(t, part); len(l) == 2 {
			list = append(list, [2]units.Length{l[0], l[1]})
		}
	}
	return list
}

func leansOf(pairs [][2]units.Length) []opening.Lean {
	var list []opening.Lean
	for _, p := range pairs {
		list = append(list, opening.Lean{At: p[0], Size: p[1]})
	}
	return list
}

func TestEnvelopeReference(t *testing.T) {
	table.Each(t, "opening_envelope.csv", func(t *testing.T, r row) {
		s := survey()
		s.Widths = nil
		for _, p := range pairs(t, r["widths"]) {
			s.Widths = append(s.Widths, opening.Width{At: p[0], Size: p[1]})
		}
		s.Leans = opening.Leans{Left: leansOf(pairs(t, r["left"])), Right: leansOf(pairs(t, r["right"]))}
		doors, err := strconv.Atoi(r["doors"])
		if err != nil {
			t.Fatal(err)
		}
		m := measure(t, s)
		if m.Findings.Stops() {
			t.Fatal(m.Findings.Err())
		}
		c := s.ClearFor(m.Variants[0], doors, length(t, r["height"]))
		got := []units.Length{c.Width.Min, c.Width.Max, c.Narrowest.Uncertainty, c.Widest.Uncertainty}
		want := []units.Length{length(t, r["min"]), length(t, r["max"]), length(t, r["uncertainty_min"]), length(t, r["uncertainty_max"])}
		for i := range want {
			// Shares of a reading are rounded to a nanometre before they are combined.
			if off := (got[i] - want[i]).Abs(); off > 0 && (i < 2 || off > 2) {
				t.Errorf("%v, want %v", got, want)
			}
		}
	})
}

func TestEndDoorReference(t *testing.T) {
	table.Each(t, "opening_lean.csv", func(t *testing.T, r row) {
		s := survey()
		height := length(t, r["height"])
		leans := []opening.Lean{{At: 0, Size: length(t, r["foot"])}, {At: height, Size: length(t, r["top"])}}
		want := opening.EndDoor{
			Lean:  length(t, r["top"]) - length(t, r["foot"]),
			Raise: length(t, r["raise"]), Wheel: opening.Wheel(r["wheel"]), Taken: length(t, r["taken"]),
		}
		if r["liner_top"] != "" {
			want.Liner = &opening.Taper{Foot: length(t, r["liner_foot"]), Top: length(t, r["liner_top"])}
		}
		for _, side := range []opening.Side{opening.Left, opening.Right} {
			s.Leans = opening.Leans{Left: leans}
			if side == opening.Right {
				s.Leans = opening.Leans{Right: leans}
			}
			want.Side = side
			got, err := s.EndDoor(opening.Clear{Left: opening.CutBack, Right: opening.NoSkirting}, side, length(t, r["width"]), height, length(t, r["adjuster"]))
			if diff := cmp.Diff(want, got); err != nil || diff != "" {
				t.Error(err, diff)
			}
			known := r["adjuster"] != "0"
			code := opening.Code("")
			switch {
			case want.Liner != nil:
				code = opening.CodePastAdjuster
			case !known:
				code = opening.CodeNoAdjuster
			}
			if found := got.Findings(known); code == "" && len(found) > 0 || code != "" && !found.Has(code) {
				t.Errorf("%v, want %q", found, code)
			}
			// An end panel stands plumb.
			got, err = s.EndDoor(opening.Clear{Left: opening.EndPanel, Right: opening.EndPanel}, side, length(t, r["width"]), height, 0)
			if diff := cmp.Diff(opening.EndDoor{Side: side}, got); err != nil || diff != "" {
				t.Error(err, diff)
			}
		}
	})
}

func TestEndDoorRefuses(t *testing.T) {
	for _, c := range []struct {
		side                    opening.Side
		width, height, adjuster units.Length
		place                   string
	}{
		{opening.Left, 1, 1, 0, ""}, {"top", 1, 1, 0, "side"}, {"", 1, 1, 0, "side"},
		{opening.Left, 0, 1, 0, "width"}, {opening.Left, 1, 0, 0, "height"}, {opening.Left, 1, 1, -1, "adjuster"},
		{opening.Left, units.MaxLength, 1, 0, "height"},
	} {
		s := survey()
		s.Leans.Left = []opening.Lean{{At: 0, Size: 0}, {At: 1, Size: mm(2000)}}
		_, err := s.EndDoor(opening.Clear{}, c.side, c.width, c.height, c.adjuster)
		var refused *opening.InputError
		if (err != nil) != (c.place != "") || err != nil && (!errors.As(err, &refused) || refused.Place != c.place) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

// An end panel stands plumb at the innermost point of its wall.
func TestEnvelopeWithEndPanels(t *testing.T) {
	s := survey()
	s.Widths = []opening.Width{{At: 0, Size: mm(2400)}, {At: mm(2300), Size: mm(2420)}}
	s.Leans = opening.Leans{
		Left:  []opening.Lean{{At: 0, Size: 0}, {At: mm(2300), Size: mm(10)}},
		Right: []opening.Lean{{At: 0, Size: 0}, {At: mm(2300), Size: mm(10)}},
	}
	for _, c := range []struct {
		left, right       opening.Treatment
		leftOff, rightOff int64
		min, max          int64
	}{
		{opening.CutBack, opening.CutBack, 0, 0, 2400, 2420},
		{opening.EndPanel, opening.CutBack, 22, 0, 2378, 2388},
		{opening.CutBack, opening.EndPanel, 0, 20, 2380, 2390},
		{opening.EndPanel, opening.EndPanel, 22, 20, 2358, 2358},
	} {
		got := s.ClearFor(opening.Clear{Left: c.left, Right: c.right, LeftOff: mm(c.leftOff), RightOff: mm(c.rightOff)}, 3, mm(2300))
		if want := (units.Span{Min: mm(c.min), Max: mm(c.max)}); got.Width != want {
			t.Errorf("%s and %s: %s, want %s", c.left, c.right, got.Width, want)
		}
	}
}

func TestClearForKeepsWhatItCannotBetter(t *testing.T) {
	s := survey()
	c := measure(t, s).Variants[0]
	if diff := cmp.Diff(c, s.ClearFor(c, 3, mm(2300))); diff != "" {
		t.Error("without leans", diff)
	}
	s.Leans.Left = []opening.Lean{{At: 0, Size: mm(1)}, {At: mm(2300), Size: mm(9)}}
	if diff := cmp.Diff(c, s.ClearFor(c, 2, mm(2300))); diff != "" {
		t.Error("two doors", diff)
	}
	if diff := cmp.Diff(opening.Clear{}, opening.Survey{Leans: s.Leans}.ClearFor(opening.Clear{}, 3, mm(2300))); diff != "" {
		t.Error("without widths", diff)
	}
	if got := s.ClearFor(c, 3, mm(2300)); got.Height != c.Height || cmp.Equal(got.Width, c.Width) {
		t.Error(got)
	}
}

// The envelope against walls that are known exactly: straight between their
// readings, everything read true, the distance between the plumb lines given.
func TestEnvelopeOfKnownWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		apart := rapid.Int64Range(1500, 4000).Draw(t, "apart")
		heights := []int64{0, 1000, 2000}
		draw := func(name string) (at [3]int64) {
			for i := range at {
				at[i] = rapid.Int64Range(-6, 6).Draw(t, name)
			}
			return at
		}
		left, right := draw("left"), draw("right")
		door := rapid.Int64Range(1, 2000).Draw(t, "door")
		at := func(wall [3]int64, y int64) *big.Rat {
			i := min(y/1000, 1)
			return new(big.Rat).Add(big.NewRat(wall[i], 1), big.NewRat((wall[i+1]-wall[i])*(y-1000*i), 1000))
		}
		s := survey()
		s.Widths = nil
		for _, y := range heights {
			i := y / 1000
			s.Widths = append(s.Widths, opening.Width{At: mm(y), Size: mm(apart + left[i] + right[i])})
			s.Leans.Left = append(s.Leans.Left, opening.Lean{At: mm(y), Size: mm(left[i])})
			s.Leans.Right = append(s.Leans.Right, opening.Lean{At: mm(y), Size: mm(right[i])})
		}
		c := s.ClearFor(measure2(t, s).Variants[0], rapid.IntRange(3, 8).Draw(t, "doors"), mm(door))
		// Step by step up the door, as one would with a straightedge.
		in, out := [2]*big.Rat{at(left, 0), at(right, 0)}, [2]*big.Rat{at(left, 0), at(right, 0)}
		for y := int64(0); y <= door; y += min(25, max(door-y, 1)) {
			for i, wall := range [][3]int64{left, right} {
				if x := at(wall, y); x.Cmp(in[i]) < 0 {
					in[i] = x
				} else if x.Cmp(out[i]) > 0 {
					out[i] = x
				}
			}
		}
		for _, end := range []struct {
			name string
			got  units.Length
			want [2]*big.Rat
		}{{"narrowest", c.Width.Min, in}, {"widest", c.Width.Max, out}} {
			want := new(big.Rat).Add(big.NewRat(apart, 1), new(big.Rat).Add(end.want[0], end.want[1]))
			want.Mul(want, big.NewRat(1_000_000, 1))
			off := new(big.Rat).Sub(want, big.NewRat(int64(end.got), 1))
			if off.Abs(off).Cmp(big.NewRat(2, 1)) > 0 { // two walls, each rounded once
				t.Fatalf("%s %s, want %s nm", end.name, end.got, want.FloatString(1))
			}
		}
	})
}

// The raised corner closes the wedge and a nanometre less would not.
func TestRaiseIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Int64Range(1, int64(mm(2000))).Draw(t, "w"), rapid.Int64Range(int64(mm(500)), int64(mm(3000))).Draw(t, "h")
		p := rapid.Int64Range(-int64(mm(50)), int64(mm(50))).Draw(t, "p")
		s := survey()
		s.Leans.Right = []opening.Lean{{At: 0, Size: 0}, {At: units.Length(h), Size: units.Length(p)}}
		d, err := s.EndDoor(opening.Clear{}, opening.Right, units.Length(w), units.Length(h), 0)
		if err != nil {
			t.Fatal(err)
		}
		wedge := new(big.Int).Abs(new(big.Int).Mul(big.NewInt(p), big.NewInt(w)))
		closes := func(raise units.Length) bool {
			return new(big.Int).Mul(big.NewInt(int64(raise)), big.NewInt(h)).Cmp(wedge) >= 0
		}
		if !closes(d.Raise) || d.Raise > 0 && closes(d.Raise-1) {
			t.Fatalf("raise %s", d.Raise)
		}
	})
}

func TestLeanFindings(t *testing.T) {
	plumb := []opening.Lean{{At: mm(200), Size: mm(50)}, {At: mm(700), Size: mm(50)}, {At: mm(1200), Size: mm(50)}}
	change := func(i int, size int64) []opening.Lean {
		leans := append([]opening.Lean(nil), plumb...)
		leans[i].Size = mm(size)
		return leans
	}
	for _, c := range []struct {
		name        string
		left, right []opening.Lean
		widths      []int64
		want        string
	}{
		{"none", nil, nil, []int64{2400, 2400, 2400}, "no-plumb note"},
		{"plumb", plumb, plumb, []int64{2400, 2400, 2400}, ""},
		{"left alone", plumb, nil, []int64{2400, 2400, 2400}, "right no-plumb note"},
		{"right alone", nil, plumb, []int64{2400, 2400, 2400}, "left no-plumb note"},
		{"one reading", plumb[:1], plumb, []int64{2400, 2400, 2400}, "left few-readings warn"},
		{"slip", change(1, 90), plumb, []int64{2400, 2400, 2400}, "left[1].size outlier stop"},
		{"slip on the right", plumb, change(2, 500), []int64{2400, 2400, 2400}, "right[2].size unit-slip stop"},
		{"borne out by the widths", change(2, 85), plumb, []int64{2400, 2400, 2435}, ""},
		{"disagree", change(1, 56), plumb, []int64{2400, 2400, 2400}, "leans-disagree warn"},
		{"agree", change(1, 52), plumb, []int64{2400, 2400, 2400}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := survey()
			s.Widths = widthsOf(mm(c.widths[0]), mm(c.widths[1]), mm(c.widths[2]))
			s.Leans = opening.Leans{Left: c.left, Right: c.right}
			var got []string
			for _, f := range measure(t, s).Findings {
				if rest, ok := strings.CutPrefix(f.Place, "opening.leans"); ok {
					got = append(got, strings.TrimPrefix(rest+" "+string(f.Code)+" "+string(f.Severity), "."))
				}
			}
			if got := strings.TrimSpace(strings.Join(got, ";")); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}

// One lean and two widths apart by more than √(2 + 2) × 2: the plumb readings at
// one height cancel out, so widths alone may scatter by 2.83.
func TestLeansDisagreePastTheirUncertainty(t *testing.T) {
	for apart, want := range map[units.Length]bool{2_828_428: false, 2_828_429: true} {
		s := survey()
		s.Widths = []opening.Width{{At: mm(200), Size: mm(2400)}, {At: mm(200), Size: mm(2400) + apart}}
		s.Leans = opening.Leans{Left: []opening.Lean{{At: 0}, {At: mm(2000)}}, Right: []opening.Lean{{At: 0}, {At: mm(2000)}}}
		if got := measure(t, s).Findings.Has(opening.CodeLeansDisagree); got != want {
			t.Errorf("%s apart: %v", apart, got)
		}
	}
}
