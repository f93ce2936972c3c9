package main

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// mostInCircle is how many files of a package may all lead to one another, each by what
// it uses of another: more cannot be read in any order.
const mostInCircle = 8

// No circle of files is larger than can be read. Other packages are taken as empty,
// so that only what a package says of itself is looked up.
func TestFilesLieInNoLargeCircle(t *testing.T) {
	root, seen := filepath.Join("..", ".."), 0
	for _, top := range []string{"cmd", "export", "geometry", "solver", "specs"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, d os.DirEntry, err error) error {
			if err != nil || !d.IsDir() {
				return err
			}
			if strings.HasSuffix(path, "testdata") {
				return filepath.SkipDir
			}
			circle, err := largestCircle(path)
			if err != nil {
				return err
			}
			seen++
			rel, _ := filepath.Rel(root, path)
			rel = filepath.ToSlash(rel)
			if len(circle) > mostInCircle {
				t.Errorf("%s: %d files lead to one another, at most %d may: %s", rel, len(circle), mostInCircle, strings.Join(circle, " "))
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 30 {
		t.Errorf("only %d folders seen", seen)
	}
}

// empty is an importer to whom every package is there, with nothing in it.
type empty map[string]*types.Package

func (e empty) Import(path string) (*types.Package, error) {
	if e[path] == nil {
		name := path[strings.LastIndex(path, "/")+1:]
		if name == "v2" {
			name = filepath.Base(filepath.Dir(path))
		}
		name = strings.TrimPrefix(name, "go-")
		e[path] = types.NewPackage(path, name)
		e[path].MarkComplete()
	}
	return e[path], nil
}

// largestCircle is the largest set of a folder's files, tests apart, that each use
// something of another up to the first again.
func largestCircle(folder string) ([]string, error) {
	fset := token.NewFileSet()
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
	}
	if len(files) == 0 {
		return nil, nil
	}
	info := &types.Info{Uses: map[*ast.Ident]types.Object{}}
	// What other packages hold is missing, which says nothing; a name of its own must not.
	var lost error
	conf := types.Config{Importer: empty{}, Error: func(err error) {
		if name, ok := strings.CutPrefix(err.(types.Error).Msg, "undefined: "); ok && !strings.Contains(name, ".") {
			lost = errors.Join(lost, err)
		}
	}}
	pkg, err := conf.Check(folder, fset, files, info)
	if pkg == nil {
		return nil, errors.Join(errors.New(folder), err)
	}
	if lost != nil {
		return nil, lost
	}
	file := func(p token.Pos) string { return filepath.Base(fset.Position(p).Filename) }
	leads := map[string]map[string]bool{}
	for id, o := range info.Uses {
		if from, to := file(id.Pos()), file(o.Pos()); o.Pkg() == pkg && from != to {
			if leads[from] == nil {
				leads[from] = map[string]bool{}
			}
			leads[from][to] = true
		}
	}
	reach := map[string]map[string]bool{}
	var walk func(from string, into map[string]bool)
	walk = func(from string, into map[string]bool) {
		for to := range leads[from] {
			if !into[to] {
				into[to] = true
				walk(to, into)
			}
		}
	}
	for from := range leads {
		reach[from] = map[string]bool{}
		walk(from, reach[from])
	}
	var largest []string
	for from := range reach {
		var circle []string
		for to := range reach[from] {
			if reach[to][from] {
				circle = append(circle, to)
			}
		}
		slices.Sort(circle)
		if len(circle) > len(largest) || len(circle) == len(largest) && slices.Compare(circle, largest) < 0 {
			largest = circle
		}
	}
	return largest, nil
}
