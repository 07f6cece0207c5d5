package opening_test

import (
	"errors"
	"math/big"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func TestSquareReference(t *testing.T) {
	table.Each(t, "opening_square.csv", func(t *testing.T, r row) {
		s := survey()
		w, h := length(t, r["width"]), length(t, r["height"])
		s.Widths, s.Heights = widthsOf(w, w, w), heightsOf(h, h, h)
		s.Diagonals = &opening.Diagonals{Rising: length(t, r["rising"]), Falling: length(t, r["falling"])}
		q, err := s.Square()
		if err != nil {
			t.Fatal(err)
		}
		within := units.Length(2) // the diagonals of the table end at a nanometre, or sooner
		if r["shear"] != "" && (q.Shear-length(t, r["shear"])).Abs() > within {
			t.Errorf("shear %s, want %s", q.Shear, r["shear"])
		}
		if q.Wrong != r["wrong"] || (q.Would-length(t, r["would"])).Abs() > within {
			t.Errorf("wrong %q, would be %s, want %q %s", q.Wrong, q.Would, r["wrong"], r["would"])
		}
		if got := brief2(measure(t, s).Findings, "diagonals"); (got == "out-of-square") != (r["wrong"] == "" && q.Shear.Abs() > q.Uncertainty) {
			t.Errorf("%q", got)
		}
	})
}

// hypot is √(x² + y²) to the nanometre, x and y in millimetres.
func hypot(x, y int64) units.Length {
	sum := new(big.Int).Add(new(big.Int).Mul(big.NewInt(x), big.NewInt(x)), new(big.Int).Mul(big.NewInt(y), big.NewInt(y)))
	return units.Length(sum.Mul(sum, big.NewInt(1e12)).Sqrt(sum).Int64())
}

// A parallelogram of a known shear: it is found, nothing is blamed, and the one
// diagonal that is then read wrong is blamed and its truth told.
func TestSquareFindsTheWrongDiagonal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Int64Range(1000, 4000).Draw(t, "w"), rapid.Int64Range(1500, 3000).Draw(t, "h")
		shear := rapid.Int64Range(-6, 6).Draw(t, "shear")
		s := survey()
		s.Widths, s.Heights = widthsOf(mm(w), mm(w), mm(w)), heightsOf(mm(h), mm(h), mm(h))
		truth := opening.Diagonals{Rising: hypot(w+shear, h), Falling: hypot(w-shear, h)}
		s.Diagonals = &truth
		q, err := s.Square()
		if err != nil || q.Wrong != "" || (q.Shear-mm(shear)).Abs() > 10 {
			t.Fatal(q, err)
		}
		by := rapid.Int64Range(60, 400).Draw(t, "by") * rapid.SampledFrom([]int64{-1, 1}).Draw(t, "sign")
		wrong := truth
		place, would := "opening.diagonals.rising", truth.Rising
		if rapid.Bool().Draw(t, "falling") {
			wrong.Falling += mm(by)
			place, would = "opening.diagonals.falling", truth.Falling
		} else {
			wrong.Rising += mm(by)
		}
		s.Diagonals = &wrong
		q, err = s.Square()
		if err != nil || q.Wrong != place || (q.Would-would).Abs() > 100 {
			t.Fatalf("%+v %v, want %s %s", q, err, place, would)
		}
	})
}

// The width is blamed for both diagonals, the heights where fewer were read, and
// plumb readings tell a shear that no diagonal is blamed for.
func TestSquareBlame(t *testing.T) {
	s := survey()
	s.Widths, s.Heights = widthsOf(mm(1850), mm(1850)), heightsOf(mm(2400), mm(2400), mm(2400))
	s.Diagonals = &opening.Diagonals{Rising: mm(3000), Falling: mm(3000)}
	blamed := func(want string, would units.Length) {
		t.Helper()
		q, err := s.Square()
		if err != nil || q.Wrong != want || (q.Would-would).Abs() > 1 {
			t.Errorf("%+v %v, want %s %s", q, err, want, would)
		}
	}
	blamed("opening.widths", mm(1800))
	s.Heights = s.Heights[:2]
	blamed("opening.widths", mm(1800))
	s.Heights = s.Heights[:1]
	s.Widths = widthsOf(mm(1800), mm(1800))
	s.Heights[0].Size = mm(2450)
	blamed("opening.heights", mm(2400))
	// A room sheared by 80, seen plumb: without the plumb readings the diagonal further from square is blamed.
	s.Widths, s.Heights = widthsOf(mm(1800), mm(1800)), heightsOf(mm(2400), mm(2400))
	s.Diagonals = &opening.Diagonals{Rising: hypot(1880, 2400), Falling: mm(3000)}
	blamed("opening.diagonals.rising", mm(3000))
	s.Leans = opening.Leans{
		Left:  []opening.Lean{{At: 0, Size: mm(80)}, {At: mm(2400), Size: 0}},
		Right: []opening.Lean{{At: 0, Size: 0}, {At: mm(2400), Size: mm(80)}},
	}
	blamed("opening.diagonals.falling", hypot(1720, 2400))
}

