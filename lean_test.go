package lapspan_test

import (
	"strings"
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

// turning is a room 2300 high between a plumb wall and one that turns near the top of
// doors cut down to 2275 less what raising the left end door takes: a hundredth of its
// width, so that the opening differs from run to run.
func turning(width units.Length, wall ...opening.Lean) lapspan.Job {
	job := shop()
	for i := range job.Opening.Widths {
		job.Opening.Widths[i].Size = width
	}
	for i := range job.Opening.Heights {
		job.Opening.Heights[i].Size = 2300 * mm
	}
	job.Opening.Leans = opening.Leans{Left: wall, Right: []opening.Lean{{At: 0, Size: 50 * mm}, {At: 2300 * mm, Size: 50 * mm}}}
	job.Trim.Step = mm / 10
	job.Doors = doors.Range{}
	job.Limit = 1
	return job
}

// sells adds doors of a height at a price.
func sells(job *lapspan.Job, height units.Length, of string, widths ...units.Length) {
	for _, w := range widths {
		job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: w * mm, Height: height, Price: price(of)})
	}
}

// tilted is a room 2300 high and up to 2407 wide whose left wall leans out by 20: raising a door 2200 high
// and 345 wide takes 3 of the allowance, one of 650 takes 5.65.
func tilted() lapspan.Job {
	job := turning(2388*mm, opening.Lean{At: 0, Size: 50 * mm}, opening.Lean{At: 2300 * mm, Size: 70 * mm})
	job.Doors.MaxDoors = 8
	job.Opening.Accuracy = mm
	return job
}

// A search that may stop before the end stops no sooner than it may: in each of these
// the best run is best only in the opening, or with the height, that its end doors lead to.
func TestStopsNoSoonerThanItMay(t *testing.T) {
	// Out by 12 from 2269 to 2269.5: a run whose left door is narrower than 600 finds
	// the opening up to 12 wider than one with 620 there.
	out := []opening.Lean{{At: 0, Size: 50 * mm}, {At: 2269 * mm, Size: 50 * mm}, {At: 2269500 * units.Micrometre, Size: 62 * mm}, {At: 2280 * mm, Size: 74 * mm}}
	// In by 6 from 2271 to 2271.4, where doors narrower than 400 at the left reach.
	in := []opening.Lean{{At: 0, Size: 50 * mm}, {At: 2271 * mm, Size: 50 * mm}, {At: 2271400 * units.Micrometre, Size: 44 * mm}, {At: 2280 * mm, Size: 26 * mm}}
	narrow := func(rank ...lapspan.Key) lapspan.Job {
		job := turning(951*mm, in...)
		job.Gear.Overlap, job.Gear.Doors = doors.Target{Min: 45 * mm, Max: 60 * mm}, &doors.Counts{Min: 4, Max: 4}
		job.Doors.MixedWidths, job.Doors.MaxDoors, job.Rank = true, 4, rank
		return job
	}
	for _, test := range []struct {
		name string
		job  func() lapspan.Job
		want string
	}{
		// 3 × 572 looks uneven by 1716 − 1684.8 = 31.2, where 620 stands at the left it
		// would by 36; 3 × 575 of the taller stock by 1725 − 1689.6 = 35.4.
		{"evenness depends on the opening", func() lapspan.Job {
			job := turning(1680*mm, out...)
			job.Gear.Overlap, job.Doors.MaxDoors, job.Rank = doors.Target{Max: 100 * mm}, 3, []lapspan.Key{lapspan.ByEven}
			sells(&job, 2500*mm, "90", 575)
			sells(&job, 2400*mm, "90", 572, 620)
			return job
		}, "572 572 572"},
		// 3 × 620 − 2 × 88.8 = 1682.4: 2.4 to spare, more than the 2.01 that the widest
		// reading may be out by up to 2269, where such doors reach, and less than the 2.78 it
		// may be out by further up.
		{"how sure a reading is depends on the opening", func() lapspan.Job {
			job := turning(1680*mm, out...)
			job.Gear.Overlap, job.Doors.MaxDoors = doors.Target{Min: 88800 * units.Micrometre, Max: 125 * mm}, 3
			job.Rank = []lapspan.Key{lapspan.BySure, lapspan.ByWidth}
			sells(&job, 2500*mm, "90", 640)
			sells(&job, 2400*mm, "90", 572, 620)
			return job
		}, "620 620 620"},
		// Under 2300 doors of 2269 leave 31: 3 more than 25 and what 345 takes, 0.3 more
		// than what 650 takes, which may be out by more.
		{"how sure a height is depends on the end doors", func() lapspan.Job {
			job := tilted()
			job.Rank = []lapspan.Key{lapspan.BySure, lapspan.ByPrice}
			sells(&job, 2400*mm, "200", 660)
			sells(&job, 2269*mm, "10", 345, 650)
			return job
		}, "345 345 345 345 345 345 345 345"},
		// Beside 345 the aim is 31.5, nearest to it 100 − 70; beside 650 it is 32.8, and a
		// board of 66 leaves 34.
		{"what a packer costs depends on the end doors", func() lapspan.Job {
			job := tilted()
			job.Boards = []doors.Board{{Thickness: 70 * mm, Price: price("1")}, {Thickness: 66 * mm, Price: price("100")}}
			job.Rank = []lapspan.Key{lapspan.ByPrice}
			sells(&job, 2400*mm, "75", 660)
			sells(&job, 2200*mm, "10", 345, 650)
			return job
		}, "345 345 345 345 345 345 345 345"},
		{"whether it has a price depends on the end doors", func() lapspan.Job {
			job := tilted()
			job.Boards = []doors.Board{{Thickness: 70 * mm, Price: price("1")}, {Thickness: 66 * mm}}
			sells(&job, 2200*mm, "10", 345, 650)
			return job
		}, "650 650 650 650"}, // by width, as not every proposal has one
		// In 951 the overlaps of 1100 are less than 50 and {100 300 300 400} stands as
		// 400 300 100 300; where the wall is in the door of 100 has to stand at an end, and
		// 300 400 300 100 comes before 350 350 300 100.
		{"the order offered depends on the opening", func() lapspan.Job {
			job := narrow(lapspan.ByWidth)
			sells(&job, 2400*mm, "90", 100, 300, 350, 400)
			return job
		}, "300 400 300 100"},
		// It looks uneven by 252, 400 300 100 300 by 300; 320 380 300 100 of the taller
		// stock by 272.
		{"and with it how uneven it looks", func() lapspan.Job {
			job := narrow(lapspan.ByEven)
			sells(&job, 2500*mm, "90", 100, 300, 320, 380)
			sells(&job, 2400*mm, "90", 100, 300, 350, 400)
			return job
		}, "300 400 300 100"},
	} {
		t.Run(test.name, func(t *testing.T) {
			job := test.job()
			plan, err := lapspan.ProposeWithoutCounting(t.Context(), job)
			if err != nil || len(plan.Proposals) == 0 {
				t.Fatal(plan.Refused, err)
			}
			var got []string
			for _, d := range plan.Proposals[0].Doors {
				got = append(got, d.Width.Millimetres())
			}
			if strings.Join(got, " ") != test.want {
				t.Errorf("first proposal %v, want %s", got, test.want)
			}
			bruteForce(t, job).check(t, plan, false)
		})
	}
}

