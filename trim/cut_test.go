package trim_test

import (
	"cmp"
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestScheduleReference(t *testing.T) {
	table.Each(t, "trim_cut.csv", func(t *testing.T, r row) {
		build := &doors.Build{TopBar: r.Length(t, "top_bar"), BottomBar: r.Length(t, "bottom_bar"), Bar: r.Length(t, "bar")}
		for _, text := range strings.Split(r["panels"], "/") {
			share, glass := strings.CutPrefix(text, "g")
			panel := doors.Panel{CutOnSite: !glass}
			if err := panel.Share.UnmarshalJSON([]byte(share)); err != nil {
				t.Fatal(err)
			}
			build.Panels = append(build.Panels, panel)
		}
		door, cut := r.Length(t, "door"), r.Length(t, "cut")
		got, found, err := trim.Schedule(build,
			doors.Cutting{Split: doors.Split(r["split"]), Step: r.Length(t, "step")},
			doors.Height{Stock: door, Cut: cut, Door: door - cut})
		if err != nil {
			t.Fatal(err)
		}
		if got.Stile != cut {
			t.Errorf("stiles lose %v, want %v", got.Stile, cut)
		}
		var cuts []string
		for _, p := range got.Panels {
			cuts = append(cuts, fmt.Sprintf("%d:%s", p.Panel, p.Cut.Millimetres()))
		}
		if text := strings.Join(cuts, " "); text != r["want"] {
			t.Errorf("panels lose %s, want %s", text, r["want"])
		}
		if mirrored := !found.Has(trim.CodeNotMirrored); fmt.Sprint(mirrored) != r["mirrored"] {
			t.Errorf("findings %v, mirrored should be %s", found, r["mirrored"])
		}
	})
}

func TestScheduleKeepsTheLeastHeight(t *testing.T) {
	// A panel alone: 1000 − 40 − 60 = 900, which keeps 800.
	build := &doors.Build{TopBar: 40 * mm, BottomBar: 60 * mm, LeastPanel: 800 * mm,
		Panels: []doors.Panel{{Share: doors.OneShare, CutOnSite: true}}}
	got, found, err := trim.Schedule(build, doors.Cutting{}, doors.Height{Stock: 1000 * mm, Cut: 100 * mm})
	want := trim.CutDown{Stile: 100 * mm, Panels: []trim.PanelCut{{Panel: 1, Cut: 100 * mm, Height: 800 * mm}}}
	if err != nil || found != nil || !gocmp.Equal(got, want) {
		t.Errorf("%+v, %v, %v: want %+v", got, found, err, want)
	}
	if _, _, err := trim.Schedule(build, doors.Cutting{}, doors.Height{Stock: 1000 * mm, Cut: 101 * mm}); !errors.Is(err, doors.ErrTooDeep) {
		t.Errorf("a millimetre more: error %v, want %v", err, doors.ErrTooDeep)
	}
}

func TestScheduleRefuses(t *testing.T) {
	glass := &doors.Build{Panels: []doors.Panel{{Share: doors.OneShare}}}
	bars := &doors.Build{TopBar: 1000 * mm, Panels: []doors.Panel{{Share: doors.OneShare, CutOnSite: true}}}
	plain := &doors.Build{Panels: []doors.Panel{{Share: doors.OneShare, CutOnSite: true}}}
	tests := []struct {
		name       string
		build      *doors.Build
		stock, cut units.Length
		want       error // nil: it can be cut
	}{
		{"no cut", nil, 1000 * mm, 0, units.ErrRange},
		{"the least cut", nil, 1000 * mm, 1, nil},
		{"below zero", nil, 1000 * mm, -1, units.ErrRange},
		{"the whole door", nil, 1000 * mm, 1000 * mm, units.ErrRange},
		{"all but a nanometre", nil, 1000 * mm, 1000*mm - 1, nil},
		{"glass", glass, 1000 * mm, 10 * mm, doors.ErrNoCut},
		{"all bar", bars, 1000 * mm, 10 * mm, doors.ErrNoPanel},
		{"not whole steps", plain, 1000 * mm, 10*mm + 1, units.ErrStep},
		{"whole steps", plain, 1000 * mm, 10 * mm, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, found, err := trim.Schedule(tt.build, doors.Cutting{}, doors.Height{Stock: tt.stock, Cut: tt.cut})
			if !errors.Is(err, tt.want) {
				t.Fatalf("error %v, want %v", err, tt.want)
			}
			if err != nil && (!gocmp.Equal(got, trim.CutDown{}) || found != nil) {
				t.Errorf("%+v, %v beside an error", got, found)
			}
			if tt.build == nil && err == nil && got.Panels != nil {
				t.Errorf("panels %v without a build", got.Panels)
			}
		})
	}
}

