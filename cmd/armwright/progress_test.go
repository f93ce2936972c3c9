package main

import (
	"bytes"
	"testing"
	"time"
)

// Progress keeps quiet at first, off a terminal, and cleans up after itself.
func TestProgress(t *testing.T) {
	var b bytes.Buffer
	p := newProgress(&streams{err: &b, progress: true}, false)
	p.show("too early")
	p.clear()
	if b.Len() != 0 {
		t.Errorf("%q within %s", b.String(), patience)
	}
	p.start = p.start.Add(-patience)
	p.show("iteration %d", 3)
	p.show("too soon to be read")
	p.clear()
	if want := "\riteration 3, 1 s\x1b[K\r\x1b[K"; b.String() != want {
		t.Errorf("got %q, want %q", b.String(), want)
	}
	for _, p := range []*progress{newProgress(&streams{err: &b}, false), newProgress(&streams{err: &b, progress: true}, true)} {
		b.Reset()
		p.start = p.start.Add(-patience)
		p.show("iteration 3")
		p.clear()
		if b.Len() != 0 {
			t.Errorf("%q off a terminal, or asked to be quiet", b.String())
		}
	}
}

// A quarter done in a minute leaves three; what is not known is not told; a narrow
// terminal gets a line that it can rewrite.
func TestProgressPart(t *testing.T) {
	for _, c := range []struct {
		took    time.Duration
		share   float64
		columns int
		want    string
	}{
		{time.Minute, 0.25, 0, "judged 10 persons, 25 %, 3 min left"},
		{12 * time.Second, 0.8, 0, "judged 10 persons, 80 %, 3 s left"},
		{10 * time.Second, 0, 0, "judged 10 persons"},
		{2 * time.Minute, 0.01, 0, "judged 10 persons, 1 %, 3.3 h left"},
		{time.Minute, 0.25, 20, "judged 10 persons, "},
	} {
		var b bytes.Buffer
		p := newProgress(&streams{err: &b, progress: true, columns: c.columns}, false)
		p.start = p.start.Add(-c.took)
		p.part(c.share, "judged %d persons", 10)
		if want := "\r" + c.want + "\x1b[K"; b.String() != want {
			t.Errorf("got %q, want %q", b.String(), want)
		}
	}
}
