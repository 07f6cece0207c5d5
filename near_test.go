package lapspan_test

import (
	"context"
	"fmt"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func widthsOf(room lapspan.Job, narrowest, widest units.Length) lapspan.Job {
	room.Opening.Widths = []opening.Width{{At: 1, Size: narrowest}, {At: 2, Size: widest}, {At: 3, Size: narrowest}}
	return room
}

func TestNearMisses(t *testing.T) {
	for _, test := range []struct {
		name              string
		narrowest, widest units.Length
		side              lapspan.Side
		by                units.Length
		message           string
	}{
		// Four doors of 650, overlaps 50 to 80: 2360 to 2450.
		{"one too wide", 2440 * mm, 2451 * mm, lapspan.Short, 1 * mm, "1 mm short of the widest reading"},
		{"nine too wide", 2440 * mm, 2459 * mm, lapspan.Short, 9 * mm, "9 mm short of the widest reading"},
		{"one too narrow", 2359 * mm, 2365 * mm, lapspan.Over, 1 * mm, "1 mm too wide for the narrowest reading at the greatest overlap"},
		{"both, more short", 2358 * mm, 2460 * mm, lapspan.Short, 10 * mm, "10 mm short of the widest reading"},
		{"both, more over", 2348 * mm, 2452 * mm, lapspan.Over, 12 * mm, "12 mm too wide for the narrowest reading at the greatest overlap"},
	} {
		t.Run(test.name, func(t *testing.T) {
			job := widthsOf(room(), test.narrowest, test.widest)
			for i := range job.Opening.Widths {
				job.Opening.Widths[i].Checked = true
			}
			plan := propose(t, job)
			if len(plan.Proposals) != 0 || plan.Total != (lapspan.Total{Exact: true}) {
				t.Fatalf("%d proposals, total %v", len(plan.Proposals), plan.Total)
			}
			d := func(track int) doors.Door { return doors.Door{Width: 650 * mm, Track: track} }
			want := lapspan.NearMiss{
				Skirting: lapspan.Treatments{Left: opening.NoSkirting, Right: opening.NoSkirting},
				Doors:    []doors.Door{d(0), d(1), d(0), d(1)}, StockHeight: 2200 * mm,
				Side: test.side, By: test.by, Message: test.message,
			}
			got := plan.NearMisses[0]
			// Each change mends it alone; which there are is for the tests of doors.
			if len(got.Changes) == 0 {
				t.Error("no change is named that would mend it")
			}
			got.Changes = nil
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("near miss (-want +got):\n%s", diff)
			}
		})
	}
}

// Beside proposals only what misses by little is worth a line.
func TestNearMissesBesideProposals(t *testing.T) {
	job := room()
	job.Doors.Sizes = append(job.Doors.Sizes,
		doors.Size{Width: 632 * mm, Height: 2200 * mm}, // 4 × 632 − 150 = 2378: 22 short of 2400
		doors.Size{Width: 700 * mm, Height: 2200 * mm}, // 4 × 700 − 240 = 2560: 164 over 2396
	)
	plan := propose(t, job)
	if len(plan.Proposals) != 1 || len(plan.NearMisses) != 1 {
		t.Fatalf("%d proposals, near misses %v", len(plan.Proposals), plan.NearMisses)
	}
	if m := plan.NearMisses[0]; m.By != 22*mm || m.Doors[0].Width != 632*mm {
		t.Errorf("near miss %v", m)
	}
}

// A run that no method can hang is no near miss.
func TestNoNearMissThatCannotBeHung(t *testing.T) {
	job := widthsOf(room(), 2440*mm, 2451*mm)
	job.Boards = nil
	if plan := propose(t, job); len(plan.NearMisses) != 0 || len(plan.Refused) != 2 {
		t.Errorf("near misses %v, refused %v", plan.NearMisses, plan.Refused)
	}
}

// The nearest misses are the nearest of all, whichever stock height or treatment
// of the skirtings is looked at first.
func TestNearMissesAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := drawMixed(t)
		if rapid.Bool().Draw(t, "leaning") {
			job = drawLeaning(t)
		}
		if job.Doors.Arrangement == doors.Any { // there a set may be listed on one of several tracks
			job.Doors.Arrangement = doors.Alternate
		}
		if rapid.Bool().Draw(t, "skirting") {
			job.Opening.Skirting.Left = &opening.Skirting{Thickness: 18 * mm, Height: 100 * mm}
			job.Sundries.EndPanel = price("20")
		}
		plan, err := lapspan.Propose(context.Background(), job)
		if err != nil {
			t.Fatal(err)
		}
		bruteForce(t, job).checkNear(t, plan)
	})
}

