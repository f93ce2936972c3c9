package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// goPackage is one package as the Go command lists it.
type goPackage struct {
	path, dir string
	files     []string // without its tests
}

func goList(ctx context.Context, patterns []string) ([]goPackage, error) {
	out, err := exec.CommandContext(ctx, "go", append([]string{"list", "-json=ImportPath,Dir,GoFiles,TestGoFiles,XTestGoFiles"}, patterns...)...).Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	var list []goPackage
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var p struct {
			ImportPath, Dir                    string
			GoFiles, TestGoFiles, XTestGoFiles []string
		}
		if err := d.Decode(&p); err != nil {
			return nil, err
		}
		if len(p.TestGoFiles)+len(p.XTestGoFiles) > 0 { // what no test could notice is told by the package's absence
			list = append(list, goPackage{p.ImportPath, p.Dir, p.GoFiles})
		}
	}
	return list, nil
}

// mutant is one change: the text between two offsets of a file is replaced.
type mutant struct {
	pkg      goPackage
	file     string
	in       string // function it is in
	line     int
	from, to int
	was, now string
	nth      int // of its kind in the function, from 1
}

// key names a change by what it does and where, without line numbers, so that it
// stays the same while the file around it changes.
func (m mutant) key() string {
	return fmt.Sprintf("%s/%s %s: %s -> %s (%d)", strings.TrimPrefix(m.pkg.path, "armwright/"), filepath.Base(m.file), m.in, m.was, m.now, m.nth)
}

func (m mutant) String() string {
	return fmt.Sprintf("%s/%s:%d %s: %s -> %s", strings.TrimPrefix(m.pkg.path, "armwright/"), filepath.Base(m.file), m.line, m.in, m.was, m.now)
}

// apply is the changed file.
func (m mutant) apply() ([]byte, error) {
	text, err := os.ReadFile(m.file)
	if err != nil {
		return nil, err
	}
	return slices.Concat(text[:m.from], []byte(m.now), text[m.to:]), nil
}

// mutants lists every change of a package's files, in their order.
func mutants(p goPackage) ([]mutant, error) {
	var all []mutant
	for _, name := range p.files {
		path := filepath.Join(p.dir, name)
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		fset := token.NewFileSet()
		file, err := parser.ParseFile(fset, path, text, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		for _, d := range file.Decls {
			c := changer{pkg: p, path: path, text: text, fset: fset, in: nameOf(d), seen: map[string]int{}}
			if !prose(c.in) {
				ast.Inspect(d, c.visit)
			}
			all = append(all, c.list...)
		}
	}
	return all, nil
}

// nameOf is a function's name with its receiver's type, or "var".
func nameOf(d ast.Decl) string {
	f, ok := d.(*ast.FuncDecl)
	if !ok {
		return "var"
	}
	if f.Recv != nil && len(f.Recv.List) > 0 {
		t := f.Recv.List[0].Type
		if star, ok := t.(*ast.StarExpr); ok {
			t = star.X
		}
		if id, ok := t.(*ast.Ident); ok {
			return id.Name + "." + f.Name.Name
		}
	}
	return f.Name.Name
}

// prose reports whether a function makes words only.
func prose(name string) bool {
	_, method, _ := strings.Cut(name, ".")
	return method == "Error" || method == "Hint" || method == "String" || method == "Unwrap"
}

// changer collects the changes of one declaration.
type changer struct {
	pkg  goPackage
	path string
	text []byte
	fset *token.FileSet
	in   string
	seen map[string]int
	list []mutant
}

// swaps are operators and what stands in for each.
var swaps = map[token.Token]token.Token{
	token.ADD: token.SUB, token.SUB: token.ADD, token.MUL: token.QUO, token.QUO: token.MUL,
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
	token.EQL: token.NEQ, token.NEQ: token.EQL, token.LAND: token.LOR, token.LOR: token.LAND,
	token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
	token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN,
	token.INC: token.DEC, token.DEC: token.INC,
}

// twins are functions that are easily taken for one another.
var twins = map[string]string{
	"math.Sin": "math.Cos", "math.Cos": "math.Sin", "math.Min": "math.Max", "math.Max": "math.Min",
	"min": "max", "max": "min", "math.Floor": "math.Ceil", "math.Ceil": "math.Floor",
	"r2.Add": "r2.Sub", "r2.Sub": "r2.Add", "r3.Add": "r3.Sub", "r3.Sub": "r3.Add",
	"slices.Min": "slices.Max", "slices.Max": "slices.Min",
}

func (c *changer) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok == token.VAR || n.Tok == token.CONST
	case *ast.CallExpr:
		name := c.at(n.Fun.Pos(), n.Fun.End())
		if strings.HasPrefix(name, "fmt.") || strings.HasPrefix(name, "errors.") || name == "panic" {
			return false // words
		}
		if now, ok := twins[name]; ok {
			c.put(n.Fun.Pos(), n.Fun.End(), now, name+"("+c.brief(n.Args)+")")
		}
		if len(n.Args) == 2 && !commutes(name) && c.alike(n.Args[0], n.Args[1]) {
			a, b := c.at(n.Args[0].Pos(), n.Args[0].End()), c.at(n.Args[1].Pos(), n.Args[1].End())
			c.put(n.Args[0].Pos(), n.Args[1].End(), b+", "+a, "")
		}
	case *ast.BinaryExpr:
		if now, ok := swaps[n.Op]; ok && !c.words(n) {
			c.put(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), now.String(), c.shown(n))
		}
	case *ast.UnaryExpr:
		if n.Op == token.SUB || n.Op == token.NOT {
			c.put(n.OpPos, n.OpPos+1, "", c.shown(n))
		}
	case *ast.AssignStmt:
		if now, ok := swaps[n.Tok]; ok {
			c.put(n.TokPos, n.TokPos+2, now.String(), c.shown(n))
		}
	case *ast.IncDecStmt:
		if now, ok := swaps[n.Tok]; ok {
			c.put(n.TokPos, n.TokPos+2, now.String(), c.shown(n))
		}
	case *ast.ExprStmt: // a call for what it does
		if _, ok := n.X.(*ast.CallExpr); ok {
			c.put(n.Pos(), n.End(), "", c.shown(n))
		}
	case *ast.BasicLit:
		if now := another(n); now != "" {
			c.put(n.Pos(), n.End(), now, "")
		}
	case *ast.Ident:
		switch n.Name {
		case "true":
			c.put(n.Pos(), n.End(), "false", "")
		case "false":
			c.put(n.Pos(), n.End(), "true", "")
		}
	case *ast.ImportSpec, *ast.Field:
		return false
	}
	return true
}

