package storage

import (
	"context"
	"io"
	"path/filepath"
	"slices"
	"sync"
)

// Tidy is a disk that knows the temporary folders on it, so that a command
// which is left in the middle of its work leaves none of them behind.
type Tidy struct {
	Disk
	mu   sync.RWMutex // held for reading while an operation goes on
	left bool
	list struct {
		sync.Mutex
		temps []string
	}
}

// NewTidy returns a disk that writes to another.
func NewTidy(d Disk) *Tidy { return &Tidy{Disk: d} }

// Leave lets operations under way come to their end, forbids all others and
// removes what is temporary; not an earlier output that has just been moved there.
func (d *Tidy) Leave() {
	d.mu.Lock()
	d.left = true
	d.mu.Unlock()
	for _, path := range d.list.temps {
		_ = d.Disk.RemoveAll(filepath.Join(path, "new"))
		_ = d.Disk.Remove(path) // only what is empty
	}
}

// do carries out an operation, unless the command was left.
func (d *Tidy) do(operation func() error) error {
	d.mu.RLock()
	defer d.mu.RUnlock()
	if d.left {
		return context.Canceled
	}
	return operation()
}

func (d *Tidy) MkdirTemp(dir, pattern string) (path string, err error) {
	err = d.do(func() error {
		if path, err = d.Disk.MkdirTemp(dir, pattern); err == nil {
			d.list.Lock()
			d.list.temps = append(d.list.temps, path)
			d.list.Unlock()
		}
		return err
	})
	return path, err
}

// RemoveAll forgets a temporary folder that its command has removed itself.
func (d *Tidy) RemoveAll(path string) error {
	return d.do(func() error {
		err := d.Disk.RemoveAll(path)
		if err == nil {
			d.list.Lock()
			d.list.temps = slices.DeleteFunc(d.list.temps, func(p string) bool { return p == path })
			d.list.Unlock()
		}
		return err
	})
}

func (d *Tidy) Create(path string) (w io.WriteCloser, err error) {
	err = d.do(func() error {
		w, err = d.Disk.Create(path)
		return err
	})
	return w, err
}

func (d *Tidy) MkdirAll(path string) error {
	return d.do(func() error { return d.Disk.MkdirAll(path) })
}
func (d *Tidy) Sync(paths []string) error {
	return d.do(func() error { return d.Disk.Sync(paths) })
}
func (d *Tidy) Keep(from, to string) error {
	return d.do(func() error { return d.Disk.Keep(from, to) })
}
func (d *Tidy) Rename(from, to string) error {
	return d.do(func() error { return d.Disk.Rename(from, to) })
}
func (d *Tidy) Swap(a, b string) error { return d.do(func() error { return d.Disk.Swap(a, b) }) }
func (d *Tidy) Remove(path string) error {
	return d.do(func() error { return d.Disk.Remove(path) })
}
