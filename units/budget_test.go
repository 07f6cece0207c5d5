package units_test

import (
	"testing"

	"example.com/lapspan/units"
)

// What is done for every candidate of a search must not allocate.
func TestAllocations(t *testing.T) {
	var (
		l    units.Length
		ok   bool
		err  error
		a, b = 2400 * mm, 66_666_667 * units.Nanometre
		span = units.Span{Min: a, Max: a + b}
		buf  = make([]byte, 0, 64)
		data = []byte("7' 10 1/2\"")
	)
	for name, f := range map[string]func(){
		"Parse":             func() { l, err = units.Parse("2400 mm") },
		"Parse, imperial":   func() { l, err = units.Parse("7' 10 1/2\"") },
		"Parse, vulgar":     func() { l, err = units.Parse("94½″") },
		"ParseSigned":       func() { l, err = units.ParseSigned("-2.4 m") },
		"add and compare":   func() { l, ok = a+b, a < b },
		"Contains":          func() { ok = span.Contains(b) },
		"RoundInside":       func() { span, err = span.RoundInside(units.Nanometre) },
		"Round":             func() { l, err = b.Round(units.Millimetre, units.HalfEven) },
		"MulDiv":            func() { l, err = b.MulDiv(650, 2300, units.Up) },
		"RootSumSquares":    func() { l, err = units.RootSumSquares(a, b) },
		"AppendText":        func() { _, err = b.AppendText(buf) },
		"AppendMillimetres": func() { buf = b.AppendMillimetres(buf)[:0] },
		"Imperial":          func() { _, err = b.Imperial(64, units.HalfEven) },
		"Market":            func() { ok = units.CLS.String() == "" },
	} {
		if got := testing.AllocsPerRun(100, f); got != 0 || err != nil {
			t.Errorf("%s: %v allocations (%v), want none", name, got, err)
		}
	}
	if got := testing.AllocsPerRun(100, func() { err = l.UnmarshalText(data) }); got > 1 || err != nil {
		t.Errorf("UnmarshalText: %v allocations (%v), want one at most", got, err)
	}
	if got := testing.AllocsPerRun(100, func() { _ = a.String() }); got > 1 {
		t.Errorf("String: %v allocations, want one at most", got)
	}
	_ = ok
}
