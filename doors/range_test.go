package doors_test

import (
	"slices"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

func TestRangeValidate(t *testing.T) {
	maker := func(g *doors.Range) *doors.MadeToMeasure {
		g.MadeToMeasure = &doors.MadeToMeasure{
			Width: units.Span{Min: 300 * mm, Max: 1000 * mm}, Height: units.Span{Min: 1500 * mm, Max: 2600 * mm},
		}
		return g.MadeToMeasure
	}
	many := func(n int, height func(i int) units.Length) []doors.Size {
		all := make([]doors.Size, n)
		for i := range all {
			all[i] = doors.Size{Width: mm + units.Length(i), Height: height(i)}
		}
		return all
	}
	alike := func(int) units.Length { return 2000 * mm }
	panel := doors.Panel{Share: doors.OneShare}
	for _, c := range []struct {
		name, place string
		change      func(r *doors.Range)
	}{
		{"sound", "", func(*doors.Range) {}},
		{"nothing", "doors.sizes", func(r *doors.Range) { r.Sizes = nil }},
		{"maker alone", "", func(r *doors.Range) { r.Sizes = nil; maker(r) }},
		{"no width", "doors.sizes[1].width", func(r *doors.Range) { r.Sizes = append(r.Sizes, doors.Size{Height: mm}) }},
		{"no height", "doors.sizes[1].height", func(r *doors.Range) { r.Sizes = append(r.Sizes, doors.Size{Width: mm}) }},
		{"endless width", "doors.sizes[0].width", func(r *doors.Range) { r.Sizes[0].Width = past }},
		{"twice", "doors.sizes[2]", func(r *doors.Range) {
			r.Sizes = append(r.Sizes, doors.Size{Width: 600 * mm, Height: 2001 * mm}, r.Sizes[0])
		}},
		{"all sizes", "", func(r *doors.Range) { r.Sizes = many(doors.MaxSizes, alike) }},
		{"too many sizes", "doors.sizes", func(r *doors.Range) { r.Sizes = many(doors.MaxSizes+1, alike) }},
		{"64 heights", "", func(r *doors.Range) { r.Sizes = many(64, func(i int) units.Length { return mm + units.Length(i) }) }},
		{"65 heights", "doors.sizes", func(r *doors.Range) { r.Sizes = many(65, func(i int) units.Length { return mm + units.Length(i) }) }},
		{"made from nothing", "doors.made_to_measure.width.min", func(r *doors.Range) { maker(r).Width.Min = 0 }},
		{"made without end", "doors.made_to_measure.width.max", func(r *doors.Range) { maker(r).Width.Max = past }},
		{"made reversed", "doors.made_to_measure.width", func(r *doors.Range) { maker(r).Width.Max = 300*mm - 1 }},
		{"one width made", "", func(r *doors.Range) { maker(r).Width.Max = 300 * mm }},
		{"made of no height", "doors.made_to_measure.height.min", func(r *doors.Range) { maker(r).Height.Min = 0 }},
		{"made endless high", "doors.made_to_measure.height.max", func(r *doors.Range) { maker(r).Height.Max = past }},
		{"height reversed", "doors.made_to_measure.height", func(r *doors.Range) { maker(r).Height.Max = mm }},
		{"step below nothing", "doors.made_to_measure.step", func(r *doors.Range) { maker(r).Step = below }},
		{"step of a nanometre", "", func(r *doors.Range) { maker(r).Step = 1 }},
		{"one door", "doors.max_doors", func(r *doors.Range) { r.MaxDoors = 1 }},
		{"two doors", "", func(r *doors.Range) { r.MaxDoors = 2 }},
		{"eight doors", "", func(r *doors.Range) { r.MaxDoors = 8 }},
		{"nine doors", "doors.max_doors", func(r *doors.Range) { r.MaxDoors = 9 }},
		{"alternate", "", func(r *doors.Range) { r.Arrangement = doors.Alternate }},
		{"stepped", "", func(r *doors.Range) { r.Arrangement = doors.Stepped }},
		{"any", "", func(r *doors.Range) { r.Arrangement = doors.Any }},
		{"random", "doors.arrangement", func(r *doors.Range) { r.Arrangement = "random" }},
		{"build", "", func(r *doors.Range) { r.Build = &doors.Build{Panels: []doors.Panel{panel}} }},
		{"build without panels", "doors.build.panels", func(r *doors.Range) { r.Build = &doors.Build{} }},
		{"20 panels", "", func(r *doors.Range) { r.Build = &doors.Build{Panels: slices.Repeat([]doors.Panel{panel}, 20)} }},
		{"21 panels", "doors.build.panels", func(r *doors.Range) { r.Build = &doors.Build{Panels: slices.Repeat([]doors.Panel{panel}, 21)} }},
		{"no share", "doors.build.panels[1].share", func(r *doors.Range) { r.Build = &doors.Build{Panels: []doors.Panel{panel, {}}} }},
		{"greatest share", "", func(r *doors.Range) {
			r.Build = &doors.Build{Panels: []doors.Panel{{Share: doors.MaxShare}, {Share: 1}}}
		}},
		{"past the share", "doors.build.panels[0].share", func(r *doors.Range) { r.Build = &doors.Build{Panels: []doors.Panel{{Share: doors.MaxShare + 1}}} }},
		{"top bar", "doors.build.top_bar", func(r *doors.Range) { r.Build = &doors.Build{TopBar: below} }},
		{"bottom bar", "doors.build.bottom_bar", func(r *doors.Range) { r.Build = &doors.Build{BottomBar: below} }},
		{"bar", "doors.build.bar", func(r *doors.Range) { r.Build = &doors.Build{Bar: past} }},
		{"least panel", "doors.build.least_panel", func(r *doors.Range) { r.Build = &doors.Build{LeastPanel: below} }},
	} {
		r := doors.Range{Sizes: []doors.Size{{Width: 600 * mm, Height: 2000 * mm}}}
		c.change(&r)
		checkPlace(t, c.name, r.Validate(), c.place)
	}
	checkPlace(t, "zero range", doors.Range{}.Validate(), "doors.sizes")
}

func TestHeightsOnSale(t *testing.T) {
	r := doors.Range{Sizes: []doors.Size{{mm, 2000 * mm, nil}, {mm, 2400 * mm, nil}, {2 * mm, 2000 * mm, nil}}}
	if got := r.Heights(); !slices.Equal(got, []units.Length{2400 * mm, 2000 * mm}) {
		t.Error(got)
	}
	if got := (doors.Range{}).Heights(); len(got) != 0 {
		t.Error(got)
	}
}
