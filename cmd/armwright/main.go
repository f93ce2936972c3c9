// Command armwright turns a brief into the geometry of a seated arm-flexion
// station, its shop drawings, cut files and report.
package main

import "os"

func main() { os.Exit(run(system(), os.Args[1:])) }
