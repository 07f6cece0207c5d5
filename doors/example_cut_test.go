package doors_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// glassBetween is a door with a glass panel between two that may be cut.
func glassBetween() *doors.Build {
	return &doors.Build{
		TopBar: 45 * units.Millimetre, BottomBar: 60 * units.Millimetre, Bar: 25 * units.Millimetre,
		LeastPanel: 300 * units.Millimetre,
		Panels: []doors.Panel{
			{Share: doors.OneShare, CutOnSite: true},
			{Share: 2 * doors.OneShare},
			{Share: doors.OneShare, CutOnSite: true},
		},
	}
}

func ExampleBuild_PanelHeights() {
	heights, err := glassBetween().PanelHeights(2400 * units.Millimetre) // 2400 − 45 − 60 − 2 × 25 = 2245
	fmt.Println(heights, err)
	// Output: [561.25 mm 1122.5 mm 561.25 mm] <nil>
}

func ExamplePanelCuts() {
	cuts, err := doors.PanelCuts(glassBetween(), doors.Cutting{}, 2400*units.Millimetre, 130*units.Millimetre)
	fmt.Println(cuts, err)
	// Output: [65 mm 0 mm 65 mm] <nil>
}

func ExampleDeepestCut() {
	// Each of the two panels may lose 261 whole millimetres.
	deepest, err := doors.DeepestCut(glassBetween(), doors.Cutting{}, 2400*units.Millimetre)
	fmt.Println(deepest, err)
	_, err = doors.PanelCuts(glassBetween(), doors.Cutting{}, 2400*units.Millimetre, deepest+units.Millimetre)
	fmt.Println(errors.Is(err, doors.ErrTooDeep))
	// Output:
	// 522 mm <nil>
	// true
}

func ExampleCutting_Validate() {
	fmt.Println(doors.Cutting{Split: "thirds"}.Validate())
	// Output: trim.cut_split: "thirds" is not panel, pair, even or shares
}

func ExampleShare_String() {
	fmt.Println(3 * doors.OneShare / 2)
	// Output: 1.5
}

func ExampleShare_MarshalJSON() {
	text, err := json.Marshal(3 * doors.OneShare / 2)
	fmt.Println(string(text), err)
	// Output: 1.5 <nil>
}

func ExampleShare_UnmarshalJSON() {
	var p doors.Panel
	err := json.Unmarshal([]byte(`{"share": 1.5, "cut_on_site": true}`), &p)
	fmt.Println(p.Share, p.CutOnSite, err)
	// Output: 1.5 true <nil>
}
