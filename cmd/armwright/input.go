package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
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
		return label, nil, &failure{code: exitInvalid, what: fmt.Sprintf("%s: larger than %d MB; this is no brief or frame", label, largestInput>>20)}
	}
	return label, data, nil
}

func unreadable(name, origin string, err error) error {
	f := &failure{code: exitFailed, what: "cannot read " + name, why: reason(err)}
	if errors.Is(err, fs.ErrNotExist) {
		f.hint = origin
	}
	return f
}

// reason is an error of the file system without operation and path, which the
// message names already.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
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
