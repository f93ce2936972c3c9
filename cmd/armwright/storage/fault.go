package storage

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

// Fault is what keeps a file or folder from being written: "what: why", and what to do
// about it.
type Fault struct {
	what string
	why  error
	hint string
}

func (f *Fault) Error() string { return f.what + ": " + f.why.Error() }

func (f *Fault) Unwrap() error { return f.why }

// Hint says what to do.
func (f *Fault) Hint() string { return f.hint }

// Unwritable is the fault of an error of writing to what has a name.
func Unwritable(name string, err error) *Fault {
	return &Fault{"cannot write to " + name, Reason(err), Advice(err)}
}

// Reason is an error of the file system without operation and path, which the
// message names already.
func Reason(err error) error {
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

// Advice says what to do about an error of writing.
func Advice(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return "make room, or write to another disk"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "choose a folder you may write to"
	case errors.Is(err, fs.ErrNotExist):
		return "name a folder that exists"
	}
	return "choose another folder"
}
