package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"syscall"
)

// disk is what the command asks of the file system when it writes. Everything
// that is written goes through it, so that a test can let any operation fail.
type disk interface {
	MkdirTemp(dir, pattern string) (path string, err error)
	MkdirAll(path string) error
	Create(path string) (io.WriteCloser, error)
	Sync(paths []string) error // what was written is on the disk, not only on its way to it
	Rename(from, to string) error
	Swap(a, b string) error     // in one step, or errors.ErrUnsupported
	Keep(from, to string) error // mode and owner of all that both folders have, as far as one may
	Remove(path string) error
	RemoveAll(path string) error
}

// machine is the disk of the machine.
type machine struct{}

func (machine) MkdirTemp(dir, pattern string) (string, error) { return os.MkdirTemp(dir, pattern) }
func (machine) MkdirAll(path string) error                    { return os.MkdirAll(path, 0o777) }
func (machine) Create(path string) (io.WriteCloser, error)    { return os.Create(path) }

// Sync asks for all files at once, which a file system puts into a few writes:
// the 38 files of a station take 15 ms on a virtual disk, one after another 35,
// of a second that designing takes. So an output has reached the disk before it
// takes its place, and a disk that learns late that it is full, as one over a
// network does, is heard of while the earlier output still stands. Folders are
// not asked for: a power cut right after may bring the earlier output back.
func (machine) Sync(paths []string) error {
	failed := make([]error, len(paths))
	var all sync.WaitGroup
	for i, path := range paths {
		all.Go(func() { failed[i] = flush(path) })
	}
	all.Wait()
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	return nil
}

// flush puts one file on the disk, where its file system can.
func flush(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, f.Close())
}

// Keep gives what is new the mode and owner of what it replaces: of a folder, and of
// every file and folder in it that the earlier one has too. An owner that one may
// not give is left.
func (machine) Keep(from, to string) error {
	return filepath.WalkDir(to, func(path string, _ fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(to, path)
		if err != nil {
			return err
		}
		info, err := os.Lstat(filepath.Join(from, rel))
		if err != nil || !info.IsDir() && !info.Mode().IsRegular() {
			return nil // nothing to keep
		}
		keepOwner(info, path)
		const kept = fs.ModePerm | fs.ModeSetgid | fs.ModeSetuid | fs.ModeSticky
		return os.Chmod(path, info.Mode()&kept)
	})
}

func (machine) Rename(from, to string) error { return os.Rename(from, to) }
func (machine) Swap(a, b string) error       { return swap(a, b) }
func (machine) Remove(path string) error     { return os.Remove(path) }
func (machine) RemoveAll(path string) error  { return os.RemoveAll(path) }

// tempPattern names the hidden folders in which output is prepared. Only a
// process that was killed leaves one behind.
const tempPattern = ".armwright-"

// writeFile writes a file that is not there yet.
func writeFile(d disk, path string, data []byte) error {
	f, err := d.Create(path)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// document is a single file on its way: it is written beside its place and
// takes it in one rename. Until commit nothing is to be seen; discard leaves
// nothing. A device or a pipe is written straight.
type document struct {
	disk   disk
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
		if f.temp, err = d.MkdirTemp(filepath.Dir(f.path), tempPattern); err != nil {
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

// begins tells whether a file is empty or begins with a text.
func begins(name, text string) bool {
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	start, err := io.ReadAll(io.LimitReader(f, int64(len(text))))
	return err == nil && (len(start) == 0 || string(start) == text)
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
