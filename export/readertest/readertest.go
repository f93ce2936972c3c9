//go:build !js

// Package readertest runs independent readers on the files that export writes,
// for tests. A test that asks for a reader which is not installed is skipped, or
// fails if ARMWRIGHT_READERS=required is set.
package readertest

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Requirement is the environment variable that, set to "required", turns the
// absence of a reader into a failure.
const Requirement = "ARMWRIGHT_READERS"

// Absent skips or fails the test for want of a reader.
func Absent(t testing.TB, reader, advice string) {
	t.Helper()
	if os.Getenv(Requirement) == "required" {
		t.Fatalf("%s is not installed: %s", reader, advice)
	}
	t.Skipf("%s is not installed: %s", reader, advice)
}

// Python returns the Python that has a module, which the package of Debian's
// given name brings.
func Python(t testing.TB, module, debian string) string {
	t.Helper()
	python := os.Getenv("ARMWRIGHT_PYTHON")
	if python == "" {
		python = "/usr/bin/python3"
	}
	probe := "import importlib.util, sys; sys.exit(importlib.util.find_spec('" + module + "') is None)"
	if exec.Command(python, "-c", probe).Run() != nil {
		Absent(t, module, "install the package "+debian+", or set ARMWRIGHT_PYTHON")
	}
	return python
}

// Node returns what a script for Node needs in its environment to find a module.
func Node(t testing.TB, module, version string) []string {
	t.Helper()
	advice := "npm install -g " + module + "@" + version + ", or set NODE_PATH"
	modules := os.Getenv("NODE_PATH")
	if modules == "" {
		root, err := exec.Command("npm", "root", "-g").Output()
		if err != nil {
			Absent(t, module, advice)
		}
		modules = strings.TrimSpace(string(root))
	}
	if _, err := os.Stat(filepath.Join(modules, module)); err != nil {
		Absent(t, module, advice)
	}
	return []string{"NODE_PATH=" + modules}
}

// Run writes data to a temporary file of the given name, and decodes what the
// command, with that file as its last argument, prints about it.
func Run(t testing.TB, data []byte, file string, v any, env []string, name string, args ...string) {
	t.Helper()
	RunAll(t, [][]byte{data}, file, v, env, name, args...)
}

// RunAll is Run with many files, which end the command's arguments.
func RunAll(t testing.TB, files [][]byte, file string, v any, env []string, name string, args ...string) {
	t.Helper()
	for _, data := range files {
		path := filepath.Join(t.TempDir(), file)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	cmd := exec.Command(name, args...)
	cmd.Env = append(os.Environ(), env...)
	out, err := cmd.Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			t.Fatalf("%s: %v: %s", name, err, exit.Stderr)
		}
		t.Fatalf("%s: %v", name, err)
	}
	if err := json.Unmarshal(out, v); err != nil {
		t.Fatalf("%s: %v in %.200q", name, err, out)
	}
}

// Script finds a reader script from the folder of whatever package is tested.
func Script(t testing.TB, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, ".ci", "readers", name)
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the tested package")
		}
		dir = up
	}
}
