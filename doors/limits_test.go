package doors_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

func limited() doors.Gear {
	g := sound()
	g.Doors = &doors.Counts{Min: 3, Max: 4}
	g.DoorWidth = &units.Span{Min: 400 * mm, Max: 1000 * mm}
	g.DoorHeight = &units.Span{Min: 1800 * mm, Max: 2500 * mm}
	g.MaxSlimness = new(4 * doors.OneShare)
	g.MaxDoorMass = new(units.MustMass("40"))
	g.Adjuster = 12 * mm
	return g
}

func TestLimits(t *testing.T) {
	kg := func(s string) *units.Mass { return new(units.MustMass(s)) }
	for _, c := range []struct {
		name string
		hung doors.Hung
		want string
	}{
		{"nothing", doors.Hung{}, ""},
		{"at every limit", doors.Hung{Doors: 4, Width: 625 * mm, Height: 2500 * mm, Mass: kg("40"), Raise: 12 * mm}, ""},
		{"at the lower ones", doors.Hung{Doors: 3, Width: 450 * mm, Height: 1800 * mm}, ""},
		{"too few doors", doors.Hung{Doors: 2}, "doors"},
		{"too many doors", doors.Hung{Doors: 5}, "doors"},
		{"narrow", doors.Hung{Width: 400*mm - 1}, "width"},
		{"wide", doors.Hung{Width: 1000*mm + 1}, "width"},
		{"narrowest", doors.Hung{Width: 400 * mm}, ""},
		{"widest", doors.Hung{Width: 1000 * mm}, ""},
		{"low", doors.Hung{Height: 1800*mm - 1}, "height"},
		{"high", doors.Hung{Height: 2500*mm + 1}, "height"},
		{"slim", doors.Hung{Width: 500*mm - 1, Height: 2000 * mm}, "slimness"},
		{"not slim", doors.Hung{Width: 500 * mm, Height: 2000 * mm}, ""},
		{"heavy", doors.Hung{Mass: kg("40.001")}, "mass"},
		{"raised", doors.Hung{Raise: 12*mm + 1}, "adjuster"},
		{"all", doors.Hung{Doors: 9, Width: 399 * mm, Height: 2600 * mm, Mass: kg("99"), Raise: 99 * mm}, "doors width height slimness mass adjuster"},
	} {
		var got []string
		for _, o := range limited().Limits(c.hung) {
			got = append(got, string(o.Limit))
			if o.Reason == "" {
				t.Errorf("%s: no reason", c.name)
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", c.name, got, c.want)
		}
	}
	if o := sound().Limits(doors.Hung{Doors: 9, Width: mm, Height: 9000 * mm, Mass: kg("999"), Raise: 99 * mm}); len(o) != 0 {
		t.Errorf("gear without limits: %v", o)
	}
}

func TestLimitsValidate(t *testing.T) {
	for _, c := range []struct {
		name, place string
		change      func(g *doors.Gear)
	}{
		{"sound", "", func(*doors.Gear) {}},
		{"no doors", "gear.doors", func(g *doors.Gear) { g.Doors.Min = 0 }},
		{"reversed", "gear.doors", func(g *doors.Gear) { g.Doors.Max = 2 }},
		{"one count", "", func(g *doors.Gear) { g.Doors.Max = 3 }},
		{"one door", "", func(g *doors.Gear) { g.Doors.Min = 1 }},
		{"most", "", func(g *doors.Gear) { g.Doors.Max = units.MaxPieces }},
		{"past the most", "gear.doors", func(g *doors.Gear) { g.Doors.Max = units.MaxPieces + 1 }},
		{"width below", "gear.door_width.min", func(g *doors.Gear) { g.DoorWidth.Min = below }},
		{"no width", "gear.door_width.max", func(g *doors.Gear) { *g.DoorWidth = units.Span{} }},
		{"width reversed", "gear.door_width", func(g *doors.Gear) { g.DoorWidth.Max = mm }},
		{"height reversed", "gear.door_height", func(g *doors.Gear) { g.DoorHeight.Max = mm }},
		{"no slimness", "gear.max_slimness", func(g *doors.Gear) { *g.MaxSlimness = 0 }},
		{"least slimness", "", func(g *doors.Gear) { *g.MaxSlimness = 1 }},
		{"greatest slimness", "", func(g *doors.Gear) { *g.MaxSlimness = doors.MaxShare }},
		{"past slimness", "gear.max_slimness", func(g *doors.Gear) { *g.MaxSlimness = doors.MaxShare + 1 }},
	} {
		g := limited()
		c.change(&g)
		checkPlace(t, c.name, g.Validate(), c.place)
	}
}

func TestRaise(t *testing.T) {
	for _, c := range []struct {
		width, height, lean units.Length
		want                string
	}{
		{650 * mm, 2300 * mm, 10 * mm, "2.826087"}, // 6500/2300 = 2.8260869…
		{650 * mm, 2300 * mm, -10 * mm, "2.826087"},
		{600 * mm, 2400 * mm, 8 * mm, "2"},
		{600 * mm, 2400 * mm, 0, "0"},
	} {
		if got, err := doors.Raise(c.width, c.height, c.lean); err != nil || got.Millimetres() != c.want {
			t.Errorf("%s, %v, want %s", got, err, c.want)
		}
	}
	for _, height := range []units.Length{0, -mm} {
		if _, err := doors.Raise(650*mm, height, mm); !errors.Is(err, units.ErrStep) {
			t.Errorf("height %s: %v", height, err)
		}
	}
	if _, err := doors.Raise(units.MaxLength, 1, units.MaxLength); !errors.Is(err, units.ErrRange) {
		t.Error(err)
	}
}

// The enumeration leaves out exactly the doors that Beyond names and the runs that
// are too long for the gear, and is otherwise as without limits.
func TestEnumerationKeepsTheLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := smallQuery()
		q.Range.MaxDoors = 4
		q.Range.Sizes = append(q.Range.Sizes, doors.Size{Width: 650 * mm, Height: 2000 * mm})
		free := q
		if rapid.Bool().Draw(t, "widths") {
			q.Gear.DoorWidth = &units.Span{Min: units.Length(rapid.Int64Range(300, 700).Draw(t, "least")) * mm, Max: units.Length(rapid.Int64Range(600, 710).Draw(t, "most")) * mm}
			if q.Gear.DoorWidth.Min > q.Gear.DoorWidth.Max {
				t.Skip("reversed")
			}
		}
		if rapid.Bool().Draw(t, "counts") {
			least := rapid.IntRange(1, 5).Draw(t, "fewest")
			q.Gear.Doors = &doors.Counts{Min: least, Max: least + rapid.IntRange(0, 2).Draw(t, "more")}
		}
		all, err := doors.Candidates(context.Background(), free)
		if err != nil {
			t.Fatal(err)
		}
		var want []string
		for c := range all {
			kept := len(q.Gear.Limits(doors.Hung{Doors: c.Len()})) == 0
			for _, w := range c.Widths() {
				kept = kept && len(q.Gear.Limits(doors.Hung{Width: w})) == 0
			}
			if kept {
				want = append(want, write(c))
			}
		}
		if got := list(t, q); strings.Join(got, "\n") != strings.Join(want, "\n") {
			t.Fatalf("%v\nwant\n%v", got, want)
		}
		var named []string
		for _, f := range q.Range.Beyond(q.Gear) {
			if f.Code != doors.CodeGearLimit || f.Severity != opening.Note || f.Message == "" || f.Remedy == "" {
				t.Fatalf("%+v", f)
			}
			named = append(named, f.Place)
		}
		var beyond []string
		for i, s := range q.Range.Sizes {
			if w := q.Gear.DoorWidth; w != nil && (s.Width < w.Min || s.Width > w.Max) {
				beyond = append(beyond, "doors.sizes["+string(rune('0'+i))+"].width")
			}
		}
		if strings.Join(named, " ") != strings.Join(beyond, " ") {
			t.Fatalf("%v, want %v", named, beyond)
		}
	})
}
