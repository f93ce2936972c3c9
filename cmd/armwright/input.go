package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"armwright/cmd/armwright/storage"
	"armwright/solver"
	"armwright/specs"
)

// largestInput is far above any brief or frame; more is a mistaken file.
const largestInput = 4 << 20

// readInput reads a file, or stdin for "-". The label stands for it in
// messages; origin tells where such a file comes from.
func readInput(s *streams, name, origin string) (label string, data []byte, err error) {
	label, in := name, s.in
	if name == "-" {
		label = "stdin"
	} else {
		s.reads(name)
		f, err := os.Open(name)
		if err != nil {
			return label, nil, unreadable(name, origin, err)
		}
		defer f.Close()
		in = f
	}
	data, err = io.ReadAll(io.LimitReader(in, largestInput+1))
	switch {
	case err != nil:
		return label, nil, unreadable(label, origin, err)
	case len(data) > largestInput:
		return label, nil, &specs.Problems{List: []specs.Problem{{File: label, Line: 1, Column: 1,
			Message: fmt.Sprintf("the file is larger than %d MB", largestInput>>20), Hint: origin}}}
	}
	return label, data, nil
}

// readBrief reads a brief, and the files that it may name. The label
// stands for it in messages, data is its text.
func readBrief(s *streams, name string) (label string, data []byte, b specs.Brief, err error) {
	if label, data, err = readInput(s, name, "a first brief comes from: armwright new > brief.yaml"); err != nil {
		return label, data, b, err
	}
	if b, err = specs.ParseBrief(label, data); err == nil {
		err = withFiles(s, name, &b)
	}
	return label, data, b, err
}

// readFrame reads a frame, as readBrief reads a brief.
func readFrame(s *streams, name string) (label string, data []byte, f specs.Frame, err error) {
	if label, data, err = readInput(s, name, "a frame comes from: armwright design BRIEF --out DIR"); err == nil {
		f, err = specs.ParseFrame(label, data)
	}
	return label, data, f, err
}

func unreadable(name, origin string, err error) error {
	return &failure{code: exitFailed, what: "cannot read " + name, why: storage.Reason(err), hint: origin}
}

// sameFile says whether two names lead to one file.
func sameFile(a, b string) bool {
	first, err := os.Stat(a)
	if err != nil {
		return false
	}
	second, err := os.Stat(b)
	return err == nil && os.SameFile(first, second)
}

// placed gives an error of the solver its place in the file that it comes from,
// where it has one.
func placed(label string, data []byte, err error) error {
	if about, ok := solver.Fault(err); ok {
		return specs.Locate(label, data, about)
	}
	return err
}

// unsolved says what a solver's error means for the file it came from: an
// input that describes no possible station is invalid, anything else is a
// failure to run.
func unsolved(label string, err error) error {
	if errors.Is(err, context.Canceled) {
		return err
	}
	if about, ok := solver.Fault(err); ok {
		return &failure{code: exitInvalid, what: label, why: err, hint: about.Hint}
	}
	return &failure{code: exitFailed, what: label, why: err}
}

// openFolder checks that a folder may be written, which must hold no input.
func openFolder(s *streams, path string, force bool) (*storage.Folder, error) {
	return storage.OpenFolder(s.disk, s.inputs, path, force)
}

// openDocument starts a file, which is no input.
func openDocument(s *streams, name, mark string, force bool) (*storage.Document, error) {
	for _, input := range s.inputs {
		if sameFile(name, input) {
			return nil, usage("name another file", "%s is what is read; it cannot be written too", name)
		}
	}
	return storage.OpenDocument(s.disk, name, mark, force)
}
