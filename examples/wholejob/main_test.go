package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func wholejob(t *testing.T, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	status = run(t.Context(), args, &out, &err)
	return status, out.String(), err.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
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
		t.Errorf("%s differs; -update rewrites it, then read it line by line (-want +got):\n%s", file, diff)
	}
}

func TestDemoSheet(t *testing.T) {
	status, stdout, stderr := wholejob(t)
	if status != exitProposal || stderr != "" {
		t.Fatalf("status %d, stderr %q", status, stderr)
	}
	golden(t, "sheet.golden", stdout)
}

func TestDemoPlan(t *testing.T) {
	status, stdout, stderr := wholejob(t, "-json")
	if status != exitProposal || stderr != "" {
		t.Fatalf("status %d, stderr %q", status, stderr)
	}
	golden(t, "plan.golden", stdout)
}

// The demo room is there because its choice is interesting.
func TestDemoRoomHasAChoice(t *testing.T) {
	_, stdout, _ := wholejob(t, "-json")
	var plan lapspan.Plan
	if err := json.Unmarshal([]byte(stdout), &plan); err != nil {
		t.Fatal(err)
	}
	for _, method := range []doors.Method{doors.Packer, doors.Bulkhead, doors.CutDown} {
		if !slices.ContainsFunc(plan.Proposals, func(p lapspan.Proposal) bool { return p.Height.Method == method }) {
			t.Errorf("no proposal by %s", method)
		}
	}
}

func TestOutWritesWhatIsPrinted(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "job", "one")
	if status, _, stderr := wholejob(t, "-out", dir); status != exitProposal {
		t.Fatalf("status %d, stderr %q", status, stderr)
	}
	_, sheet, _ := wholejob(t)
	_, plan, _ := wholejob(t, "-json")
	for name, want := range map[string]string{"sheet.txt": sheet, "plan.json": plan} {
		got, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || string(got) != want {
			t.Errorf("%s is not what is printed (%v)", name, err)
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) != 2 {
		t.Errorf("left in the folder: %v, %v", left, err)
	}
}

func TestOutThatCannotBeWritten(t *testing.T) {
	blocked := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(blocked, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	status, stdout, stderr := wholejob(t, "-out", filepath.Join(blocked, "dir"), "-json")
	if status != exitRefused || stdout != "" || strings.Count(stderr, "\n") != 1 {
		t.Errorf("status %d, stdout %q, stderr %q", status, stdout, stderr)
	}
}

func TestStatus(t *testing.T) {
	write := func(text string) string {
		name := filepath.Join(t.TempDir(), "job.json")
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return name
	}
	demoWith := func(old, new string) string {
		if !strings.Contains(string(demo), old) {
			t.Fatalf("the demo room has no %s", old)
		}
		return write(strings.Replace(string(demo), old, new, 1))
	}
	for _, test := range []struct {
		name   string
		args   []string
		status int
		place  string // in the one line of stderr
	}{
		{"a proposal", []string{"-json"}, exitProposal, ""},
		{"help", []string{"-h"}, exitProposal, ""},
		{"no answer", []string{"-json", "-job", demoWith(`"max_doors": 5`, `"max_doors": 2`)}, exitNone, ""},
		{"a slip", []string{"-json", "-job", demoWith(`"size": 2418`, `"size": 241.8`)}, exitNone, ""},
		{"no such file", []string{"-json", "-job", filepath.Join(t.TempDir(), "none.json")}, exitRefused, "none.json"},
		{"a folder", []string{"-json", "-job", t.TempDir()}, exitRefused, "directory"},
		{"not JSON", []string{"-json", "-job", write("width;2400")}, exitRefused, "job.json: line 1, column 1"},
		{"ambiguous", []string{"-json", "-job", demoWith(`"size": 2418`, `"size": "2,418"`)}, exitRefused, "job.json: opening.widths[1].size: "},
		{"wrong type", []string{"-json", "-job", demoWith(`"end_panel": 22`, `"carpet_at_rail": 9`)}, exitRefused, "job.json: opening.carpet_at_rail: "},
		{"unknown flag", []string{"-colour"}, exitRefused, "wholejob: "},
		{"an argument", []string{"job.json"}, exitRefused, `"job.json"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			status, stdout, stderr := wholejob(t, test.args...)
			if status != test.status {
				t.Fatalf("status %d, want %d; stderr %q", status, test.status, stderr)
			}
			if (stdout == "") != (status == exitRefused) {
				t.Errorf("stdout %.60q", stdout)
			}
			if !strings.Contains(stderr, test.place) || strings.Count(stderr, "\n") != min(1, len(stderr)) {
				t.Errorf("stderr %q, want one line with %q", stderr, test.place)
			}
		})
	}
}
