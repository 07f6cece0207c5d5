package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
	"github.com/google/go-cmp/cmp"
)

func TestDoorLineNamesTheFirstOfTheLeastDepths(t *testing.T) {
	s := survey()
	s.Depths = []opening.Depth{{Size: mm(650)}, {At: mm(1200), Size: mm(600)}, {At: mm(2400), Size: mm(600)}}
	_, found := s.DoorLine(mm(500), mm(84))
	want := opening.Findings{{
		Code: opening.CodeTooDeep, Severity: opening.Warn, Place: "opening.depths[1].size",
		Message: "interior 500 mm, setback 30 mm and gear 84 mm need 614 mm; the side walls end at 600 mm",
		Remedy:  "make the interior 14 mm shallower, or let the doors stand forward with a return at the side",
	}}
	if diff := cmp.Diff(want, found); diff != "" {
		t.Error(diff)
	}
	s.Depths = nil
	if _, found = s.DoorLine(mm(500), mm(84)); found[0].Message != "no depth was read: interior, setback and gear need 624 mm" {
		t.Error(found)
	}
}
