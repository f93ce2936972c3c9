//go:build !linux

package main

import "errors"

// swap exchanges two paths in one step, which this system cannot.
func swap(_, _ string) error { return errors.ErrUnsupported }

// mounted is not known here; the rename will tell.
func mounted(string) bool { return false }
