package lapspan_test

import (
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// leaning is an opening between plumb lines 2390 apart whose left wall stands 10
// further out at 2300 than at the floor; the right wall is plumb. H 2332.
func leaning() lapspan.Job {
	job := room()
	job.Opening.Widths = []opening.Width{{At: 0, Size: 2390 * mm}, {At: 1150 * mm, Size: 2395 * mm}, {At: 2300 * mm, Size: 2400 * mm}}
	for i := range job.Opening.Heights {
		job.Opening.Heights[i].Size = 2332 * mm
	}
	job.Opening.Leans = opening.Leans{
		Left:  []opening.Lean{{At: 0, Size: 0}, {At: 2300 * mm, Size: 10 * mm}},
		Right: []opening.Lean{{At: 0, Size: 0}, {At: 2300 * mm, Size: 0}},
	}
	job.Doors.Sizes[0].Height = 2300 * mm
	job.Gear.Adjuster = 5 * mm
	return job
}

// 650 × 10 / 2300 = 2.826086…, rounded up to the nanometre.
const raised = 2_826_087 * units.Nanometre

func TestEndDoorTakesFromTheAllowance(t *testing.T) {
	p := first(t, leaning())
	if p.Height.Method != doors.AsIs || p.Height.Allowance != 32*mm {
		t.Fatalf("height %+v", p.Height)
	}
	if left := p.EndDoors[0]; left.Raise != raised || left.Taken != raised || left.Lean != 10*mm {
		t.Errorf("left end door %+v", left)
	}
	if right := p.EndDoors[1]; right.Raise != 0 || right.Taken != 0 {
		t.Errorf("right end door %+v", right)
	}
	if want := 32*mm - raised - 25*mm; *p.Margin.Height.Under != want {
		t.Errorf("margin under %v, want %v", *p.Margin.Height.Under, want)
	}
	// Four doors: the doors in the middle stand plumb, so the opening runs from the outermost to the innermost points.
	if want := (units.Span{Min: 2390 * mm, Max: 2400 * mm}); p.ClearWidth != want {
		t.Errorf("clear width %v, want %v", p.ClearWidth, want)
	}
}

// The allowance left once the wheel is raised is at least the least, to the nanometre.
func TestAllowanceIsTestedWithTheRaise(t *testing.T) {
	for _, test := range []struct {
		height units.Length
		as     bool
	}{{2300*mm + 25*mm + raised, true}, {2300*mm + 25*mm + raised - 1, false}} {
		job := leaning()
		for i := range job.Opening.Heights {
			job.Opening.Heights[i].Size = test.height
		}
		plan := propose(t, job)
		as := len(plan.Proposals) > 0 && plan.Proposals[0].Height.Method == doors.AsIs
		if as != test.as {
			t.Errorf("height %v: as is %v, want %v", test.height, as, test.as)
		}
	}
}

// Past the adjuster the door stays plumb: nothing is taken, and a liner closes the wedge.
func TestLeanPastTheAdjuster(t *testing.T) {
	job := leaning()
	job.Gear.Adjuster = 2 * mm
	p := first(t, job)
	if left := p.EndDoors[0]; left.Taken != 0 || left.Liner == nil {
		t.Errorf("left end door %+v", left)
	}
	if *p.Margin.Height.Under != 7*mm {
		t.Errorf("margin under %v", *p.Margin.Height.Under)
	}
	if !p.Findings.Has("lean-past-adjuster") {
		t.Errorf("findings %v", p.Findings)
	}
}

func TestMadeToTheHeightFoundLeavesRoomForTheRaise(t *testing.T) {
	job := leaning()
	job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: 650 * mm, Height: 2000 * mm}, doors.Size{Width: 650 * mm, Height: 2400 * mm})
	job.Timber = &doors.Timber{Thickness: 47 * mm, Width: 72 * mm, Lengths: []doors.StockLength{{Length: 2400 * mm}}}
	seen := map[doors.Method]bool{}
	for _, p := range propose(t, job).Proposals {
		seen[p.Height.Method] = true
		if left := p.Height.Allowance - p.EndDoors[0].Taken; left < 25*mm {
			t.Errorf("%s: %v left of the allowance", p.Height.Method, left)
		}
	}
	if !seen[doors.Bulkhead] || !seen[doors.CutDown] || !seen[doors.AsIs] {
		t.Errorf("methods %v", seen)
	}
}

// Both walls lean alike: every width is the same, yet three doors or more must cover
// from the outermost left to the outermost right.
func TestWallsThatLeanTheSameWay(t *testing.T) {
	job := leaning()
	for i := range job.Opening.Widths {
		job.Opening.Widths[i].Size = 2390 * mm
	}
	job.Opening.Leans.Right[1].Size = -10 * mm
	p := first(t, job)
	if want := (units.Span{Min: 2380 * mm, Max: 2400 * mm}); p.ClearWidth != want {
		t.Errorf("clear width %v, want %v", p.ClearWidth, want)
	}
}

func TestSecondMeasure(t *testing.T) {
	job := room()
	p := first(t, job) // packer 70, allowance 30 of 25 to 35; 2396 to 2400 wide, −36 +50
	second, err := lapspan.SecondMeasure(job, p, units.Span{Min: 2395 * mm, Max: 2451 * mm}, 2307*mm)
	if err != nil {
		t.Fatal(err)
	}
	verdict := map[string]opening.Verdict{}
	for _, s := range second {
		verdict[s.Figure] = s.Verdict
	}
	if verdict["narrowest width"] != opening.Holds || verdict["widest width"] != opening.Reorder || verdict["height"] != opening.Repack {
		t.Errorf("%v", verdict)
	}
}

func TestSurveyFormAsksForWhatTheJobNeeds(t *testing.T) {
	asked := func(job lapspan.Job, key string) bool {
		for _, q := range lapspan.SurveyForm(job) {
			if q.Key == key {
				return true
			}
		}
		return false
	}
	job := room()
	if !asked(job, "opening.widths") || asked(job, "opening.depths") {
		t.Error("without an interior the depth does not matter")
	}
	job.Interior, job.Gear.Depth = &lapspan.Interior{Depth: 500 * mm}, 80*mm
	if !asked(job, "opening.depths") {
		t.Error("with an interior the depth matters")
	}
}
