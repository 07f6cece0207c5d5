package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
	"github.com/google/go-cmp/cmp"
)

func TestMeasureAgain(t *testing.T) {
	uses := []opening.Use{
		{"widest width", opening.Deciding{Places: []string{"w1"}, Uncertainty: mm(2)}, mm(2)},
		{"narrowest width", opening.Deciding{Places: []string{"w0"}, Uncertainty: mm(2)}, mm(2) - 1},
		{"height down", opening.Deciding{Places: []string{"f", "c"}, Uncertainty: mm(3)}, mm(1)},
		{"height up", opening.Deciding{Places: []string{"f", "c"}, Uncertainty: mm(3)}, 0},
		{"something", opening.Deciding{Places: []string{"a"}, Uncertainty: mm(3)}, mm(1)},
	}
	want := []opening.Again{
		{"c", "height up", 0, mm(3)},
		{"f", "height up", 0, mm(3)},
		{"a", "something", mm(1), mm(3)},
		{"w0", "narrowest width", mm(2) - 1, mm(2)},
	}
	got := opening.MeasureAgain(uses...)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if got[0].Short() != mm(3) || got[3].Short() != 1 {
		t.Error(got[0].Short(), got[3].Short())
	}
	if got := opening.MeasureAgain(); len(got) != 0 {
		t.Error(got)
	}
}
