//go:build unix

package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// windowColumns asks a terminal how wide it is, 0 if it does not say.
func windowColumns(f *os.File) int {
	size, err := unix.IoctlGetWinsize(int(f.Fd()), unix.TIOCGWINSZ)
	if err != nil {
		return 0
	}
	return int(size.Col)
}