func TestNotMirroredIsANote(t *testing.T) {
	build := &doors.Build{Panels: []doors.Panel{{Share: doors.OneShare, CutOnSite: true}, {Share: doors.OneShare, CutOnSite: true}}}
	_, found, err := trim.Schedule(build, doors.Cutting{}, doors.Height{Stock: 1000 * mm, Cut: 11 * mm})
	if err != nil || len(found) != 1 || found[0].Severity != opening.Note || found[0].Place != "trim.cut_split" || found[0].Remedy == "" {
		t.Errorf("findings %v, %v: want one note at trim.cut_split with a remedy", found, err)
	}
}

func TestSteps(t *testing.T) {
	c := trim.CutDown{Stile: 130 * mm, Panels: []trim.PanelCut{{1, 65 * mm, 600 * mm}, {3, 65 * mm, 600 * mm}}}
	if got := c.Saws(); got != 4 {
		t.Errorf("%d saw cuts, want 2 stiles and 2 panels", got)
	}
	one, many := c.Steps(1), c.Steps(2)
	if len(many) != len(one)+1 || !slices.Equal(many[:len(one)], one) {
		t.Errorf("one door %q, two %q: want one step more, at the end", one, many)
	}
	if !strings.Contains(many[len(one)], "next door") {
		t.Errorf("last step %q: want the next door to wait", many[len(one)])
	}
	for _, want := range []string{"130 mm", "panel 1", "panel 3"} {
		if !slices.ContainsFunc(one, func(s string) bool { return strings.Contains(s, want) }) {
			t.Errorf("steps %q do not say %s", one, want)
		}
	}
	// The zero value schedules nothing but the stiles.
	if got := (trim.CutDown{}).Saws(); got != 2 {
		t.Errorf("%d saw cuts of the zero value, want 2", got)
	}
}

