package frame_test

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"example.com/lapspan/frame"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestGradesReference(t *testing.T) {
	rows := 0
	table.Each(t, "frame_grades.csv", func(t *testing.T, r row) {
		rows++
		want := frame.Grade{
			Name: r["id"], MeanE: r.Number(t, "mean_e"), FifthE: r.Number(t, "fifth_e"),
			MeanG: r.Number(t, "mean_g"), MeanDensity: r.Number(t, "mean_density"),
		}
		got, err := frame.GradeOf(r["id"])
		if err != nil || got != want {
			t.Errorf("%+v, %v: want %+v", got, err, want)
		}
	})
	if got := len(frame.Grades()); got != rows {
		t.Errorf("%d grades, the table has %d", got, rows)
	}
	for _, name := range []string{"", "C15", "c24", "C24 "} {
		if g, err := frame.GradeOf(name); !errors.Is(err, frame.ErrGrade) || g != (frame.Grade{}) {
			t.Errorf("%q: %+v, %v", name, g, err)
		}
	}
}

// The relations of EN 384 between the columns: G is a sixteenth of E to the nearest 10,
// the 5 % fractile 0.67 of the mean to the nearest 100, ties up.
func TestGradesRelate(t *testing.T) {
	var last frame.Grade
	for _, g := range frame.Grades() {
		if want := (g.MeanE/16 + 5) / 10 * 10; g.MeanG != want {
			t.Errorf("%s: G %d, want %d", g.Name, g.MeanG, want)
		}
		if want := (g.MeanE*67/100 + 50) / 100 * 100; g.FifthE != want {
			t.Errorf("%s: E₀,05 %d, want %d", g.Name, g.FifthE, want)
		}
		if g.MeanE <= last.MeanE || g.MeanDensity <= last.MeanDensity {
			t.Errorf("%s is no stiffer and heavier than %s", g.Name, last.Name)
		}
		last = g
	}
}

func TestDeflectionReference(t *testing.T) {
	table.Each(t, "frame_beams.csv", func(t *testing.T, r row) {
		b := frame.Beam{Span: r.Length(t, "span"), Width: r.Length(t, "width"), Depth: r.Length(t, "depth"), E: r.Number(t, "e")}
		got, err := b.Deflection(frame.Load{
			Uniform: frame.Force(r.Number(t, "uniform")) * frame.Newton,
			Centre:  frame.Force(r.Number(t, "centre")) * frame.Newton,
			Pair:    frame.Force(r.Number(t, "pair")) * frame.Newton,
			PairAt:  r.Length(t, "pair_at"),
		})
		if err != nil {
			t.Fatal(err)
		}
		if off := (got - r.Length(t, "expected")).Abs(); off > r.Length(t, "within") {
			t.Errorf("%v, want %s within %s", got, r["expected"], r["within"])
		}
	})
}

