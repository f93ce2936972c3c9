//go:build !unix

package main

import "os"

// windowColumns is how wide a terminal is, 0 where nobody can be asked.
func windowColumns(*os.File) int { return 0 }
