package doors

import (
	"context"
	"errors"
	"testing"

	"example.com/lapspan/units"
)

// A search that reaches its limit on work says so, and that it may have left out better runs.
func TestWorkHasALimit(t *testing.T) {
	s := Search{
		Gear: Gear{Tracks: MinTracks, Overlap: Target{Min: 20, Max: 70}}, Mixed: true, Rank: []Key{ByAccess, ByEven},
		Fit: Fit{Span: units.Span{Min: 3000, Max: 3000}},
	}
	for w := range units.Length(200) {
		s.Widths = append(s.Widths, Offer{Width: 400 + w})
	}
	p, err := prepare(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	steps := 0
	for p.maxWork = 1; ; p.maxWork *= 2 {
		found, err := p.best(context.Background(), s.Fit, s.Fit, 10)
		if err != nil {
			t.Fatal(err)
		}
		if found.Proven {
			break
		}
		if found.All {
			t.Errorf("after %d steps: all there is, and not proven", p.maxWork)
		}
		var last error
		for _, err := range p.inOrder(context.Background()) {
			last = err
		}
		if !errors.Is(last, ErrWork) {
			t.Errorf("after %d steps InOrder ends with %v", p.maxWork, last)
		}
		steps++
	}
	if steps < 3 || p.maxWork > MaxWork {
		t.Errorf("proven within %d steps", p.maxWork)
	}
}
