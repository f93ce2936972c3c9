//go:build !linux

package storage

import "errors"

// swap exchanges two paths in one step, which this system cannot.
func swap(_, _ string) error { return errors.ErrUnsupported }

// Mounted is not known here; the rename will tell.
func Mounted(string) bool { return false }
