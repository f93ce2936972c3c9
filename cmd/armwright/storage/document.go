package storage

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Document is a single file on its way: it is written beside its place and
// takes it in one rename. Until Commit nothing is to be seen; Discard leaves
// nothing. A device or a pipe is written straight.
type Document struct {
	disk   Disk
	name   string // as the user wrote it
	path   string // symbolic links resolved
	temp   string // folder beside it; empty when written straight
	writer io.WriteCloser
}

// OpenDocument starts a file, which may replace one: an empty one, one of ours,
// whose text begins with mark, or any by force.
func OpenDocument(d Disk, name, mark string, force bool) (*Document, error) {
	f := &Document{disk: d, name: name, path: name}
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
		if info.Mode().IsRegular() && !force && !begins(name, mark) {
			return nil, &Fault{"cannot write " + name, errors.New("it exists, and armwright did not write it"), "name another file, or replace it with --force"}
		}
	}
	path := f.path
	if info == nil || info.Mode().IsRegular() {
		if f.temp, err = d.MkdirTemp(filepath.Dir(f.path), TempPattern); err != nil {
			return nil, f.failed(err)
		}
		path = f.next()
	}
	if f.writer, err = d.Create(path); err != nil {
		f.Discard()
		return nil, f.failed(err)
	}
	return f, nil
}

// begins reports whether a file is empty or begins with a text, of a binary glTF file
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

// NewDocument starts a file that must not be there yet.
func NewDocument(d Disk, name string) (*Document, error) {
	if _, err := os.Lstat(name); err == nil {
		return nil, &Fault{"cannot write " + name, errors.New("it exists"), "choose another name, or remove it first"}
	}
	return OpenDocument(d, name, "", false)
}

// Finish writes what a file holds and puts it in its place.
func (f *Document) Finish(data []byte) error {
	defer f.Discard()
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.Commit()
}

// Write writes to what will be the file.
func (f *Document) Write(p []byte) (int, error) {
	n, err := f.writer.Write(p)
	if err != nil {
		err = f.failed(err)
	}
	return n, err
}

func (f *Document) next() string { return filepath.Join(f.temp, "new") }

// Commit puts the file in its place.
func (f *Document) Commit() error {
	defer f.Discard()
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

// Discard removes what is temporary.
func (f *Document) Discard() {
	if f.writer != nil {
		_ = f.writer.Close()
		f.writer = nil
	}
	if f.temp != "" {
		_ = f.disk.RemoveAll(f.temp)
	}
}

func (f *Document) failed(err error) error {
	return &Fault{"cannot write " + f.name, Reason(err), Advice(err)}
}
