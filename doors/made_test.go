package doors_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// maker makes 440 to 900 wide in millimetres.
func maker() doors.MadeToMeasure {
	return doors.MadeToMeasure{
		Width: units.Span{Min: 440 * mm, Max: 900 * mm}, Height: units.Span{Min: 1800 * mm, Max: 2600 * mm},
	}
}

// an opening of 1250 to 1260 with overlaps of 20 to 60, up to four doors.
func measured() doors.Search {
	return doors.Search{
		Fit:      doors.Fit{Span: units.Span{Min: 1250 * mm, Max: 1260 * mm}},
		Gear:     doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 60 * mm}},
		MaxDoors: 4,
	}
}

// madeRuns writes the runs of a maker, a line each.
func madeRuns(t *testing.T, m doors.MadeToMeasure, s doors.Search) string {
	t.Helper()
	runs, err := m.Runs(s)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, r := range runs {
		var run []string
		for _, d := range r.Doors() {
			run = append(run, fmt.Sprintf("%s/%d", d.Width.Millimetres(), d.Track))
		}
		lines = append(lines, strings.Join(run, " "))
	}
	return strings.Join(lines, "\n")
}

func TestMadeToMeasureRuns(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(m *doors.MadeToMeasure, s *doors.Search)
		want   []string
	}{
		// (1260 + L × 40)/n rounded up: 650, 446 2/3, 345.
		{"as wide as the maker makes", func(*doors.MadeToMeasure, *doors.Search) {}, []string{"650/0 650/1", "447/0 447/1 447/0"}},
		// (1260 + 30)/2 = 645, in tens 650; (1260 + 60)/3 = 440, the maker's least.
		{"in steps of 10, with an aim", func(m *doors.MadeToMeasure, s *doors.Search) {
			m.Step, s.Gear.Overlap.Aim = 10*mm, new(30*mm)
		}, []string{"650/0 650/1", "440/0 440/1 440/0"}},
		{"a nanometre below the maker's least", func(m *doors.MadeToMeasure, s *doors.Search) {
			m.Step, s.Gear.Overlap.Aim, m.Width.Min = 10*mm, new(30*mm), 440*mm+1
		}, []string{"650/0 650/1"}},
		{"a nanometre past the maker's most", func(m *doors.MadeToMeasure, s *doors.Search) { m.Width.Max = 650*mm - 1 }, []string{"447/0 447/1 447/0"}},
		{"the gear takes 447", func(m *doors.MadeToMeasure, s *doors.Search) {
			s.Gear.DoorWidth = &units.Span{Min: 447 * mm, Max: 649 * mm}
		}, []string{"447/0 447/1 447/0"}},
		{"the gear takes no 447", func(m *doors.MadeToMeasure, s *doors.Search) {
			s.Gear.DoorWidth = &units.Span{Min: 447*mm + 1, Max: 650 * mm}
		}, []string{"650/0 650/1"}},
		{"three doors at least", func(m *doors.MadeToMeasure, s *doors.Search) { s.MinDoors = 3 }, []string{"447/0 447/1 447/0"}},
		{"two doors at most", func(m *doors.MadeToMeasure, s *doors.Search) { s.MaxDoors = 2 }, []string{"650/0 650/1"}},
		// (1360 + 80)/3 = 480 for three doors; two still have 1260.
		{"a wider opening for three", func(m *doors.MadeToMeasure, s *doors.Search) {
			s.Wide.Span = units.Span{Min: 1350 * mm, Max: 1360 * mm}
		}, []string{"650/0 650/1", "480/0 480/1 480/0"}},
		// (1260 + 80)/3 = 446 2/3 with two overlaps, (1260 + 40 − 4)/3 = 432 for those that meet once.
		{"doors that meet", func(m *doors.MadeToMeasure, s *doors.Search) {
			m.Width.Min, s.MaxDoors, s.Arrangement, s.Gear.MeetingGap = 300*mm, 3, doors.Any, new(4*mm)
		}, []string{"650/0 650/1", "432/0 432/0 432/1", "447/0 447/1 447/0", "432/0 432/1 432/1", "447/1 447/0 447/1"}},
		// As wide as 1260 asks for, 650 overlap by 300 in 1000: they do not close it, but they stand.
		{"readings far apart", func(m *doors.MadeToMeasure, s *doors.Search) {
			s.Fit.Span.Min, s.MaxDoors = 1000*mm, 2
		}, []string{"650/0 650/1"}},
		// Overlaps of 340 in 660 are more than half of 447: the outer two collide.
		{"doors that cannot stand", func(m *doors.MadeToMeasure, s *doors.Search) {
			s.Fit.Span.Min, s.MinDoors = 660*mm, 3
		}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, s := maker(), measured()
			c.change(&m, &s)
			if d := cmp.Diff(strings.Join(c.want, "\n"), madeRuns(t, m, s)); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestMadeToMeasureRunsRefuse(t *testing.T) {
	for place, change := range map[string]func(m *doors.MadeToMeasure, s *doors.Search){
		"doors.made_to_measure.width":      func(m *doors.MadeToMeasure, s *doors.Search) { m.Width.Max = m.Width.Min - 1 },
		"doors.made_to_measure.height.min": func(m *doors.MadeToMeasure, s *doors.Search) { m.Height.Min = 0 },
		"doors.made_to_measure.step":       func(m *doors.MadeToMeasure, s *doors.Search) { m.Step = -1 },
		"gear.tracks":                      func(m *doors.MadeToMeasure, s *doors.Search) { s.Gear.Tracks = 1 },
		"opening.widths":                   func(m *doors.MadeToMeasure, s *doors.Search) { s.Fit.Span.Max = 0 },
	} {
		m, s := maker(), measured()
		change(&m, &s)
		_, err := m.Runs(s)
		checkPlace(t, place, err, place)
	}
}

// The width made shares the widest reading exactly: with a door a step narrower
// the overlaps would fall below the aim.
func TestMadeToMeasureWidthIsTheNarrowestThatReachesTheAim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(min, max int64, label string) units.Length {
			return units.Length(rapid.Int64Range(min, max).Draw(t, label))
		}
		m := doors.MadeToMeasure{
			Width: units.Span{Min: 1, Max: units.MaxLength}, Height: units.Span{Min: 1, Max: mm},
			Step: length(1, 50, "step") * mm / 3,
		}
		s := doors.Search{
			Gear:        doors.Gear{Tracks: rapid.IntRange(2, 4).Draw(t, "tracks"), Overlap: doors.Target{Min: length(0, 30*int64(mm), "least")}},
			Arrangement: rapid.SampledFrom([]doors.Arrangement{doors.Alternate, doors.Stepped, doors.Any}).Draw(t, "arrangement"),
			MaxDoors:    5, SidesDiffer: true,
		}
		s.Gear.Overlap.Max = s.Gear.Overlap.Min + length(1, 60*int64(mm), "more")
		s.Gear.MeetingGap = new(length(0, 4, "gap") * mm)
		s.Fit.Span.Max = length(1500, 4000, "widest")*mm + length(0, 1000, "nanometres")
		s.Fit.Span.Min = s.Fit.Span.Max - length(0, 9, "out")*mm
		runs, err := m.Runs(s)
		if err != nil || len(runs) == 0 {
			t.Fatal(runs, err)
		}
		for _, r := range runs {
			w := r.At(0).Width
			short := func(w units.Length) bool { // by overlaps of the aim, doubled to stay exact
				cover := 2*units.Length(r.Len())*w + 2*units.Length(r.Meetings())**s.Gear.MeetingGap
				return cover-units.Length(r.Overlaps())*(s.Gear.Overlap.Min+s.Gear.Overlap.Max) < 2*s.Fit.Span.Max
			}
			if w%m.Step != 0 || short(w) || !short(w-m.Step) {
				t.Fatalf("%v in %s, steps of %s", r.Doors(), s.Fit.Span, m.Step)
			}
		}
	})
}

// What a run made to measure gives access to is what the search makes of it, handles and all.
func TestMadeToMeasureShowsItsHandles(t *testing.T) {
	s := measured()
	s.Gear.Showing = 40 * mm
	runs, err := maker().Runs(s)
	if err != nil || len(runs) == 0 {
		t.Fatal(runs, err)
	}
	// Two doors of 650 in 1250: 650 and 40 beside it stay covered.
	if got := runs[0].Access(s.Fit.Span.Min).Width(); got != 560*mm {
		t.Errorf("access %s, want 560 mm", got)
	}
	for _, r := range runs {
		if score, _ := s.Fit.Score(r, s.Gear); score.Access != r.Access(s.Fit.Span.Min).Width() {
			t.Errorf("%v: access %s, scored %s", r.Doors(), r.Access(s.Fit.Span.Min).Width(), score.Access)
		}
	}
}
