package main

import (
	"io"
	"os"
	"strconv"

	"armwright/cmd/armwright/storage"
)

// streams are where a command reads and writes, and what is on the other side.
//
// The rules of talking to people:
//   - What was asked for goes to stdout, everything else to stderr.
//   - Errors are lower-case without a full stop: "armwright: what: why", then
//     a line "hint: what to do".
//   - Progress is one line, rewritten, on a terminal only, and only after half
//     a second.
//   - Lines are as wide as the terminal, from 60 to 200 characters; 100 where
//     there is none.
//   - Colour on a terminal only, never with NO_COLOR set or TERM=dumb, and it
//     says nothing that the words do not.
type streams struct {
	in       io.Reader
	out, err io.Writer
	colour   bool         // stdout shows colours
	columns  int          // that stdout is wide, 0 where nobody knows
	progress bool         // stderr is a terminal
	disk     storage.Disk // where files are written
	inputs   []string     // files that the command reads, which it must not write over
}

// reads notes a file that the command reads; stdin and no file at all are none.
func (s *streams) reads(names ...string) {
	for _, name := range names {
		if name != "" && name != "-" {
			s.inputs = append(s.inputs, name)
		}
	}
}

// system returns the streams of the process.
func system() *streams {
	plain := os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb"
	return &streams{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		colour:   !plain && isTerminal(os.Stdout),
		columns:  columns(os.Getenv("COLUMNS"), os.Stdout),
		progress: os.Getenv("TERM") != "dumb" && isTerminal(os.Stderr),
		disk:     storage.Machine{},
	}
}

// watched is an output whose errors say which one it is. The first is kept, as
// not all who write look at theirs.
type watched struct {
	w    io.Writer
	name string
	err  error
}

func (o *watched) Write(p []byte) (int, error) {
	n, err := o.w.Write(p)
	if err != nil && o.err == nil {
		o.err = storage.Unwritable(o.name, err)
	}
	return n, o.err
}

// columns is how wide a terminal is: what COLUMNS says, or what the terminal itself
// does; 0 of what is no terminal.
func columns(said string, f *os.File) int {
	if n, err := strconv.Atoi(said); err == nil && n > 0 {
		return n
	}
	if !isTerminal(f) {
		return 0
	}
	return windowColumns(f)
}

func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
