package trim_test

import (
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// threePanels is a door whose middle panel is a mirror.
func threePanels() *doors.Build {
	return &doors.Build{
		TopBar: 40 * units.Millimetre, BottomBar: 60 * units.Millimetre, Bar: 30 * units.Millimetre,
		Panels: []doors.Panel{
			{Share: doors.OneShare, CutOnSite: true},
			{Share: doors.OneShare},
			{Share: doors.OneShare, CutOnSite: true},
		},
	}
}

// A door of 2400 under a clear height of 2300, with 30 for track and rail, loses 130.
func ExampleSchedule() {
	height := doors.Height{
		Method: doors.CutDown,
		Stock:  2400 * units.Millimetre,
		Door:   2270 * units.Millimetre,
		Cut:    130 * units.Millimetre,
	}
	cut, findings, err := trim.Schedule(threePanels(), doors.Cutting{Split: doors.ByPair}, height)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("off both stiles:", cut.Stile)
	for _, p := range cut.Panels {
		fmt.Printf("panel %d: %v, keeps %v\n", p.Panel, p.Cut, p.Height)
	}
	fmt.Println("findings:", len(findings))
	// Output:
	// off both stiles: 130 mm
	// panel 1: 65 mm, keeps 681.666667 mm
	// panel 3: 65 mm, keeps 681.666666 mm
	// findings: 0
}

func ExampleCutDown_Saws() {
	cut := trim.CutDown{
		Stile: 130 * units.Millimetre,
		Panels: []trim.PanelCut{
			{Panel: 1, Cut: 65 * units.Millimetre, Height: 680 * units.Millimetre},
			{Panel: 3, Cut: 65 * units.Millimetre, Height: 680 * units.Millimetre},
		},
	}
	fmt.Println(cut.Saws(), "cuts on each door")
	// Output:
	// 4 cuts on each door
}

func ExampleCutDown_Steps() {
	cut := trim.CutDown{
		Stile:  130 * units.Millimetre,
		Panels: []trim.PanelCut{{Panel: 1, Cut: 130 * units.Millimetre, Height: 2000 * units.Millimetre}},
	}
	for i, step := range cut.Steps(3) {
		fmt.Printf("%d. %s\n", i+1, step)
	}
	// Output:
	// 1. take the top bar off one door, the door lying flat
	// 2. mark 130 mm at the top of both stiles
	// 3. mark panel 1, counted from the bottom, to lose 130 mm and keep 2000 mm
	// 4. cut this one door and put it together
	// 5. hang it and try it over the whole width of the opening
	// 6. only then cut the next door, to the same schedule
}