// Doors made to measure are as wide as the opening over its whole height asks for, and
// as high as their end doors, once raised, leave room for.
func TestMadeToMeasureBetweenWallsThatLean(t *testing.T) {
	job := tilted()
	job.Limit = 20
	job.Doors.MadeToMeasure = &doors.MadeToMeasure{Width: units.Span{Min: 300 * mm, Max: 1300 * mm}, Height: units.Span{Min: 2000 * mm, Max: 2600 * mm}}
	plan := propose(t, job)
	if len(plan.Proposals) == 0 {
		t.Fatal("no proposals")
	}
	measured, err := opening.Measure(job.Opening)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range plan.Proposals {
		n := units.Length(len(p.Doors))
		widest := job.Opening.ClearFor(measured.Variants[0], len(p.Doors), 2300*mm).Width.Max
		// The aim is the middle of 50 to 80. In whole millimetres.
		w := p.Doors[0].Width
		if need := widest + (n-1)*65*mm; w%mm != 0 || n*w < need || n*(w-mm) >= need {
			t.Errorf("%d doors of %s for %s", n, w, widest)
		}
		// 2300 less the middle of what is left of 25 to 35, rounded down.
		taken := max(p.EndDoors[0].Taken, p.EndDoors[1].Taken)
		if left := p.Height.Allowance - taken; p.Height.Method != doors.ToMeasure || left < 25*mm || p.Height.Allowance > 35*mm || p.Height.Door+p.Height.Allowance != 2300*mm {
			t.Errorf("%+v, of which the raise takes %s", p.Height, taken)
		}
		if want := job.Opening.ClearFor(measured.Variants[0], len(p.Doors), p.Height.Door).Width; p.ClearWidth != want {
			t.Errorf("clear width %v, want %v", p.ClearWidth, want)
		}
	}
}
