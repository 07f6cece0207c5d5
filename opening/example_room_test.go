package opening_test

import (
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Two walls that lean the same way: every width is alike.
func leaning() opening.Survey {
	return opening.Survey{
		Widths:  []opening.Width{{At: mm(200), Size: mm(2400)}, {At: mm(1200), Size: mm(2400)}, {At: mm(2200), Size: mm(2400)}},
		Heights: []opening.Height{{At: mm(100), Size: mm(2300)}, {At: mm(1200), Size: mm(2300)}, {At: mm(2300), Size: mm(2300)}},
		Levels: []opening.Level{
			{At: mm(100), Floor: mm(1000), Ceiling: mm(1300)},
			{At: mm(1200), Floor: mm(1010), Ceiling: mm(1290)},
			{At: mm(2300), Floor: mm(1020), Ceiling: mm(1280)},
		},
		Leans: opening.Leans{
			Left:  []opening.Lean{{At: mm(0), Size: mm(50)}, {At: mm(2300), Size: mm(40)}},
			Right: []opening.Lean{{At: mm(0), Size: mm(50)}, {At: mm(2300), Size: mm(60)}},
		},
	}
}

func ExampleSurvey_ClearFor() {
	s := leaning()
	m, err := opening.Measure(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	c := m.Variants[0]
	fmt.Println("two doors:", s.ClearFor(c, 2, mm(2300)).Width)
	three := s.ClearFor(c, 3, mm(2300))
	fmt.Println("three doors:", three.Width)
	fmt.Println("sure to", three.Widest.Uncertainty, "by", three.Widest.Places)
	// Output:
	// two doors: 2400 mm
	// three doors: 2390 to 2410 mm
	// sure to 2.829764 mm by [opening.leans.left[0].size opening.leans.left[1].size opening.leans.right[0].size opening.leans.right[1].size opening.widths[1].size]
}

func ExampleSurvey_EndDoor() {
	s := leaning()
	d, err := s.EndDoor(opening.Clear{}, opening.Right, mm(650), mm(2300), mm(12))
	fmt.Println(d.Lean, d.Raise, d.Wheel, err)
	// Output: 10 mm 2.826087 mm away from the wall <nil>
}

func ExampleEndDoor_Findings() {
	s := leaning()
	d, err := s.EndDoor(opening.Clear{}, opening.Right, mm(650), mm(2300), mm(2))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range d.Findings(true) {
		fmt.Println(f.Remedy)
	}
	// Output: scribe a liner to the wall, 10 mm thick at the top and running out to nothing at the other end, or a wedge of 10 mm stays open
}

func ExampleSurvey_Packing() {
	for _, p := range leaning().Packing() {
		fmt.Printf("at %s: %s under the rail, %s above the track\n", p.At, p.Rail, p.Track)
	}
	// Output:
	// at 100 mm: 0 mm under the rail, 20 mm above the track
	// at 1200 mm: 10 mm under the rail, 10 mm above the track
	// at 2300 mm: 20 mm under the rail, 0 mm above the track
}

func ExampleSurvey_Square() {
	s := opening.Survey{
		Widths:    []opening.Width{{At: mm(200), Size: mm(1800)}, {At: mm(1200), Size: mm(1800)}, {At: mm(2200), Size: mm(1800)}},
		Heights:   []opening.Height{{At: mm(100), Size: mm(2400)}, {At: mm(900), Size: mm(2400)}, {At: mm(1700), Size: mm(2400)}},
		Diagonals: &opening.Diagonals{Rising: mm(3000), Falling: mm(3050)},
	}
	q, err := s.Square()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(q.Wrong, "would be", q.Would)
	// Output: opening.diagonals.falling would be 3000 mm
}

func ExampleSurvey_StripThickness() {
	s := leaning()
	s.CarpetToCome = mm(12)
	fmt.Println(s.StripThickness())
	s.CarpetAtRail = true
	fmt.Println(s.StripThickness())
	// Output:
	// 12 mm
	// 0 mm
}

func ExampleSurvey_HeightOver() {
	s := leaning()
	s.InTheWay = []opening.Thing{{Kind: opening.Slope, From: 0, To: mm(1000), Bottom: mm(1280), Top: mm(2280)}}
	m, err := opening.Measure(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.HeightOver(m.Variants[0], 0, mm(600)), s.HeightOver(m.Variants[0], mm(600), mm(1200)), s.HeightOver(m.Variants[0], mm(1200), mm(1800)))
	// Output: 1280 mm 1880 mm 2280 mm
}

func ExampleJoists_Crossing() {
	centres := []units.Length{mm(400), mm(800), mm(1200)}
	fmt.Println((&opening.Joists{Centres: centres, Run: opening.FrontToBack}).Crossing())
	fmt.Println((&opening.Joists{Centres: centres, Run: opening.AlongDoors}).Crossing())
	// Output:
	// [400 mm 800 mm 1200 mm]
	// []
}

func ExampleJoists_RunAlong() {
	j := &opening.Joists{Centres: []units.Length{mm(400), mm(800)}, Run: opening.AlongDoors}
	fmt.Println(j.RunAlong())
	// Output: true
}

func ExampleSurvey_SideWorks() {
	s := alcove()
	m, err := opening.Measure(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range m.Variants {
		fmt.Println(s.SideWorks(c, mm(540), mm(84))[0])
	}
	// Output:
	// left: cut 94 mm of skirting back, from 535 mm off the back wall
	// left: end panel 634 × 2341 × 22 mm, of which 10 mm to scribe
}

func ExampleSideWork_String() {
	fmt.Println(opening.SideWork{Side: opening.Right, Treatment: opening.NoSkirting})
	// Output: right: none
}
