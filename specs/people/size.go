package people

import (
	"fmt"
	"io"
)

// Bounds on a table of measured persons, so that a compressed file or a device
// that never ends is told and not read for ever. A row with every dimension takes
// some 200 bytes.
const (
	largestTable = 256 << 20 // bytes, of a compressed table once unpacked
	longestRow   = 64 << 10  // bytes
	mostRows     = 1_000_000 // persons; the largest surveys of bodies have some ten thousand
)

// bounds are those of one reader.
type bounds struct{ table, row, rows int }

// SizeError says that a table is larger than is read.
type SizeError struct {
	File string
	Line int // counted from 1
	What string
}

func (e *SizeError) Error() string { return fmt.Sprintf("%s:%d:1: %s", e.File, e.Line, e.What) }

// Hint says what to do about it.
func (e *SizeError) Hint() string {
	return "a table is lines of text, a person a line; split a larger one"
}

// bounded reads a table within the bounds.
type bounded struct {
	most             bounds
	in               io.Reader
	file             string
	total, row, rows int // bytes read, of the row under way; rows before it
}

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.in.Read(p)
	for i, c := range p[:n] {
		b.row++
		if c == '\n' {
			b.row, b.rows = 0, b.rows+1
		}
		if b.row > b.most.row {
			return i, &SizeError{b.file, b.rows + 1, fmt.Sprintf("a row of more than %d kB", b.most.row>>10)}
		}
	}
	if b.total += n; b.total > b.most.table {
		return n, &SizeError{b.file, b.rows + 1, fmt.Sprintf("the table is larger than %d MB", b.most.table>>20)}
	}
	return n, err
}
