package frame_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"

	"github.com/google/go-cmp/cmp"
)

func TestEndDetails(t *testing.T) {
	tests := []struct {
		name        string
		from        units.Length
		levels      []opening.Level
		left, right frame.End
		want        []frame.EndDetail // without steps
		warns       []string          // places
	}{
		{"walls", 0, nil, "", frame.AtWall, []frame.EndDetail{
			{Side: frame.LeftSide, Kind: frame.AtWall, Stud: 20 * mm},
			{Side: frame.RightSide, Kind: frame.AtWall, Stud: 2380 * mm},
		}, nil},
		{"end panel and free panel", 18 * mm, nil, frame.AtPanel, frame.FreePanel, []frame.EndDetail{
			{Side: frame.LeftSide, Kind: frame.AtPanel, Stud: 38 * mm},
			{Side: frame.RightSide, Kind: frame.FreePanel, Stud: 2398 * mm},
		}, []string{"frame.right_end"}},
		// Two pieces of 40 outside the opening; level floor and ceiling.
		{"posts", 0, nil, frame.FreePost, frame.FreePost, []frame.EndDetail{
			{Side: frame.LeftSide, Kind: frame.FreePost, Stud: 20 * mm, Post: &frame.Post{At: -40 * mm, Length: 2300 * mm, Pieces: 2}},
			{Side: frame.RightSide, Kind: frame.FreePost, Stud: 2380 * mm, Post: &frame.Post{At: 2440 * mm, Length: 2300 * mm, Pieces: 2}},
		}, []string{"frame.left_end", "frame.right_end"}},
		// At the right the floor falls 20 and the ceiling stands 4 off; at the left 10.
		{"posts where floor and ceiling run out", 0, fallen(), frame.FreePost, frame.FreePost, []frame.EndDetail{
			{Side: frame.LeftSide, Kind: frame.FreePost, Stud: 20 * mm, Post: &frame.Post{At: -40 * mm, Length: 2310 * mm, Pieces: 2}},
			{Side: frame.RightSide, Kind: frame.FreePost, Stud: 2380 * mm, Post: &frame.Post{At: 2440 * mm, Length: 2324 * mm, Pieces: 2}},
		}, []string{"frame.left_end", "frame.right_end"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, found, err := frame.EndDetails(frame.Head{Width: 2400 * mm, From: tt.from, Levels: tt.levels}, timber(40*mm, 0, mm), 2300*mm, tt.left, tt.right)
			if err != nil {
				t.Fatal(err)
			}
			for i := range got {
				if len(got[i].Steps) < 3 {
					t.Errorf("%s side: steps %q", got[i].Side, got[i].Steps)
				}
				got[i].Steps = nil
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			var places []string
			for _, f := range found {
				places = append(places, f.Place)
				if f.Code != frame.CodeFreeEnd || f.Severity != opening.Warn || f.Remedy == "" {
					t.Errorf("finding %+v", f)
				}
			}
			if diff := cmp.Diff(tt.warns, places); diff != "" {
				t.Errorf("findings (-want +got):\n%s", diff)
			}
		})
	}
}

// Timber of an odd number of nanometres: the end stud is flush all the same, as SetOut has it.
func TestEndStudsAreThoseSetOut(t *testing.T) {
	odd, head := timber(40*mm+1, 0, 3000*mm), frame.Head{Width: 2400 * mm, Gap: 280 * mm, From: 18 * mm}
	b, err := frame.SetOut(head, odd)
	if err != nil {
		t.Fatal(err)
	}
	got, _, err := frame.EndDetails(head, odd, 2300*mm, "", "")
	if err != nil || got[0].Stud != b.Studs[0].At || got[1].Stud != b.Studs[len(b.Studs)-1].At {
		t.Errorf("end studs %+v, %v: set out %+v", got, err, b.Studs)
	}
}

func TestEndDetailsSayWhatStandsThere(t *testing.T) {
	words := map[frame.End]string{frame.AtWall: "wall", frame.AtPanel: "panel", frame.FreePost: "post", frame.FreePanel: "panel"}
	for end, word := range words {
		got, found, err := frame.EndDetails(frame.Head{Width: 2400 * mm}, timber(40*mm, 0, mm), 2300*mm, end, "")
		if err != nil || !strings.Contains(strings.Join(got[0].Steps, " "), word) {
			t.Errorf("%s: %+v, %v", end, got, err)
		}
		if end.IsFree() != (len(found) == 1) || end.IsFree() && !strings.Contains(found[0].Message, word) {
			t.Errorf("%s: free %v with %v", end, end.IsFree(), found)
		}
	}
	if frame.End("").IsFree() {
		t.Error("the zero value is free")
	}
}

func TestEndDetailsRefuse(t *testing.T) {
	head, wood := frame.Head{Width: 2400 * mm}, timber(40*mm, 0, mm)
	for name, refused := range map[string]func() ([]frame.EndDetail, opening.Findings, error){
		"no height": func() ([]frame.EndDetail, opening.Findings, error) { return frame.EndDetails(head, wood, 0, "", "") },
		"no timber": func() ([]frame.EndDetail, opening.Findings, error) {
			return frame.EndDetails(head, doors.Timber{}, 2300*mm, "", "")
		},
		"left": func() ([]frame.EndDetail, opening.Findings, error) {
			return frame.EndDetails(head, wood, 2300*mm, "door", "")
		},
		"right": func() ([]frame.EndDetail, opening.Findings, error) {
			return frame.EndDetails(head, wood, 2300*mm, "", "door")
		},
		"head": func() ([]frame.EndDetail, opening.Findings, error) {
			return frame.EndDetails(frame.Head{Width: -1}, wood, 2300*mm, "", "")
		},
	} {
		if got, found, err := refused(); !errors.Is(err, units.ErrRange) || got != nil || found != nil {
			t.Errorf("%s: %v, %v, %v", name, got, found, err)
		}
	}
}

func TestPlateWidth(t *testing.T) {
	tests := []struct {
		width, track units.Length
		plates       string // empty: nothing to find
	}{
		{80, 80, ""}, {80, 0, ""}, {0, 80, ""}, {79, 80, "2 plates"}, {40, 80, "2 plates"}, {40, 81, "3 plates"}, {200, 80, ""},
	}
	for _, tt := range tests {
		got := frame.PlateWidth(doors.Timber{Width: tt.width * mm}, tt.track*mm)
		switch {
		case tt.plates == "" && got != nil:
			t.Errorf("%d under %d: %v", tt.width, tt.track, got)
		case tt.plates != "" && (len(got) != 1 || got[0].Code != frame.CodeNarrowPlate || got[0].Severity != opening.Warn ||
			got[0].Place != "timber.width" || !strings.Contains(got[0].Remedy, tt.plates)):
			t.Errorf("%d under %d: %v, want %s side by side", tt.width, tt.track, got, tt.plates)
		}
	}
}
