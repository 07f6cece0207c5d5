package opening_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func at(n int64) *units.Length { return new(mm(n)) }

func first(fit opening.Fit) opening.First {
	return opening.First{
		Width: units.Span{Min: mm(2398), Max: mm(2405)}, WidthUnder: mm(20), WidthOver: mm(10),
		Height: mm(2300), HeightUnder: at(5), HeightOver: at(8), Fit: fit,
	}
}

func TestSecondWidths(t *testing.T) {
	for _, c := range []struct {
		min, max int64
		want     [2]opening.Verdict
		by       [2]int64
	}{
		{2398, 2405, [2]opening.Verdict{opening.Holds, opening.Holds}, [2]int64{0, 0}},
		{2380, 2413, [2]opening.Verdict{opening.Holds, opening.Holds}, [2]int64{0, 0}},
		{2379, 2414, [2]opening.Verdict{opening.MeasureFiner, opening.MeasureFiner}, [2]int64{0, 0}},
		{2378, 2415, [2]opening.Verdict{opening.MeasureFiner, opening.MeasureFiner}, [2]int64{0, 0}},
		{2377, 2417, [2]opening.Verdict{opening.Reorder, opening.Reorder}, [2]int64{1, 2}},
		{2400, 2400, [2]opening.Verdict{opening.Holds, opening.Holds}, [2]int64{0, 0}},
	} {
		got, err := first(opening.Bought).MeasureSecond(units.Span{Min: mm(c.min), Max: mm(c.max)}, mm(2300))
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range got[:2] {
			if s.Verdict != c.want[i] || s.By != mm(c.by[i]) || s.Why == "" || s.Remedy == "" {
				t.Errorf("%d to %d: %+v, want %s by %d", c.min, c.max, s, c.want[i], c.by[i])
			}
		}
		if got[0].Was != mm(2398) || got[0].Is != mm(c.min) || got[1].Was != mm(2405) || got[1].Is != mm(c.max) {
			t.Errorf("%+v", got)
		}
	}
}

func TestSecondHeight(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*opening.First)
		fit     opening.Fit
		height  int64
		want    opening.Verdict
		by      int64
		mention string
	}{
		{"as it was", nil, opening.Bought, 2300, opening.Holds, 0, "8 mm are left"},
		{"inside", nil, opening.Bought, 2306, opening.Holds, 0, "2 mm are left"},
		{"inside by little", nil, opening.Bought, 2307, opening.MeasureFiner, 0, "holds by 1 mm"},
		{"at the end", nil, opening.Bought, 2308, opening.MeasureFiner, 0, "holds by 0 mm"},
		{"past", nil, opening.Bought, 2309, opening.Repack, 9, "9 mm instead of 0 mm"},
		{"less, inside", nil, opening.Bought, 2297, opening.Holds, 0, "2 mm are left"},
		{"less, by little", nil, opening.Bought, 2296, opening.MeasureFiner, 0, "holds by 1 mm"},
		{"less, at the end", nil, opening.Bought, 2295, opening.MeasureFiner, 0, "holds by 0 mm"},
		{"less than as is takes", nil, opening.Bought, 2294, opening.Reorder, 1, "another door height"},
		{"less, a packer to thin", func(f *opening.First) { f.Packing = mm(70) }, opening.Bought, 2294, opening.Repack, -6, "64 mm instead of 70 mm"},
		{"less, thinner than the packer", func(f *opening.First) { f.Packing = mm(7) }, opening.Bought, 2294, opening.Repack, -6, "1 mm instead of 7 mm"},
		{"less, all of the packer", func(f *opening.First) { f.Packing = mm(6) }, opening.Bought, 2294, opening.Reorder, 1, "another door height"},
		{"framed inside", nil, opening.Framed, 2306, opening.Holds, 0, "2 mm are left"},
		{"framed past", nil, opening.Framed, 2309, opening.Repack, 9, "pack the bulkhead down by 9 mm"},
		{"framed less", nil, opening.Framed, 2294, opening.Recut, -6, "studs shorter by 6 mm"},
		{"sawn as it was", nil, opening.Sawn, 2302, opening.Holds, 0, "6 mm are left"},
		{"sawn, more height", nil, opening.Sawn, 2303, opening.Recut, -3, "cut 3 mm less"},
		{"sawn, less height", nil, opening.Sawn, 2296, opening.Recut, 4, "cut 4 mm more"},
		{"sawn, no cut", nil, opening.Sawn, 2309, opening.Recut, -9, "uncut"},
		{"sawn, too deep", nil, opening.Sawn, 2294, opening.Reorder, 1, "another door height"},
		{"sawn, no deepest", func(f *opening.First) { f.HeightUnder = nil }, opening.Sawn, 2200, opening.Recut, 100, "cut 100 mm more"},
		{"made inside", nil, opening.Made, 2303, opening.Holds, 0, "5 mm are left"},
		{"made past", nil, opening.Made, 2309, opening.Reorder, 9, "9 mm taller"},
		{"made less", nil, opening.Made, 2294, opening.Reorder, -6, "6 mm shorter"},
		{"no end", func(f *opening.First) { f.HeightOver = nil }, opening.Bought, 2900, opening.Holds, 0, "any height"},
		{"finer readings", func(f *opening.First) { f.Accuracy = mm(1) }, opening.Bought, 2307, opening.Holds, 0, "1 mm are left"},
		{"coarser readings", func(f *opening.First) { f.Accuracy = mm(4) }, opening.Sawn, 2304, opening.Holds, 0, "4 mm are left"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := first(c.fit)
			if c.change != nil {
				c.change(&f)
			}
			list, err := f.MeasureSecond(f.Width, mm(c.height))
			if err != nil {
				t.Fatal(err)
			}
			got := list[2]
			if got.Verdict != c.want || got.By != mm(c.by) || !strings.Contains(got.Why+" "+got.Remedy, c.mention) {
				t.Errorf("%+v, want %s by %d: %s", got, c.want, c.by, c.mention)
			}
			if opening.Worst(list) != c.want {
				t.Errorf("worst %s", opening.Worst(list))
			}
		})
	}
}

