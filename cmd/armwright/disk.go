package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"armwright/cmd/armwright/storage"
)

// document is a single file on its way: it is written beside its place and
// takes it in one rename. Until commit nothing is to be seen; discard leaves
// nothing. A device or a pipe is written straight.
type document struct {
	disk   storage.Disk
	name   string // as the user wrote it
	path   string // symbolic links resolved
	temp   string // folder beside it; empty when written straight
	writer io.WriteCloser
}

// openDocument starts a file, which may replace one: an empty one, one of ours,
// whose text begins with mark, or any by force. An input is never replaced.
func openDocument(s *streams, name, mark string, force bool) (*document, error) {
	d := s.disk
	f := &document{disk: d, name: name, path: name}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, f.failed(err)
	case info.IsDir():
		return nil, f.failed(errors.New("it is a folder"))
	default:
		if f.path, err = filepath.EvalSymlinks(name); err != nil {
			return nil, f.failed(err)
		}
		for _, input := range s.inputs {
			if sameFile(name, input) {
				return nil, usage("name another file", "%s is what is read; it cannot be written too", name)
			}
		}
		if info.Mode().IsRegular() && !force && !begins(name, mark) {
			return nil, &failure{code: exitFailed, what: "cannot write " + name, why: errors.New("it exists, and armwright did not write it"), hint: "name another file, or replace it with --force"}
		}
	}
	path := f.path
	if info == nil || info.Mode().IsRegular() {
		if f.temp, err = d.MkdirTemp(filepath.Dir(f.path), storage.TempPattern); err != nil {
			return nil, f.failed(err)
		}
		path = f.next()
	}
	if f.writer, err = d.Create(path); err != nil {
		f.discard()
		return nil, f.failed(err)
	}
	return f, nil
}

// begins tells whether a file is empty or begins with a text, of a binary glTF file
// after its header of magic, version and lengths.
func begins(name, text string) bool {
	const glbHeader = 20
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	start, err := io.ReadAll(io.LimitReader(f, int64(len(text)+glbHeader)))
	if strings.HasPrefix(string(start), "glTF") && len(start) > glbHeader {
		start = start[glbHeader:]
	}
	return err == nil && (len(start) == 0 || strings.HasPrefix(string(start), text))
}

// openNew starts a file that must not be there yet.
func openNew(s *streams, name string) (*document, error) {
	if _, err := os.Lstat(name); err == nil {
		return nil, &failure{code: exitFailed, what: "cannot write " + name, why: errors.New("it exists"), hint: "choose another name, or remove it first"}
	}
	return openDocument(s, name, "", false)
}

// finish writes what a file holds and puts it in its place.
func (f *document) finish(data []byte) error {
	defer f.discard()
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.commit()
}

// Write writes to what will be the file.
func (f *document) Write(p []byte) (int, error) {
	n, err := f.writer.Write(p)
	if err != nil {
		err = f.failed(err)
	}
	return n, err
}

func (f *document) next() string { return filepath.Join(f.temp, "new") }

// commit puts the file in its place.
func (f *document) commit() error {
	defer f.discard()
	writer := f.writer
	f.writer = nil
	err := writer.Close()
	if err == nil && f.temp != "" {
		err = f.disk.Sync([]string{f.next()})
	}
	if err == nil && f.temp != "" {
		if _, there := os.Stat(f.path); there == nil {
			err = f.disk.Keep(f.path, f.next())
		}
	}
	if err == nil && f.temp != "" {
		err = f.disk.Rename(f.next(), f.path)
	}
	if err != nil {
		return f.failed(err)
	}
	return nil
}

// discard removes what is temporary.
func (f *document) discard() {
	if f.writer != nil {
		_ = f.writer.Close()
		f.writer = nil
	}
	if f.temp != "" {
		_ = f.disk.RemoveAll(f.temp)
	}
}

func (f *document) failed(err error) error {
	return &failure{code: exitFailed, what: "cannot write " + f.name, why: reason(err), hint: writeHint(err)}
}

// writeHint says what to do about an error of writing.
func writeHint(err error) string {
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
