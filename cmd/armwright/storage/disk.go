// Package storage is where the command writes: the disk that takes its folders
// and files, and the manifest by which an earlier output is known.
package storage

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"syscall"
)

// Disk is what the command asks of the file system when it writes. Everything
// that is written goes through it, so that a test can let any operation fail.
type Disk interface {
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

// Machine is the disk of the machine.
type Machine struct{}

func (Machine) MkdirTemp(dir, pattern string) (string, error) { return os.MkdirTemp(dir, pattern) }
func (Machine) MkdirAll(path string) error                    { return os.MkdirAll(path, 0o777) }
func (Machine) Create(path string) (io.WriteCloser, error)    { return os.Create(path) }

// Sync asks for all files at once, which a file system puts into a few writes:
// the 38 files of a station take 15 ms on a virtual disk, one after another 35,
// of a second that designing takes. So an output has reached the disk before it
// takes its place, and a disk that learns late that it is full, as one over a
// network does, is heard of while the earlier output still stands. Folders are
// not asked for: a power cut right after may bring the earlier output back.
func (Machine) Sync(paths []string) error {
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
func (Machine) Keep(from, to string) error {
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

func (Machine) Rename(from, to string) error { return os.Rename(from, to) }
func (Machine) Swap(a, b string) error       { return swap(a, b) }
func (Machine) Remove(path string) error     { return os.Remove(path) }
func (Machine) RemoveAll(path string) error  { return os.RemoveAll(path) }

// TempPattern names the hidden folders in which output is prepared. Only a
// process that was killed leaves one behind.
const TempPattern = ".armwright-"

// WriteFile writes a file that is not there yet.
func WriteFile(d Disk, path string, data []byte) error {
	f, err := d.Create(path)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}
