package storage

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// swap exchanges two paths in one step, which leaves no moment without either.
// Not every file system can.
func swap(a, b string) error {
	err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOSYS), errors.Is(err, unix.EPERM):
		return errors.ErrUnsupported
	}
	return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
}

// Mounted reports whether a disk, or another folder, is mounted at a path.
func Mounted(path string) bool {
	var stat unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, path, 0, 0, &stat)
	return err == nil && stat.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0
}
