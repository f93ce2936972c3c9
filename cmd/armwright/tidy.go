package main

import (
	"context"
	"io"
	"path/filepath"
	"slices"
	"sync"
)

// tidyDisk is a disk that knows the temporary folders on it, so that a command
// which is left in the middle of its work leaves none of them behind.
type tidyDisk struct {
	disk
	mu   sync.RWMutex // held for reading while an operation goes on
	left bool
	list struct {
		sync.Mutex
		temps []string
	}
}

func newTidyDisk(d disk) *tidyDisk { return &tidyDisk{disk: d} }

// leave lets operations under way come to their end, forbids all others and
// removes what is temporary; not an earlier output that has just been moved there.
func (d *tidyDisk) leave() {
	d.mu.Lock()
	d.left = true
	d.mu.Unlock()
	for _, path := range d.list.temps {
		_ = d.disk.RemoveAll(filepath.Join(path, "new"))
		_ = d.disk.Remove(path) // only what is empty
	}
}

// do carries out an operation, unless the command was left.
func (d *tidyDisk) do(operation func() error) error {
	d.mu.RLock()
	defer d.mu.RUnlock()
	if d.left {
		return context.Canceled
	}
	return operation()
}

func (d *tidyDisk) MkdirTemp(dir, pattern string) (path string, err error) {
	err = d.do(func() error {
		if path, err = d.disk.MkdirTemp(dir, pattern); err == nil {
			d.list.Lock()
			d.list.temps = append(d.list.temps, path)
			d.list.Unlock()
		}
		return err
	})
	return path, err
}

// RemoveAll forgets a temporary folder that its command has removed itself.
func (d *tidyDisk) RemoveAll(path string) error {
	return d.do(func() error {
		err := d.disk.RemoveAll(path)
		if err == nil {
			d.list.Lock()
			d.list.temps = slices.DeleteFunc(d.list.temps, func(p string) bool { return p == path })
			d.list.Unlock()
		}
		return err
	})
}

func (d *tidyDisk) Create(path string) (w io.WriteCloser, err error) {
	err = d.do(func() error {
		w, err = d.disk.Create(path)
		return err
	})
	return w, err
}

func (d *tidyDisk) MkdirAll(path string) error {
	return d.do(func() error { return d.disk.MkdirAll(path) })
}
func (d *tidyDisk) Sync(paths []string) error {
	return d.do(func() error { return d.disk.Sync(paths) })
}
func (d *tidyDisk) Keep(from, to string) error {
	return d.do(func() error { return d.disk.Keep(from, to) })
}
func (d *tidyDisk) Rename(from, to string) error {
	return d.do(func() error { return d.disk.Rename(from, to) })
}
func (d *tidyDisk) Swap(a, b string) error { return d.do(func() error { return d.disk.Swap(a, b) }) }
func (d *tidyDisk) Remove(path string) error {
	return d.do(func() error { return d.disk.Remove(path) })
}