func TestDeflectionRefuses(t *testing.T) {
	good := frame.Beam{Span: 2400 * mm, Width: 38 * mm, Depth: 89 * mm, E: 8000}
	type change func(*frame.Beam, *frame.Load)
	tests := []struct {
		name   string
		change change
		ok     bool
	}{
		{"good", func(*frame.Beam, *frame.Load) {}, true},
		{"no span", func(b *frame.Beam, _ *frame.Load) { b.Span = 0 }, false},
		{"no width", func(b *frame.Beam, _ *frame.Load) { b.Width = 0 }, false},
		{"no depth", func(b *frame.Beam, _ *frame.Load) { b.Depth = 0 }, false},
		{"a span beyond all", func(b *frame.Beam, _ *frame.Load) { b.Span = units.MaxLength + 1 }, false},
		{"no modulus", func(b *frame.Beam, _ *frame.Load) { b.E = 0 }, false},
		{"the least modulus", func(b *frame.Beam, _ *frame.Load) { b.E = 1 }, true},
		{"the greatest modulus", func(b *frame.Beam, _ *frame.Load) { b.E = frame.MaxE }, true},
		{"a modulus beyond all", func(b *frame.Beam, _ *frame.Load) { b.E = frame.MaxE + 1 }, false},
		{"load upwards", func(_ *frame.Beam, l *frame.Load) { l.Uniform = -1 }, false},
		{"centre load upwards", func(_ *frame.Beam, l *frame.Load) { l.Centre = -1 }, false},
		{"pair upwards", func(_ *frame.Beam, l *frame.Load) { l.Pair = -1 }, false},
		{"the greatest load", func(b *frame.Beam, l *frame.Load) { l.Centre, b.Depth = frame.MaxForce, 900*mm }, true},
		{"a load beyond all", func(b *frame.Beam, l *frame.Load) { l.Centre, b.Depth = frame.MaxForce+1, 900*mm }, false},
		{"a pair at the supports", func(_ *frame.Beam, l *frame.Load) { l.Pair = frame.Newton }, true},
		{"a pair in the middle", func(_ *frame.Beam, l *frame.Load) { l.Pair, l.PairAt = frame.Newton, 1200*mm }, true},
		{"a pair past the middle", func(_ *frame.Beam, l *frame.Load) { l.Pair, l.PairAt = frame.Newton, 1200*mm+1 }, false},
		{"a pair outside", func(_ *frame.Beam, l *frame.Load) { l.Pair, l.PairAt = frame.Newton, -1 }, false},
		{"bent beyond all", func(b *frame.Beam, l *frame.Load) { l.Centre, b.Depth = frame.MaxForce, mm }, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, l := good, frame.Load{}
			tt.change(&b, &l)
			got, err := b.Deflection(l)
			if tt.ok != (err == nil) || !tt.ok && !errors.Is(err, units.ErrRange) {
				t.Fatalf("error %v", err)
			}
			lines, err := b.Working(l)
			if tt.ok != (err == nil) || tt.ok != (len(lines) > 0) {
				t.Errorf("working %v, error %v", lines, err)
			}
			if !tt.ok && got != 0 {
				t.Errorf("%v beside an error", got)
			}
		})
	}
}

// The bound of a deflection is exact: over 4·E·b·h³ the load P bends P·L³ far.
func TestDeflectionAtItsBound(t *testing.T) {
	// P·L³·10⁶/(4·E·b·h³) in nanometres and micronewtons: with L = h it is P·10⁶/(4·E·b).
	b := frame.Beam{Span: mm, Width: 10, Depth: mm, E: 250}
	if got, err := b.Deflection(frame.Load{Centre: 1000}); err != nil || got != 100_000 {
		t.Fatalf("%v, %v: want 100 µm", got, err)
	}
	if got, err := b.Deflection(frame.Load{Centre: 1000 * 1000 * frame.Micronewton * 1000}); err != nil || got != units.MaxLength {
		t.Errorf("%v, %v: want %v", got, err, units.MaxLength)
	}
	if got, err := b.Deflection(frame.Load{Centre: 1000*1000*1000 + 1}); !errors.Is(err, units.ErrRange) {
		t.Errorf("%v, %v: want it refused", got, err)
	}
}

