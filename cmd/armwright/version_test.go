package main

import (
	"os"
	"regexp"
	"runtime/debug"
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
// never in what names the program in files.
func TestRevision(t *testing.T) {
	for _, c := range []struct {
		settings []debug.BuildSetting
		want     string
	}{
		{nil, ""},
		{[]debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.modified", Value: "false"}}, " (0123456789ab)"},
		{[]debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.modified", Value: "true"}}, " (0123456789ab with changes)"},
	} {
		if got := revisionOf(c.settings); got != c.want {
			t.Errorf("%v: %q, want %q", c.settings, got, c.want)
		}
	}
	if program() != "armwright "+version {
		t.Errorf("files name the program %q", program())
	}
}
