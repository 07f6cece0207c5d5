package doors

import (
	"cmp"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestLeastKeepsTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := least[int]{limit: rapid.IntRange(1, 8).Draw(t, "limit"), compare: func(a, b *int) int { return cmp.Compare(*a, *b) }}
		var shown []int
		for _, n := range rapid.SliceOfN(rapid.IntRange(0, 20), 0, 40).Draw(t, "shown") {
			l.show(n)
			shown = append(shown, n)
			slices.Sort(shown)
			shown = shown[:min(len(shown), l.limit)]
			if l.full() != (len(shown) == l.limit) || *l.last() != shown[len(shown)-1] {
				t.Fatalf("the greatest kept is %d, want %d", *l.last(), shown[len(shown)-1])
			}
		}
		if diff := gocmp.Diff(shown, l.sorted()); diff != "" {
			t.Fatal(diff)
		}
	})
}
