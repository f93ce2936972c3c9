// Command armwright turns a brief into the geometry of a seated arm-flexion
// station, its shop drawings, cut files and report.
package main

import (
	"os"
	"runtime/debug"
)

// memoryPercent is how far the heap may grow, in percent of what is in use, before
// it is collected. So little is in use that at the runtime's 100 a third of the
// time goes into collecting; some tens of MB more buy it back.
const memoryPercent = 800

// memoryLimit, bytes, is above which it is collected all the same, so that a long
// study stays small.
const memoryLimit = 96 << 20

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(memoryPercent)
	}
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
	os.Exit(run(system(), os.Args[1:]))
}
