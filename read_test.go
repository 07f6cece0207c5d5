package lapspan_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
	"github.com/google/go-cmp/cmp"
)

// A job that is written and read again is the same job: a price of 0 is not no price.
func TestJobRoundTrip(t *testing.T) {
	job := mixed()
	job.Doors.Sizes[0].Price = new(units.Money{})
	job.Gear.Parts[0].Price = new(units.Money{})
	job.Gear.MeetingGap, job.Timber.Kerf = new(units.Length(0)), new(units.Length(0))
	job.Opening.Leans = opening.Leans{Left: []opening.Lean{{At: 100 * mm, Size: -3 * mm}, {At: 2000 * mm, Size: 2 * mm}}, Right: []opening.Lean{}}
	job.Opening.Joists = &opening.Joists{Centres: []units.Length{400 * mm}, Run: opening.FrontToBack}
	job.Interior = &lapspan.Interior{Depth: 500 * mm, Clearance: new(units.Length(0)), PullOuts: []lapspan.PullOut{{Name: "drawers", From: 0, To: 400 * mm}}}
	job.Frame = frame.Options{OntoJoists: true, Ceiling: frame.BoardOnly}
	job.Cover = &trim.Covering{Sheets: []trim.Sheet{{Length: 2440 * mm, Width: 1220 * mm, Price: new(units.Money{})}}}
	job.Currency = lapspan.Currency{Code: "JPY", Digits: new(0)}
	job.Rank = []lapspan.Key{lapspan.BySure, lapspan.ByEven}
	data, err := json.Marshal(job)
	if err != nil {
		t.Fatal(err)
	}
	got, err := lapspan.ReadJob(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	if diff := cmp.Diff(job, got); diff != "" {
		t.Errorf("read again (-want +got):\n%s", diff)
	}
}

func TestDecode(t *testing.T) {
	type inner struct {
		Size units.Length   `json:"size"`
		Kind doors.Method   `json:"kind,omitzero"`
		Gap  *units.Length  `json:"gap,omitzero"`
		List []units.Length `json:"list"`
	}
	type outer struct {
		Name  string  `json:"name,omitzero"`
		Count int     `json:"count,omitzero"`
		On    bool    `json:"on,omitzero"`
		Inner inner   `json:"inner"`
		More  []inner `json:"more,omitzero"`
	}
	deep := strings.Repeat("[", lapspan.MaxNesting) + strings.Repeat("]", lapspan.MaxNesting)
	keys := func(n int) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(`,"k` + strings.Repeat("x", i) + `":1`)
		}
		return b.String()
	}
	for _, test := range []struct {
		name, document, place string // place: empty where it is read
	}{
		{"least", `{"inner": {"size": 1}}`, ""},
		{"all", `{"name": "", "count": 3, "on": false, "inner": {"size": "1 in", "kind": "packer", "gap": 0, "list": []}, "more": []}`, ""},
		{"space around", " \n{\"inner\": {\"size\": 1}}\n ", ""},
		{"missing object", `{}`, "inner"},
		{"missing size", `{"inner": {}}`, "inner.size"},
		{"case", `{"Inner": {"size": 1}}`, "inner"},
		{"unknown key", `{"inner": {"size": 1}, "extra": 1}`, "extra"},
		{"key that does not print", `{"inner": {"size": 1}, "a b\n": 1}`, `"a b\n"`},
		{"long key", `{"inner": {"size": 1}, "` + strings.Repeat("k", 60) + `": 1}`, `"` + strings.Repeat("k", 40) + `…"`},
		{"repeated", `{"inner": {"size": 1, "size": 1}}`, "inner.size"},
		{"repeated within", `{"inner": {"size": 1}, "more": [{"size": 1}, {"size": 1, "size": 2}]}`, "more[1].size"},
		{"null", `{"inner": {"size": null}}`, "inner.size"},
		{"null in a list", `{"inner": {"size": 1, "list": [1, null]}}`, "inner.list[1]"},
		{"exponent", `{"inner": {"size": 1e3}}`, "inner.size"},
		{"capital exponent", `{"inner": {"size": 1E3}}`, "inner.size"},
		{"object for a list", `{"inner": {"size": 1, "list": {}}}`, "inner.list"},
		{"list for an object", `{"inner": []}`, "inner"},
		{"text for a number", `{"count": "3", "inner": {"size": 1}}`, "count"},
		{"number for a text", `{"name": 3, "inner": {"size": 1}}`, "name"},
		{"number for a yes", `{"on": 1, "inner": {"size": 1}}`, "on"},
		{"yes for a size", `{"inner": {"size": true}}`, "inner.size"},
		{"part of one", `{"count": 1.5, "inner": {"size": 1}}`, "count"},
		{"too many", `{"count": 99999999999, "inner": {"size": 1}}`, "count"},
		{"count that says nothing", `{"count": 0, "inner": {"size": 1}}`, "count"},
		{"word that says nothing", `{"inner": {"size": 1, "kind": ""}}`, "inner.kind"},
		{"size with a comma", `{"inner": {"size": "1,5"}}`, "inner.size"},
		{"nested just enough, but no list", `{"inner": ` + deep[1:len(deep)-1] + `}`, "inner"},
		{"nested too deep", `{"inner": ` + deep + `}`, "inner" + strings.Repeat("[0]", lapspan.MaxNesting-1)},
		{"as many keys as can be", `{"inner": {"size": 1` + keys(lapspan.MaxKeys-1) + `}}`, "inner.k"},
		{"too many keys", `{"inner": {"size": 1` + keys(lapspan.MaxKeys) + `}}`, "inner"},
		{"text after", `{"inner": {"size": 1}} {}`, "line 1, column 24"},
		{"cut short", "{\"inner\":\n {\"size\": 1}", "line 2, column 12"},
		{"not JSON", "{\n  size: 1}", "line 2, column 3"},
		{"nothing", "", "line 1, column 1"},
		{"a number", "7", "document"},
		{"too long", `{"name": "` + strings.Repeat("x", lapspan.MaxDocument) + `"}`, "document"},
	} {
		t.Run(test.name, func(t *testing.T) {
			before := outer{Name: "before"}
			got := before
			err := lapspan.Decode([]byte(test.document), &got)
			if test.place == "" {
				if err != nil || got.Inner.Size == 0 {
					t.Errorf("%+v, %v", got, err)
				}
				return
			}
			refused, ok := err.(*opening.InputError)
			if !ok || refused.Place != test.place || strings.Contains(err.Error(), "\n") {
				t.Errorf("error %v, want one at %s", err, test.place)
			}
			if !cmp.Equal(got, before) {
				t.Errorf("the target was changed to %+v", got)
			}
		})
	}
}

func TestDecodeIntoWhatCannotHold(t *testing.T) {
	var list []int
	for _, target := range []any{nil, 3, list, &list, (*lapspan.Job)(nil), lapspan.Job{}} {
		if err := lapspan.Decode([]byte(`{}`), target); err == nil {
			t.Errorf("decoded into %T", target)
		}
	}
	var odd struct {
		F float64 `json:"f"`
	}
	if err := lapspan.Decode([]byte(`{"f": 1}`), &odd); err == nil {
		t.Error("decoded a float")
	}
}
