package doors_test

import (
	"errors"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// checkPlace wants err to refuse the place, or to be nil for no place.
func checkPlace(t *testing.T, name string, err error, place string) {
	t.Helper()
	var refused *opening.InputError
	switch {
	case place == "":
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	case !errors.As(err, &refused) || refused.Place != place || refused.Reason == "":
		t.Errorf("%s: %v, want a refusal of %s", name, err, place)
	}
}

func sound() doors.Gear {
	return doors.Gear{
		Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 60 * mm}, Allowance: doors.Target{Min: 30 * mm, Max: 35 * mm},
	}
}

const (
	past  = units.MaxLength + 1
	below = units.Length(-1)
)

func TestGearValidate(t *testing.T) {
	stock := func(n int) []doors.StockLength {
		all := make([]doors.StockLength, n)
		for i := range all {
			all[i].Length = units.Metre
		}
		return all
	}
	part := doors.Part{Item: "stop", Per: doors.PerRun, Count: 1}
	for _, c := range []struct {
		name, place string
		change      func(g *doors.Gear)
	}{
		{"sound", "", func(*doors.Gear) {}},
		{"one track", "gear.tracks", func(g *doors.Gear) { g.Tracks = 1 }},
		{"four tracks", "", func(g *doors.Gear) { g.Tracks = 4 }},
		{"five tracks", "gear.tracks", func(g *doors.Gear) { g.Tracks = 5 }},
		{"overlap from nothing", "", func(g *doors.Gear) { g.Overlap.Min = 0 }},
		{"overlap below nothing", "gear.overlap.min", func(g *doors.Gear) { g.Overlap.Min = below }},
		{"no overlap", "gear.overlap.max", func(g *doors.Gear) { g.Overlap = doors.Target{} }},
		{"endless overlap", "gear.overlap.max", func(g *doors.Gear) { g.Overlap.Max = past }},
		{"greatest overlap", "", func(g *doors.Gear) { g.Overlap.Max = units.MaxLength }},
		{"reversed overlap", "gear.overlap", func(g *doors.Gear) { g.Overlap.Min = 60*mm + 1 }},
		{"one overlap", "", func(g *doors.Gear) { g.Overlap.Min = 60 * mm }},
		{"aim at the least", "", func(g *doors.Gear) { g.Overlap.Aim = new(20 * mm) }},
		{"aim below", "gear.overlap.aim", func(g *doors.Gear) { g.Overlap.Aim = new(20*mm - 1) }},
		{"aim at the greatest", "", func(g *doors.Gear) { g.Allowance.Aim = new(35 * mm) }},
		{"aim above", "gear.allowance.aim", func(g *doors.Gear) { g.Allowance.Aim = new(35*mm + 1) }},
		{"no allowance", "gear.allowance.max", func(g *doors.Gear) { g.Allowance = doors.Target{} }},
		{"meeting gap of nothing", "", func(g *doors.Gear) { g.MeetingGap = new(units.Length(0)) }},
		{"meeting gap below nothing", "gear.meeting_gap", func(g *doors.Gear) { g.MeetingGap = new(below) }},
		{"depth below nothing", "gear.depth", func(g *doors.Gear) { g.Depth = below }},
		{"endless adjuster", "gear.adjuster", func(g *doors.Gear) { g.Adjuster = past }},
		{"track without lengths", "gear.track.lengths", func(g *doors.Gear) { g.Track = &doors.Profile{} }},
		{"track", "", func(g *doors.Gear) { g.Track = &doors.Profile{Lengths: stock(1)} }},
		{"track clearance", "gear.track.clearance", func(g *doors.Gear) { g.Track = &doors.Profile{Lengths: stock(1), Clearance: new(below)} }},
		{"no clearance", "", func(g *doors.Gear) { g.Track = &doors.Profile{Lengths: stock(1), Clearance: new(units.Length(0))} }},
		{"rail of nothing", "gear.rail.lengths[1].length", func(g *doors.Gear) { g.Rail = &doors.Profile{Lengths: append(stock(1), doors.StockLength{})} }},
		{"fifty lengths", "", func(g *doors.Gear) { g.Rail = &doors.Profile{Lengths: stock(50)} }},
		{"fifty-one lengths", "gear.rail.lengths", func(g *doors.Gear) { g.Rail = &doors.Profile{Lengths: stock(51)} }},
		{"some prices", "gear.rail.lengths", func(g *doors.Gear) {
			g.Rail = &doors.Profile{Lengths: stock(2)}
			g.Rail.Lengths[1].Price = price("1")
		}},
		{"all prices", "", func(g *doors.Gear) {
			g.Rail = &doors.Profile{Lengths: stock(1)}
			g.Rail.Lengths[0].Price = price("0")
		}},
		{"mass", "", func(g *doors.Gear) { g.MaxDoorMass = new(units.MustMass("0.001")) }},
		{"no mass", "gear.max_door_mass", func(g *doors.Gear) { g.MaxDoorMass = new(units.Mass) }},
		{"floor", "", func(g *doors.Gear) { g.CarriedBy = doors.ByFloor }},
		{"head", "", func(g *doors.Gear) { g.CarriedBy = doors.ByHead }},
		{"wall", "gear.carried_by", func(g *doors.Gear) { g.CarriedBy = "wall" }},
		{"part", "", func(g *doors.Gear) { g.Parts = []doors.Part{part, {"seal", doors.PerJunction, units.MaxPieces, nil}} }},
		{"no part", "gear.parts[1].item", func(g *doors.Gear) { g.Parts = []doors.Part{part, {"", doors.PerDoor, 1, nil}} }},
		{"none of a part", "gear.parts[0].count", func(g *doors.Gear) { g.Parts = []doors.Part{{"stop", doors.PerDoor, 0, nil}} }},
		{"too many of a part", "gear.parts[0].count", func(g *doors.Gear) { g.Parts = []doors.Part{{"stop", doors.PerDoor, units.MaxPieces + 1, nil}} }},
		{"per wall", "gear.parts[0].per", func(g *doors.Gear) { g.Parts = []doors.Part{{"stop", "wall", 1, nil}} }},
		{"hundred parts", "", func(g *doors.Gear) {
			for range 100 {
				g.Parts = append(g.Parts, part)
			}
		}},
		{"hundred and one parts", "gear.parts", func(g *doors.Gear) {
			for range 101 {
				g.Parts = append(g.Parts, part)
			}
		}},
	} {
		g := sound()
		c.change(&g)
		checkPlace(t, c.name, g.Validate(), c.place)
	}
	checkPlace(t, "zero gear", doors.Gear{}.Validate(), "gear.tracks")
}

