package lapspan_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

const mm = units.Millimetre

// room is a job of round numbers: 2400 wide, 2300 high, doors of 650 × 2200.
func room() lapspan.Job {
	return lapspan.Job{
		Reference: "box room",
		Opening: opening.Survey{
			Widths:  []opening.Width{{At: 100 * mm, Size: 2396 * mm}, {At: 1200 * mm, Size: 2400 * mm}, {At: 2200 * mm, Size: 2398 * mm}},
			Heights: []opening.Height{{At: 100 * mm, Size: 2300 * mm}, {At: 1200 * mm, Size: 2301 * mm}, {At: 2300 * mm, Size: 2302 * mm}},
		},
		Doors: doors.Range{
			Sizes: []doors.Size{{Width: 650 * mm, Height: 2200 * mm, Price: new(units.MustMoney("95"))}},
		},
		Gear: doors.Gear{
			Tracks:    2,
			Overlap:   doors.Target{Min: 50 * mm, Max: 80 * mm},
			Allowance: doors.Target{Min: 25 * mm, Max: 35 * mm},
		},
		Boards: []doors.Board{{Thickness: 70 * mm, Price: new(units.MustMoney("6.20"))}},
	}
}

// The job in a dozen lines: a room, a range of doors, gear, and the best proposal.
func Example() {
	ctx := context.Background()

	plan, err := lapspan.Propose(ctx, lapspan.Job{
		Opening: opening.Survey{
			Widths:  []opening.Width{{At: 100 * mm, Size: 2396 * mm}, {At: 1200 * mm, Size: 2400 * mm}, {At: 2200 * mm, Size: 2398 * mm}},
			Heights: []opening.Height{{At: 100 * mm, Size: 2300 * mm}, {At: 1200 * mm, Size: 2301 * mm}, {At: 2300 * mm, Size: 2302 * mm}},
		},
		Doors:  doors.Range{Sizes: []doors.Size{{Width: 650 * mm, Height: 2200 * mm}}},
		Gear:   doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 50 * mm, Max: 80 * mm}, Allowance: doors.Target{Min: 25 * mm, Max: 35 * mm}},
		Boards: []doors.Board{{Thickness: 70 * mm}},
	})
	if err != nil || len(plan.Proposals) == 0 {
		fmt.Println("no proposal:", err, plan.Findings)
		return
	}
	best := plan.Proposals[0]
	fmt.Println(len(best.Doors), "doors cover", best.Cover, "of", best.ClearWidth)
	fmt.Println(best.Height.Method, best.Packer, "allowance", best.Height.Allowance)

	// Output:
	// 4 doors cover 2450 mm of 2396 to 2400 mm
	// packer [70 mm] allowance 30 mm
}

func ExamplePropose() {
	job := room()
	job.Opening.Heights[1].Size = 2031 * mm // read as 2031, it was 2301
	plan, err := lapspan.Propose(context.Background(), job)
	fmt.Println(len(plan.Proposals), err)
	for _, f := range plan.Findings {
		if f.Severity == opening.Stop {
			fmt.Println(f.Code, f.Place)
			fmt.Println(f.Message)
		}
	}
	// Output:
	// 0 <nil>
	// swapped-digits opening.heights[1].size
	// 2031 mm does not fit the other heights, about 2301 mm: with two digits swapped it would be 2301 mm
}

func ExamplePropose_limit() {
	job := room()
	for i := range 300 {
		job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: units.Length(700+i) * mm, Height: 2200 * mm})
	}
	job.Doors.MixedWidths, job.Doors.MaxDoors = true, 9
	_, err := lapspan.Propose(context.Background(), job)
	fmt.Println(err)
	// Output:
	// doors.max_doors: 9 is not 2 to 8
}

func ExampleReadJob() {
	_, err := lapspan.ReadJob(strings.NewReader(`{
		"opening": {"widths": [{"at": 100, "size": "7' 10 1/2\""}, {"at": 1200, "size": "2,400"}], "heights": []},
		"doors": {"sizes": [{"width": 650, "height": 2200}]},
		"gear": {"tracks": 2, "overlap": {"min": 50, "max": 80}, "allowance": {"min": 25, "max": 35}}
	}`))
	var refused *opening.InputError
	if errors.As(err, &refused) {
		fmt.Println(refused.Place)
	}
	fmt.Println(err)
	// Output:
	// opening.widths[1].size
	// opening.widths[1].size: cannot read "2,400": a comma may mean thousands or a decimal: write 2400 or 2.4 (at byte 1)
}