// deflectionHolds works the formulas as they are printed, in fractions.
func deflectionHolds(t *rapid.T) {
	length := func(name string, from, to units.Length) units.Length {
		return units.Length(rapid.Int64Range(int64(from), int64(to)).Draw(t, name))
	}
	force := func(name string) frame.Force {
		return frame.Force(rapid.Int64Range(0, int64(2*frame.Kilonewton)).Draw(t, name))
	}
	b := frame.Beam{
		Span: length("span", 300*mm, 6000*mm), Width: length("width", 30*mm, 200*mm),
		Depth: length("depth", 30*mm, 300*mm), E: rapid.Int64Range(5000, 20000).Draw(t, "e"),
	}
	l := frame.Load{Uniform: force("uniform"), Centre: force("centre"), Pair: force("pair"), PairAt: length("at", 0, b.Span/2)}
	got, err := b.Deflection(l)
	if err != nil {
		t.Fatal(err)
	}
	milli := func(l units.Length) *big.Rat { return big.NewRat(int64(l), int64(mm)) }
	newtons := func(f frame.Force) *big.Rat { return big.NewRat(int64(f), int64(frame.Newton)) }
	times := func(factors ...*big.Rat) *big.Rat {
		p := big.NewRat(1, 1)
		for _, f := range factors {
			p.Mul(p, f)
		}
		return p
	}
	n := func(n int64) *big.Rat { return big.NewRat(n, 1) }
	span, at, depth := milli(b.Span), milli(l.PairAt), milli(b.Depth)
	ei := times(n(b.E), milli(b.Width), depth, depth, depth, big.NewRat(1, 12))
	sum := new(big.Rat).Quo(times(n(5), newtons(l.Uniform), big.NewRat(1, 1000), span, span, span, span), times(n(384), ei))
	sum.Add(sum, new(big.Rat).Quo(times(newtons(l.Centre), span, span, span), times(n(48), ei)))
	inner := new(big.Rat).Sub(times(n(3), span, span), times(n(4), at, at))
	sum.Add(sum, new(big.Rat).Quo(times(newtons(l.Pair), at, inner), times(n(24), ei)))
	// Up to a nanometre: not below the exact value, and less than one above.
	off := new(big.Rat).Sub(milli(got), sum)
	if off.Sign() < 0 || off.Cmp(big.NewRat(1, int64(mm))) >= 0 {
		t.Errorf("%v, exact %s mm", got, sum.FloatString(9))
	}
}

func TestDeflectionHolds(t *testing.T) { rapid.Check(t, deflectionHolds) }

// Wood Handbook (FPL-GTR-190) table 9-1: two loads at the quarter points bend 11/768 of
// W·L³/EI; at the third points it is 23/1296; in the middle as one load of their sum.
func TestPairsAgreeWithTheHandbook(t *testing.T) {
	// b·h³ = 12·EI/E: with E 12 000 and h = L it is W·10⁶·k/(1000·b) exactly.
	b := frame.Beam{Span: 1200 * mm, Width: mm, Depth: 1200 * mm, E: 12_000}
	tests := []struct {
		at       units.Length
		num, den int64
	}{{300 * mm, 11, 768}, {400 * mm, 23, 1296}, {600 * mm, 1, 48}, {0, 0, 1}}
	for _, tt := range tests {
		got, err := b.Deflection(frame.Load{Pair: frame.Kilonewton / 2, PairAt: tt.at})
		if err != nil {
			t.Fatal(err)
		}
		// W·L³·k/(E·b·L³/12) = 1000 N × k / (12 000 N/mm² × 1 mm / 12) = k mm.
		want, _ := mm.MulDiv(tt.num, tt.den, units.Up)
		if got != want {
			t.Errorf("at %v: %v, want %v", tt.at, got, want)
		}
	}
}

func TestCheckStiffness(t *testing.T) {
	b := frame.Beam{Span: 2400 * mm, Width: 38 * mm, Depth: 89 * mm}
	load := frame.Load{Centre: 500 * frame.Newton}
	// 8.0631 against 2400/297 = 8.0808 and 2400/298 = 8.0537.
	got, err := frame.CheckStiffness(b, "C16", load, 297)
	if err != nil {
		t.Fatal(err)
	}
	want := frame.Stiffness{Grade: "C16", Span: 2400 * mm, Deflection: got.Deflection, Limit: 297, Allowed: 8_080_808, Within: true, Advice: got.Advice}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if off := (got.Deflection - 8_063_100).Abs(); off > 50 {
		t.Errorf("deflection %v, want 8.0631", got.Deflection)
	}
	if !strings.Contains(got.Advice, "qualified engineer") || !strings.Contains(got.Advice, "for information") {
		t.Errorf("advice %q", got.Advice)
	}
	if got, err := frame.CheckStiffness(b, "C16", load, 298); err != nil || got.Within {
		t.Errorf("%+v, %v: want it past the limit", got, err)
	}
	// Exactly the limit is within: 100 µm over 1 mm at span/10.
	exact := frame.Beam{Span: mm, Width: 10, Depth: mm}
	for _, tt := range []struct {
		load   frame.Force
		within bool
	}{{32_000, true}, {32_001, false}} {
		// E 8000: P·10⁶/(4·8000·10) = 100 000 for P 32 000.
		got, err := frame.CheckStiffness(exact, "C16", frame.Load{Centre: tt.load}, 10)
		if err != nil || got.Within != tt.within {
			t.Errorf("%v: %+v, %v", tt.load, got, err)
		}
	}
	for _, tt := range []struct {
		grade string
		limit int
		want  error
	}{
		{"C16", frame.MinLimit, nil}, {"C16", frame.MaxLimit, nil},
		{"C16", 0, units.ErrRange}, {"C16", frame.MaxLimit + 1, units.ErrRange}, {"C17", 300, frame.ErrGrade},
	} {
		if _, err := frame.CheckStiffness(b, tt.grade, load, tt.limit); !errors.Is(err, tt.want) {
			t.Errorf("%s at span/%d: error %v, want %v", tt.grade, tt.limit, err, tt.want)
		}
	}
	if _, err := frame.CheckStiffness(frame.Beam{}, "C16", load, 300); !errors.Is(err, units.ErrRange) {
		t.Errorf("no beam: error %v", err)
	}
}

