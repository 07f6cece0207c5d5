package lapspan_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/lapspan"
	"pgregory.net/rapid"
)

// Documents that are no job at all, laid over a good one unless they are whole
// documents of their own; place is what the error must name.
var badJobs = []struct{ name, job, place string }{
	{"wrong type: a list for the opening", `{"opening": []}`, "opening"},
	{"wrong type: an object for a list", `{"opening": {"widths": {"at": 0, "size": 2400}}}`, "opening.widths"},
	{"wrong type: a number for a reading", `{"opening": {"widths": [2400]}}`, "opening.widths[0]"},
	{"wrong type: true for a length", `{"opening": {"widths": [{"at": 0, "size": 2400}, {"at": 0, "size": true}]}}`, "opening.widths[1].size"},
	{"wrong type: a list for a length", `{"opening": {"end_panel": [18]}}`, "opening.end_panel"},
	{"wrong type: text for a count", `{"gear": {"tracks": "2"}}`, "gear.tracks"},
	{"wrong type: a broken count", `{"gear": {"tracks": 2.5}}`, "gear.tracks"},
	{"wrong type: text for yes or no", `{"doors": {"mixed_widths": "yes"}}`, "doors.mixed_widths"},
	{"wrong type: a number for text", `{"reference": 7}`, "reference"},
	{"wrong type: a broken limit", `{"limit": 1.5}`, "limit"},
	{"unknown key", `{"rooms": 1}`, "rooms"},
	{"unknown key, deeper", `{"opening": {"window": {"at": 0}}}`, "opening.window"},
	{"unknown key in a list", `{"opening": {"widths": [{"at": 0, "size": 2400}, {"at": 0, "size": 2400, "depth": 1}]}}`, "opening.widths[1].depth"},
	{"unknown key: another case", `{"gear": {"Tracks": 2}}`, "gear.Tracks"},
	{"glass to be cut on site", `{"doors": {"build": {"top_bar": 40, "bottom_bar": 40, "bar": 20, "panels": [{"share": 1, "material": "float glass", "thickness": 4, "cut_on_site": true}]}}}`, "doors.build.panels[0].cut_on_site"},
	{"a lean without its height", `{"opening": {"leans": {"left": [{"size": 3}], "right": []}}}`, "opening.leans.left[0].at"},
	{"one diagonal", `{"opening": {"diagonals": {"rising": 3000}}}`, "opening.diagonals.falling"},
	{"joists that run nowhere", `{"opening": {"joists": {"centres": [400], "run": "up"}}}`, "opening.joists.run"},
	{"a joist behind the wall", `{"opening": {"joists": {"centres": [-1], "run": "along"}}}`, "opening.joists.centres[0]"},
	{"a carpet at the rail by size", `{"opening": {"carpet_at_rail": 9}}`, "opening.carpet_at_rail"},
	{"null for the room", `{"opening": null}`, "opening"},
	{"null for the gear", `{"gear": null}`, "gear"},
	{"null for a list", `{"opening": {"widths": null}}`, "opening.widths"},
	{"null for a reading", `{"opening": {"widths": [null]}}`, "opening.widths[0]"},
	{"null for an optional size", `{"opening": {"end_panel": null}}`, "opening.end_panel"},
	{"null for an optional list", `{"boards": null}`, "boards"},
	{"null for yes or no", `{"doors": {"mixed_widths": null}}`, "doors.mixed_widths"},
	{"thousands or decimals", `{"opening": {"widths": [{"at": 0, "size": "2,210"}]}}`, "opening.widths[0].size"},
	{"thousands or decimals, metres", `{"opening": {"widths": [{"at": 0, "size": "2,4 m"}]}}`, "opening.widths[0].size"},
	{"a third of an inch", `{"opening": {"heights": [{"at": 0, "size": "90 1/3 in"}]}}`, "opening.heights[0].size"},
	{"finer than a nanometre", `{"doors": {"sizes": [{"width": 650.0000001, "height": 2267.5}]}}`, "doors.sizes[0].width"},
	{"finer than a nanometre, as text", `{"doors": {"sizes": [{"width": 650, "height": "2267.0000001 mm"}]}}`, "doors.sizes[0].height"},
	{"an exponent", `{"opening": {"widths": [{"at": 0, "size": 2.4e3}]}}`, "opening.widths[0].size"},
	{"an exponent as text", `{"opening": {"widths": [{"at": 0, "size": "2.4e3"}]}}`, "opening.widths[0].size"},
	{"an endless exponent", `{"opening": {"widths": [{"at": 0, "size": 1e999999999}]}}`, "opening.widths[0].size"},
	{"an exponent in a price", `{"doors": {"sizes": [{"width": 650, "height": 2267.5, "price": 1e2}]}}`, "doors.sizes[0].price"},
	{"an exponent in a count", `{"gear": {"tracks": 2e0}}`, "gear.tracks"},
	{"not a number", `{"opening": {"widths": [{"at": 0, "size": "NaN"}]}}`, "opening.widths[0].size"},
	{"an empty length", `{"opening": {"widths": [{"at": 0, "size": ""}]}}`, "opening.widths[0].size"},
	{"an unknown unit", `{"opening": {"widths": [{"at": 0, "size": "2 cubits"}]}}`, "opening.widths[0].size"},
	{"absurd: past 100 m", `{"opening": {"widths": [{"at": 0, "size": 100000.000001}]}}`, "opening.widths[0].size"},
	{"absurd: thirty digits", `{"opening": {"widths": [{"at": 0, "size": 999999999999999999999999999999}]}}`, "opening.widths[0].size"},
	{"absurd: 33 characters", `{"opening": {"widths": [{"at": 0, "size": "00000000000000000000000000002400 mm"}]}}`, "opening.widths[0].size"},
	{"absurd: a door of 101 m", `{"doors": {"sizes": [{"width": "101 m", "height": 2267.5}]}}`, "doors.sizes[0].width"},
	{"a place below nothing", `{"opening": {"widths": [{"at": -1, "size": 2400}]}}`, "opening.widths[0].at"},
	{"skirting of no thickness", `{"opening": {"skirting": {"left": {"thickness": 0, "height": 100}}}}`, "opening.skirting.left.thickness"},
	{"skirting of negative height", `{"opening": {"skirting": {"right": {"thickness": 18, "height": -100}}}}`, "opening.skirting.right.height"},
	{"an end panel of nothing", `{"opening": {"end_panel": 0}}`, "opening.end_panel"},
	{"a carpet of nothing", `{"opening": {"carpet_to_come": 0}}`, "opening.carpet_to_come"},
	{"a perfect tape", `{"opening": {"accuracy": 0}}`, "opening.accuracy"},
	{"a door of no width", `{"doors": {"sizes": [{"width": 650, "height": 2267.5}, {"width": 0, "height": 2267.5}]}}`, "doors.sizes[1].width"},
	{"a door below nothing", `{"doors": {"sizes": [{"width": 650, "height": -1}]}}`, "doors.sizes[0].height"},
	{"a board of nothing", `{"boards": [{"thickness": 18}, {"thickness": 0}]}`, "boards[1].thickness"},
	{"timber of nothing", `{"timber": {"thickness": 0, "width": 72, "lengths": [{"length": 2400}]}}`, "timber.thickness"},
	{"a length of nothing", `{"timber": {"thickness": 47, "width": 72, "lengths": [{"length": 0}]}}`, "timber.lengths[0].length"},
	{"studs at nothing", `{"timber": {"thickness": 47, "width": 72, "lengths": [{"length": 2400}], "stud_spacing": 0}}`, "timber.stud_spacing"},
	{"a saw step of nothing", `{"trim": {"step": 0}}`, "trim.step"},
	{"a kerf below nothing", `{"timber": {"thickness": 47, "width": 72, "lengths": [{"length": 2400}], "kerf": -1}}`, "timber.kerf"},
	{"no skirting size", `{"opening": {"skirting": {"left": {"thickness": 18}}}}`, "opening.skirting.left.height"},
	{"a reading without a size", `{"opening": {"widths": [{"at": 0}]}}`, "opening.widths[0].size"},
	{"a reading without a place", `{"opening": {"widths": [{"size": 2400}]}}`, "opening.widths[0].at"},
	{"empty sizes", `{"doors": {"sizes": []}}`, "doors.sizes"},
	{"a size without a height", `{"doors": {"sizes": [{"width": 650}]}}`, "doors.sizes[0].height"},
	{"reversed overlap", `{"gear": {"overlap": {"min": 70, "max": 50}}}`, "gear.overlap"},
	{"reversed allowance", `{"gear": {"allowance": {"min": 35, "max": 30}}}`, "gear.allowance"},
	{"reversed widths of the maker", `{"doors": {"made_to_measure": {"width": {"min": 1300, "max": 500}, "height": {"min": 1500, "max": 2700}}}}`, "doors.made_to_measure.width"},
	{"reversed heights of the maker", `{"doors": {"made_to_measure": {"width": {"min": 500, "max": 1300}, "height": {"min": 2700, "max": 1500}}}}`, "doors.made_to_measure.height"},
	{"a reversed pull-out", `{"interior": {"depth": 560, "pull_outs": [{"name": "drawers", "from": 900, "to": 100}]}}`, "interior.pull_outs[0]"},
	{"an aim outside the overlap", `{"gear": {"overlap": {"aim": 71}}}`, "gear.overlap.aim"},
	{"an aim outside the allowance", `{"gear": {"allowance": {"aim": 29.999999}}}`, "gear.allowance.aim"},
	{"an overlap below nothing", `{"gear": {"overlap": {"min": -1}}}`, "gear.overlap.min"},
	{"a meeting gap below nothing", `{"gear": {"meeting_gap": -1}}`, "gear.meeting_gap"},
	{"a price below nothing", `{"doors": {"sizes": [{"width": 650, "height": 2267.5, "price": -1}]}}`, "doors.sizes[0].price"},
	{"a price below nothing, as text", `{"boards": [{"thickness": 18, "price": "-0.01"}]}`, "boards[0].price"},
	{"a price of five decimals", `{"doors": {"sizes": [{"width": 650, "height": 2267.5, "price": 0.00001}]}}`, "doors.sizes[0].price"},
	{"a price with a comma", `{"doors": {"sizes": [{"width": 650, "height": 2267.5, "price": "12,50"}]}}`, "doors.sizes[0].price"},
	{"an unknown rank key", `{"rank": ["width", "beauty"]}`, "rank[1]"},
	{"a repeated rank key", `{"rank": ["width", "doors", "width"]}`, "rank[2]"},
	{"one door at most", `{"doors": {"max_doors": 1}}`, "doors.max_doors"},
	{"nine doors", `{"doors": {"max_doors": 9}}`, "doors.max_doors"},
	{"no doors at most", `{"doors": {"max_doors": 0}}`, "doors.max_doors"},
	{"one track", `{"gear": {"tracks": 1}}`, "gear.tracks"},
	{"five tracks", `{"gear": {"tracks": 5}}`, "gear.tracks"},
	{"no proposals wanted", `{"limit": 0}`, "limit"},
	{"1001 proposals wanted", `{"limit": 1001}`, "limit"},
	{"an unknown arrangement", `{"doors": {"arrangement": "random"}}`, "doors.arrangement"},
	{"an unknown treatment", `{"opening": {"skirting": {"left": {"thickness": 18, "height": 100, "treatment": "painted"}}}}`, "opening.skirting.left.treatment"},
	{"an unknown place to read", `{"opening": {"widths": [{"at": 0, "size": 2400, "between": "doors"}]}}`, "opening.widths[0].between"},
	{"an unknown split", `{"trim": {"cut_split": "thirds"}}`, "trim.cut_split"},
	{"an unknown carrier", `{"gear": {"carried_by": "wall"}}`, "gear.carried_by"},
	{"an unknown part count", `{"gear": {"parts": [{"item": "guide", "per": "wall", "count": 1}]}}`, "gear.parts[0].per"},
}

