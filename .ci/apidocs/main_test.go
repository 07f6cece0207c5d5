package main

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

const demoTest = "package p_test\n\nfunc ExampleF() {\n\tprintln()\n\t// Output: 1\n}\n"

func TestCheck(t *testing.T) {
	for _, tc := range []struct {
		name         string
		src, test    string // files of package p
		undocumented []string
		callables    int
		withoutDemo  []string
	}{
		{name: "all there",
			src:  "// Package p is.\npackage p\n\n// F does.\nfunc F() {}\n",
			test: demoTest, callables: 1},
		{name: "package comment", src: "package p\n", undocumented: []string{"package p"}},
		{name: "function", src: "// Package p is.\npackage p\nfunc F() {}\nfunc f() {}\n",
			test: demoTest, undocumented: []string{"p.F"}, callables: 1},
		{name: "type and constructor", src: "// Package p is.\npackage p\ntype T int\n\n// NewT makes.\nfunc NewT() T { return 0 }\ntype t int\n",
			undocumented: []string{"p.T"}, callables: 1, withoutDemo: []string{"p.NewT"}},
		{name: "method", src: "// Package p is.\npackage p\n\n// T is.\ntype T int\nfunc (T) M() {}\nfunc (T) m() {}\ntype t int\nfunc (t) M() {}\n",
			undocumented: []string{"p.T.M"}, callables: 1, withoutDemo: []string{"p.T.M"}},
		{name: "suffix and generics",
			src: "// Package p is.\npackage p\n\n// T is.\ntype T[E any] struct{}\n\n// M does.\nfunc (T[E]) M() {}\n\n" +
				"// N does.\nfunc (*T[E]) N() {}\n\n// F does.\nfunc F[E any](E) {}\n",
			test:      "package p_test\nfunc ExampleT_M_twice() {\n\t// Unordered output: 1\n}\nfunc ExampleF_other() {\n\t// Output: 1\n}\n",
			callables: 3, withoutDemo: []string{"p.T.N"}},
		{name: "an Example that never runs", src: "// Package p is.\npackage p\n\n// F does.\nfunc F() {}\n",
			test: "package p_test\nfunc ExampleF() {}\n", callables: 1, withoutDemo: []string{"p.F"}},
		{name: "an Example of the type is not one of its method",
			src:  "// Package p is.\npackage p\n\n// T is.\ntype T int\n\n// M does.\nfunc (T) M() {}\n",
			test: "package p_test\nfunc ExampleT() {\n\t// Output: 1\n}\n", callables: 1, withoutDemo: []string{"p.T.M"}},
		{name: "fields", src: "// Package p is.\npackage p\n\n// T is.\ntype T struct {\n\t// A is.\n\tA int\n\tB int // B is.\n\tC, D int\n\te int\n\tIn []struct{ X int }\n}\n",
			undocumented: []string{"p.T.C", "p.T.D", "p.T.In", "p.T.X"}},
		{name: "interface methods", src: "// Package p is.\npackage p\n\n// T is.\ntype T interface {\n\t// A does.\n\tA()\n\tB()\n}\n",
			undocumented: []string{"p.T.B"}},
		{name: "constants by group", src: "// Package p is.\npackage p\n\n// The kinds.\nconst (\n\tA = 1\n\tB = 2\n)\n"},
		{name: "constants by line", src: "// Package p is.\npackage p\nconst (\n\t// A is.\n\tA = 1\n\tB = 2 // B is.\n\tC = 3\n\td = 4\n)\nvar E = 5\n",
			undocumented: []string{"p.C", "p.E"}},
		{name: "constants of a type", src: "// Package p is.\npackage p\n\n// T is.\ntype T int\nconst A T = 1\n",
			undocumented: []string{"p.A"}},
		{name: "a command needs a package comment alone", src: "// Command p is.\npackage main\nfunc F() {}\n"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			fsys := fstest.MapFS{"p/p.go": {Data: []byte(tc.src)}}
			if tc.test != "" {
				fsys["p/example_test.go"] = &fstest.MapFile{Data: []byte(tc.test)}
			}
			r, err := check(fsys)
			if err != nil {
				t.Fatal(err)
			}
			if got := names(r.undocumented); !slices.Equal(got, tc.undocumented) {
				t.Errorf("undocumented: got %q, want %q", got, tc.undocumented)
			}
			if got := names(r.withoutDemo); !slices.Equal(got, tc.withoutDemo) {
				t.Errorf("without an Example: got %q, want %q", got, tc.withoutDemo)
			}
			if r.callables != tc.callables {
				t.Errorf("callables: got %d, want %d", r.callables, tc.callables)
			}
		})
	}
}

// names drops the position before each name and sorts.
func names(places []string) []string {
	var out []string
	for _, p := range places {
		out = append(out, p[strings.Index(p, ": ")+2:])
	}
	slices.Sort(out)
	return out
}

func TestCheckSkipsWhatGoSkips(t *testing.T) {
	bad := &fstest.MapFile{Data: []byte("package bad\nfunc F() {}\n")}
	r, err := check(fstest.MapFS{
		"p.go": {Data: []byte("// Package p is.\npackage p\n")}, ".hidden/b.go": bad, "_off/b.go": bad, "testdata/b.go": bad,
		"q/testdata/b.go": bad, "only/x_test.go": {Data: []byte("package only\nfunc F() {}\n")},
	})
	if err != nil || r.packages != 1 || !r.ok() {
		t.Errorf("got %d packages, error %v, report:\n%s", r.packages, err, r)
	}
}

func TestCheckRefusesWhatDoesNotParse(t *testing.T) {
	if _, err := check(fstest.MapFS{"p.go": {Data: []byte("package")}}); err == nil {
		t.Error("no error")
	}
}

func TestLimit(t *testing.T) {
	for _, tc := range []struct {
		report report
		want   bool
	}{
		{report{packages: 1}, true},
		{report{}, false},
		{report{packages: 1, undocumented: []string{"x"}}, false},
		{report{packages: 1, callables: 20, withoutDemo: make([]string, 1)}, true},
		{report{packages: 1, callables: 19, withoutDemo: make([]string, 1)}, false},
		{report{packages: 1, callables: 100, withoutDemo: make([]string, 5)}, true},
		{report{packages: 1, callables: 100, withoutDemo: make([]string, 6)}, false},
	} {
		if got := tc.report.ok(); got != tc.want {
			t.Errorf("%d of %d without an Example: got %v, want %v", len(tc.report.withoutDemo), tc.report.callables, got, tc.want)
		}
	}
}
