// Command apidocs holds the library to its documentation: every exported identifier has a doc
// comment, every package a package comment, and nearly every exported function and method an
// Example whose output is compared.
//
//	go run ./.ci/apidocs [-root DIR]
//
// It prints what is missing and the share of functions and methods with an Example, and exits 1
// where a comment is missing or the share is below the limit. Examples count by the names that
// go vet and go doc know (ExampleF, ExampleT_M, each with an optional _suffix), and only with
// output to compare: without it, go test compiles them but never runs them.
package main

import (
	"flag"
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
)

// leastPercent is the share of exported functions and methods that need a runnable Example.
const leastPercent = 95

func main() {
	root := flag.String("root", ".", "folder of the module")
	flag.Parse()
	r, err := check(os.DirFS(*root))
	if err != nil {
		fmt.Fprintln(os.Stderr, "apidocs:", err)
		os.Exit(2)
	}
	fmt.Print(r)
	if !r.ok() {
		os.Exit(1)
	}
}

// report is what one look over a module found.
type report struct {
	packages     int
	undocumented []string // places without a doc comment
	callables    int      // exported functions and methods
	withoutDemo  []string // those of them without a runnable Example
}

func (r report) ok() bool {
	shown := r.callables - len(r.withoutDemo)
	return r.packages > 0 && len(r.undocumented) == 0 && shown*100 >= leastPercent*r.callables
}

func (r report) String() string {
	var b strings.Builder
	for _, u := range r.undocumented {
		fmt.Fprintf(&b, "no doc comment: %s\n", u)
	}
	for _, w := range r.withoutDemo {
		fmt.Fprintf(&b, "no Example with output: %s\n", w)
	}
	shown, percent := r.callables-len(r.withoutDemo), "none to show"
	if r.callables > 0 {
		// Tenths are cut, not rounded: 94.96 is below the limit and must not read as 95.0.
		tenths := shown * 1000 / r.callables
		percent = fmt.Sprintf("%d.%d %%, at least %d %% wanted", tenths/10, tenths%10, leastPercent)
	}
	fmt.Fprintf(&b, "%d packages, %d exported identifiers without a doc comment\n", r.packages, len(r.undocumented))
	fmt.Fprintf(&b, "%d of %d exported functions and methods have a runnable Example (%s)\n", shown, r.callables, percent)
	return b.String()
}

// check reads every package below the root of fsys. Folders that the go command skips are
// skipped here too; a command (package main) only needs its package comment.
func check(fsys fs.FS) (report, error) {
	var r report
	err := fs.WalkDir(fsys, ".", func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if dir != "." && (strings.HasPrefix(d.Name(), ".") || strings.HasPrefix(d.Name(), "_") || d.Name() == "testdata") {
			return fs.SkipDir
		}
		return r.addDir(fsys, dir)
	})
	return r, err
}

func (r *report) addDir(fsys fs.FS, dir string) error {
	names, err := fs.Glob(fsys, path.Join(dir, "*.go"))
	if err != nil {
		return err
	}
	fset := token.NewFileSet()
	var files []*ast.File
	hasCode := false
	for _, name := range names {
		src, err := fs.ReadFile(fsys, name)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(fset, name, src, parser.ParseComments)
		if err != nil {
			return err
		}
		files = append(files, f)
		hasCode = hasCode || !strings.HasSuffix(name, "_test.go")
	}
	if !hasCode {
		return nil
	}
	p, err := doc.NewFromFiles(fset, files, dir)
	if err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}
	r.addPackage(fset, p)
	return nil
}

func (r *report) addPackage(fset *token.FileSet, p *doc.Package) {
	r.packages++
	if p.Doc == "" {
		r.undocumented = append(r.undocumented, fmt.Sprintf("%s: package %s", p.ImportPath, p.Name))
	}
	if p.Name == "main" {
		return
	}
	c := collector{report: r, fset: fset, pkg: p.Name}
	c.values(p.Consts)
	c.values(p.Vars)
	c.funcs("", p.Funcs)
	for _, t := range p.Types {
		c.need(t.Doc, t.Decl.Pos(), t.Name)
		c.typeMembers(t)
		c.values(t.Consts)
		c.values(t.Vars)
		c.funcs("", t.Funcs)
		c.funcs(t.Name, t.Methods)
	}
}

// collector adds the findings of one package to the report.
type collector struct {
	*report
	fset *token.FileSet
	pkg  string
}

func (c collector) need(text string, pos token.Pos, name string) {
	if strings.TrimSpace(text) == "" {
		c.undocumented = append(c.undocumented, fmt.Sprintf("%s: %s.%s", c.fset.Position(pos), c.pkg, name))
	}
}

// values asks for a comment on a group of constants or variables, or on each of its lines.
func (c collector) values(groups []*doc.Value) {
	for _, g := range groups {
		if strings.TrimSpace(g.Doc) != "" {
			continue
		}
		for _, s := range g.Decl.Specs {
			v, ok := s.(*ast.ValueSpec)
			if !ok {
				continue
			}
			for _, n := range v.Names {
				if n.IsExported() {
					c.need(v.Doc.Text()+v.Comment.Text(), n.Pos(), n.Name)
				}
			}
		}
	}
}

func (c collector) funcs(typeName string, funcs []*doc.Func) {
	for _, f := range funcs {
		name := f.Name
		if typeName != "" {
			name = typeName + "." + f.Name
		}
		c.need(f.Doc, f.Decl.Pos(), name)
		c.callables++
		if !slices.ContainsFunc(f.Examples, func(e *doc.Example) bool { return e.Output != "" }) {
			c.withoutDemo = append(c.withoutDemo, fmt.Sprintf("%s: %s.%s", c.fset.Position(f.Decl.Pos()), c.pkg, name))
		}
	}
}

// typeMembers asks for a comment on each exported field of a struct, at any depth, and on each
// method that an interface lists. An embedded type has its own comment where it is declared.
func (c collector) typeMembers(t *doc.Type) {
	for _, s := range t.Decl.Specs {
		spec, ok := s.(*ast.TypeSpec)
		if !ok {
			continue
		}
		c.members(spec.Type, t.Name)
	}
}

func (c collector) members(expr ast.Expr, name string) {
	ast.Inspect(expr, func(n ast.Node) bool {
		var list *ast.FieldList
		switch n := n.(type) {
		case *ast.StructType:
			list = n.Fields
		case *ast.InterfaceType:
			list = n.Methods
		case *ast.FuncType:
			return false // parameters are told of in the comment above
		default:
			return true
		}
		for _, f := range list.List {
			for _, id := range f.Names {
				if id.IsExported() {
					c.need(f.Doc.Text()+f.Comment.Text(), id.Pos(), name+"."+id.Name)
				}
			}
		}
		return true
	})
}