func TestSecondRefuses(t *testing.T) {
	for _, c := range []struct {
		change func(*opening.First)
		place  string
	}{
		{func(*opening.First) {}, ""},
		{func(f *opening.First) { f.WidthUnder, f.WidthOver, f.HeightUnder, f.HeightOver = 0, 0, at(0), at(0) }, ""},
		{func(f *opening.First) { *f = opening.First{} }, "first.width.min"},
		{func(f *opening.First) { f.Width.Max = 0 }, "first.width.max"},
		{func(f *opening.First) { f.Width.Max = mm(2000) }, "first.width"},
		{func(f *opening.First) { f.Height = 0 }, "first.height"},
		{func(f *opening.First) { f.WidthUnder = -1 }, "first.width_under"},
		{func(f *opening.First) { f.WidthOver = -1 }, "first.width_over"},
		{func(f *opening.First) { f.HeightUnder = at(-1) }, "first.height_under"},
		{func(f *opening.First) { f.HeightOver = at(-1) }, "first.height_over"},
		{func(f *opening.First) { f.Packing = -1 }, "first.packing"},
		{func(f *opening.First) { f.Accuracy = -1 }, "first.accuracy"},
		{func(f *opening.First) { f.Fit = "" }, "first.fit"},
	} {
		f := first(opening.Made)
		c.change(&f)
		_, err := f.MeasureSecond(units.Span{Min: mm(2400), Max: mm(2400)}, mm(2300))
		checkPlace(t, err, c.place)
	}
	for _, c := range []struct {
		min, max, height int64
		place            string
	}{{0, 1, 1, "second.width.min"}, {1, 0, 1, "second.width.max"}, {2, 1, 1, "second.width"}, {1, 1, 0, "second.height"}} {
		_, err := first(opening.Made).MeasureSecond(units.Span{Min: mm(c.min), Max: mm(c.max)}, mm(c.height))
		checkPlace(t, err, c.place)
	}
}

func checkPlace(t *testing.T, err error, place string) {
	t.Helper()
	var refused *opening.InputError
	if (err != nil) != (place != "") || err != nil && (!errors.As(err, &refused) || refused.Place != place) {
		t.Errorf("%v, want it refused at %q", err, place)
	}
}

func TestWorst(t *testing.T) {
	order := []opening.Verdict{opening.Holds, opening.MeasureFiner, opening.Repack, opening.Recut, opening.Reorder}
	if got := opening.Worst(nil); got != opening.Holds {
		t.Error(got)
	}
	for i, a := range order {
		for j, b := range order {
			if got := opening.Worst([]opening.Second{{Verdict: a}, {Verdict: b}}); got != order[max(i, j)] {
				t.Errorf("%s and %s: %s", a, b, got)
			}
		}
	}
}

// What a repacked, recut or reordered height becomes lies where the first plan meant it.
func TestSecondPutsTheHeightRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := first(rapid.SampledFrom([]opening.Fit{opening.Bought, opening.Framed, opening.Made}).Draw(t, "fit"))
		f.Packing = mm(rapid.Int64Range(0, 100).Draw(t, "packing"))
		height := mm(rapid.Int64Range(2150, 2450).Draw(t, "height"))
		list, err := f.MeasureSecond(f.Width, height)
		if err != nil {
			t.Fatal(err)
		}
		s := list[2]
		moved := height - f.Height
		switch s.Verdict {
		case opening.Holds, opening.MeasureFiner:
			if moved < -*f.HeightUnder || moved > *f.HeightOver {
				t.Fatalf("%+v is outside the margins", s)
			}
		case opening.Repack, opening.Recut:
			if left := height - s.By; left != f.Height { // with so much more or less above, what is left is as planned
				t.Fatalf("%+v leaves %s", s, left)
			}
		case opening.Reorder:
			if moved >= -*f.HeightUnder && moved <= *f.HeightOver || f.Fit == opening.Framed {
				t.Fatalf("%+v need not be ordered again", s)
			}
		}
	})
}
