package measure

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"armwright/export/dxf"
)

// FileError says that a file of the folder is missing or cannot be read.
type FileError struct {
	Path         string
	Missing      bool // not there, or closed to us; otherwise not in its format
	Line, Column int  // where it departs from its format, counted from 1; 0 when missing
	Err          error
	advice       string // what to do, where more is known than the usual
}

func (e *FileError) Error() string { return fmt.Sprintf("measure: %s: %v", e.Path, e.Err) }

// Unwrap is the error of the file system or of the reader.
func (e *FileError) Unwrap() error { return e.Err }

// Hint says what to do.
func (e *FileError) Hint() string {
	switch {
	case e.advice != "":
		return e.advice
	case e.Missing:
		return "give a whole output folder of design, or of check --out"
	}
	return "write the folder anew with design, or save the file as DXF of release 12 or 2000"
}

// reportPath is the report within the folder.
const reportPath = "report.json"

// largestFile is some hundred times the largest file that design writes; more
// would fill the memory before it is refused.
const largestFile = 64 << 20

func read(fsys fs.FS, path string) ([]byte, error) {
	missing := func(err error) error {
		var p *fs.PathError
		if errors.As(err, &p) {
			err = p.Err // the path is named already
		}
		return &FileError{Path: path, Missing: true, Err: err}
	}
	f, err := fsys.Open(path)
	if err != nil {
		return nil, missing(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, largestFile+1))
	switch {
	case err != nil:
		return nil, missing(err)
	case len(data) > largestFile:
		return nil, &FileError{Path: path, Line: 1, Column: 1, Err: fmt.Errorf("larger than %d MB", largestFile>>20)}
	}
	return data, nil
}

// notReport is the error of a report that cannot be used, at its place.
func notReport(data []byte, err error) error {
	e := &FileError{Path: reportPath, Line: 1, Column: 1, Err: err}
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	offset := int64(0)
	switch {
	case errors.As(err, &syntax):
		offset = syntax.Offset
	case errors.As(err, &kind):
		offset, e.Err = kind.Offset, fmt.Errorf("%s: a %s is not what is due", kind.Field, kind.Value)
	}
	before := data[:min(max(offset-1, 0), int64(len(data)))]
	e.Line += bytes.Count(before, []byte("\n"))
	e.Column += len(before) - 1 - bytes.LastIndexByte(before, '\n')
	return e
}

// notDrawing is the error of a drawing that cannot be read, at its line.
func notDrawing(path string, err error) error {
	e := &FileError{Path: path, Line: 1, Column: 1, Err: err}
	var syntax *dxf.SyntaxError
	if errors.As(err, &syntax) {
		e.Line, e.Err, e.advice = syntax.Line, errors.New(syntax.Problem), syntax.Hint
	}
	return e
}