// commutes reports whether a function does not mind the order of its arguments.
func commutes(name string) bool {
	switch _, last, _ := strings.Cut(name, "."); last {
	case "Dot", "Min", "Max", "Hypot", "Add", "Distance", "Equal":
		return true
	}
	switch name {
	case "min", "max", "near", "distance", "together":
		return true
	}
	return false
}

// another is a number that stands in for a literal, empty for none: the next whole
// one, or twice as much.
func another(n *ast.BasicLit) string {
	switch n.Kind {
	case token.INT:
		if v, err := strconv.ParseInt(n.Value, 0, 64); err == nil {
			return strconv.FormatInt(v+1, 10)
		}
	case token.FLOAT:
		if v, err := strconv.ParseFloat(n.Value, 64); err == nil && v != 0 {
			return strconv.FormatFloat(2*v, 'g', -1, 64)
		}
	}
	return ""
}

// alike reports whether two arguments look as if they could be mistaken: two names or
// fields, not literals.
func (c *changer) alike(a, b ast.Expr) bool {
	name := func(e ast.Expr) bool {
		switch e.(type) {
		case *ast.Ident, *ast.SelectorExpr, *ast.IndexExpr:
			return true
		}
		return false
	}
	return name(a) && name(b)
}

// words reports whether an expression joins texts.
func (c *changer) words(n *ast.BinaryExpr) bool {
	for _, e := range []ast.Expr{n.X, n.Y} {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING && n.Op == token.ADD {
			return true
		}
		if in, ok := e.(*ast.BinaryExpr); ok && in.Op == token.ADD && n.Op == token.ADD && c.words(in) {
			return true
		}
	}
	return false
}

// put notes a change. Shown is more of the source than is replaced, to tell it by.
func (c *changer) put(from, to token.Pos, now, shown string) {
	a, b := c.fset.Position(from), c.fset.Position(to)
	m := mutant{pkg: c.pkg, file: c.path, in: c.in, line: a.Line, from: a.Offset, to: b.Offset, was: string(c.text[a.Offset:b.Offset]), now: now}
	told := m
	if shown != "" {
		told.was = shown + " : " + told.was
	}
	told.was, told.now = flat(told.was), flat(told.now)
	if told.now == "" {
		told.now = "nothing"
	}
	c.seen[told.was+told.now]++
	told.nth = c.seen[told.was+told.now]
	c.list = append(c.list, mutant{m.pkg, m.file, m.in, m.line, m.from, m.to, told.was, m.now, told.nth})
}

func (c *changer) at(from, to token.Pos) string {
	return string(c.text[c.fset.Position(from).Offset:c.fset.Position(to).Offset])
}

func (c *changer) shown(n ast.Node) string { return c.at(n.Pos(), n.End()) }

func (c *changer) brief(args []ast.Expr) string {
	if len(args) == 0 {
		return ""
	}
	return c.at(args[0].Pos(), args[len(args)-1].End())
}

// flat is a text on one line, of a length to be read.
func flat(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	const longest = 90
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "…"
	}
	return s
}
