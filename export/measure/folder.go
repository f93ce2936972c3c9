package measure

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"armwright/export/dxf"
	"armwright/export/report"
	"armwright/solver/judge"
)

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
			if m.assembly, err = readAssembly(fsys); err != nil {
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

// run measures all that there is.
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
