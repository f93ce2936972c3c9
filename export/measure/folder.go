package measure

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strconv"
	"strings"

	"armwright/export/dxf"
	"armwright/export/report"
	"armwright/solver/judge"
)

// Difference is a figure that does not agree.
type Difference struct {
	File      string  // path in the folder
	What      string  // what was measured
	Want      float64 // by the report, or by what is written
	Got       float64 // by measurement; NaN when there is nothing to measure
	Unit      string  // "mm", "deg", "N m", or empty
	Tolerance float64 // largest difference that passes
	Note      string  // instead of figures, when there are none
}

// String is one line: file, what, both figures and the tolerance.
func (d Difference) String() string {
	switch {
	case d.Note != "":
		return d.File + ": " + d.What + ": " + d.Note
	case math.IsNaN(d.Got):
		return fmt.Sprintf("%s: %s: nothing measures %s", d.File, d.What, quantity(d.Want, d.Unit))
	}
	return fmt.Sprintf("%s: %s: %s, should be %s (within %s)", d.File, d.What,
		quantity(d.Got, d.Unit), quantity(d.Want, d.Unit), strconv.FormatFloat(d.Tolerance, 'g', 2, 64))
}

func quantity(x float64, unit string) string {
	return strings.TrimSpace(strconv.FormatFloat(x, 'f', 4, 64) + " " + unit)
}

// Outcome is what came of measuring a folder.
type Outcome struct {
	Files       []string // measured, in the report's order
	Compared    int      // figures compared
	Nothing     bool     // there is no station, so there are no drawings to measure
	Differences []Difference
}

// Agrees reports whether everything measures up.
func (o *Outcome) Agrees() bool { return len(o.Differences) == 0 }

// compare counts a comparison and keeps it if it fails.
func (o *Outcome) compare(file, what, unit string, want, got, tolerance float64) {
	o.Compared++
	if !(math.Abs(got-want) <= tolerance) { // also when nothing was measured
		o.Differences = append(o.Differences, Difference{File: file, What: what, Want: want, Got: got, Unit: unit, Tolerance: tolerance})
	}
}

// check counts a comparison without figures and keeps it, with the note, if it
// fails.
func (o *Outcome) check(ok bool, file, what, note string) {
	if ok {
		o.Compared++
		return
	}
	o.fault(file, what, note)
}

// fault counts a comparison without figures that fails.
func (o *Outcome) fault(file, what, note string) {
	o.Compared++
	o.Differences = append(o.Differences, Difference{File: file, What: what, Got: math.NaN(), Note: note})
}

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

// Folder measures every sheet and cut file that the folder's report lists. A report
// of a brief for which no station could be made lists none: there is nothing to
// measure.
// The error is a *FileError for a file that is missing or cannot be read.
func Folder(fsys fs.FS) (*Outcome, error) {
	data, err := read(fsys, reportPath)
	if err != nil {
		return nil, err
	}
	var rep report.Report
	if err := json.Unmarshal(data, &rep); err != nil {
		return nil, notReport(data, err)
	}
	if rep.Schema != report.Schema {
		return nil, notReport(data, fmt.Errorf("schema %q where %q is due", rep.Schema, report.Schema))
	}
	m := &measurer{report: &rep, drawings: map[string]*dxf.Document{}}
	for _, f := range rep.Files {
		if f.Path == assemblyPath {
			if err := m.readAssembly(fsys); err != nil {
				return nil, err
			}
		}
		if !strings.HasSuffix(f.Path, ".dxf") {
			continue
		}
		data, err := read(fsys, f.Path)
		if err != nil {
			return nil, err
		}
		d, err := dxf.Read(bytes.NewReader(data))
		if err != nil {
			return nil, notDrawing(f.Path, err)
		}
		m.drawings[f.Path] = d
		m.out.Files = append(m.out.Files, f.Path)
	}
	if len(m.out.Files) == 0 && rep.Verdict == string(judge.Infeasible) {
		return &Outcome{Nothing: true}, nil
	}
	if len(m.out.Files) == 0 {
		return nil, notReport(data, errors.New("it lists no drawing"))
	}
	m.run()
	return &m.out, nil
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

// measurer holds the files of one folder.
type measurer struct {
	report   *report.Report
	drawings map[string]*dxf.Document // by path
	assembly *listedAssembly          // nil where the folder has none
	out      Outcome
}

func (m *measurer) run() {
	for _, path := range m.out.Files {
		if strings.HasPrefix(path, "cut/") {
			m.cutFile(path)
		} else {
			m.written(path)
		}
	}
	m.cam()
	m.linkage()
	m.places()
	m.parts()
	m.made()
	m.weldments()
}