func TestBadJobs(t *testing.T) {
	for _, row := range badJobs {
		t.Run(row.name, func(t *testing.T) {
			refused(t, oracleOverlay(t, oracleBase, row.job), row.place)
		})
	}
}

// Documents that no overlay can make.
func TestBadDocuments(t *testing.T) {
	without := func(key string) string {
		document := oracleDocument(t, oracleBase)
		delete(document, key)
		text, err := json.Marshal(document)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	withoutGear := func(key string) string {
		document := oracleDocument(t, oracleBase)
		delete(document["gear"].(map[string]any), key)
		text, err := json.Marshal(document)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	var widths []string // 1001 of one height
	for i := range 1001 {
		widths = append(widths, fmt.Sprintf(`{"width": %d, "height": 2267.5}`, 300+i))
	}
	var scattered []string // 60, on no common step
	for i := range 60 {
		scattered = append(scattered, fmt.Sprintf(`{"width": %d.%06d, "height": 2267.5}`, 300+i, i*i*7919%1_000_000))
	}
	mixed := func(sizes []string) string {
		return oracleOverlay(t, oracleBase, `{"doors": {"mixed_widths": true, "max_doors": 8, "sizes": [`+strings.Join(sizes, ",")+`]}}`)
	}
	for _, row := range []struct{ name, document, place string }{
		{"nothing", ``, ""},
		{"white space", " \n", ""},
		{"half a document", oracleBase[:len(oracleBase)-1], ""},
		{"not JSON", `widths: 2400`, ""},
		{"a list", `[` + oracleBase + `]`, ""},
		{"a number", `2400`, ""},
		{"null", `null`, ""},
		{"text after the document", oracleBase + ` x`, ""},
		{"a second document", oracleBase + oracleBase, ""},
		{"a comma too many", strings.Replace(oracleBase, `"limit": 1000}`, `"limit": 1000,}`, 1), ""},
		{"a repeated key", strings.Replace(oracleBase, `"limit"`, `"limit": 10, "limit"`, 1), "limit"},
		{"a repeated key, deeper", strings.Replace(oracleBase, `"at": 1000`, `"at": 1000, "at": 1000`, 1), "opening.widths[1].at"},
		{"a repeated key, spelt another way", strings.Replace(oracleBase, `"limit"`, `"limit": 10, "\u006cimit"`, 1), "limit"},
		{"no opening", without("opening"), "opening"},
		{"no doors", without("doors"), "doors"},
		{"no gear", without("gear"), "gear"},
		{"no tracks", withoutGear("tracks"), "gear.tracks"},
		{"no overlap", withoutGear("overlap"), "gear.overlap"},
		{"no allowance", withoutGear("allowance"), "gear.allowance"},
		{"more than a mebibyte", oracleBase + strings.Repeat(" ", 1<<20), ""},
		{"a deep well", strings.Repeat(`{"opening":`, 40) + `1` + strings.Repeat(`}`, 40), ""},
		{"a very deep well", strings.Repeat(`[`, 500_000), ""},
		{"more widths than can be searched", mixed(widths), "doors.sizes"},
		{"more sets than can be searched", mixed(scattered), "doors.sizes"},
	} {
		t.Run(row.name, func(t *testing.T) { refused(t, row.document, row.place) })
	}
}

// refused says that a document is no job: with an error that names the place
// in one line, and soon.
func refused(t *testing.T, document, place string) {
	t.Helper()
	start := time.Now()
	job, err := lapspan.ReadJob(strings.NewReader(document))
	if err == nil {
		_, err = lapspan.Propose(context.Background(), job)
	}
	if err == nil {
		t.Fatal("accepted")
	}
	if took := time.Since(start); took > 20*time.Second {
		t.Errorf("refused only after %v", took)
	}
	text := err.Error()
	if strings.Contains(text, "\n") || len(text) > 500 {
		t.Errorf("not one short line: %.600q", text)
	}
	// The whole place, not only the beginning of a longer one.
	_, after, found := strings.Cut(text, place)
	if !found || place != "" && after != "" && strings.ContainsAny(after[:1], ".[") {
		t.Errorf("does not name %s: %s", place, text)
	}
}

// A good job with one value spoilt is read and proposed for, or refused.
func brokenJobProperty(t *rapid.T) {
	decoder := json.NewDecoder(strings.NewReader(oracleDrawJob(t)))
	decoder.UseNumber()
	var document any
	if err := decoder.Decode(&document); err != nil {
		t.Fatal(err)
	}
	spoilt := json.RawMessage(rapid.SampledFrom([]string{
		`null`, `true`, `""`, `"x"`, `"NaN"`, `"-1"`, `"0"`, `"1/3 in"`, `"2,4 m"`, `"1e9"`, `"100000.000001"`, `"99999 mm"`, `"1/64 in"`, `[]`, `{}`, `[null]`, `[[]]`,
		`0`, `-0`, `-1`, `0.000001`, `0.0000001`, `1e3`, `1E400`, `1`, `2`, `8`, `9`, `1000`, `1001`, `99999.999999`, `100000`, `100001`, `-100000`,
		`9223372036854775807`, `99999999999999999999999999`, `"` + strings.Repeat("9", 33) + `"`, `"` + strings.Repeat("(", 5000) + `"`,
	}).Draw(t, "spoilt"))
	for range rapid.IntRange(1, 2).Draw(t, "values spoilt") {
		document = spoil(t, document, spoilt)
	}
	text, err := json.Marshal(document)
	if err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	readAndPropose(t, text)
	if took := time.Since(start); took > 20*time.Second {
		t.Fatalf("%v for %s", took, text)
	}
}

// spoil puts a value in the place of another, or under a new key.
func spoil(t *rapid.T, node, spoilt any) any {
	stay := func(children int) bool { return children == 0 || rapid.IntRange(0, 5).Draw(t, "here") == 5 }
	switch node := node.(type) {
	case map[string]any:
		if stay(len(node)) {
			return spoilt
		}
		key := rapid.SampledFrom(slices.Sorted(maps.Keys(node))).Draw(t, "key")
		switch rapid.IntRange(0, 9).Draw(t, "how") {
		case 8:
			delete(node, key)
		case 9:
			node[key+"s"] = spoilt
		default:
			node[key] = spoil(t, node[key], spoilt)
		}
		return node
	case []any:
		if stay(len(node)) {
			return spoilt
		}
		i := rapid.IntRange(0, len(node)-1).Draw(t, "item")
		if rapid.IntRange(0, 9).Draw(t, "how") == 9 {
			return append(node, node[i])
		}
		node[i] = spoil(t, node[i], spoilt)
		return node
	}
	return spoilt
}

func TestBrokenJobs(t *testing.T) { rapid.Check(t, brokenJobProperty) }

// readAndPropose wants a plan that can be written, or an error of one line.
func readAndPropose(t interface{ Fatalf(string, ...any) }, document []byte) {
	job, err := lapspan.ReadJob(bytes.NewReader(document))
	var proposed lapspan.Plan
	if err == nil {
		proposed, err = lapspan.Propose(context.Background(), job)
	}
	if err != nil {
		if text := err.Error(); text == "" || len(text) > 500 || strings.ContainsAny(text, "\n\r") {
			t.Fatalf("not one short line: %.600q", text)
		}
		return
	}
	if _, err := json.Marshal(proposed); err != nil {
		t.Fatalf("a plan that cannot be written: %v", err)
	}
}

// Any bytes are refused or proposed for, never more.
func FuzzReadJob(f *testing.F) {
	f.Add([]byte(oracleBase))
	f.Add([]byte(`{"opening": {"widths": [{"at": 0, "size": "7' 10 1/2\""}]}}`))
	for seed := range 4 {
		f.Add([]byte(rapid.Custom(oracleDrawJob).Example(seed)))
	}
	f.Fuzz(func(t *testing.T, document []byte) { readAndPropose(t, document) })
}
