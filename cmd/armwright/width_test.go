package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armwright/export/report/console"
	"armwright/export/terminal"
	"armwright/testdata"
)

// TestColumns: what the environment says goes before what the stream is.
func TestColumns(t *testing.T) {
	file, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	for said, want := range map[string]int{"72": 72, "": 0, "wide": 0, "-3": 0, "0": 0} {
		if got := columns(said, file); got != want {
			t.Errorf("%q: %d columns, want %d", said, got, want)
		}
	}
}

// Every command that prints for people keeps to the terminal, and design and check to
// a screen unless everything is asked for.
func TestKeepsToTheTerminal(t *testing.T) {
	dir := t.TempDir()
	file := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	seated, other := file("seated.yaml", testdata.Frame("arm-pad-station")), file("other.yaml", testdata.Frame("base-too-short"))
	brief := file("brief.yaml", []byte("armwright: brief/1\nname: Bench\nkind: cam-study\nresistance: {load: {light: 5 kg, middle: 20 kg, heavy: 40 kg}}\n"))
	sample := []string{"--sample", "50"}
	for _, columns := range []int{60, 80, 200} {
		for _, c := range []struct {
			args  []string
			short bool // on one screen
			help  bool
		}{
			{append([]string{"check", seated}, sample...), true, false},
			{append([]string{"check", other}, sample...), true, false},
			{append([]string{"check", seated, "--full"}, sample...), false, false},
			{append([]string{"check", seated, "--against", other}, sample...), false, false},
			{[]string{"design", brief, "--out", filepath.Join(dir, "out")}, true, false},
			{[]string{"design", brief, "--full", "--out", filepath.Join(dir, "out")}, false, false},
			{[]string{"tolerance", seated, "--builds", "500"}, false, false},
			{[]string{"show", "people"}, false, false},
			{[]string{"show", "people", "--boundary"}, false, false},
			{[]string{"show", "curves"}, false, false},
			{[]string{"show", "stock"}, false, false},
			{[]string{"show", "requirements"}, false, false},
			{[]string{"show", "units"}, false, false},
			{[]string{"show", "exit-codes"}, false, false},
			{[]string{"help", "requirements"}, false, true},
			{[]string{"help", "check"}, false, true},
			{[]string{"sweep", "--help"}, false, true},
		} {
			s, out, talk := testStreams("")
			s.columns = columns
			if code := run(s, c.args); code != int(exitMet) && code != int(exitNotMet) {
				t.Fatalf("%v: exit %d, %s", c.args, code, talk)
			}
			width := terminal.Width(columns)
			for line := range strings.Lines(out.String()) {
				if strings.HasPrefix(line, "  ") && c.help {
					continue // examples, to be copied, and lists of commands
				}
				if n := terminal.Count(strings.TrimSuffix(line, "\n")); n > width {
					t.Errorf("%v in %d: %d characters: %s", c.args, columns, n, line)
				}
			}
			if n := strings.Count(out.String()+talk.String(), "\n"); c.short && n > console.ShortLines+1 {
				t.Errorf("%v in %d: %d lines:\n%s", c.args, columns, n, out)
			}
		}
	}
}
