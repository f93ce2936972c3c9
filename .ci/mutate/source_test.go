package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Every kind of change is found once, words are left alone, and what is applied is
// the source with that one change.
func TestMutants(t *testing.T) {
	const source = `package p

import "math"

const limit = 2.5

type kind int

func (k kind) String() string { return "a" + "b" }

func f(a, b float64, on bool) float64 {
	if a < b && !on {
		a += 3
		g(a, b)
	}
	return -math.Sin(a) * 2 + h("x" + "y", true)
}
`
	dir := t.TempDir()
	path := filepath.Join(dir, "p.go")
	if err := os.WriteFile(path, []byte(source), 0o666); err != nil {
		t.Fatal(err)
	}
	list, err := mutants(goPackage{path: "armwright/p", dir: dir, files: []string{"p.go"}})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"const limit = 5", "a <= b &&", "a < b || !on", "&& on {", "a -= 3", "a += 4", "g(b, a)", "\t\t\n\t}",
		"return math.Sin(a)", "-math.Cos(a)", "math.Sin(a) / 2", "* 3 +", "* 2 - h(", ", false)",
	}
	for _, m := range list {
		text, err := m.apply()
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(want, func(w string) bool { return strings.Contains(string(text), w) })
		if i < 0 {
			t.Errorf("%v: not expected\n%s", m, text)
			continue
		}
		want = slices.Delete(want, i, i+1)
		if again, err := mutants(goPackage{path: "armwright/p", dir: dir, files: []string{"p.go"}}); err != nil || !slices.ContainsFunc(again, func(o mutant) bool { return o.key() == m.key() }) {
			t.Errorf("%s is no lasting name", m.key())
		}
	}
	if len(want) > 0 {
		t.Errorf("not tried: %q", want)
	}
}

func TestReadExplained(t *testing.T) {
	reasons, err := readExplained("explained.txt")
	if err != nil {
		t.Fatal(err)
	}
	for key, reason := range reasons {
		if reason == "" || !strings.Contains(key, " -> ") {
			t.Errorf("%q # %q", key, reason)
		}
	}
}
