package frame_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan/frame"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
)

// room is an opening of 1800 between end panels of 18 under a bulkhead.
func room(t *testing.T) frame.Layout {
	t.Helper()
	head := frame.Head{Width: 1800 * mm, Gap: 270 * mm, From: 18 * mm}
	b, err := frame.SetOut(head, timber(40*mm, 500*mm, 1000*mm))
	if err != nil {
		t.Fatal(err)
	}
	fixings, _, err := frame.Fix(
		frame.Fixed{What: "top plate", From: head.From, Pieces: []units.Length{1800 * mm}, Width: 80 * mm, Through: 40 * mm},
		frame.Surface{Behind: frame.Joist, Centres: []units.Length{218 * mm, 1618 * mm}, Overhead: true})
	if err != nil {
		t.Fatal(err)
	}
	return frame.Layout{
		Head: head, ClearHeight: 2670 * mm, Height: 2400 * mm, Line: 560 * mm, Depth: 80 * mm,
		LeftPanel: 18 * mm, RightPanel: 18 * mm, Bulkhead: &b, Ceiling: &fixings,
	}
}

func TestMarks(t *testing.T) {
	got, err := frame.Marks(room(t))
	if err != nil {
		t.Fatal(err)
	}
	// Studs of 40 in 1800: 1760 in four bays of 440; the plates from stock of 1000 are
	// joined in the middle, at 900, and round it at 460 and 1340.
	length := func(all ...units.Length) []units.Length {
		for i := range all {
			all[i] *= mm
		}
		return all
	}
	want := []frame.Mark{
		{On: "left wall", What: "level line", From: "highest point of the floor", At: length(1000), Is: 1670 * mm},
		{On: "right wall", What: "level line, carried across", From: "highest point of the floor", At: length(1000), Is: 0},
		{On: "floor", What: "inner face of the left end panel, plumb to the ceiling", From: "left wall", At: length(18), Is: 0},
		// 1800 by 2400 has diagonals of 3000.
		{On: "floor", What: "inner face of the right end panel, plumb to the ceiling", From: "left end panel", At: length(1800), Is: 3000 * mm},
		{On: "floor", What: "back edge of the rail: a mark at each end, joined", From: "back wall", At: length(560, 560), Is: 560 * mm},
		{On: "floor", What: "front edge of the rail: a mark at each end, joined", From: "back wall", At: length(640, 640), Is: 80 * mm},
		{On: "ceiling", What: "back edge of the track, plumb above that of the rail", From: "rail lines on the floor", At: length(0), Is: 0},
		{On: "ceiling", What: "front edge of the track, plumb above that of the rail", From: "rail lines on the floor", At: length(0), Is: 80 * mm},
		{On: "left wall", What: "back and front edge, joined from floor to ceiling", From: "back edge of rail and track", At: length(0, 80), Is: 80 * mm},
		{On: "right wall", What: "back and front edge, joined from floor to ceiling", From: "back edge of rail and track", At: length(0, 80), Is: 80 * mm},
		{On: "left wall", What: "underside of the bottom plate", From: "level line", At: length(1400), Is: 2400 * mm},
		{On: "right wall", What: "underside of the bottom plate", From: "level line", At: length(1400), Is: 0},
		{On: "plates", What: "centres of the studs, square across both plates", From: "left wall", At: length(38, 478, 918, 1358, 1798), Is: 20 * mm},
		{On: "plates", What: "joints of the bottom plate, each on the middle of a stud", From: "left wall", At: length(918), Is: 900 * mm},
		{On: "plates", What: "joints of the top plate, each on the middle of a stud", From: "left wall", At: length(478, 1358), Is: 460 * mm},
		{On: "ceiling", What: "top plate: wood screw into joist", From: "left wall", At: length(218, 1618), Is: 200 * mm},
		{On: "ceiling", What: "top plate: spring toggle into board", From: "left wall", At: []units.Length{684_666_667, 1_151_333_333}, Is: 666_666_667},
	}
	for i := range got {
		if got[i].Check == "" {
			t.Errorf("%s: no check", got[i].What)
		}
		got[i].Check = ""
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestMarksLeaveOutWhatIsNotThere(t *testing.T) {
	bare := frame.Layout{Head: frame.Head{Width: 1800 * mm}, ClearHeight: 2440 * mm, Height: 2400 * mm, Above: "packer"}
	what := func(l frame.Layout) []string {
		t.Helper()
		marks, err := frame.Marks(l)
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, m := range marks {
			out = append(out, m.What)
		}
		return out
	}
	want := []string{"level line", "level line, carried across", "underside of the packer", "underside of the packer"}
	if diff := cmp.Diff(want, what(bare)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for name, change := range map[string]func(*frame.Layout){
		"no line":  func(l *frame.Layout) { l.Depth = 80 * mm },
		"no depth": func(l *frame.Layout) { l.Line = 560 * mm },
		"a bulkhead without studs": func(l *frame.Layout) {
			l.Bulkhead = &frame.Bulkhead{}
		},
	} {
		l := bare
		change(&l)
		if got := what(l); !cmp.Equal(got, want) {
			t.Errorf("%s: %q", name, got)
		}
	}
	bare.Above = ""
	if got := what(bare); got[2] != "underside of the ceiling" {
		t.Errorf("%q: want the ceiling above the track", got[2])
	}
}

// One end panel at the right is measured from the left wall, and from no panel.
func TestMarksOfOnePanel(t *testing.T) {
	l := frame.Layout{Head: frame.Head{Width: 1782 * mm}, ClearHeight: 2440 * mm, Height: 2400 * mm, RightPanel: 18 * mm}
	got, err := frame.Marks(l)
	if err != nil || got[2].From != frame.FromLeftWall || !slices.Equal(got[2].At, []units.Length{1782 * mm}) || got[2].Is != 0 {
		t.Errorf("%+v, %v", got, err)
	}
}

// The level line is where the levels were measured from; a strip on the floor lifts the rest.
func TestMarksFromLevels(t *testing.T) {
	l := frame.Layout{
		Head:        frame.Head{Width: 2400 * mm, Gap: 270 * mm, Levels: fallen()},
		ClearHeight: 2288 * mm, Strip: 12 * mm, Height: 2030 * mm,
	}
	l.Head.Levels[0].Floor = 1015 * mm
	got, err := frame.Marks(l)
	if err != nil {
		t.Fatal(err)
	}
	// Least floor 1000, least ceiling 1300: 2288 + 12 − 1000.
	if got[0].At[0] != 1000*mm || got[0].Is != 1300*mm {
		t.Errorf("level line %+v", got[0])
	}
	if under := got[2]; under.At[0] != 1042*mm || under.Is != 2042*mm {
		t.Errorf("underside %+v", under)
	}
	// Doors lower than the line: the mark is below it.
	l.Height = 900 * mm
	if got, err := frame.Marks(l); err != nil || got[2].At[0] != -88*mm {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestMarksRefuse(t *testing.T) {
	good := frame.Layout{Head: frame.Head{Width: 1800 * mm}, ClearHeight: 2440 * mm, Height: 2400 * mm}
	for name, change := range map[string]func(*frame.Layout){
		"width":        func(l *frame.Layout) { l.Head.Width = 0 },
		"height":       func(l *frame.Layout) { l.Height = 0 },
		"clear height": func(l *frame.Layout) { l.ClearHeight = 0 },
		"line":         func(l *frame.Layout) { l.Line = -1 },
		"depth":        func(l *frame.Layout) { l.Depth = units.MaxLength + 1 },
		"strip":        func(l *frame.Layout) { l.Strip = -1 },
		"left panel":   func(l *frame.Layout) { l.LeftPanel = -1 },
		"right panel":  func(l *frame.Layout) { l.RightPanel = -1 },
		"stack":        func(l *frame.Layout) { l.Stack = -1 },
		"head":         func(l *frame.Layout) { l.Head.From = -1 },
	} {
		l := good
		change(&l)
		if got, err := frame.Marks(l); !errors.Is(err, units.ErrRange) || got != nil {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

func TestMarksSayHowToProveThem(t *testing.T) {
	marks, err := frame.Marks(room(t))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range map[int]string{
		0: "lowest point of the ceiling", 1: "meets its start", 2: "plumb line", 3: "over a height of 2400 mm",
		4: "back wall, midway", 5: "between the two lines", 6: "plumb line", 10: "highest point of the floor",
		12: "last stud", 13: "last joint", 15: "last fixing",
	} {
		if !strings.Contains(marks[i].Check, want) {
			t.Errorf("%s is proved by %q, want %s", marks[i].What, marks[i].Check, want)
		}
	}
}
