//go:build !js

// Package pagetest opens pages in a headless browser, for tests: Chromium,
// driven by playwright-core, with axe-core looking for what keeps people out. A
// test that asks for a browser which is not installed is skipped, or fails if
// ARMWRIGHT_READERS=required is set.
package pagetest

import (
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"armwright/export/readertest"
)

//go:embed look.cjs
var look string

//go:embed overlapping.js
var overlapping string

//go:embed patience.js
var patience string

// Versions of what drives the browser, those that .ci/run installs.
const advice = "install Debian's chromium and npm install -g playwright-core@1.65.1 axe-core@4.14.1, or set ARMWRIGHT_CHROMIUM and NODE_PATH"

// longest is what a script may take, every wait in it being shorter: the longest plays
// with the page for a minute on an idle machine.
const longest = 10 * time.Minute

// Run runs a script for Node, which finds playwright-core and axe-core as
// modules, the browser's program in ARMWRIGHT_CHROMIUM, what lies on what of a page
// by the function overlapping, and an end to its waits by the function awaits, and reads
// what it prints as JSON into result. A script that fails fails the test.
func Run(t testing.TB, result any, script string, args ...string) {
	t.Helper()
	modules, browser := installed(t)
	ctx, cancel := context.WithTimeout(t.Context(), longest)
	defer cancel()
	c := exec.CommandContext(ctx, "node", append([]string{"-", "--"}, args...)...)
	c.WaitDelay = 10 * time.Second // for what the browser's processes hold open
	c.Stdin = strings.NewReader(patience + overlapping + script)
	c.Env = append(os.Environ(), "NODE_PATH="+modules, "ARMWRIGHT_CHROMIUM="+browser)
	var talk strings.Builder
	c.Stderr = &talk
	out, err := c.Output()
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		err = errors.Join(err, ctx.Err())
	}
	if err != nil {
		t.Fatalf("browser: %v\n%s%s", err, out, talk.String())
	}
	if err := json.Unmarshal(out, result); err != nil {
		t.Fatalf("browser: %v\n%.500s", err, out)
	}
}

// installed finds the modules and the browser.
func installed(t testing.TB) (modules, browser string) {
	t.Helper()
	absent := func(what string) {
		if os.Getenv(readertest.Requirement) == "required" {
			t.Fatalf("%s is not there: %s", what, advice)
		}
		t.Skipf("%s is not there: %s", what, advice)
	}
	if modules = os.Getenv("NODE_PATH"); modules == "" {
		root, err := exec.Command("npm", "root", "-g").Output()
		if err != nil {
			absent("npm")
		}
		modules = strings.TrimSpace(string(root))
	}
	for _, name := range []string{"playwright-core", "axe-core"} {
		if _, err := os.Stat(filepath.Join(modules, name)); err != nil {
			absent(name)
		}
	}
	name := os.Getenv("ARMWRIGHT_CHROMIUM")
	if name == "" {
		name = "chromium"
	}
	browser, err := exec.LookPath(name)
	if err != nil {
		absent("chromium")
	}
	return modules, browser
}

// View is a page as it came out at one width, in one colour scheme.
type View struct {
	Width    int
	Scheme   string // light, dark
	Overflow int    // px by which the page is wider than its window
	Errors   []string
	Abroad   []string  // requests that left the machine
	Overlaps []string  // texts and controls that lie on one another
	Findings []Finding // of axe-core
}

// Finding is one rule of axe-core that a page breaks.
type Finding struct {
	ID, Impact, Help string
	Nodes            []string
}

// Grave says whether the finding keeps somebody out.
func (f Finding) Grave() bool { return f.Impact == "serious" || f.Impact == "critical" }

// Look opens an address, of a file or of this machine, at 1280 and 390 px, light
// and dark.
func Look(t testing.TB, address string) []View {
	t.Helper()
	var out []View
	Run(t, &out, look, address)
	return out
}

// Sound looks at an address and reports what nobody should meet: errors,
// requests that leave the machine, grave findings, a page wider than its
// window, texts and controls on one another.
func Sound(t testing.TB, address string) {
	t.Helper()
	for _, v := range Look(t, address) {
		Judge(t, v)
	}
}

// Judge reports what nobody should meet of one view.
func Judge(t testing.TB, v View) {
	t.Helper()
	for _, e := range v.Errors {
		t.Errorf("%d px, %s: %s", v.Width, v.Scheme, e)
	}
	for _, e := range v.Abroad {
		t.Errorf("%d px, %s: asks for %s", v.Width, v.Scheme, e)
	}
	for _, e := range v.Overlaps {
		t.Errorf("%d px, %s: %s", v.Width, v.Scheme, e)
	}
	if v.Overflow > 0 {
		t.Errorf("%d px, %s: the page is %d px wider than its window", v.Width, v.Scheme, v.Overflow)
	}
	for _, f := range v.Findings {
		if f.Grave() {
			const most = 5 // places told of many
			t.Errorf("%d px, %s: %s, %s: %s at %s", v.Width, v.Scheme, f.Impact, f.ID, f.Help, strings.Join(f.Nodes[:min(most, len(f.Nodes))], ", "))
		}
	}
}