// scheduleHolds hands a cut out step by step, with a search for who is next.
func scheduleHolds(t *rapid.T) {
	split := rapid.SampledFrom([]doors.Split{"", doors.ByPanel, doors.ByPair, doors.Evenly, doors.ByShares}).Draw(t, "split")
	step := units.Length(rapid.SampledFrom([]int64{1, 500_000, 1_000_000, 3_000_000}).Draw(t, "step"))
	steps := rapid.Int64Range(1, 200).Draw(t, "steps")
	build := &doors.Build{TopBar: 40 * mm, BottomBar: 60 * mm, Bar: 30 * mm,
		LeastPanel: units.Length(rapid.Int64Range(0, int64(400*mm)).Draw(t, "least"))}
	n := rapid.IntRange(1, 6).Draw(t, "panels")
	var may []int
	for i := range n {
		build.Panels = append(build.Panels, doors.Panel{
			Share:     doors.Share(rapid.Int64Range(1, 4).Draw(t, "share")) * doors.OneShare,
			CutOnSite: rapid.Bool().Draw(t, "may be cut"),
		})
		if build.Panels[i].CutOnSite {
			may = append(may, i)
		}
	}
	h := doors.Height{Stock: 2400 * mm, Cut: units.Length(steps) * step}
	got, found, err := trim.Schedule(build, doors.Cutting{Split: split, Step: step}, h)
	if len(may) == 0 {
		if !errors.Is(err, doors.ErrNoCut) {
			t.Fatalf("error %v, and no panel may be cut", err)
		}
		return
	}
	want := handedOut(build, split, may, steps)
	heights, _ := build.PanelHeights(h.Stock)
	for i, s := range want {
		if s > 0 && heights[i]-units.Length(s)*step < max(build.LeastPanel, 1) {
			if !errors.Is(err, doors.ErrTooDeep) {
				t.Fatalf("error %v, and panel %d keeps too little of %v", err, i+1, heights[i])
			}
			return
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	cuts := make([]int64, n)
	for _, p := range got.Panels {
		cuts[p.Panel-1] = int64(p.Cut / step)
		if p.Cut+p.Height != heights[p.Panel-1] || p.Cut%step != 0 {
			t.Errorf("panel %+v of %v", p, heights[p.Panel-1])
		}
	}
	if !slices.Equal(cuts, want) {
		t.Errorf("%s: panels %v lose %v steps, want %v", split, build.Panels, cuts, want)
	}
	mirrored := true
	for i := range want {
		mirrored = mirrored && want[i] == want[n-1-i]
	}
	if found.Has(trim.CodeNotMirrored) == mirrored {
		t.Errorf("cuts %v with findings %v", want, found)
	}
}

func handedOut(b *doors.Build, split doors.Split, may []int, steps int64) []int64 {
	cuts := make([]int64, len(b.Panels))
	switch split {
	case doors.ByPanel:
		tallest := slices.MaxFunc(may, func(i, j int) int {
			return cmp.Or(cmp.Compare(b.Panels[i].Share, b.Panels[j].Share), cmp.Compare(i, j))
		})
		may = []int{tallest}
	case "", doors.ByPair:
		may = slices.Compact([]int{may[0], may[len(may)-1]})
	case doors.ByShares:
		// One step at a time to whoever is furthest behind would be another rule: this is the
		// largest remainder, one panel at a time.
		sum := int64(0)
		for _, i := range may {
			sum += int64(b.Panels[i].Share)
		}
		rest := steps
		remainder := map[int]*big.Rat{}
		for _, i := range may {
			exact := big.NewRat(steps*int64(b.Panels[i].Share), sum)
			for big.NewRat(cuts[i]+1, 1).Cmp(exact) <= 0 {
				cuts[i]++
			}
			remainder[i] = exact.Sub(exact, big.NewRat(cuts[i], 1))
			rest -= cuts[i]
		}
		for ; rest > 0; rest-- {
			next := may[0]
			for _, i := range may {
				if remainder[i].Cmp(remainder[next]) > 0 {
					next = i
				}
			}
			cuts[next]++
			remainder[next] = big.NewRat(-1, 1)
		}
		return cuts
	}
	// Round by round; of the last, short round an odd step goes to the lowest, the others in pairs.
	for ; steps >= int64(len(may)); steps -= int64(len(may)) {
		for _, i := range may {
			cuts[i]++
		}
	}
	for low, high := 0, len(may)-1; steps > 0; {
		cuts[may[low]]++
		low, steps = low+1, steps-1
		if steps%2 == 1 {
			cuts[may[high]]++
			high, steps = high-1, steps-1
		}
	}
	return cuts
}

func TestScheduleHolds(t *testing.T) { rapid.Check(t, scheduleHolds) }
func FuzzSchedule(f *testing.F)      { f.Fuzz(rapid.MakeFuzz(scheduleHolds)) }

func BenchmarkSchedule(b *testing.B) {
	build := &doors.Build{TopBar: 40 * mm, BottomBar: 60 * mm, Bar: 30 * mm, Panels: []doors.Panel{
		{Share: doors.OneShare, CutOnSite: true}, {Share: doors.OneShare}, {Share: doors.OneShare, CutOnSite: true}}}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := trim.Schedule(build, doors.Cutting{}, doors.Height{Stock: 2400 * mm, Cut: 130 * mm}); err != nil {
			b.Fatal(err)
		}
	}
}
