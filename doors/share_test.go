package doors_test

import (
	"encoding/json"
	"testing"

	"example.com/lapspan/doors"
)

func TestShareJSON(t *testing.T) {
	for _, c := range []struct {
		text, want string
		share      doors.Share
	}{
		{"1", "1", 1_000_000},
		{"1.5", "1.5", 1_500_000},
		{"1.500000", "1.5", 1_500_000},
		{"0.000001", "0.000001", 1},
		{"999999.999999", "999999.999999", 999_999_999_999},
		{"0", "0", 0},
	} {
		var s doors.Share
		if err := json.Unmarshal([]byte(c.text), &s); err != nil || s != c.share {
			t.Errorf("%s: %d, %v", c.text, s, err)
		}
		if out, err := json.Marshal(s); err != nil || string(out) != c.want || s.String() != c.want {
			t.Errorf("%s: %s, %v", c.text, out, err)
		}
	}
	for _, text := range []string{"", "null", "-1", "+1", "1e3", "1.", ".5", "1.0000000", "1000000", `"1"`, "1 000", "0x1", "1.2.3", "1_0"} {
		s := doors.Share(7)
		if err := s.UnmarshalJSON([]byte(text)); err == nil || s != 7 {
			t.Errorf("%q is read as %d", text, s)
		}
	}
}
