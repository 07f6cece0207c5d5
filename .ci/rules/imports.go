package main

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// layers names every package of the library (the root is the empty name) and the packages of the
// library that it may import. Test files are free. Examples may import them all.
func layers() map[string][]string {
	return map[string][]string{
		"units":         {},
		"opening":       {"units"},
		"doors":         {"units", "opening"},
		"frame/cutlist": {"units"},
		"frame":         {"units", "opening", "doors", "frame/cutlist"},
		"trim":          {"units", "opening", "doors"},
		"":              {"units", "opening", "doors", "frame", "frame/cutlist", "trim"},
	}
}

// The one module that the library needs at run time, and the one package that may import it.
const (
	runtimeModule  = "github.com/shopspring/decimal"
	runtimePackage = "units"
)

// noLibraryImports are packages of the standard library, each with those below it, that read
// files, clocks, random numbers or machines. A calculation needs none of them.
func noLibraryImports() []string {
	return []string{"C", "crypto/rand", "log", "math/rand", "net", "os", "plugin", "runtime", "syscall", "time", "unsafe"}
}

// goPackage is what one package imports, its tests left out.
type goPackage struct {
	path    string
	imports []string
}

func checkImports() ([]string, error) {
	module, err := goList("-m")
	if err != nil {
		return nil, err
	}
	if len(module) != 1 {
		return nil, fmt.Errorf("want one main module, have %q", module)
	}
	lines, err := goList("-f", `{{.ImportPath}}{{range .Imports}} {{.}}{{end}}`, "./...")
	if err != nil {
		return nil, err
	}
	var packages []goPackage
	for _, l := range lines {
		f := strings.Fields(l)
		packages = append(packages, goPackage{path: f[0], imports: f[1:]})
	}
	foreign, err := goList("-deps", "-f", `{{with .Module}}{{if not .Main}}{{.Path}}{{end}}{{end}}`, "./...")
	if err != nil {
		return nil, err
	}
	slices.Sort(foreign)
	return importBreaches(module[0], packages, slices.Compact(foreign)), nil
}

func goList(args ...string) ([]string, error) {
	cmd := exec.Command("go", append([]string{"list"}, args...)...)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", cmd, err)
	}
	return strings.FieldsFunc(string(out), func(r rune) bool { return r == '\n' }), nil
}

// importBreaches judges the packages of a module and the modules that they need at run time.
func importBreaches(module string, packages []goPackage, foreign []string) []string {
	var out []string
	if !slices.Equal(foreign, []string{runtimeModule}) {
		out = append(out, fmt.Sprintf("the modules needed at run time are %q, want %s alone", foreign, runtimeModule))
	}
	seen := map[string]bool{}
	for _, p := range packages {
		name := localName(module, p.path)
		if strings.HasPrefix(name, "examples/") {
			continue
		}
		may, known := layers()[name]
		if !known {
			out = append(out, fmt.Sprintf("%s: a package that the layout does not name", p.path))
			continue
		}
		seen[name] = true
		for _, imp := range p.imports {
			if why := importBreach(module, name, may, imp); why != "" {
				out = append(out, fmt.Sprintf("%s imports %s: %s", p.path, imp, why))
			}
		}
	}
	for name := range layers() {
		if !seen[name] {
			out = append(out, fmt.Sprintf("%s: a package of the layout that is not there", strings.TrimSuffix(module+"/"+name, "/")))
		}
	}
	slices.Sort(out)
	return out
}

// importBreach says what is wrong with one import, or nothing.
func importBreach(module, name string, may []string, imp string) string {
	if imp == module || strings.HasPrefix(imp, module+"/") {
		if !slices.Contains(may, localName(module, imp)) {
			return "against the one way that imports run"
		}
		return ""
	}
	if strings.Contains(strings.Split(imp, "/")[0], ".") {
		if imp != runtimeModule || name != runtimePackage {
			return fmt.Sprintf("only %s may import a package from outside, and only %s", runtimePackage, runtimeModule)
		}
		return ""
	}
	for _, no := range noLibraryImports() {
		if imp == no || strings.HasPrefix(imp, no+"/") {
			return "a calculation reads no file, clock, random number or machine"
		}
	}
	return ""
}

func localName(module, path string) string {
	return strings.TrimPrefix(strings.TrimPrefix(path, module), "/")
}
