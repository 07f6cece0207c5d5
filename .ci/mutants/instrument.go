package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/format"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// faults are what an operator is mistaken for.
var faults = map[token.Token][]token.Token{
	token.LSS: {token.LEQ, token.GEQ}, token.LEQ: {token.LSS, token.GTR},
	token.GTR: {token.GEQ, token.LEQ}, token.GEQ: {token.GTR, token.LSS},
	token.EQL: {token.NEQ}, token.NEQ: {token.EQL},
	token.ADD: {token.SUB}, token.SUB: {token.ADD},
	token.MUL: {token.QUO}, token.QUO: {token.MUL}, token.REM: {token.MUL},
	token.LAND: {token.LOR}, token.LOR: {token.LAND},
}

// chooser is the file that tells an instrumented package which mutant to be.
const chooser = `package %s

import (
	"os"
	"strconv"
)

var mutant = func() int {
	n, err := strconv.Atoi(os.Getenv("MUTANT"))
	if err != nil {
		return -1
	}
	return n
}()
`

// instrument rewrites the package in a folder so that it holds all its mutants,
// and returns where each is. Files whose name matches skip stay as they are.
func instrument(dir, skip string) ([]string, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	names = slices.DeleteFunc(names, func(n string) bool { return strings.HasSuffix(n, "_test.go") })
	set := token.NewFileSet()
	files := make([]*ast.File, len(names))
	for i, n := range names {
		if files[i], err = parser.ParseFile(set, n, nil, parser.ParseComments); err != nil {
			return nil, err
		}
	}
	// The importer finds the packages of the module from the folder it runs in.
	here, err := os.Getwd()
	if err != nil {
		return nil, err
	}
	if err := os.Chdir(dir); err != nil {
		return nil, err
	}
	defer os.Chdir(here)
	w := writer{set: set, info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}}
	conf := types.Config{Importer: importer.ForCompiler(set, "source", nil)}
	if w.pkg, err = conf.Check(files[0].Name.Name, set, files, w.info); err != nil {
		return nil, err
	}
	for i, f := range files {
		if out, err := filepath.Match(skip, filepath.Base(names[i])); err != nil {
			return nil, err
		} else if out {
			continue
		}
		source, err := os.ReadFile(names[i])
		if err != nil {
			return nil, err
		}
		text, err := format.Source([]byte(w.file(f, source)))
		if err != nil {
			return nil, err
		}
		if err := os.WriteFile(names[i], text, 0o666); err != nil {
			return nil, err
		}
	}
	text := fmt.Sprintf(chooser, w.pkg.Name())
	return w.mutants, os.WriteFile(filepath.Join(dir, "mutant.go"), []byte(text), 0o666)
}

// writer rewrites expressions to calls that hold their mutants.
type writer struct {
	set     *token.FileSet
	info    *types.Info
	pkg     *types.Package
	mutants []string
	named   map[string]bool // the packages that the types written into the file at hand are of
}

// edit is an expression that is rewritten.
type edit struct {
	from, to int // offsets
	expr     *ast.BinaryExpr
	kind     string // its type as written
	first    int    // its first mutant
}

func (w *writer) file(f *ast.File, source []byte) string {
	var edits []edit
	w.named = map[string]bool{}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl:
			return n.Tok != token.CONST
		case *ast.ArrayType:
			return false
		case *ast.BinaryExpr:
			if kind, ok := w.kind(n); ok {
				edits = append(edits, edit{w.offset(n.Pos()), w.offset(n.End()), n, kind, len(w.mutants)})
				at := w.set.Position(n.OpPos)
				for _, fault := range faults[n.Op] {
					w.mutants = append(w.mutants, fmt.Sprintf("%s:%d:%d: %s for %s", filepath.Base(at.Filename), at.Line, at.Column, fault, n.Op))
				}
			}
		}
		return true
	})
	slices.SortFunc(edits, func(a, b edit) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(b.to, a.to)) })
	for _, i := range f.Imports {
		delete(w.named, strings.Trim(i.Path.Value, `"`))
	}
	name := w.offset(f.Name.End())
	head := string(source[:name])
	for _, path := range slices.Sorted(maps.Keys(w.named)) {
		head += fmt.Sprintf("\nimport %q", path)
	}
	return head + w.render(source, name, len(source), edits)
}

func (w *writer) offset(p token.Pos) int { return w.set.Position(p).Offset }

// kind is the type of an expression that has mutants, as its file would write it.
func (w *writer) kind(x *ast.BinaryExpr) (string, bool) {
	value := w.info.Types[x]
	if len(faults[x.Op]) == 0 || value.Value != nil || value.Type == nil {
		return "", false
	}
	kind := types.TypeString(value.Type, func(p *types.Package) string {
		if p == w.pkg {
			return ""
		}
		w.named[p.Path()] = true
		return p.Name()
	})
	if kind == "untyped bool" {
		return "bool", true
	}
	return kind, kind != "string" && !strings.Contains(kind, "untyped")
}

// render writes a stretch of the source with its expressions rewritten, outermost first.
func (w *writer) render(source []byte, from, to int, edits []edit) string {
	var out strings.Builder
	for i := 0; i < len(edits); {
		e := edits[i]
		end := i + 1
		for end < len(edits) && edits[end].from < e.to {
			end++
		}
		inside := edits[i+1 : end]
		operand := func(x ast.Expr) string {
			a, z := w.offset(x.Pos()), w.offset(x.End())
			return w.render(source, a, z, slices.DeleteFunc(slices.Clone(inside), func(c edit) bool { return c.from < a || c.to > z }))
		}
		out.Write(source[from:e.from])
		left, right := operand(e.expr.X), operand(e.expr.Y)
		fmt.Fprintf(&out, "func() %s { ", e.kind)
		for k, fault := range faults[e.expr.Op] {
			fmt.Fprintf(&out, "if mutant == %d { return (%s) %s (%s) }; ", e.first+k, left, fault, right)
		}
		fmt.Fprintf(&out, "return (%s) %s (%s) }()", left, e.expr.Op, right)
		from, i = e.to, end
	}
	out.Write(source[from:to])
	return out.String()
}
