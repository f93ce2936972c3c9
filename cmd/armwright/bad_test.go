package main

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"armwright/cmd/armwright/storage"
	"armwright/testdata"
)

// badCase is one input that must be refused.
type badCase struct {
	name  string
	args  string            // of the command, separated by spaces
	files map[string]string // by path below the working folder
	stdin string
	code  exitCode
	place string                              // file that the message must name with line and column; empty for none
	setup func(t *testing.T) (d storage.Disk) // further preparation; the disk to write on, nil for the machine's
	out   func(t *testing.T) (w io.Writer)    // stdout, nil for a buffer
}

// TestBadInputs runs every bad input through the whole command. Each must be
// refused with its exit code, a message on stderr that names the place where
// a file is at fault, and a hint; stdout stays empty and no file appears,
// vanishes or changes. The messages themselves stand in testdata/bad.golden.
func TestBadInputs(t *testing.T) {
	golden, err := filepath.Abs("testdata/bad.golden")
	if err != nil {
		t.Fatal(err)
	}
	cases := slices.Concat(badBytes(), badYAML(), badKeys(), badQuantities(), badRelations(), badFrames(t),
		badPersons(t), badCurves(), badUsage(), badOutputs(t), badDrawings())
	if len(cases) < 150 {
		t.Errorf("only %d bad inputs", len(cases))
	}
	var told strings.Builder
	seen := map[string]bool{}
	// Each is a run of the command: without the long switch every third.
	few := !*update && !testdata.IsLong()
	for i, c := range cases {
		if seen[c.name] {
			t.Errorf("%s: there are two of this name", c.name)
		}
		seen[c.name] = true
		if few && i%3 != 0 {
			continue
		}
		fmt.Fprintf(&told, "# %s\n$ armwright %s\n", c.name, c.args)
		t.Run(c.name, func(t *testing.T) {
			code, stderr := c.run(t)
			fmt.Fprintf(&told, "exit %d\n%s\n", code, stderr)
		})
	}
	if *update {
		if err := os.WriteFile(golden, []byte(told.String()), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	compareCases(t, told.String(), string(want), few)
}

var namedPlace = regexp.MustCompile(`^([^:\s]+):[1-9][0-9]*:[1-9][0-9]*: .`)

// mayGrow are lists in messages that get longer with the program.
var mayGrow = regexp.MustCompile(`(keys here:|allowed:|it needs|kinds are|examples are|there is one of) .*`)

// run runs the case in a folder of its own and checks what all have in common.
func (c badCase) run(t *testing.T) (exitCode, string) {
	t.Chdir(t.TempDir())
	for path, text := range c.files {
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	s, stdout, stderr := testStreams(c.stdin)
	if c.setup != nil {
		if d := c.setup(t); d != nil {
			s.disk = d
		}
	}
	if c.out != nil {
		s.out = c.out(t)
	}
	before := snapshot(t)
	code := exitCode(run(s, strings.Fields(c.args)))
	if code != c.code {
		t.Errorf("exit %d, want %d", code, c.code)
	}
	if stdout.Len() != 0 {
		t.Errorf("stdout: %s", stdout)
	}
	if after := snapshot(t); after != before {
		t.Errorf("files before:\n%safter:\n%s", before, after)
	}
	text := mayGrow.ReplaceAllString(stderr.String(), "$1 …")
	if place := namedPlace.FindStringSubmatch(text); c.place != "" && (place == nil || place[1] != c.place) {
		t.Errorf("no line and column of %s in: %s", c.place, text)
	}
	if !strings.Contains(text, "hint: ") {
		t.Errorf("no hint in: %s", text)
	}
	if i := strings.IndexFunc(text, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' }); i >= 0 {
		t.Errorf("a control character reaches the terminal: %q", text)
	}
	for _, word := range []string{"panic", "runtime error", "goroutine", "%!", "<nil>"} {
		if strings.Contains(text, word) {
			t.Errorf("%q in: %s", word, text)
		}
	}
	return code, text
}

// snapshot lists the files below the working folder with what they hold.
func snapshot(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%s %s", d.Type(), path)
		if d.Type().IsRegular() {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			fmt.Fprintf(&b, " %s", storage.Digest(data))
		}
		b.WriteByte('\n')
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// compareCases tells which cases say something else than they did.
func compareCases(t *testing.T, got, want string, few bool) {
	split := func(text string) map[string]string {
		byName := map[string]string{}
		for _, c := range strings.Split("\n"+text, "\n# ") {
			name, said, _ := strings.Cut(c, "\n")
			byName[name] = said
		}
		return byName
	}
	now, then := split(got), split(want)
	for name := range then {
		if _, ok := now[name]; !ok && !few {
			t.Errorf("%s: stands in the golden file only", name)
		}
	}
	for name, said := range now {
		if said != then[name] {
			t.Errorf("%s:\n%s\nwant\n%s", name, said, then[name])
		}
	}
	if !few && !t.Failed() && !bytes.Equal([]byte(got), []byte(want)) {
		t.Error("the cases stand in another order; run with -update")
	}
}
