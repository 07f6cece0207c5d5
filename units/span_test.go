package units_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

const mm = units.Millimetre

func TestSpan(t *testing.T) {
	s := units.Span{Min: 30 * mm, Max: 35 * mm}
	for l, want := range map[units.Length]bool{
		30*mm - 1: false, 30 * mm: true, 32 * mm: true, 35 * mm: true, 35*mm + 1: false,
	} {
		if s.Contains(l) != want {
			t.Errorf("%v contains %v: %v", s, l, !want)
		}
	}
	if s.Width() != 5*mm {
		t.Errorf("width of %v is %v", s, s.Width())
	}
	if err := s.Validate(); err != nil {
		t.Error(err)
	}
	if got := s.String(); got != "30 to 35 mm" {
		t.Errorf("span is %q", got)
	}
	if got := (units.Span{Min: -mm, Max: -mm}).String(); got != "-1 mm" {
		t.Errorf("span of one length is %q", got)
	}
}

func TestSpanReversed(t *testing.T) {
	s := units.Span{Min: 1, Max: 0}
	if err := s.Validate(); !errors.Is(err, units.ErrReversed) {
		t.Errorf("error %v", err)
	}
	if s.Contains(0) || s.Contains(1) {
		t.Error("a reversed span contains something")
	}
	if s.Width() != -1 {
		t.Errorf("width %v", s.Width())
	}
	if _, err := s.RoundInside(1); !errors.Is(err, units.ErrReversed) {
		t.Errorf("round: error %v", err)
	}
	if err := (units.Span{Min: 1, Max: 1}).Validate(); err != nil {
		t.Errorf("a span of one length: %v", err)
	}
}

func TestSpanRoundInside(t *testing.T) {
	for _, c := range []struct {
		s    units.Span
		step units.Length
		want units.Span
		err  error
	}{
		{units.Span{Min: 30 * mm, Max: 35 * mm}, mm, units.Span{Min: 30 * mm, Max: 35 * mm}, nil},
		{units.Span{Min: 30*mm + 1, Max: 35*mm - 1}, mm, units.Span{Min: 31 * mm, Max: 34 * mm}, nil},
		{units.Span{Min: 30*mm + 1, Max: 31 * mm}, mm, units.Span{Min: 31 * mm, Max: 31 * mm}, nil},
		{units.Span{Min: -3 * mm, Max: 3 * mm}, 2 * mm, units.Span{Min: -2 * mm, Max: 2 * mm}, nil},
		{units.Span{Min: 30*mm + 1, Max: 31*mm - 1}, mm, units.Span{}, units.ErrNoMultiple},
		{units.Span{Min: 0, Max: 1}, 0, units.Span{}, units.ErrStep},
		{units.Span{Min: math.MaxInt64, Max: math.MaxInt64}, 2, units.Span{}, units.ErrRange},
		{units.Span{Min: math.MinInt64, Max: math.MinInt64}, 3, units.Span{}, units.ErrRange},
	} {
		got, err := c.s.RoundInside(c.step)
		if got != c.want || !errors.Is(err, c.err) {
			t.Errorf("%v in steps of %v: %v (%v), want %v (%v)", c.s, c.step, got, err, c.want, c.err)
		}
	}
}

// A span rounded inside is the greatest one on the step that the span holds.
func TestSpanRoundInsideIsGreatest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64Range(-100, 100).Draw(t, "a"), rapid.Int64Range(-100, 100).Draw(t, "b")
		step := rapid.Int64Range(1, 30).Draw(t, "step")
		s := units.Span{Min: units.Length(min(a, b)), Max: units.Length(max(a, b))}
		var want []units.Length
		for l := s.Min; l <= s.Max; l++ {
			if l%units.Length(step) == 0 {
				want = append(want, l)
			}
		}
		got, err := s.RoundInside(units.Length(step))
		if len(want) == 0 {
			if !errors.Is(err, units.ErrNoMultiple) {
				t.Fatalf("%v: %v, want ErrNoMultiple", got, err)
			}
			return
		}
		if err != nil || got.Min != want[0] || got.Max != want[len(want)-1] {
			t.Fatalf("%v (%v), want %v to %v", got, err, want[0], want[len(want)-1])
		}
	})
}

func TestSpanJSON(t *testing.T) {
	got, err := json.Marshal(units.Span{Min: 30 * mm, Max: 35*mm + mm/2})
	if string(got) != `{"min":30,"max":35.5}` || err != nil {
		t.Errorf("JSON is %s (%v)", got, err)
	}
	var s units.Span
	if err := json.Unmarshal([]byte(`{"min":30,"max":"1 1/2 in"}`), &s); err != nil || s != (units.Span{Min: 30 * mm, Max: 3 * units.Inch / 2}) {
		t.Errorf("span from JSON is %v (%v)", s, err)
	}
}
