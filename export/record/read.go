package record

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
)

// Reader reads the rows of a study back, of either form.
type Reader struct {
	label   string
	in      *bufio.Reader
	line    int
	offset  int64
	head    []byte
	json    bool
	columns []string // of comma-separated values
}

// Row is one design of a study.
type Row struct {
	Line       []byte // as it stands in the file, with its end; valid until the next row
	Design, Of int    // from 1
	Digest     []byte
	names      []string
	cells      []string
}

// Error is a line of a study that cannot be used.
type Error struct {
	File string
	Line int
	Why  string
	hint string
}

func (e *Error) Error() string { return fmt.Sprintf("%s:%d: %s", e.File, e.Line, e.Why) }

// Hint says what to do about it.
func (e *Error) Hint() string { return e.hint }

// ErrCut is a last line without its end: what a run that was killed leaves.
var ErrCut = errors.New("the last line is cut off")

// NewReader starts reading. The label stands for the file in messages. An
// empty file, or one of which the first line is cut off, has no columns and no
// rows.
func NewReader(label string, in io.Reader) (*Reader, error) {
	r := &Reader{label: label, in: bufio.NewReaderSize(in, 1<<16)}
	first, err := r.in.Peek(1)
	if err != nil {
		if errors.Is(err, io.EOF) {
			return r, nil
		}
		return nil, err
	}
	if r.json = first[0] == '{'; r.json {
		return r, nil
	}
	line, err := r.next()
	if errors.Is(err, ErrCut) || errors.Is(err, io.EOF) {
		return r, nil
	} else if err != nil {
		return nil, err
	}
	r.head = slices.Clone(line)
	if r.columns, err = r.split(line); err != nil {
		return nil, err
	}
	if len(r.columns) < len(studyFirst) || !slices.Equal(r.columns[:len(studyFirst)], studyFirst[:]) {
		return nil, r.fault("this is no study", "a study comes from: armwright sweep BRIEF --vary ... --out FILE")
	}
	return r, nil
}

// Head is the first line of comma-separated values, nil where there is none.
func (r *Reader) Head() []byte { return r.head }

// JSON says whether the rows are JSON lines.
func (r *Reader) JSON() bool { return r.json }

// Offset is where the last whole line read ends, bytes from the start.
func (r *Reader) Offset() int64 { return r.offset }

func (r *Reader) fault(why, hint string) error {
	return &Error{File: r.label, Line: r.line, Why: why, hint: hint}
}

// next reads one whole line.
func (r *Reader) next() ([]byte, error) {
	line, err := r.in.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		r.line++
		return nil, r.fault("the line is too long", "this is no study")
	}
	if errors.Is(err, io.EOF) && len(line) > 0 {
		return nil, ErrCut
	}
	if err != nil {
		return nil, err
	}
	r.line++
	r.offset += int64(len(line))
	return line, nil
}

// split cuts a line of comma-separated values.
func (r *Reader) split(line []byte) ([]string, error) {
	cells, err := csv.NewReader(bytes.NewReader(line)).Read()
	if err != nil {
		return nil, r.fault("the line is no row of comma-separated values", "start the study again, or take out the line")
	}
	return cells, nil
}

// Next returns the next row. The error is io.EOF at the end, ErrCut for a last
// line without its end, a *Error for a line that is no row.
func (r *Reader) Next() (Row, error) {
	line, err := r.next()
	if err != nil {
		return Row{}, err
	}
	row := Row{Line: line, names: r.columns}
	if r.json {
		row.names, row.cells, err = flat(line)
		if err != nil {
			return row, r.fault("the line is no JSON object of texts and numbers", "start the study again, or take out the line")
		}
	} else if row.cells, err = r.split(line); err != nil {
		return row, err
	}
	if len(row.cells) < len(studyFirst) {
		return row, r.fault("the line is no design of a study", "start the study again, or take out the line")
	}
	if len(row.cells) != len(row.names) {
		return row, r.fault(fmt.Sprintf("%d cells where %d are due", len(row.cells), len(row.names)), "")
	}
	var bad [3]error
	row.Design, bad[0] = strconv.Atoi(row.cells[0])
	row.Of, bad[1] = strconv.Atoi(row.cells[1])
	row.Digest, bad[2] = hex.DecodeString(row.cells[2])
	if err := errors.Join(bad[:]...); err != nil || row.Design < 1 || row.Design > row.Of {
		return row, r.fault("the line is no design of a study", "start the study again, or take out the line")
	}
	return row, nil
}

// flat reads a JSON object without inner ones, keeping the order of its keys.
func flat(line []byte) (names, cells []string, err error) {
	d := json.NewDecoder(bytes.NewReader(line))
	d.UseNumber()
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return nil, nil, errors.New("no object")
	}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return nil, nil, err
		}
		value, err := d.Token()
		if err != nil {
			return nil, nil, err
		}
		switch v := value.(type) {
		case string:
			cells = append(cells, v)
		case json.Number:
			cells = append(cells, v.String())
		default:
			return nil, nil, fmt.Errorf("%v is neither text nor number", v)
		}
		names = append(names, name.(string)) // a key is one
	}
	_, err = d.Token()
	return names, cells, err
}

// Text is the row's cell of a column, empty where there is none.
func (r *Row) Text(column string) string {
	if i := slices.Index(r.names, column); i >= 0 {
		return r.cells[i]
	}
	return ""
}

// Number is the row's number in a column, NaN where there is none.
func (r *Row) Number(column string) float64 {
	x, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		return math.NaN()
	}
	return x
}

// Varied lists the columns of the values that vary.
func (r *Row) Varied() []string {
	last := slices.Index(r.names, studyMiddle[0])
	if last < len(studyFirst) {
		return nil
	}
	return r.names[len(studyFirst):last]
}
