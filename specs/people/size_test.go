package people

import (
	"errors"
	"io"
	"strings"
	"testing"
)

// endless is a table that never ends: a head, then the same text again and again.
type endless struct {
	head, text string
	at         int
}

func (e *endless) Read(p []byte) (int, error) {
	n := copy(p, e.head)
	if e.head = e.head[n:]; n > 0 {
		return n, nil
	}
	for n < len(p) {
		k := copy(p[n:], e.text[e.at:])
		n, e.at = n+k, (e.at+k)%len(e.text)
	}
	return n, nil
}

// What never ends is told with its line, having read no more than the bounds.
func TestEndlessTables(t *testing.T) {
	const head = "sex,stature_mm,mass_kg\n"
	population := Population{Source: "survey", Carrying: DefaultCarrying(), Age: 40, Women: 0.5}
	most := bounds{table: 4 << 20, row: 64 << 10, rows: 10000}
	for _, c := range []struct {
		name string
		in   io.Reader
		line int
	}{
		{"one line", &endless{text: "x"}, 1},
		{"one row", &endless{head: head, text: "\x00"}, 2},
		{"many persons", &endless{head: head, text: "man,1750,80\n"}, 2 + most.rows},
		{"many rows", &endless{head: head, text: strings.Repeat("x", 60<<10) + "\n"}, 2 + (most.table-len(head))/(60<<10+1)},
	} {
		r, err := newReader("p.csv", c.in, population, 1, most)
		if err == nil {
			for _, e := range r.All() {
				err = e // the last tells
			}
		}
		var size *SizeError
		if !errors.As(err, &size) || size.Line < c.line || size.Line > c.line+1 || size.Hint() == "" {
			t.Errorf("%s: %v, want line %d", c.name, err, c.line)
		}
	}
}