func ExampleDecode() {
	var shelf struct {
		Width units.Length `json:"width"`
		Count int          `json:"count,omitzero"`
	}
	fmt.Println(lapspan.Decode([]byte(`{"width": "94 1/2 in"}`), &shelf), shelf.Width)
	fmt.Println(lapspan.Decode([]byte(`{"width": 900, "Count": 2}`), &shelf), shelf.Width)
	// Output:
	// <nil> 2400.3 mm
	// Count: unknown key 2400.3 mm
}

func ExampleJob_Validate() {
	job := room()
	job.Rank = []lapspan.Key{lapspan.ByWidth, lapspan.ByDoors, lapspan.ByWidth}
	fmt.Println(job.Validate())
	// Output:
	// rank[2]: width is repeated
}

func ExampleCurrency_MinorDigits() {
	fmt.Println(lapspan.Currency{}.MinorDigits(), lapspan.Currency{Code: "JPY", Digits: new(0)}.MinorDigits())
	// Output:
	// 2 0
}

func ExampleDefaultRank() {
	fmt.Println(lapspan.DefaultRank(true))
	fmt.Println(lapspan.DefaultRank(false))
	// Output:
	// [sure price]
	// [sure width doors access cuts height]
}

func ExampleExplain() {
	job := room()
	plan, err := lapspan.Propose(context.Background(), job)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, line := range lapspan.Explain(job, plan).Proposals[0].Working[3:6] {
		fmt.Println(line.What+":", line.Sum, "=", line.Is)
	}
	// Output:
	// cover: 650 + 650 + 650 + 650 − 3 × 50 = 2450
	// overlap in the widest reading: (650 + 650 + 650 + 650 − 2400) / 3 = 66.666667
	// overlap in the narrowest reading: (650 + 650 + 650 + 650 − 2396) / 3 = 68
}

func ExampleSheet() {
	job := room()
	plan, err := lapspan.Propose(context.Background(), job)
	if err != nil {
		fmt.Println(err)
		return
	}
	sheet := lapspan.Sheet(job, plan)
	fmt.Println(sheet[strings.Index(sheet, "Proposals"):strings.Index(sheet, "Not offered")])
	// Output:
	// Proposals
	// ---------
	// 1 of 1, the best first.
	//
	// no  doors    tracks  skirting  height  stock  door  overlap  cover  access  spare width  price  sure
	// 1   4 × 650  0101    none      packer  2200   2200  ~66.7    2450   1096    −36 +50      -      yes
}

func ExampleTreatments_String() {
	fmt.Println(lapspan.Treatments{Left: opening.CutBack, Right: opening.CutBack})
	fmt.Println(lapspan.Treatments{Left: opening.EndPanel, Right: opening.NoSkirting})
	// Output:
	// cut back
	// end panel / none
}

func ExampleSecondMeasure() {
	job := room()
	plan, err := lapspan.Propose(context.Background(), job)
	if err != nil {
		fmt.Println(err)
		return
	}
	second, err := lapspan.SecondMeasure(job, plan.Proposals[0], units.Span{Min: 2395 * mm, Max: 2451 * mm}, 2307*mm)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range second {
		fmt.Println(s.Figure, s.Is, "-", s.Verdict)
	}
	// Output:
	// narrowest width 2395 mm - holds
	// widest width 2451 mm - reorder
	// height 2307 mm - repack
}

func ExampleSurveyForm() {
	for _, q := range lapspan.SurveyForm(room()) {
		if q.Needed {
			fmt.Println(q.Key, q.Readings)
		}
	}
	// Output:
	// opening.widths 3
	// opening.heights 3
}

// A plan is one JSON document, the same bytes every time.
func ExamplePlan() {
	plan, err := lapspan.Propose(context.Background(), room())
	if err != nil {
		fmt.Println(err)
		return
	}
	document, err := json.Marshal(plan.Proposals[0].Doors)
	fmt.Println(string(document), err)
	// Output:
	// [{"width":650,"track":0},{"width":650,"track":1},{"width":650,"track":0},{"width":650,"track":1}] <nil>
}
