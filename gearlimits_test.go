package lapspan_test

import (
	"strings"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// heavy is the room with doors whose build tells what they weigh: at 650 × 2200
// two stiles of 2200, two bars of 650 at 0.5 kg a metre, and a panel of 650 × 2120
// of 4 mm glass.
func heavy() lapspan.Job {
	job := room()
	job.Doors.Build = &doors.Build{
		TopBar: 40 * mm, BottomBar: 40 * mm, Bar: 20 * mm,
		StileMass: new(units.MustMass("0.5")), BarMass: new(units.MustMass("0.5")),
		Panels: []doors.Panel{{Share: doors.OneShare, Material: doors.FloatGlass, Thickness: 4 * mm}},
	}
	return job
}

// 2 × 2.2 × 0.5 + 2 × 0.65 × 0.5 + 0.65 × 2.12 × 10 = 16.63 kg.
func TestDoorMass(t *testing.T) {
	p := first(t, heavy())
	if len(p.DoorMasses) != 4 || !p.DoorMasses[0].Equal(units.MustMass("16.63")) {
		t.Fatalf("masses %v, want 16.63 kg", p.DoorMasses)
	}
	if !p.Findings.Has("two-people") {
		t.Errorf("no finding on lifting 16.63 kg: %v", p.Findings)
	}
}

// What the gear does not take is refused by the name of the limit, and what it just takes is offered.
func TestGearLimits(t *testing.T) {
	for _, test := range []struct {
		name  string
		limit func(*doors.Gear)
		taken bool
		says  string
	}{
		{"mass just carried", func(g *doors.Gear) { g.MaxDoorMass = new(units.MustMass("16.63")) }, true, ""},
		{"too heavy", func(g *doors.Gear) { g.MaxDoorMass = new(units.MustMass("16.62")) }, false, "16.63 kg"},
		{"height just taken", func(g *doors.Gear) { g.DoorHeight = &units.Span{Min: 2200 * mm, Max: 2200 * mm} }, true, ""},
		{"too high", func(g *doors.Gear) { g.DoorHeight = &units.Span{Min: 1, Max: 2199 * mm} }, false, "2200 mm high"},
		{"width just taken", func(g *doors.Gear) { g.DoorWidth = &units.Span{Min: 650 * mm, Max: 650 * mm} }, true, ""},
		{"too narrow", func(g *doors.Gear) { g.DoorWidth = &units.Span{Min: 651 * mm, Max: 900 * mm} }, false, "650 mm wide"},
		{"number just taken", func(g *doors.Gear) { g.Doors = &doors.Counts{Min: 4, Max: 4} }, true, ""},
		{"too many", func(g *doors.Gear) { g.Doors = &doors.Counts{Min: 2, Max: 3} }, false, ""},
		{"slim enough", func(g *doors.Gear) { g.MaxSlimness = new(doors.Share(3_384_616)) }, true, ""}, // 2200/650 = 3.384615…
		{"too slim", func(g *doors.Gear) { g.MaxSlimness = new(doors.Share(3_384_615)) }, false, "times the width"},
	} {
		t.Run(test.name, func(t *testing.T) {
			job := heavy()
			test.limit(&job.Gear)
			plan := propose(t, job)
			if taken := len(plan.Proposals) > 0; taken != test.taken {
				t.Fatalf("%d proposals", len(plan.Proposals))
			}
			said := ""
			for _, r := range plan.Refused {
				said += r.Reason + "\n"
			}
			for _, f := range plan.Findings {
				said += f.Message + "\n"
			}
			if !strings.Contains(said, test.says) {
				t.Errorf("nothing says %q:\n%s", test.says, said)
			}
		})
	}
}

func TestPullOutsSayHowTheyComeOut(t *testing.T) {
	job := room() // 2396: one door of each track a side leaves 650 to 1746
	job.Interior = &lapspan.Interior{Depth: 500 * mm, Upright: 18 * mm, PullOuts: []lapspan.PullOut{
		{Name: "middle", From: 700 * mm, To: 1700 * mm}, {Name: "wide", From: 700 * mm, To: 2000 * mm},
	}}
	p := first(t, job)
	middle, wide := p.PullOuts[0], p.PullOuts[1]
	if !middle.Clear || *middle.Gap != (doors.Gap{From: 650 * mm, To: 1746 * mm}) || middle.Left[0] != 1 || middle.Left[1] != 1 {
		t.Errorf("middle: %+v", middle)
	}
	if wide.Clear || wide.Gap != nil || wide.Left != nil {
		t.Errorf("wide: %+v", wide)
	}
	if p.AccessAt != (doors.Gap{From: 0, To: 1096 * mm}) {
		t.Errorf("access at %v", p.AccessAt)
	}
	// Parked all at one side the doors clear 1096 of 2396, and 650 to 1746 one a side: nothing is blind.
	if len(p.Blind) != 0 || len(p.Uprights) == 0 {
		t.Errorf("blind %v, uprights %v", p.Blind, p.Uprights)
	}
	// Behind an end panel all of it is measured from the wall.
	job.Opening.Skirting.Left = &opening.Skirting{Thickness: 20 * mm, Height: 100 * mm, Treatment: opening.EndPanel}
	p = first(t, job)
	if p.AccessAt != (doors.Gap{From: 20 * mm, To: 1096 * mm}) {
		t.Errorf("access behind an end panel at %v", p.AccessAt)
	}
}
