package main

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"armwright/cmd/armwright/storage"
	"armwright/testdata"
)

// modules asks the Go command for the modules that the program takes on any system, and
// those that its tests take on this one besides, by path, with the folder of each.
func modules(t *testing.T) (program, all map[string]string) {
	t.Helper()
	program = map[string]string{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		maps.Copy(program, modulesFor(t, system))
	}
	all = modulesFor(t, runtime.GOOS, "-test")
	maps.Copy(all, program)
	return program, all
}

func modulesFor(t *testing.T, system string, flags ...string) map[string]string {
	t.Helper()
	args := append(append([]string{"list", "-deps"}, flags...), "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Dir}}{{end}}{{end}}", "./...")
	cmd := exec.Command("go", args...)
	cmd.Dir = filepath.Join("..", "..")
	cmd.Env = append(os.Environ(), "GOOS="+system)
	out, err := cmd.Output()
	if err != nil {
		t.Skipf("the Go command is not at hand: %v", err)
	}
	found := map[string]string{}
	for l := range strings.Lines(string(out)) {
		if path, dir, ok := strings.Cut(strings.TrimSpace(l), " "); ok {
			found[path] = dir
		}
	}
	return found
}

// docs/licences.md lists every module with the licence it has.
func TestLicencesAreListed(t *testing.T) {
	testdata.Long(t)
	program, all := modules(t)
	if len(program) < 5 || len(all) <= len(program) {
		t.Fatalf("%d modules in the program, %d with its tests", len(program), len(all))
	}
	text, err := os.ReadFile(filepath.Join("..", "..", "docs", "licences.md"))
	if err != nil {
		t.Fatal(err)
	}
	// What may be linked in without a condition on armwright itself.
	allowed := []string{"MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "MIT AND Apache-2.0", "CC-BY-4.0", "MPL-2.0"}
	row := regexp.MustCompile(`(?m)^\| (\S+) \| (program|tests) \| ([^|]+) \| (\S+) \| ([0-9a-f]{16}) \|$`)
	listed := map[string]bool{}
	for _, m := range row.FindAllStringSubmatch(string(text), -1) {
		module, use, licence, file, sum := m[1], m[2], m[3], m[4], m[5]
		listed[module] = true
		dir, used := all[module]
		if !used {
			t.Errorf("%s is listed but not used", module)
			continue
		}
		if _, in := program[module]; in != (use == "program") {
			t.Errorf("%s is listed for %s", module, use)
		}
		if !slices.Contains(allowed, licence) {
			t.Errorf("%s: licence %s", module, licence)
		}
		data, err := os.ReadFile(filepath.Join(dir, file))
		if err != nil {
			t.Error(err)
		} else if got := storage.Digest(data)[:len(sum)]; got != sum {
			t.Errorf("%s: %s has changed to %s; read it again", module, file, got)
		}
	}
	for module := range all {
		if !listed[module] {
			t.Errorf("%s is used but not listed", module)
		}
	}
}