// A plan without proposals lists a set of widths once, however many tracks it
// misses on: one overlap more or less is another near miss of the same doors.
func TestNearMissesListASetOnce(t *testing.T) {
	job := widthsOf(room(), 3000*mm, 3001*mm)
	job.Doors.Arrangement, job.Gear.Tracks = doors.Any, 3
	job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: 400 * mm, Height: 2200 * mm}, doors.Size{Width: 650 * mm, Height: 2130 * mm})
	job.Boards = append(job.Boards, doors.Board{Thickness: 140 * mm})
	job.Doors.MaxDoors = 4
	plan := propose(t, job)
	if len(plan.Proposals) > 0 {
		t.Fatal("there are proposals")
	}
	// Doors of 650: 3 of them cover 1900 at the most, 4 with one overlap 2550; of 400: 1150 and 1550; 2 as little.
	var got []string
	for _, m := range plan.NearMisses {
		got = append(got, fmt.Sprint(len(m.Doors), " ", m.Doors[0].Width, " ", m.By, " ", m.StockHeight))
	}
	want := []string{
		"4 650 mm 451 mm 2200 mm", "3 650 mm 1101 mm 2200 mm", "4 400 mm 1451 mm 2200 mm", "2 650 mm 1751 mm 2200 mm", "3 400 mm 1851 mm 2200 mm",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("near misses (-want +got):\n%s", diff)
	}
}

// As far off with the skirting cut back as with an end panel: cut back comes first.
func TestNearMissesOfTwoTreatments(t *testing.T) {
	job := widthsOf(room(), 2400*mm, 2400*mm)
	job.Gear.Overlap = doors.Target{Min: 70 * mm, Max: 70 * mm} // 4 × 650 − 3 × 70 = 2390
	job.Opening.Skirting.Left = &opening.Skirting{Thickness: 20 * mm, Height: 100 * mm}
	plan := propose(t, job)
	if len(plan.NearMisses) < 2 {
		t.Fatalf("near misses %v", plan.NearMisses)
	}
	back, panel := plan.NearMisses[0], plan.NearMisses[1]
	if back.Skirting.Left != opening.CutBack || back.Side != lapspan.Short || back.By != 10*mm {
		t.Errorf("first %v", back)
	}
	if panel.Skirting.Left != opening.EndPanel || panel.Side != lapspan.Over || panel.By != 10*mm {
		t.Errorf("second %v", panel)
	}
}

// Doors made to measure are rounded up, and may then be too wide for the narrowest
// reading: overlaps of 50 to 60 between 2380 and 2400.
func TestNearMissesMadeToMeasure(t *testing.T) {
	job := widthsOf(room(), 2380*mm, 2400*mm)
	job.Gear.Overlap.Max = 60 * mm
	job.Doors = doors.Range{MaxDoors: 4, MadeToMeasure: &doors.MadeToMeasure{
		Width: units.Span{Min: 300 * mm, Max: 1300 * mm}, Height: units.Span{Min: 2000 * mm, Max: 2600 * mm},
	}}
	lines := func(plan lapspan.Plan) (lines []string) {
		for _, m := range plan.NearMisses {
			lines = append(lines, fmt.Sprint(len(m.Doors), " ", m.Doors[0].Width, " ", m.Side, " ", m.By, " ", m.StockHeight))
		}
		return lines
	}
	// (2400 + 165)/4 = 641.25 made 642: 2568 − 180 = 2388; 837: 2391; 1228: 2396.
	want := []string{"4 642 mm over 8 mm 2270 mm", "3 837 mm over 11 mm 2270 mm", "2 1228 mm over 16 mm 2270 mm"}
	if diff := cmp.Diff(want, lines(propose(t, job))); diff != "" {
		t.Errorf("near misses (-want +got):\n%s", diff)
	}
	// Made in steps of 100, 700 misses by 2800 − 180 − 2396: too much beside doors that close.
	job = widthsOf(job, 2396*mm, 2400*mm)
	for i := range job.Opening.Heights {
		job.Opening.Heights[i].Size = 2330 * mm
	}
	job.Doors.MadeToMeasure.Step = 100 * mm
	want = []string{"2 1300 mm over 144 mm 2300 mm", "3 900 mm over 184 mm 2300 mm", "4 700 mm over 224 mm 2300 mm"}
	if diff := cmp.Diff(want, lines(propose(t, job))); diff != "" {
		t.Errorf("in steps of 100 (-want +got):\n%s", diff)
	}
	job.Doors.Sizes = []doors.Size{{Width: 640 * mm, Height: 2230 * mm}}
	if plan := propose(t, job); len(plan.Proposals) != 1 || len(plan.NearMisses) != 0 {
		t.Errorf("%d proposals, near misses %v", len(plan.Proposals), lines(plan))
	}
}
