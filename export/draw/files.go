package draw

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

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
}

// Options are the choices in writing files.
type Options struct {
	R12 bool // DXF in the release-12 form AC1009 for old controllers, instead of AC1015
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
// (*sheet.Error) and what the renderers report.
func All(r *fit.Result, o Options) ([]File, error) {
	set, err := sheets(r)
	if err != nil {
		return nil, err
	}
	var out []File
	var drawings []*sheet.Drawing
	for _, s := range set {
		d, err := s.sheet.Flatten()
		if err != nil {
			return nil, err
		}
		drawings = append(drawings, d)
		base := fmt.Sprintf("drawings/%02d-%s", s.number, s.slug)
		var b [3]bytes.Buffer
		if err := svg.Render(&b[0], d); err != nil {
			return nil, err
		}
		if err := dxf.Render(&b[1], d, o.version()); err != nil {
			return nil, err
		}
		if err := pdf.Render(&b[2], r.Frame.Name+", "+d.Title, d); err != nil {
			return nil, err
		}
		for i, ext := range [...]string{".svg", ".dxf", ".pdf"} {
			out = append(out, File{base + ext, b[i].Bytes()})
		}
	}
	var all bytes.Buffer
	if err := pdf.Render(&all, r.Frame.Name, drawings...); err != nil {
		return nil, err
	}
	out = append(out, File{"drawings/drawings.pdf", all.Bytes()})
	cut, err := CutFiles(r, o)
	if err != nil {
		return nil, err
	}
	out = append(out, cut...)
	slices.SortFunc(out, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return out, nil
}