func TestGearThatHangs(t *testing.T) {
	for _, by := range []doors.CarriedBy{"", doors.ByFloor} {
		if f := (doors.Gear{CarriedBy: by}).Findings(); len(f) != 0 {
			t.Errorf("%q: %v", by, f)
		}
	}
	f := doors.Gear{CarriedBy: doors.ByHead}.Findings()
	if !f.Stops() || len(f) != 1 || f[0].Code != doors.CodeHangs || f[0].Place != "gear.carried_by" || f[0].Message == "" || f[0].Remedy == "" {
		t.Errorf("%+v", f)
	}
}

func TestPartFor(t *testing.T) {
	for _, c := range []struct {
		per         doors.Per
		doors, want int
	}{
		{doors.PerDoor, 4, 8}, {doors.PerRun, 4, 2}, {doors.PerJunction, 4, 6},
		{doors.PerJunction, 1, 0}, {doors.PerJunction, 0, 0}, {doors.PerDoor, -1, 0}, {doors.PerRun, 0, 2},
	} {
		if got := (doors.Part{Item: "x", Per: c.per, Count: 2}).For(c.doors); got != c.want {
			t.Errorf("2 per %s of %d doors are %d, want %d", c.per, c.doors, got, c.want)
		}
	}
}

func TestClearance(t *testing.T) {
	var none *doors.Profile
	if none.Clear() != 3*mm || (&doors.Profile{}).Clear() != 3*mm || (&doors.Profile{Clearance: new(units.Length(0))}).Clear() != 0 {
		t.Error("a clearance that is not given is 3 mm")
	}
}

func TestTargetLeast(t *testing.T) {
	a := doors.Target{Min: 30 * mm, Max: 35 * mm}
	if a.Least() != 30*mm || a.Span() != (units.Span{Min: 30 * mm, Max: 35 * mm}) {
		t.Error(a.Least(), a.Span())
	}
	a.Aim = new(33 * mm)
	if a.Least() != 33*mm {
		t.Error(a.Least())
	}
}
