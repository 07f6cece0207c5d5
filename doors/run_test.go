package doors_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/testdata/table"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

const mm = units.Millimetre

func TestCoverTable(t *testing.T) {
	table.Each(t, "doors_cover.csv", func(t *testing.T, r row) {
		run := runOf(r, t)
		var g doors.Gear
		g.Overlap.Min, g.Overlap.Max = spanOf(r, t, "overlap")
		g.MeetingGap = maybe(t, r, "meeting_gap")
		if got, want := run.Cover(g), r.Length(t, "cover"); got != want {
			t.Errorf("Cover = %s, want %s", got, want)
		}
		if got, want := run.Least(g), r.Length(t, "least"); got != want {
			t.Errorf("Least = %s, want %s", got, want)
		}
		in := r.Length(t, "opening")
		overlaps, err := run.OverlapsIn(g, in)
		if got := millimetres(overlaps); err != nil || got != r["overlaps"] {
			t.Errorf("OverlapsIn = %s, %v, want %s", got, err, r["overlaps"])
		}
		if got := run.Stands(g, in); got != (r["stands"] == "true") {
			t.Errorf("Stands = %v, want %s", got, r["stands"])
		}
	})
}

func TestNewRunRefuses(t *testing.T) {
	ok := doors.Door{Width: 600 * mm}
	for _, c := range []struct {
		name  string
		doors []doors.Door
		place string
	}{
		{"no doors", nil, "doors"},
		{"one door", []doors.Door{ok}, "doors"},
		{"nine doors", []doors.Door{ok, ok, ok, ok, ok, ok, ok, ok, ok}, "doors"},
		{"no width", []doors.Door{ok, {}}, "doors[1].width"},
		{"too wide", []doors.Door{{Width: units.MaxLength + 1}, ok}, "doors[0].width"},
		{"track below", []doors.Door{ok, {Width: mm, Track: -1}}, "doors[1].track"},
		{"track above", []doors.Door{ok, {Width: mm, Track: 4}}, "doors[1].track"},
	} {
		_, err := doors.NewRun(c.doors...)
		var refused *opening.InputError
		if !errors.As(err, &refused) || refused.Place != c.place {
			t.Errorf("%s: %v, want a refusal of %s", c.name, err, c.place)
		}
	}
	for _, list := range [][]doors.Door{
		{{Width: 1}, {Width: units.MaxLength, Track: 3}},
		{ok, ok, ok, ok, ok, ok, ok, ok},
	} {
		if _, err := doors.NewRun(list...); err != nil {
			t.Error(err)
		}
	}
}

func TestZeroRun(t *testing.T) {
	var r doors.Run
	if r.Len() != 0 || len(r.Doors()) != 0 || r.Width() != 0 || r.Overlaps() != 0 || r.Meetings() != 0 {
		t.Error("the zero run has doors")
	}
	if r.At(0) != (doors.Door{}) || r.At(-1) != (doors.Door{}) {
		t.Error("the zero run has a door at 0")
	}
	if r.Stands(doors.Gear{}, mm) {
		t.Error("the zero run stands")
	}
	if _, err := r.OverlapsIn(doors.Gear{}, 0); err == nil {
		t.Error("the zero run has overlaps")
	}
	if g := r.Access(mm); g != (doors.Gap{From: 0, To: mm}) {
		t.Errorf("no doors leave %v clear", g)
	}
}

func TestAtOutsideTheRun(t *testing.T) {
	r := mustRun(t, "1/0 2/1 3/0 4/1 5/0 6/1 7/0 8/1")
	if r.At(8) != (doors.Door{}) || r.At(-1) != (doors.Door{}) || r.At(7) != (doors.Door{Width: 8 * mm, Track: 1}) || r.At(0).Width != mm {
		t.Error(r.At(8), r.At(-1), r.At(7), r.At(0))
	}
}

func TestDoorsIsACopy(t *testing.T) {
	r := mustRun(t, "600/0 600/1")
	r.Doors()[0].Width = 1
	if r.At(0).Width != 600*mm || r.At(1).Track != 1 || r.At(2) != (doors.Door{}) {
		t.Error("the run changed, or its doors are not as given")
	}
}