// 4 × 3000² × 2² × 2, the widths and heights without scatter: what the four
// readings may miss by, and a nanometre more.
func TestSquareTellsNoMoreThanItsAccuracy(t *testing.T) {
	s := survey()
	s.Accuracy = mm(2)
	w, h := mm(1800), mm(2400)
	s.Widths, s.Heights = widthsOf(w), heightsOf(h)
	// miss = d₁² + d₂² − 2(W² + H² + shear²) with d₁ = 3000 + e; U² = (2d₁a)² + (2d₂a)² + (4Wa)² + (4Ha)²
	exceeds := func(e units.Length) bool {
		d1, d2 := big.NewInt(int64(mm(3000)+e)), big.NewInt(int64(mm(3000)))
		sq := func(x *big.Int) *big.Int { return new(big.Int).Mul(x, x) }
		part := func(k int64, x *big.Int) *big.Int { return sq(new(big.Int).Mul(big.NewInt(k*int64(mm(2))), x)) }
		u2 := new(big.Int).Add(part(2, d1), part(2, d2))
		u2.Add(u2, part(4, big.NewInt(int64(w)))).Add(u2, part(4, big.NewInt(int64(h))))
		shear := new(big.Rat).SetFrac(new(big.Int).Sub(sq(d1), sq(d2)), big.NewInt(4*int64(w)))
		want := new(big.Rat).SetInt(new(big.Int).Add(sq(big.NewInt(int64(w))), sq(big.NewInt(int64(h)))))
		want.Add(want, shear.Mul(shear, shear)).Mul(want, big.NewRat(2, 1))
		miss := new(big.Rat).Sub(new(big.Rat).SetInt(new(big.Int).Add(sq(d1), sq(d2))), want)
		return miss.Mul(miss, miss).Cmp(new(big.Rat).SetInt(u2)) > 0
	}
	low, high := units.Length(0), mm(100)
	for high-low > 1 { // the least e that is too much
		if middle := (low + high) / 2; exceeds(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	for e, want := range map[units.Length]bool{low: false, high: true} {
		s.Diagonals = &opening.Diagonals{Rising: mm(3000) + e, Falling: mm(3000)}
		if q, err := s.Square(); err != nil || (q.Wrong != "") != want {
			t.Errorf("%s out: %+v %v", e, q, err)
		}
	}
}

func TestSquareRefuses(t *testing.T) {
	good := opening.Diagonals{Rising: mm(3320), Falling: mm(3320)}
	for _, c := range []struct {
		change func(*opening.Survey)
		place  string
	}{
		{func(s *opening.Survey) {}, ""},
		{func(s *opening.Survey) { s.Diagonals = nil }, "opening.diagonals"},
		{func(s *opening.Survey) { s.Diagonals.Rising = 0 }, "opening.diagonals.rising"},
		{func(s *opening.Survey) { s.Diagonals.Falling = -1 }, "opening.diagonals.falling"},
		{func(s *opening.Survey) { s.Widths = nil }, "opening.widths"},
		{func(s *opening.Survey) { s.Heights = nil }, "opening.heights"},
		{func(s *opening.Survey) { s.Heights[1].Size = 0 }, "opening.heights"},
		{func(s *opening.Survey) {
			s.Widths = []opening.Width{{Size: 1}}
			s.Diagonals.Rising = units.MaxLength
		}, "opening.diagonals"},
	} {
		s := survey()
		d := good
		s.Diagonals = &d
		c.change(&s)
		_, err := s.Square()
		var refused *opening.InputError
		if (err != nil) != (c.place != "") || err != nil && (!errors.As(err, &refused) || refused.Place != c.place) {
			t.Errorf("%v, want it refused at %q", err, c.place)
		}
	}
	s := survey()
	s.Diagonals = &opening.Diagonals{Rising: 0, Falling: mm(3300)}
	if got := brief2(measure(t, s).Findings, "diagonals.rising"); got != "not-positive" {
		t.Error(got)
	}
}
