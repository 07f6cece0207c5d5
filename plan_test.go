package lapspan_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"sync"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

func demo(t testing.TB) lapspan.Job {
	t.Helper()
	data, err := os.ReadFile("examples/wholejob/demo.json")
	if err != nil {
		t.Fatal(err)
	}
	job, err := lapspan.ReadJob(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func document(t testing.TB, job lapspan.Job) []byte {
	t.Helper()
	plan, err := lapspan.Propose(context.Background(), job)
	if err != nil {
		t.Error(err)
		return nil
	}
	plan = lapspan.Explain(job, plan)
	data, err := json.Marshal(plan)
	if err != nil {
		t.Error(err)
	}
	return append(data, lapspan.Sheet(job, plan)...)
}

func TestSameJobSameBytes(t *testing.T) {
	for _, job := range []lapspan.Job{demo(t), mixed()} {
		job.Limit = 20
		want := document(t, job)
		for range 100 {
			if !bytes.Equal(document(t, job), want) {
				t.Fatal("the same job gave another plan")
			}
		}
	}
}

func TestManyGoroutinesShareAJob(t *testing.T) {
	job := mixed()
	job.Limit = 5
	want := document(t, job)
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 5 {
				if !bytes.Equal(document(t, job), want) {
					t.Error("another plan")
				}
			}
		})
	}
	wait.Wait()
}

func TestProposeStopsWithTheContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := lapspan.Propose(ctx, mixed()); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that of the context", err)
	}
}

func TestZeroJobIsRefused(t *testing.T) {
	var refused *opening.InputError
	if _, err := lapspan.Propose(t.Context(), lapspan.Job{}); !errors.As(err, &refused) {
		t.Errorf("error %v", err)
	}
}

// A plan without proposals still marshals with empty lists, never null.
func TestEmptyListsAreNotNull(t *testing.T) {
	job := room()
	job.Opening.Widths = nil
	data, err := json.Marshal(propose(t, job))
	if err != nil || bytes.Contains(data, []byte("null")) {
		t.Errorf("%s %v", data, err)
	}
	data, err = json.Marshal(propose(t, room()))
	if err != nil || bytes.Contains(data, []byte("null")) {
		t.Errorf("%s %v", data, err)
	}
}

// Readings moved inside the margin leave a proposal valid; one step past it they do not.
func TestMarginsOfTheWidthAreTrue(t *testing.T) {
	for i, p := range propose(t, mixed()).Proposals {
		run, err := doors.NewRun(p.Doors...)
		if err != nil {
			t.Fatal(err)
		}
		closes := func(opening units.Length) bool {
			return run.Cover(mixed().Gear) >= opening && run.Least(mixed().Gear) <= opening
		}
		under, over := *p.Margin.Width.Under, *p.Margin.Width.Over
		if !closes(p.ClearWidth.Min-under) || closes(p.ClearWidth.Min-under-1) || !closes(p.ClearWidth.Max+over) || closes(p.ClearWidth.Max+over+1) {
			t.Errorf("proposal %d: margins −%v +%v of %v", i, under, over, p.ClearWidth)
		}
	}
}

// A height read wrong by no more than the margin leaves the method and what is
// ordered as they are; one nanometre more does not.
func TestMarginsOfTheHeightAreTrue(t *testing.T) {
	job := mixed()
	job.Doors.MadeToMeasure = &doors.MadeToMeasure{Width: units.Span{Min: 400 * mm, Max: 900 * mm}, Height: units.Span{Min: 1500 * mm, Max: 2600 * mm}}
	at := func(h units.Length) map[[2]string]lapspan.Proposal {
		job := job
		job.Opening.Heights = []opening.Height{{At: 1, Size: h}, {At: 2, Size: h}, {At: 3, Size: h}}
		found := map[[2]string]lapspan.Proposal{}
		for _, p := range propose(t, job).Proposals {
			found[[2]string{string(p.Height.Method), p.Height.Stock.String()}] = p
		}
		return found
	}
	const h = 2300 * mm
	seen := map[doors.Method]bool{}
	for key, p := range at(h) {
		seen[p.Height.Method] = true
		switch p.Height.Method {
		case doors.Bulkhead, doors.CutDown:
			// Made to the height found: inside the margin the method still serves.
			if u := p.Margin.Height.Under; u != nil {
				if _, ok := at(h - *u)[key]; !ok {
					t.Errorf("%v: gone at the margin of %v", key, *u)
				}
				if _, ok := at(h - *u - mm)[key]; ok {
					t.Errorf("%v: still there beyond the margin of %v", key, *u)
				}
			}
			if o := p.Margin.Height.Over; o != nil {
				if _, ok := at(h + *o)[key]; ok {
					t.Errorf("%v: still cut at %v more, where it fits as it is", key, *o)
				}
				if _, ok := at(h + *o - mm)[key]; !ok {
					t.Errorf("%v: gone before the margin of %v", key, *o)
				}
			}
		default:
			// Bought before: the allowance takes up the difference.
			a := job.Gear.Allowance
			if p.Height.Allowance-*p.Margin.Height.Under != a.Min || p.Height.Allowance+*p.Margin.Height.Over != a.Max {
				t.Errorf("%v: margins −%v +%v of an allowance of %v", key, *p.Margin.Height.Under, *p.Margin.Height.Over, p.Height.Allowance)
			}
		}
	}
	for _, m := range []doors.Method{doors.AsIs, doors.Packer, doors.Bulkhead, doors.CutDown, doors.ToMeasure} {
		if !seen[m] {
			t.Errorf("the job has no proposal by %s", m)
		}
	}
}

func TestPullOutThatNoParkingClears(t *testing.T) {
	job := room() // access 1096 in 2396, two doors a side: stacks end at 0, 650 or 1300
	for _, test := range []struct {
		from, to units.Length
		blocked  bool
	}{
		{660, 1736, false}, // parked one door a side: 650 to 1746 clear
		{659, 1086, false}, // 649 with its clearance: all parked at the right, which leaves 0 to 1096
		{659, 1087, true},
		{1310, 2386, false}, // all parked at the left: from 1300 on
		{1309, 1747, true},
	} {
		job.Interior = &lapspan.Interior{Depth: 500 * mm, PullOuts: []lapspan.PullOut{{Name: "drawers", From: test.from * mm, To: test.to * mm}}}
		if got := first(t, job).Findings.Has(lapspan.CodePullOutBlocked); got != test.blocked {
			t.Errorf("%d to %d: blocked %v, want %v", test.from, test.to, got, test.blocked)
		}
	}
}

func TestMassThatCannotBeCheckedIsSaid(t *testing.T) {
	job := room()
	job.Gear.MaxDoorMass = new(units.MustMass("40"))
	if plan := propose(t, job); !plan.Findings.Has(lapspan.CodeMassUnknown) {
		t.Errorf("findings %v", plan.Findings)
	}
}

func TestNarrowPlateIsAFinding(t *testing.T) {
	job := mixed()
	for _, depth := range []units.Length{72, 73} {
		job.Gear.Depth = depth * mm
		found := false
		for _, p := range propose(t, job).Proposals {
			found = found || p.Findings.Has(frame.CodeNarrowPlate)
		}
		if found != (depth > 72) {
			t.Errorf("track %v deep on a plate of 72: finding %v", depth, found)
		}
	}
}
