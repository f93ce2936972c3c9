package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"armwright/specs"
	"armwright/specs/wording"
)

// exitCode is what the process tells its caller.
type exitCode int

const (
	exitMet         exitCode = 0
	exitFailed      exitCode = 1
	exitUsage       exitCode = 2
	exitInvalid     exitCode = 3
	exitNotMet      exitCode = 4
	exitStopped     exitCode = 5
	exitDrift       exitCode = 6
	exitInterrupted exitCode = 130
)

// exitCodes lists every code with its meaning.
func exitCodes() []struct {
	code    exitCode
	meaning string
} {
	return []struct {
		code    exitCode
		meaning string
	}{
		{exitMet, "done; every requirement is met"},
		{exitFailed, "could not run: a file or folder, or the machine itself"},
		{exitUsage, "the command line is wrong"},
		{exitInvalid, "the brief or frame is not valid; nothing was written"},
		{exitNotMet, "requirements are not met, or conflict; the report is written all the same"},
		{exitStopped, "stopped early by --time-limit; the best station so far is written"},
		{exitDrift, "drawings do not measure up to the report"},
		{exitInterrupted, "interrupted; nothing was written, but the rows of a sweep that were done"},
	}
}

// failure is an error with its place in the exit codes: "what: why" and what
// to do about it.
type failure struct {
	code exitCode
	what string
	why  error
	hint string
}

func (f *failure) Error() string {
	if f.why == nil {
		return f.what
	}
	return f.what + ": " + f.why.Error()
}

func (f *failure) Unwrap() error { return f.why }

// unmet ends a command whose output says already that requirements are not
// met; nothing more is printed.
var errUnmet = errors.New("requirements are not met")

// errDrift ends a command whose output lists already what does not measure up.
var errDrift = errors.New("drawings do not measure up to the report")

// usage makes a usage error.
func usage(hint, format string, args ...any) error {
	return &failure{code: exitUsage, what: fmt.Sprintf(format, args...), hint: hint}
}

// quantity reads a flag's value, what names the command and the flag.
func quantity(what, text string, kind specs.Kind) (float64, error) {
	v, err := specs.ParseQuantity(text, kind)
	var q *specs.QuantityError
	if errors.As(err, &q) {
		return 0, usage(cmp.Or(q.Hint, "a number with its unit; armwright show units lists them"), "%s: %s", what, q.Message)
	}
	return v, err
}

// codeOf is the one place where an error becomes an exit code.
func codeOf(err error) exitCode {
	var f *failure
	var p *specs.Problems
	switch {
	case err == nil:
		return exitMet
	case errors.Is(err, errUnmet):
		return exitNotMet
	case errors.Is(err, errDrift):
		return exitDrift
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	case errors.As(err, &f):
		return f.code
	case errors.As(err, &p):
		return exitInvalid
	}
	return exitFailed
}

// explain prints an error for people.
func explain(w io.Writer, err error) {
	var p *specs.Problems
	switch {
	case err == nil, errors.Is(err, errUnmet), errors.Is(err, errDrift):
		return
	case errors.Is(err, context.Canceled) && !errors.As(err, new(*interrupted)):
		fmt.Fprintln(w, "armwright: interrupted; nothing was written")
		return
	case errors.As(err, &p):
		fmt.Fprintln(w, p)
		fmt.Fprintf(w, "armwright: %s: %s\n", wording.Printable(fileOf(p)), count(len(p.List), "problem"))
		return
	}
	fmt.Fprintln(w, "armwright: "+wording.Printable(err.Error()))
	if hint := hintOf(err); hint != "" {
		fmt.Fprintln(w, "hint: "+hint)
	}
}

// hintOf is what an error says to do, from the outermost error that knows.
func hintOf(err error) string {
	var f *failure
	if errors.As(err, &f) && f.hint != "" {
		return f.hint
	}
	var h interface{ Hint() string }
	if errors.As(err, &h) {
		return h.Hint()
	}
	return ""
}

func fileOf(p *specs.Problems) string {
	if len(p.List) == 0 {
		return "input"
	}
	return p.List[0].File
}

// count writes a number with its noun.
func count(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

// sentence joins words as people list them.
func sentence(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}

// interrupted is a study stopped by its user; what is done is kept.
type interrupted struct {
	kept, of int
	where    string // empty for stdout
}

func (e *interrupted) Error() string {
	return fmt.Sprintf("interrupted after %d of %s", e.kept, count(e.of, "design"))
}

func (*interrupted) Unwrap() error { return context.Canceled }

// Hint says how to go on.
func (e *interrupted) Hint() string {
	if e.where == "" {
		return "with --out FILE the same command goes on where it was stopped"
	}
	return "the same command goes on from there"
}
