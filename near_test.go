package lapspan_test

import (
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
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
