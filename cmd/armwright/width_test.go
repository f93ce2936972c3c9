package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"armwright/export/report/console"
	"armwright/export/terminal"
	"armwright/testdata"

	"github.com/spf13/cobra"
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
	type command struct {
		args  []string
		short bool // on one screen
	}
	pages := []command{{[]string{"help"}, false}} // the help of every command
	var under func(c *cobra.Command, path []string)
	under = func(c *cobra.Command, path []string) {
		for _, sub := range c.Commands() {
			own := append(slices.Clone(path), sub.Name())
			pages = append(pages, command{append([]string{"help"}, own...), false})
			under(sub, own)
		}
	}
	none, _, _ := testStreams("")
	root := newRoot(none)
	root.InitDefaultCompletionCmd()
	under(root, nil)
	for _, columns := range testdata.Few(1, 60, 80, 200) {
		for _, c := range append([]command{
			{append([]string{"check", seated}, sample...), true},
			{append([]string{"check", other}, sample...), true},
			{append([]string{"check", seated, "--full"}, sample...), false},
			{append([]string{"check", seated, "--against", other}, sample...), false},
			{[]string{"design", brief, "--out", filepath.Join(dir, "out")}, true},
			{[]string{"design", brief, "--full", "--out", filepath.Join(dir, "out")}, false},
			{[]string{"tolerance", seated, "--builds", "500"}, false},
			{[]string{"show", "people"}, false},
			{[]string{"show", "people", "--boundary"}, false},
			{[]string{"show", "curves"}, false},
			{[]string{"show", "stock"}, false},
			{[]string{"show", "requirements"}, false},
			{[]string{"show", "units"}, false},
			{[]string{"show", "exit-codes"}, false},
		}, pages...) {
			s, out, talk := testStreams("")
			s.columns = columns
			if code := run(s, c.args); code != int(exitMet) && code != int(exitNotMet) {
				t.Fatalf("%v: exit %d, %s", c.args, code, talk)
			}
			width := terminal.Width(columns)
			for line := range strings.Lines(out.String()) {
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
