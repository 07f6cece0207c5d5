package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// floatAllowed lists the files that may use floating point: a path and, after it, the reason.
const floatAllowed = ".ci/float-allowed"

// floatNames are the identifiers that bring binary floating point into a program. They are
// matched whole: float glass is a word of the trade.
func floatNames() []string {
	return []string{
		"float32", "float64", "complex64", "complex128", "Float32", "Float64", "ParseFloat", "FormatFloat", "AppendFloat",
		"NewFloat", "SetFloat64", "NewFromFloat", "NewFromFloat32", "NewFromFloatWithExponent", "InexactFloat64",
	}
}

// checkFloats looks through the library's code, its tests, the examples and the checkers left out.
func checkFloats(fsys fs.FS) ([]string, error) {
	allowed, out, err := readAllowed(fsys)
	if err != nil {
		return nil, err
	}
	used := map[string]bool{}
	err = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != "." && (strings.HasPrefix(d.Name(), ".") || name == "examples" || d.Name() == "testdata") {
				return fs.SkipDir
			}
			return nil
		}
		if path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		src, err := fs.ReadFile(fsys, name)
		if err != nil {
			return err
		}
		found, err := floatUses(name, src)
		if err != nil {
			return err
		}
		if len(found) > 0 && allowed[name] {
			used[name] = true
			return nil
		}
		out = append(out, found...)
		return nil
	})
	for name := range allowed {
		if !used[name] {
			out = append(out, fmt.Sprintf("%s: %s uses no floating point: take its line out", floatAllowed, name))
		}
	}
	slices.Sort(out)
	return out, err
}

func readAllowed(fsys fs.FS) (allowed map[string]bool, breaches []string, err error) {
	text, err := fs.ReadFile(fsys, floatAllowed)
	if err != nil {
		return nil, nil, err
	}
	allowed = map[string]bool{}
	for i, line := range strings.Split(string(text), "\n") {
		f := strings.Fields(line)
		switch {
		case len(f) == 0 || strings.HasPrefix(f[0], "#"):
		case len(f) == 1:
			breaches = append(breaches, fmt.Sprintf("%s:%d: %s has no reason beside it", floatAllowed, i+1, f[0]))
		default:
			allowed[f[0]] = true
		}
	}
	return allowed, breaches, nil
}

// floatUses finds the names of floating point, literals with a point, and what the math package
// computes. Whole numbers pass: powers of ten written 1e9, and the math package's integer limits.
func floatUses(name string, src []byte) ([]string, error) {
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, name, src, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	var out []string
	add := func(n ast.Node, what string) {
		out = append(out, fmt.Sprintf("%s: %s", fset.Position(n.Pos()), what))
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Ident:
			if slices.Contains(floatNames(), n.Name) {
				add(n, n.Name)
			}
		case *ast.BasicLit:
			if n.Kind == token.IMAG || n.Kind == token.FLOAT && strings.ContainsAny(n.Value, ".pP") {
				add(n, n.Value)
			}
		case *ast.SelectorExpr:
			pkg, ok := n.X.(*ast.Ident)
			if !ok {
				break
			}
			if pkg.Name == "math" && !integerLimit(n.Sel.Name) || pkg.Name == "big" && n.Sel.Name == "Float" {
				add(n, pkg.Name+"."+n.Sel.Name)
			}
		}
		return true
	})
	return out, nil
}

func integerLimit(name string) bool {
	return strings.HasPrefix(name, "MaxInt") || strings.HasPrefix(name, "MinInt") || strings.HasPrefix(name, "MaxUint")
}
