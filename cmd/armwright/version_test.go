package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"strings"
	"testing"
)

// The latest numbered release of the change log is the one that reports carry.
func TestVersionIsTheChangeLogs(t *testing.T) {
	log, err := os.ReadFile("../../CHANGELOG.md")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^## (\d+\.\d+\.\d+)$`).FindSubmatch(log)
	if m == nil || string(m[1]) != version {
		t.Errorf("the change log has %q, the program %s", m, version)
	}
}

// The commit is told where the build recorded it, with what was changed since, and
// never in what names the program in files. Pseudo-versions as https://go.dev/ref/mod
// has them.
func TestRevision(t *testing.T) {
	vcs := func(modified string) []debug.BuildSetting {
		return []debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.modified", Value: modified}}
	}
	for _, c := range []struct {
		main     string
		settings []debug.BuildSetting
		want     string
	}{
		{"(devel)", nil, ""},
		{"", nil, ""},
		{"(devel)", vcs("false"), " (0123456789ab)"},
		{"v0.2.1-0.20261129210638-0123456789ab+dirty", vcs("true"), " (0123456789ab with changes)"},
		{"v0.0.0-20191109021931-daa7c04131f5", nil, " (daa7c04131f5)"},
		{"v1.2.4-0.20191109021931-daa7c04131f5", nil, " (daa7c04131f5)"},
		{"v1.2.3-pre.0.20191109021931-daa7c04131f5+dirty", nil, " (daa7c04131f5 with changes)"},
		{"v0.2.0", nil, " (v0.2.0)"},
	} {
		info := &debug.BuildInfo{Main: debug.Module{Path: "armwright", Version: c.main}, Settings: c.settings}
		if got := revisionOf(info); got != c.want {
			t.Errorf("%s, %v: %q, want %q", c.main, c.settings, got, c.want)
		}
	}
	if program() != "armwright "+version {
		t.Errorf("files name the program %q", program())
	}
}

// A build from a clone names the commit by itself.
func TestVersionOfAClone(t *testing.T) {
	if os.Getenv("ARMWRIGHT_LONG") == "" {
		t.Skip("builds the program: with ARMWRIGHT_LONG=1")
	}
	git := func(args ...string) string {
		out, err := exec.Command("git", args...).Output()
		if err != nil {
			t.Skipf("git %v: %v", args, err)
		}
		return strings.TrimSpace(string(out))
	}
	dir := t.TempDir()
	clone, program := filepath.Join(dir, "clone"), filepath.Join(dir, "program")
	git("clone", "--quiet", "--no-hardlinks", git("rev-parse", "--show-toplevel"), clone)
	build := exec.Command("go", "build", "-o", program, "./cmd/armwright")
	build.Dir, build.Env = clone, append(os.Environ(), "GOFLAGS=-mod=readonly") // as without settings of this machine
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	out, err := exec.Command(program, "version").Output()
	if commit := git("-C", clone, "rev-parse", "--short=12", "HEAD"); err != nil || !strings.Contains(string(out), "("+commit+")") {
		t.Errorf("%v: %q does not name %s", err, out, commit)
	}
}
