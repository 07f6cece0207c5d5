package frame_test

import (
	"errors"
	"testing"

	"example.com/lapspan/frame"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestStrip(t *testing.T) {
	tests := []struct {
		name            string
		length, longest units.Length
		want            []units.Length // nil: refused
	}{
		{"in one piece", 2400 * mm, 2400 * mm, []units.Length{2400 * mm}},
		{"a nanometre over", 2400*mm + 1, 2400 * mm, []units.Length{2400 * mm, 1}},
		{"two whole pieces", 4800 * mm, 2400 * mm, []units.Length{2400 * mm, 2400 * mm}},
		{"no length", 0, 2400 * mm, nil},
		{"no stock", 2400 * mm, 0, nil},
		{"length below zero", -1, 2400 * mm, nil},
		{"stock below zero", 2400 * mm, -1, nil},
		{"one piece too many", 10_000*mm + 1, mm, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := frame.Strip(tt.length, tt.longest)
			if (tt.want == nil) != errors.Is(err, units.ErrRange) {
				t.Fatalf("error %v", err)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
	if got, err := frame.Strip(10_000*mm, mm); err != nil || len(got) != 10_000 {
		t.Errorf("%d pieces, %v: want as many as may be", len(got), err)
	}
}

// Pieces sum to the strip, none longer than the stock, and one piece fewer would not reach.
func TestStripHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := units.Length(rapid.Int64Range(1, int64(20*units.Metre)).Draw(t, "length"))
		longest := units.Length(rapid.Int64Range(int64(10*mm), int64(6*units.Metre)).Draw(t, "longest"))
		pieces, err := frame.Strip(length, longest)
		if err != nil {
			t.Fatal(err)
		}
		var laid units.Length
		for _, p := range pieces {
			if p <= 0 || p > longest {
				t.Errorf("a piece of %v from %v", p, longest)
			}
			laid += p
		}
		if laid != length || units.Length(len(pieces)-1)*longest >= length {
			t.Errorf("%d pieces come to %v, want %v", len(pieces), laid, length)
		}
	})
}
