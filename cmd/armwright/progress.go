package main

import (
	"fmt"
	"io"
	"time"
)

const (
	// patience is how long a run may take before it has to say what it is doing.
	patience = 500 * time.Millisecond
	// rewriting is how often it says so at most: as often as one can read.
	rewriting = 100 * time.Millisecond
)

// progress is one line on a terminal, rewritten in place.
type progress struct {
	w       io.Writer
	on      bool
	columns int // of the terminal
	start   time.Time
	last    time.Time // when it was written
	shown   bool
}

func newProgress(s *streams, quiet bool) *progress {
	return &progress{w: s.err, on: s.progress && !quiet, columns: s.columns, start: time.Now()}
}

const (
	rewrite   = "\r"
	eraseLine = "\x1b[K"
)

// show says what is being done, with the time that it has taken.
func (p *progress) show(format string, args ...any) {
	if now := time.Now(); p.due(now) {
		p.write(now, fmt.Sprintf(format, args...)+", "+span(now.Sub(p.start)))
	}
}

// part says how much of something is done, from 0 to 1, and how long the rest will take
// at that pace. A share that is not above 0 is not known.
func (p *progress) part(share float64, format string, args ...any) {
	now := time.Now()
	if !p.due(now) {
		return
	}
	said := fmt.Sprintf(format, args...)
	if share > 0 && share <= 1 {
		took := now.Sub(p.start)
		said += fmt.Sprintf(", %.0f %%, %s left", 100*share, span(time.Duration(float64(took)*(1-share)/share)))
	}
	p.write(now, said)
}

func (p *progress) due(now time.Time) bool {
	return p.on && now.Sub(p.start) >= patience && now.Sub(p.last) >= rewriting
}

// write cuts the line to the terminal: one that is broken cannot be rewritten.
func (p *progress) write(now time.Time, s string) {
	if line := []rune(s); p.columns > 1 && len(line) >= p.columns {
		s = string(line[:p.columns-1])
	}
	p.last, p.shown = now, true
	fmt.Fprint(p.w, rewrite+s+eraseLine)
}

// span is a time for people.
func span(d time.Duration) string {
	switch {
	case d < 90*time.Second:
		return fmt.Sprintf("%.0f s", d.Seconds())
	case d < 90*time.Minute:
		return fmt.Sprintf("%.0f min", d.Minutes())
	}
	return fmt.Sprintf("%.1f h", d.Hours())
}

// clear removes the line.
func (p *progress) clear() {
	if p.shown {
		fmt.Fprint(p.w, rewrite+eraseLine)
		p.shown = false
	}
}
