package main

import (
	"fmt"
	"io"
	"time"
)

// patience is how long a run may take before it has to say what it is doing.
const patience = 500 * time.Millisecond

// progress is one line on a terminal, rewritten in place.
type progress struct {
	w     io.Writer
	on    bool
	start time.Time
	shown bool
}

func newProgress(w io.Writer, on bool) *progress {
	return &progress{w: w, on: on, start: time.Now()}
}

const (
	rewrite   = "\r"
	eraseLine = "\x1b[K"
)

func (p *progress) show(format string, args ...any) {
	if !p.on || time.Since(p.start) < patience {
		return
	}
	p.shown = true
	fmt.Fprint(p.w, rewrite+fmt.Sprintf(format, args...)+eraseLine)
}

// clear removes the line.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.w, rewrite+eraseLine)
	}
}
