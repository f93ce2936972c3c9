package specs

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
)

// rowReader reads a file of columns, which comma, semicolon or tab separate; lines that
// begin with # say nothing.
type rowReader struct{ *csv.Reader }

func newRowReader(data []byte) rowReader {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma = separatorOf(data)
	// Space before a field is none of it, unless it is a tab that separates.
	r.Comment, r.TrimLeadingSpace, r.FieldsPerRecord = '#', r.Comma != '\t', -1
	return rowReader{r}
}

// next is the next row, nil at the end, or why it cannot be read.
func (r rowReader) next() ([]string, *placed) {
	row, err := r.Read()
	var syntax *csv.ParseError
	switch {
	case err == nil:
		return row, nil
	case errors.Is(err, io.EOF):
		return nil, nil
	case errors.As(err, &syntax):
		return nil, &placed{place{syntax.Line, max(syntax.Column, 1)}, fault{syntax.Err.Error(), "write plain words and numbers without quotes"}}
	}
	return nil, &placed{place{1, 1}, fault{err.Error(), ""}}
}

// at is the place of a field of the row read last.
func (r rowReader) at(field int) (p place) {
	p.line, p.column = r.FieldPos(field)
	return p
}

// separatorOf is what separates the columns of a file, by its first line that is no
// comment: comma, semicolon or tab.
func separatorOf(data []byte) rune {
	for line := range bytes.Lines(data) {
		if text := bytes.TrimSpace(line); len(text) == 0 || text[0] == '#' {
			continue
		}
		for _, sep := range []rune{'\t', ';'} {
			if bytes.ContainsRune(line, sep) {
				return sep
			}
		}
		break
	}
	return ','
}
