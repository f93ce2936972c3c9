//go:build !unix

package storage

import "io/fs"

// keepOwner has nothing to keep where files have no owner of this kind.
func keepOwner(fs.FileInfo, string) {}
