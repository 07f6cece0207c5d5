package frame_test

import (
	"encoding/json"
	"fmt"

	"example.com/lapspan/frame"
	"example.com/lapspan/units"
)

// header is a C16 timber of 38 × 89 on edge over 2400.
func header() frame.Beam {
	return frame.Beam{Span: 2400 * units.Millimetre, Width: 38 * units.Millimetre, Depth: 89 * units.Millimetre, E: 8000}
}

func ExampleBeam_Deflection() {
	bends, err := header().Deflection(frame.Load{Centre: 500 * frame.Newton})
	if err != nil {
		fmt.Println(err)
		return
	}
	tenths, err := bends.Round(units.Millimetre/10, units.Up)
	fmt.Println(tenths, err)
	// Output:
	// 8.1 mm <nil>
}

func ExampleBeam_Working() {
	lines, err := header().Working(frame.Load{Centre: 500 * frame.Newton})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range lines {
		fmt.Printf("%s = %s = %s\n", l.What, l.Sum, l.Is)
	}
	// Output:
	// I = b·h³/12 = 38 × 89³ / 12 = 2232401.833 mm⁴
	// P·L³/(48·E·I) = 500 × 2400³ / (48 × 8000 × I) = 8.063065 mm
}

func ExampleCheckStiffness() {
	s, err := frame.CheckStiffness(header(), "C16", frame.Load{Centre: 500 * frame.Newton}, 300)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v against %v (span/%d): within %v\n", s.Deflection, s.Allowed, s.Limit, s.Within)
	fmt.Println(s.Advice)
	// Output:
	// 8.063065 mm against 8 mm (span/300): within false
	// for information: bending alone, on two simple supports. Timber that carries load, and the limit it is held to, are for a qualified engineer and local code to say
}

func ExampleGrades() {
	for _, g := range frame.Grades()[:3] {
		fmt.Println(g.Name, g.MeanE, "N/mm²", g.MeanDensity, "kg/m³")
	}
	// Output:
	// C14 7000 N/mm² 350 kg/m³
	// C16 8000 N/mm² 370 kg/m³
	// C18 9000 N/mm² 380 kg/m³
}

func ExampleGradeOf() {
	g, err := frame.GradeOf("C24")
	fmt.Println(g.MeanE, err)
	_, err = frame.GradeOf("C25")
	fmt.Println(err)
	// Output:
	// 11000 <nil>
	// frame: "C25": no such strength class
}

func ExampleForce_Newtons() {
	fmt.Println((750 * frame.Newton).Newtons(), (frame.Kilonewton / 2000).Newtons())
	// Output:
	// 750 0.5
}

func ExampleForce_String() {
	fmt.Println(2 * frame.Kilonewton)
	// Output:
	// 2000 N
}

func ExampleForce_MarshalJSON() {
	text, err := json.Marshal(frame.Load{Uniform: 100 * frame.Newton})
	fmt.Println(string(text), err)
	// Output:
	// {"uniform":100} <nil>
}

func ExampleForce_UnmarshalJSON() {
	var l frame.Load
	fmt.Println(json.Unmarshal([]byte(`{"pair": 250.5, "pair_at": "600 mm"}`), &l))
	fmt.Println(l.Pair, "at", l.PairAt)
	// Output:
	// <nil>
	// 250.5 N at 600 mm
}
