package opening_test

import (
	"strings"
	"testing"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

// answer is everything the package says of a survey, given what the doors are meant for.
type answer struct {
	Measured opening.Measured
	Line     units.Length
	Depth    opening.Findings
	Sides    [][2]opening.SideWork
	Joists   []units.Length
	Strip    units.Length
	Ends     []opening.EndDoor
}

func answerTo(t *testing.T, intent opening.Intent, s opening.Survey) answer {
	t.Helper()
	a := answer{Measured: measure(t, s), Strip: s.StripThickness()}
	if intent.Interior {
		a.Line, a.Depth = s.DoorLine(mm(500), mm(84))
	}
	if intent.Head {
		a.Joists = s.Joists.Crossing()
	}
	for _, v := range a.Measured.Variants {
		a.Sides = append(a.Sides, s.SideWorks(v, a.Line, mm(84)))
		for _, side := range []opening.Side{opening.Left, opening.Right} {
			d, err := s.EndDoor(v, side, mm(650), mm(2200), 0)
			if err != nil {
				t.Fatal(err)
			}
			a.Ends = append(a.Ends, d)
		}
	}
	return a
}

// The form asks what changes the answer, and nothing else: each key that can be
// answered is answered in another way, and the answer to the job changes if and
// only if the form asks for it.
func TestFormAsksWhatChangesTheAnswer(t *testing.T) {
	other := map[string]func(*opening.Survey){
		"opening.skirting": func(s *opening.Survey) {
			k := *s.Skirting.Left
			k.Thickness, k.Height = mm(25), mm(300)
			s.Skirting.Left = &k
		},
		"opening.end_panel":      func(s *opening.Survey) { s.EndPanel = mm(30) },
		"opening.carpet_now":     func(s *opening.Survey) { s.CarpetNow = mm(8) },
		"opening.carpet_to_come": func(s *opening.Survey) { s.CarpetToCome = mm(14) },
		"opening.carpet_at_rail": func(s *opening.Survey) { s.CarpetAtRail = true },
		"opening.widths":         func(s *opening.Survey) { s.Widths[2].Size += mm(10) },
		"opening.heights":        func(s *opening.Survey) { s.Heights[2].Size -= mm(10) },
		"opening.levels":         func(s *opening.Survey) { s.Levels = levels([2]int64{1000, 1331}) },
		"opening.leans": func(s *opening.Survey) {
			s.Leans.Left = []opening.Lean{{At: 0, Size: mm(40)}, {At: mm(2200), Size: mm(46)}}
		},
		"opening.diagonals": func(s *opening.Survey) { s.Diagonals = &opening.Diagonals{Rising: mm(3000), Falling: mm(3350)} },
		"opening.depths":    func(s *opening.Survey) { s.Depths[0].Size = mm(600) },
		"opening.joists": func(s *opening.Survey) {
			s.Joists = &opening.Joists{Centres: []units.Length{mm(200), mm(600)}, Run: opening.FrontToBack}
		},
		"opening.in_the_way": func(s *opening.Survey) {
			s.InTheWay = []opening.Thing{{Kind: opening.Alarm, From: mm(900), To: mm(1000), Bottom: mm(2200), Top: mm(2300)}}
		},
		"opening.accuracy": func(s *opening.Survey) { s.Accuracy = mm(1) },
	}
	for n := range 8 {
		intent := opening.Intent{Interior: n&1 > 0, Head: n&2 > 0, EndPanels: n&4 > 0}
		fresh := func() opening.Survey {
			s := alcove()
			s.CarpetToCome = mm(12)
			if !intent.EndPanels {
				s.Skirting.Left.Treatment, s.Skirting.Right.Treatment = opening.CutBack, opening.CutBack
			}
			return s
		}
		asked := map[string]bool{}
		for _, q := range opening.Form(intent) {
			if other[q.Key] == nil {
				t.Errorf("%s cannot be answered", q.Key)
			}
			asked[q.Key] = true
		}
		before := answerTo(t, intent, fresh())
		for key, change := range other {
			s := fresh()
			change(&s)
			if changed := !cmp.Equal(before, answerTo(t, intent, s)); changed != asked[key] {
				t.Errorf("%+v: %s is asked for: %v; it changes the answer: %v", intent, key, asked[key], changed)
			}
		}
	}
}

// A question that depends on another comes after it and cannot change anything without it.
func TestFormOrder(t *testing.T) {
	form := opening.Form(opening.Intent{Interior: true, Head: true, EndPanels: true})
	seen := map[string]bool{"": true}
	for _, q := range form {
		if !seen[q.If] || seen[q.Key] || q.Ask == "" || q.Where == "" || q.Why == "" || !strings.HasPrefix(q.Key, "opening.") {
			t.Errorf("%+v", q)
		}
		seen[q.Key] = true
	}
	bare := alcove()
	bare.Skirting = opening.Sides{}
	panel := bare
	panel.EndPanel = mm(30)
	if !cmp.Equal(measure(t, bare), measure(t, panel)) {
		t.Error("an end panel without a skirting changes the answer")
	}
	for _, q := range form {
		if q.Needed != (q.Key == "opening.widths" || q.Key == "opening.heights") {
			t.Errorf("%s is needed: %v", q.Key, q.Needed)
		}
	}
	// What is needed is what stops the job when it is not there.
	for key, empty := range map[string]func(*opening.Survey){
		"opening.widths": func(s *opening.Survey) { s.Widths = nil }, "opening.heights": func(s *opening.Survey) { s.Heights = nil },
	} {
		s := alcove()
		empty(&s)
		if !measure(t, s).Findings.Stops() {
			t.Errorf("nothing stops without %s", key)
		}
	}
}
