package main

import (
	"slices"
	"testing"
)

// layout is a module m that holds every package and breaks no rule.
func layout() []goPackage {
	return []goPackage{
		{path: "m", imports: []string{"context", "m/doors", "m/frame", "m/frame/cutlist", "m/opening", "m/trim", "m/units"}},
		{path: "m/units", imports: []string{runtimeModule, "math/bits"}},
		{path: "m/opening", imports: []string{"m/units"}},
		{path: "m/doors", imports: []string{"m/opening", "m/units"}},
		{path: "m/frame", imports: []string{"m/doors", "m/frame/cutlist", "m/opening", "m/units"}},
		{path: "m/frame/cutlist", imports: []string{"m/units"}},
		{path: "m/trim", imports: []string{"m/doors", "m/opening", "m/units"}},
		{path: "m/examples/job", imports: []string{"m", "m/units", "os", "flag"}},
	}
}

func TestImportBreaches(t *testing.T) {
	if got := importBreaches("m", layout(), []string{runtimeModule}); len(got) > 0 {
		t.Fatalf("a layout within the rules: %q", got)
	}
	for _, tc := range []struct{ from, to string }{
		{"m/units", "m/opening"}, {"m/opening", "m/doors"}, {"m/doors", "m/frame"}, {"m/doors", "m/trim"},
		{"m/frame", "m/trim"}, {"m/trim", "m/frame"}, {"m/trim", "m/frame/cutlist"}, {"m/frame/cutlist", "m/frame"},
		{"m/frame/cutlist", "m/opening"}, {"m/trim", "m"}, {"m", "m/examples/job"}, {"m", "m/other"},
		{"m", runtimeModule}, {"m/units", "gonum.org/v1/gonum/mat"}, {"m/units", runtimeModule + "/more"},
		{"m", "os"}, {"m", "os/exec"}, {"m/doors", "time"}, {"m/doors", "math/rand/v2"}, {"m", "net/http"}, {"m/units", "unsafe"},
	} {
		t.Run(tc.from+" "+tc.to, func(t *testing.T) {
			ps := layout()
			i := slices.IndexFunc(ps, func(p goPackage) bool { return p.path == tc.from })
			ps[i].imports = append(ps[i].imports, tc.to)
			if got := importBreaches("m", ps, []string{runtimeModule}); len(got) != 1 {
				t.Errorf("got %q, want one breach", got)
			}
		})
	}
}

func TestImportBreachesOfTheLayout(t *testing.T) {
	for name, tc := range map[string]struct {
		packages []goPackage
		foreign  []string
		want     int
	}{
		"a package too many":          {append(layout(), goPackage{path: "m/other"}), []string{runtimeModule}, 1},
		"a package too few":           {layout()[:6], []string{runtimeModule}, 1},
		"no module from outside":      {layout(), nil, 1},
		"another module":              {layout(), []string{"golang.org/x/text"}, 1},
		"a second module":             {layout(), []string{runtimeModule, "golang.org/x/text"}, 1},
		"names that only begin alike": {append(layout(), goPackage{path: "m/unitsandmore"}), []string{runtimeModule}, 1},
	} {
		t.Run(name, func(t *testing.T) {
			if got := importBreaches("m", tc.packages, tc.foreign); len(got) != tc.want {
				t.Errorf("got %q, want %d", got, tc.want)
			}
		})
	}
}
