//go:build unix

package storage

import (
	"io/fs"
	"os"
	"syscall"
)

// keepOwner gives a file the owner and group of another, where one may.
func keepOwner(of fs.FileInfo, path string) {
	if stat, ok := of.Sys().(*syscall.Stat_t); ok {
		_ = os.Lchown(path, int(stat.Uid), int(stat.Gid))
	}
}
