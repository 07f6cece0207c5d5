package opening_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
)

type row = table.Row

// length reads a length of a table; an empty cell is no length.
func length(t *testing.T, s string) units.Length {
	t.Helper()
	if s == "" {
		return 0
	}
	l, err := units.ParseSigned(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func lengths(t *testing.T, s string) []units.Length {
	t.Helper()
	var list []units.Length
	for _, field := range strings.Fields(s) {
		list = append(list, length(t, field))
	}
	return list
}

// widthsOf reads widths at 200, 700, 1200 … above the floor.
func widthsOf(sizes ...units.Length) []opening.Width {
	var list []opening.Width
	for i, size := range sizes {
		list = append(list, opening.Width{At: mm(200 + 500*int64(i)), Size: size})
	}
	return list
}

// heightsOf reads heights at 0, 1200, 2400 … from the left wall.
func heightsOf(sizes ...units.Length) []opening.Height {
	var list []opening.Height
	for i, size := range sizes {
		list = append(list, opening.Height{At: mm(1200 * int64(i)), Size: size})
	}
	return list
}

// survey is one without anything to find but the two notes.
func survey() opening.Survey {
	return opening.Survey{
		Widths:  widthsOf(mm(2400), mm(2405), mm(2398)),
		Heights: heightsOf(mm(2300), mm(2302), mm(2304)),
	}
}

func measure(t *testing.T, s opening.Survey) opening.Measured {
	t.Helper()
	m, err := opening.Measure(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// brief writes the findings of a kind of reading as "index code severity;…",
// with "series" for one about the whole kind. Notes and few-readings are left out.
func brief(found opening.Findings, kind string) string {
	var list []string
	for _, f := range found {
		rest, ok := strings.CutPrefix(f.Place, "opening."+kind)
		if !ok || f.Code == opening.CodeFewReadings || f.Code == opening.CodeNoLevel || f.Code == opening.CodeFallsAlike {
			continue
		}
		at := "series"
		if rest != "" {
			at, _, _ = strings.Cut(rest[1:], "]")
		}
		list = append(list, fmt.Sprintf("%s %s %s", at, f.Code, f.Severity))
	}
	return strings.Join(list, ";")
}

func TestSlipsReference(t *testing.T) {
	table.Each(t, "opening_slips.csv", func(t *testing.T, r row) {
		s := survey()
		if r["kind"] == "widths" {
			s.Widths = widthsOf(lengths(t, r["readings"])...)
		} else {
			s.Heights = heightsOf(lengths(t, r["readings"])...)
		}
		for _, field := range strings.Fields(r["checked"]) {
			i, err := strconv.Atoi(field)
			if err != nil {
				t.Fatal(err)
			}
			if r["kind"] == "widths" {
				s.Widths[i].Checked = true
			} else {
				s.Heights[i].Checked = true
			}
		}
		m := measure(t, s)
		if got := brief(m.Findings, r["kind"]); got != r["expected"] {
			t.Errorf("%s %s: %s, want %s", r["kind"], r["readings"], got, r["expected"])
		}
		if stops := strings.Contains(r["expected"], "stop"); stops != (len(m.Variants) == 0) || stops != m.Findings.Stops() {
			t.Errorf("%d variants, stops %v, want stop %v", len(m.Variants), m.Findings.Stops(), stops)
		}
	})
}

func TestClearReference(t *testing.T) {
	table.Each(t, "opening_clear.csv", func(t *testing.T, r row) {
		s := survey()
		s.Widths = widthsOf(lengths(t, r["widths"])...)
		if r["between"] != "" {
			s.Widths[0].Between = opening.Skirtings
		}
		side := func(thickness, treatment string) *opening.Skirting {
			if thickness == "" {
				return nil
			}
			return &opening.Skirting{Thickness: length(t, thickness), Height: mm(120), Treatment: opening.Treatment(treatment)}
		}
		s.Skirting.Left = side(r["left"], r["left_treatment"])
		s.Skirting.Right = side(r["right"], r["right_treatment"])
		s.EndPanel = length(t, r["end_panel"])
		var got []string
		for _, c := range measure(t, s).Variants {
			got = append(got, fmt.Sprintf("%s %s %s %s", c.Left, c.Right, c.Width.Min.Millimetres(), c.Width.Max.Millimetres()))
		}
		if got := strings.Join(got, ";"); got != r["expected"] {
			t.Errorf("%s, want %s", got, r["expected"])
		}
	})
}

func TestLevelReference(t *testing.T) {
	table.Each(t, "opening_level.csv", func(t *testing.T, r row) {
		s := survey()
		s.Heights = heightsOf(lengths(t, r["tape"])...)
		s.CarpetToCome = length(t, r["carpet"])
		for part := range strings.SplitSeq(r["levels"], ";") {
			if l := lengths(t, part); len(l) == 3 {
				s.Levels = append(s.Levels, opening.Level{At: l[0], Floor: l[1], Ceiling: l[2]})
			}
		}
		m := measure(t, s)
		if m.Findings.Stops() {
			t.Fatal(m.Findings.Err())
		}
		c := m.Variants[0]
		if c.Height != length(t, r["height"]) || c.Lowest.Uncertainty != length(t, r["uncertainty"]) {
			t.Errorf("%s ± %s, want %s ± %s", c.Height, c.Lowest.Uncertainty, r["height"], r["uncertainty"])
		}
		want := ""
		if r["disagree"] != "" {
			want = r["disagree"] + " levels-disagree warn"
		}
		if got := brief(m.Findings, "levels"); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		if m.Findings.Has(opening.CodeNoLevel) != (len(s.Levels) == 0) {
			t.Error("no-level belongs to a survey without levels alone")
		}
		if got := m.Findings.Has(opening.CodeFallsAlike); got != (r["alike"] != "") {
			t.Errorf("falls-alike: %v", got)
		}
	})
}

func TestDepthReference(t *testing.T) {
	table.Each(t, "opening_depth.csv", func(t *testing.T, r row) {
		s := survey()
		for i, size := range lengths(t, r["depths"]) {
			s.Depths = append(s.Depths, opening.Depth{At: mm(2400 * int64(i)), Size: size})
		}
		line, found := s.DoorLine(length(t, r["interior"]), length(t, r["gear"]))
		if line != length(t, r["line"]) {
			t.Errorf("the line is at %s, want %s", line, r["line"])
		}
		if got := brief(found, "depths"); got != r["expected"] {
			t.Errorf("%q, want %q", got, r["expected"])
		}
	})
}

// A room inside a tolerance is no slip, however its readings fall.
func TestToleratedRoomPasses(t *testing.T) {
	table.Each(t, "opening_tolerance.csv", func(t *testing.T, r row) {
		nominal, limit := length(t, r["nominal"]), length(t, r["limit"])
		s := survey()
		switch r["what"] {
		case "clear width": // one reading at each limit would be 2 limits apart: the room is off, its parts less so
			s.Widths = widthsOf(nominal-limit, nominal, nominal+limit)
		case "clear height":
			s.Heights = heightsOf(nominal-limit, nominal, nominal+limit)
		case "angle", "plumb": // both walls out the same amount, away from each other
			s.Widths = widthsOf(nominal, nominal+limit, nominal+2*limit)
		case "flatness": // both walls bowed
			s.Widths = widthsOf(nominal, nominal-2*limit, nominal)
		case "level": // the floor falls, the ceiling rises
			s.Heights = heightsOf(nominal, nominal+limit, nominal+2*limit)
		default:
			t.Fatalf("what is %q", r["what"])
		}
		if m := measure(t, s); m.Findings.Stops() {
			t.Errorf("%v stops: %v", s, m.Findings.Err())
		}
	})
}