func TestDeflectionWorking(t *testing.T) {
	b := frame.Beam{Span: 2400 * mm, Width: 38 * mm, Depth: 89 * mm, E: 8000}
	got, err := b.Working(frame.Load{Uniform: 100 * frame.Newton, Centre: 500 * frame.Newton, Pair: 250 * frame.Newton, PairAt: 600 * mm})
	if err != nil {
		t.Fatal(err)
	}
	want := []units.Line{
		{What: "I = b·h³/12", Sum: "38 × 89³ / 12", Is: "2232401.833 mm⁴"},
		{What: "5·w·L⁴/(384·E·I)", Sum: "5 × 100/1000 × 2400⁴ / (384 × 8000 × I)", Is: got[1].Is},
		{What: "P·L³/(48·E·I)", Sum: "500 × 2400³ / (48 × 8000 × I)", Is: got[2].Is},
		{What: "P·a·(3·L² − 4·a²)/(24·E·I)", Sum: "250 × 600 × (3 × 2400² − 4 × 600²) / (24 × 8000 × I)", Is: got[3].Is},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for i, start := range []string{"2.4189", "8.063", "5.543"} {
		if !strings.HasPrefix(got[i+1].Is, start) || !strings.HasSuffix(got[i+1].Is, " mm") {
			t.Errorf("%s is %s, want %s… mm", got[i+1].What, got[i+1].Is, start)
		}
	}
	one, err := b.Working(frame.Load{Centre: frame.Newton})
	if err != nil || len(one) != 2 {
		t.Errorf("%v, %v: want I and one load", one, err)
	}
}

func TestForce(t *testing.T) {
	tests := []struct {
		text string
		want frame.Force // -1: refused
	}{
		{"0", 0}, {"750", 750 * frame.Newton}, {"0.5", frame.Newton / 2}, {"0.000001", 1},
		{"1000000", frame.MaxForce}, {"1000000.000001", -1}, {"9999999", -1}, {"10000000", -1},
		{"0.0000001", -1}, {"-1", -1}, {"1e3", -1}, {"", -1}, {".5", -1}, {"5.", -1}, {`"5"`, -1}, {"null", -1}, {"+5", -1}, {"1.-2", -1},
	}
	for _, tt := range tests {
		f := frame.Force(7)
		err := f.UnmarshalJSON([]byte(tt.text))
		switch {
		case tt.want < 0 && (err == nil || f != 7):
			t.Errorf("%q: %v, %v: want it refused and the receiver as it was", tt.text, f, err)
		case tt.want >= 0 && (err != nil || f != tt.want):
			t.Errorf("%q: %v, %v: want %v", tt.text, f, err, tt.want)
		case tt.want >= 0:
			if back, err := f.MarshalJSON(); err != nil || string(back) != tt.text {
				t.Errorf("%q is written %q, %v", tt.text, back, err)
			}
		}
	}
	if got := (1500 * frame.Micronewton).String(); got != "0.0015 N" {
		t.Errorf("written %q", got)
	}
}
