package record

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
)

// Shard is a part of a study: a file of rows with its name.
type Shard struct {
	Name string
	Rows *Reader

	row Row // the next one
	end bool
}

// MergeError says that shards do not make up one study.
type MergeError struct{ what, hint string }

func (e *MergeError) Error() string { return e.what }

// Hint says what to do.
func (e *MergeError) Hint() string { return e.hint }

// RowError is an error of reading a row, with the shard's name.
type RowError struct {
	File string
	Err  error
}

func (e *RowError) Error() string { return e.File + ": " + e.Err.Error() }
func (e *RowError) Unwrap() error { return e.Err }

func (f *Shard) next() error {
	var err error
	f.row, err = f.Rows.Next()
	if errors.Is(err, io.EOF) {
		f.end = true
		return nil
	}
	if err != nil {
		return &RowError{f.Name, err}
	}
	return nil
}

// Merge writes the rows of all shards in the order of their designs: what one run would
// have written. Every design is looked for where it must be next, so that memory stays
// flat. Errors are a *MergeError, a *RowError, or those of writing.
func Merge(shards []*Shard, w io.Writer) error {
	for _, f := range shards {
		if err := f.next(); err != nil {
			return err
		}
		if f.end {
			return &MergeError{f.Name + " holds no design", "wait for its run, or start it again"}
		}
		if first := shards[0]; f.Rows.JSON() != first.Rows.JSON() || !bytes.Equal(f.Rows.Head(), first.Rows.Head()) || f.row.Of != first.row.Of {
			return &MergeError{fmt.Sprintf("%s and %s are of different studies", first.Name, f.Name), "merge the shards of one"}
		}
	}
	out := bufio.NewWriterSize(w, 1<<16)
	_, _ = out.Write(shards[0].Rows.Head()) // the writer keeps an error for Flush
	of, at := shards[0].row.Of, 0
	for design := 1; design <= of; design++ {
		// Shards take turns, so the next design is mostly in the next file.
		found := -1
		for k := range shards {
			i := (at + k) % len(shards)
			if f := shards[i]; !f.end && f.row.Design == design {
				found = i
				break
			}
		}
		if found < 0 {
			return &MergeError{fmt.Sprintf("design %d of %d is missing", design, of), "name every shard; one that was stopped goes on with its own command"}
		}
		f := shards[found]
		_, _ = out.Write(f.row.Line)
		if err := f.next(); err != nil {
			return err
		}
		at = found + 1
	}
	for _, f := range shards {
		if !f.end {
			return &MergeError{fmt.Sprintf("%s: design %d is there twice", f.Name, f.row.Design), "name every shard once"}
		}
	}
	return out.Flush()
}
