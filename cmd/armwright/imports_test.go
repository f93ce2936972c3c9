package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Arrows go one way, and what is pure stays pure: a folder may import of ours
// only what is listed, and outside cmd nothing touches files or the network.
func TestImportsGoOneWay(t *testing.T) {
	allowed := map[string][]string{
		"geometry": {"geometry"},
		"specs":    {"specs"},
		"solver":   {"solver", "geometry", "specs"},
		"export":   {"export", "solver", "geometry", "specs"},
		"cmd":      {"cmd", "export", "solver", "geometry", "specs"},
	}
	root := filepath.Join("..", "..")
	lines := map[string]int{}
	seen := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, path)
		rel = filepath.ToSlash(rel)
		top, _, _ := strings.Cut(rel, "/")
		if d.IsDir() || !strings.HasSuffix(rel, ".go") || strings.HasSuffix(rel, "_test.go") || allowed[top] == nil {
			return nil
		}
		if strings.HasSuffix(filepath.Dir(path), "test") {
			return nil // support for tests: runs the independent readers and a browser, reads what tests share
		}
		seen++
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		lines[filepath.Dir(rel)] += bytes.Count(text, []byte("\n"))
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, im := range f.Imports {
			name, _ := strconv.Unquote(im.Path.Value)
			if ours, ok := strings.CutPrefix(name, "armwright/"); ok {
				if strings.HasSuffix(ours, "test") || ours == "testdata" || ours == "solver/nlp/testproblems" {
					t.Errorf("%s imports %s, which is for tests", rel, name)
				}
				to, _, _ := strings.Cut(ours, "/")
				fine := false
				for _, a := range allowed[top] {
					fine = fine || a == to
				}
				if !fine {
					t.Errorf("%s imports %s", rel, name)
				}
				if a, b := slices.Index(layers, filepath.ToSlash(filepath.Dir(rel))), slices.Index(layers, ours); a >= 0 && b >= a {
					t.Errorf("%s imports %s", rel, name)
				}
				if strings.HasPrefix(rel, "solver/nlp/") && !strings.HasPrefix(ours, "solver/nlp") {
					t.Errorf("%s imports %s: nlp knows nothing of machines", rel, name)
				}
				continue
			}
			serves := strings.HasPrefix(rel, "export/page/") && (name == "net" || name == "net/http")
			if top != "cmd" && !serves && (name == "os" || name == "net" || strings.HasPrefix(name, "os/") || strings.HasPrefix(name, "net/")) {
				t.Errorf("%s imports %s", rel, name)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen < 50 {
		t.Errorf("only %d files seen", seen)
	}
	page, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	for folder := range lines {
		if strings.HasPrefix(folder, "solver/") && folder != "solver/nlp/testproblems" && !slices.Contains(layers, folder) {
			t.Errorf("%s has no place among the layers of the solver", folder)
		}
	}
	house, _, _ := strings.Cut(string(page), "## Rules")
	for folder, n := range lines {
		if base := folder[strings.LastIndex(folder, "/")+1:]; !strings.Contains(house, base+"/") && !strings.Contains(house, base+":") {
			t.Errorf("DEVELOPERS.md does not name the folder %s", folder)
		}
		if n > mostLines {
			t.Errorf("%s holds %d lines without its tests, at most %d are to be in one package", folder, n, mostLines)
		}
	}
}

// mostLines of a package, without its tests: what a reader can go through.
const mostLines = 4000

// layers are the packages of the solver from the one that knows least: each may
// import only those before it.
var layers = []string{
	"solver/nlp", "solver/require", "solver/drive", "solver/build", "solver/seat", "solver/suppose", "solver/contact", "solver/screen/crush", "solver/screen",
	"solver/judge", "solver/fit", "solver/explain", "solver", "solver/tolerance", "solver/sweep",
}

// The solver hands on data: it knows nobody's units, in which export/words tells them.
func TestSolverWritesNoUnits(t *testing.T) {
	root, seen := filepath.Join("..", "..", "solver"), 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		seen++
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok && slices.Contains([]string{"Reads", "Units", "Metric", "InchPound", "Symbol", "Outside"}, s.Sel.Name) {
				t.Errorf("%s: %s", path, s.Sel.Name)
			}
			return true
		})
		return nil
	})
	if err != nil || seen < 50 {
		t.Errorf("%d files: %v", seen, err)
	}
}
