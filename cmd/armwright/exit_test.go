package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
)

// The codes of DESIGN.md 10, through the whole command.
func TestExitCodes(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	study := "armwright: brief/1\nname: Study\nkind: cam-study\nresistance:\n  load: {light: 5 kg, middle: 20 kg, heavy: 40 kg}\n  ratio: 1..1\n"
	met := write("met.yaml", study+"limits: {torque_match: 30 %}\n")
	tight := write("tight.yaml", study+"limits: {torque_match: 0.1 %}\n")
	bad := write("bad.yaml", study+"  loaded: 5\n")
	for _, c := range []struct {
		args []string
		want exitCode
	}{
		{[]string{"design", met, "--out", filepath.Join(dir, "met")}, 0},
		{[]string{"check", filepath.Join(dir, "met", "frame.yaml")}, 0},
		{[]string{"design", tight, "--out", filepath.Join(dir, "tight")}, 4},
		{[]string{"check", filepath.Join(dir, "tight", "frame.yaml")}, 4},
		{[]string{"check", filepath.Join(dir, "tight", "frame.yaml"), "--json"}, 4},
		{[]string{"check", filepath.Join(dir, "tight", "frame.yaml"), "--quiet"}, 4},
		{[]string{"design", bad, "--out", filepath.Join(dir, "bad")}, 3},
		{[]string{"measure", filepath.Join(dir, "tight")}, 0},
		{[]string{"measure", met}, 1},
		{[]string{"check", met}, 3},
		{[]string{"design", filepath.Join(dir, "none.yaml"), "--out", filepath.Join(dir, "none")}, 1},
		{[]string{"design", met, "--out", dir}, 1},
		{[]string{"design", met}, 2},
		{[]string{"desgin"}, 2},
		{[]string{"show", "units"}, 0},
		{[]string{}, 0},
	} {
		s, _, stderr := testStreams("")
		if got := run(s, c.args); exitCode(got) != c.want {
			t.Errorf("%v: exit %d, want %d; stderr %s", c.args, got, c.want, stderr)
		}
	}
}

func TestCodeOf(t *testing.T) {
	for _, c := range []struct {
		err  error
		want exitCode
	}{
		{nil, exitMet},
		{errors.New("disk"), exitFailed},
		{usage("", "no"), exitUsage},
		{fmt.Errorf("reading: %w", &specs.Problems{}), exitInvalid},
		{unsolved("f", &judge.MissingError{Part: "cam", Kind: "arm-pad"}), exitInvalid},
		{unsolved("f", context.Canceled), exitInterrupted},
		{unsolved("f", errors.New("bug")), exitFailed},
		{errUnmet, exitNotMet},
		{errDrift, exitDrift},
		{context.Canceled, exitInterrupted},
		{fmt.Errorf("drawing: %w", context.Canceled), exitInterrupted},
		{&failure{code: exitStopped}, exitStopped},
	} {
		if got := codeOf(c.err); got != c.want {
			t.Errorf("codeOf(%v) = %d, want %d", c.err, got, c.want)
		}
	}
	// Every code that can be returned is in the table, once.
	seen := map[exitCode]int{}
	for _, c := range exitCodes() {
		seen[c.code]++
	}
	for _, code := range []exitCode{0, 1, 2, 3, 4, 5, 6, 130} {
		if seen[code] != 1 {
			t.Errorf("exit code %d is listed %d times", code, seen[code])
		}
	}
}

func TestExplain(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{nil, ""},
		{errUnmet, ""},
		{context.Canceled, "armwright: interrupted; nothing was written\n"},
		{&failure{what: "cannot write to x", why: errors.New("disk full"), hint: "make room"}, "armwright: cannot write to x: disk full\nhint: make room\n"},
		{&failure{what: "no"}, "armwright: no\n"},
		{&specs.Problems{List: []specs.Problem{{File: "b.yaml", Line: 2, Column: 3, Message: "wrong", Hint: "right"}}},
			"b.yaml:2:3: wrong\n  hint: right\narmwright: b.yaml: 1 problem\n"},
		{unsolved("b.yaml", &drive.CamError{}), "armwright: b.yaml: " + (&drive.CamError{}).Error() + "\nhint: " + (&drive.CamError{}).Hint() + "\n"},
	} {
		var b bytes.Buffer
		explain(&b, c.err)
		if b.String() != c.want {
			t.Errorf("explain(%v):\n%s\nwant\n%s", c.err, b.String(), c.want)
		}
		if first, _, _ := strings.Cut(b.String(), "\n"); strings.HasSuffix(first, ".") {
			t.Errorf("%q ends with a full stop", first)
		}
	}
}
