package draw

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"armwright/export/dxf"
	"armwright/export/pdf"
	"armwright/export/sheet"
	"armwright/export/svg"
	"armwright/solver/fit"
)

// File is a file of the output folder.
type File struct {
	Path string // relative, with slashes: "drawings/03-cam.svg", "cut/cam.dxf"
	Data []byte

	// Thumbnail is a small SVG of what a sheet's SVG shows, nil for other files.
	Thumbnail []byte
}

// Options are the choices in writing files.
type Options struct {
	R12  bool // DXF in the release-12 form AC1009 for old controllers, instead of AC1015
	Nest bool // also one cut file for each thickness of plate with all parts of it
}

func (o Options) version() dxf.Version {
	if o.R12 {
		return dxf.AC1009
	}
	return dxf.AC1015
}

// All writes every sheet as SVG, DXF and PDF, all sheets in one PDF, and the
// cut files, sorted by path. The same result gives the same bytes. Errors are
// those of [Sheets] and [CutFiles], a sheet that cannot be laid out
// (*sheet.Error), what the renderers report, and an *AuditError for a DXF file
// that strict readers would refuse.
func All(r *fit.Result, o Options) ([]File, error) {
	set, err := sheets(r)
	if err != nil {
		return nil, err
	}
	// Sheets do not know of each other, so they are laid out side by side.
	made := make([]rendering, len(set))
	var wait sync.WaitGroup
	for i := range set {
		wait.Go(func() { made[i] = render(&set[i], r.Frame.Name, o) })
	}
	wait.Wait()
	var out []File
	var drawings []*sheet.Drawing
	for _, m := range made {
		if m.err != nil {
			return nil, m.err
		}
		out = append(out, m.files...)
		drawings = append(drawings, m.drawing)
	}
	var all bytes.Buffer
	if err := pdf.Render(&all, r.Frame.Name, drawings...); err != nil {
		return nil, err
	}
	out = append(out, File{Path: "drawings/drawings.pdf", Data: all.Bytes()})
	cut, err := CutFiles(r, o)
	if err != nil {
		return nil, err
	}
	out = append(out, cut...)
	slices.SortFunc(out, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return out, nil
}

// rendering is one sheet in all formats.
type rendering struct {
	drawing *sheet.Drawing
	files   []File
	err     error
}

func render(s *named, station string, o Options) (out rendering) {
	if out.drawing, out.err = s.sheet.Flatten(); out.err != nil {
		return out
	}
	d := out.drawing
	base := fmt.Sprintf("drawings/%02d-%s", s.number, s.slug)
	for _, f := range [...]struct {
		ext   string
		write func(io.Writer) error
	}{
		{".svg", func(w io.Writer) error { return svg.Render(w, d) }},
		{".dxf", func(w io.Writer) error { return dxf.Render(w, d, o.version()) }},
		{".pdf", func(w io.Writer) error { return pdf.Render(w, station+", "+d.Title, d) }},
	} {
		var b bytes.Buffer
		if out.err = f.write(&b); out.err != nil {
			return out
		}
		file := File{Path: base + f.ext, Data: b.Bytes()}
		switch f.ext {
		case ".dxf":
			if file, out.err = audited(file.Path, file.Data); out.err != nil {
				return out
			}
		case ".svg":
			var small bytes.Buffer
			if out.err = svg.Thumbnail(&small, d); out.err != nil {
				return out
			}
			file.Thumbnail = small.Bytes()
		}
		out.files = append(out.files, file)
	}
	return out
}
