package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/lapspan"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func cut(t *testing.T, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	status = run(t.Context(), args, &out, &err)
	return status, out.String(), err.String()
}

// cutJob cuts the job with this text.
func cutJob(t *testing.T, text string) (status int, stdout, stderr string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.json")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return cut(t, "-job", file, "-json")
}

func TestDemo(t *testing.T) {
	for _, test := range []struct {
		golden string
		args   []string
	}{{"list.golden", nil}, {"answer.golden", []string{"-json"}}} {
		status, got, stderr := cut(t, test.args...)
		if status != exitList || stderr != "" {
			t.Fatalf("status %d, stderr %q", status, stderr)
		}
		file := filepath.Join("testdata", test.golden)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s differs; -update rewrites it (-want +got):\n%s", file, diff)
		}
	}
}

func TestAnswer(t *testing.T) {
	for _, test := range []struct{ id, job, want string }{
		{
			"a bar costs its length", `{"stock": [{"length": 2004}], "pieces": [{"length": "1 m", "count": 3}]}`,
			`{"bars": [{"stock": 2004, "pieces": [1000, 1000], "offcut": 0}, {"stock": 2004, "pieces": [1000], "offcut": 1000}],
			  "cost": 4008, "count": 2, "bound": 4008, "proven": true}`,
		},
		{
			"two lines of one length", `{"kerf": 0, "end_trim": 0, "stock": [{"length": 1000, "price": "5.50"}, {"length": 1000, "price": 0, "count": 1}],
			  "pieces": [{"length": 999.5, "count": 2, "name": "hall"}]}`,
			`{"bars": [{"stock": 1000, "price": "5.5", "pieces": [999.5], "names": ["hall"], "offcut": 0.5},
			           {"stock": 1000, "price": "0", "pieces": [999.5], "names": ["hall"], "offcut": 0.5}],
			  "cost": "5.5", "count": 2, "bound": "5.5", "proven": true}`,
		},
		{
			"nothing to cut", `{"stock": [], "pieces": []}`,
			`{"bars": [], "cost": 0, "count": 0, "bound": 0, "proven": true}`,
		},
	} {
		t.Run(test.id, func(t *testing.T) {
			status, stdout, stderr := cutJob(t, test.job)
			if status != exitList || stderr != "" {
				t.Fatalf("status %d, stderr %q", status, stderr)
			}
			var got, want any
			if err := json.Unmarshal([]byte(stdout), &got); err != nil {
				t.Fatal(err)
			}
			if err := json.Unmarshal([]byte(test.want), &want); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func TestNoAnswerAndRefusals(t *testing.T) {
	const stock, pieces = `"stock": [{"length": 2000}]`, `"pieces": [{"length": 100, "count": 1}]`
	for _, test := range []struct {
		id, job, place string
		status         int
	}{
		{"a piece longer than every bar", `{` + stock + `, "pieces": [{"length": 2001, "count": 1}]}`, "pieces[0].length:", exitNone},
		{"too few bars", `{"stock": [{"length": 200, "count": 1}], "pieces": [{"length": 150, "count": 2}]}`, "stock:", exitNone},
		{"no stock", `{"stock": [], ` + pieces + `}`, "stock:", exitNone},
		{"stock missing", `{` + pieces + `}`, "stock:", exitRefused},
		{"pieces missing", `{` + stock + `}`, "pieces:", exitRefused},
		{"count missing", `{` + stock + `, "pieces": [{"length": 1}]}`, "pieces[0].count:", exitRefused},
		{"count of 0 bars", `{"stock": [{"length": 1, "count": 0}], ` + pieces + `}`, "stock[0].count:", exitRefused},
		{"count of 0 pieces", `{` + stock + `, "pieces": [{"length": 1, "count": 0}]}`, "pieces[0].count:", exitRefused},
		{"some stock priced", `{"stock": [{"length": 2000, "price": 1}, {"length": 1000}], ` + pieces + `}`, "stock[1].price:", exitRefused},
		{"negative kerf", `{"kerf": -1, ` + stock + `, ` + pieces + `}`, "kerf:", exitRefused},
		{"negative price", `{"stock": [{"length": 2000, "price": -1}], ` + pieces + `}`, "stock[0].price:", exitRefused},
		{"length of 0", `{` + stock + `, "pieces": [{"length": 0, "count": 1}]}`, "pieces[0].length:", exitRefused},
		{"unknown key", `{"Kerf": 1, ` + stock + `, ` + pieces + `}`, "Kerf:", exitRefused},
		{"repeated key", `{"kerf": 1, "kerf": 1, ` + stock + `, ` + pieces + `}`, "kerf:", exitRefused},
		{"null", `{"kerf": null, ` + stock + `, ` + pieces + `}`, "kerf:", exitRefused},
		{"exponent", `{"kerf": 1e0, ` + stock + `, ` + pieces + `}`, "kerf:", exitRefused},
		{"text after the document", `{` + stock + `, ` + pieces + `} 1`, "", exitRefused},
		{"not JSON", `{`, "", exitRefused},
		{"too deep", strings.Repeat("[", lapspan.MaxNesting+1) + strings.Repeat("]", lapspan.MaxNesting+1), "", exitRefused},
		{"too long", strings.Repeat(" ", lapspan.MaxDocument) + `{}`, "", exitRefused},
	} {
		t.Run(test.id, func(t *testing.T) {
			status, stdout, stderr := cutJob(t, test.job)
			if status != test.status || stdout != "" {
				t.Errorf("status %d, want %d; stdout %q", status, test.status, stdout)
			}
			if !strings.Contains(stderr, "job.json: "+test.place) || strings.Count(stderr, "\n") != 1 {
				t.Errorf("stderr %q, want one line with the place %q", stderr, test.place)
			}
		})
	}
}

func TestArguments(t *testing.T) {
	for _, args := range [][]string{
		{"-job", filepath.Join(t.TempDir(), "none.json")}, {"-limit", "0s"}, {"-limit", "2h"}, {"-nonsense"}, {"job.json"},
	} {
		if status, stdout, stderr := cut(t, args...); status != exitRefused || stdout != "" || stderr == "" {
			t.Errorf("%v: status %d, stdout %q, stderr %q", args, status, stdout, stderr)
		}
	}
	if status, _, stderr := cut(t, "-limit", "1h"); status != exitList || stderr != "" {
		t.Errorf("an hour is refused: %q", stderr)
	}
}