func TestOverlapsOutsideTheDoors(t *testing.T) {
	r := mustRun(t, "600/0 600/1")
	if _, err := r.OverlapsIn(doors.Gear{}, 1200*mm+1); !errors.Is(err, units.ErrRange) {
		t.Errorf("an opening wider than the doors: %v", err)
	}
	if o, err := r.OverlapsIn(doors.Gear{}, 1200*mm); err != nil || o[0] != 0 {
		t.Errorf("an opening as wide as the doors: %v, %v", o, err)
	}
	meeting := mustRun(t, "600/0 600/0")
	if _, err := meeting.OverlapsIn(doors.Gear{}, 1200*mm); !errors.Is(err, units.ErrRange) {
		t.Errorf("doors that only meet: %v", err)
	}
	if meeting.Stands(doors.Gear{}, 1200*mm) {
		t.Error("doors that only meet stand")
	}
}

func mustRun(t interface {
	Helper()
	Fatal(...any)
}, text string) doors.Run {
	t.Helper()
	var list []doors.Door
	for field := range strings.FieldsSeq(text) {
		width, track, _ := strings.Cut(field, "/")
		list = append(list, doors.Door{Width: units.MustParse(width), Track: int(track[0] - '0')})
	}
	run, err := doors.NewRun(list...)
	if err != nil {
		t.Fatal(err)
	}
	return run
}

// drawRun draws a run of doors at least 10 mm wide on neighbouring tracks.
func drawRun(t *rapid.T) doors.Run {
	n := rapid.IntRange(doors.MinDoors, doors.MaxDoors).Draw(t, "doors")
	list := make([]doors.Door, n)
	for i := range list {
		list[i].Width = units.Length(rapid.Int64Range(10, 1200).Draw(t, "width")) * mm
		lo, hi := 0, doors.MaxTracks-1
		if i > 0 {
			lo, hi = max(lo, list[i-1].Track-1), min(hi, list[i-1].Track+1)
		}
		list[i].Track = rapid.IntRange(lo, hi).Draw(t, "track")
	}
	r, err := doors.NewRun(list...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Closed doors with their overlaps in place take exactly the opening, and the
// gear's span of overlaps is the span of openings between Least and Cover.
func TestOverlapsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t)
		g := doors.Gear{MeetingGap: new(units.Length(rapid.Int64Range(0, 5).Draw(t, "gap")) * mm)}
		g.Overlap.Min = units.Length(rapid.Int64Range(0, 60).Draw(t, "min")) * mm
		g.Overlap.Max = g.Overlap.Min + units.Length(rapid.Int64Range(0, 60).Draw(t, "span"))*mm
		if r.Overlaps()+r.Meetings() != r.Len()-1 {
			t.Fatal("junctions do not sum")
		}
		spread := r.Width() + units.Length(r.Meetings())**g.MeetingGap
		in := units.Length(rapid.Int64Range(1, int64(spread)).Draw(t, "opening"))
		overlaps, err := r.OverlapsIn(g, in)
		if r.Overlaps() == 0 {
			if err == nil {
				t.Fatal("no junction overlaps")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		taken, inside := spread, true
		least, greatest := overlaps[0], overlaps[0]
		first := true
		for i, o := range overlaps {
			taken -= o
			if r.At(i).Track == r.At(i+1).Track {
				if o != 0 {
					t.Fatal("meeting doors overlap")
				}
				continue
			}
			if first {
				least, greatest, first = o, o, false
			}
			least, greatest = min(least, o), max(greatest, o)
			inside = inside && o >= g.Overlap.Min && o <= g.Overlap.Max
		}
		if taken != in || greatest-least > 1 {
			t.Fatalf("%v leave %s in %s", overlaps, taken, in)
		}
		// To the nanometre shared out, the list is inside the span exactly when the opening is.
		if closes := in <= r.Cover(g) && in >= r.Least(g); closes != inside {
			t.Fatalf("overlaps inside the span: %v, opening between least and cover: %v", inside, closes)
		}
	})
}
