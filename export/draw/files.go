package draw

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"sync"

	"armwright/export/dxf"
	"armwright/export/folder"
	"armwright/export/pdf"
	"armwright/export/sheet"
	"armwright/export/svg"
	"armwright/solver"
	"armwright/solver/tolerance"
)

// Options are the choices in writing files.
type Options struct {
	R12  bool // DXF in the release-12 form AC1009 for old controllers, instead of AC1015
	Nest bool // also one cut file for each thickness of plate with all parts of it
}

// dxf is the renderer of sheets, and says the version of cut files.
func (o Options) dxf() dxf.Renderer {
	if o.R12 {
		return dxf.Renderer{Version: dxf.AC1009}
	}
	return dxf.Renderer{Version: dxf.AC1015}
}

// All writes every sheet as SVG, DXF and PDF, all sheets in one PDF, and the
// cut files, sorted by path. The same result gives the same bytes. Holds are the dimensions
// to be held closer than general tolerances, see [tolerance.HoldsOf]. Errors are
// those of [platework.CamOf] and [CutFiles], a sheet that cannot be laid out
// (*sheet.Error), what the renderers report, and an *AuditError for a DXF file
// that strict readers would refuse.
func All(r *solver.Result, holds []tolerance.Holding, o Options) ([]folder.File, error) {
	set, err := sheets(r, holds)
	if err != nil {
		return nil, err
	}
	// Sheets do not know of each other, so they are laid out side by side.
	made := make([]rendering, len(set))
	var wait sync.WaitGroup
	var cut []folder.File
	var uncut error
	wait.Go(func() { cut, uncut = CutFiles(r, o) })
	for i := range set {
		wait.Go(func() { made[i] = render(&set[i], svg.Renderer{}, o.dxf(), pdf.Renderer{Station: r.Frame.Name}) })
	}
	wait.Wait()
	var out []folder.File
	var drawings []*sheet.Drawing
	for _, m := range made {
		if m.err != nil {
			return nil, m.err
		}
		out = append(out, m.files...)
		drawings = append(drawings, m.drawing)
	}
	var all bytes.Buffer
	if err := pdf.Set(&all, r.Frame.Name, drawings...); err != nil {
		return nil, err
	}
	out = append(out, folder.File{Path: "drawings/drawings.pdf", Data: all.Bytes()})
	if uncut != nil {
		return nil, uncut
	}
	out = append(out, cut...)
	slices.SortFunc(out, func(a, b folder.File) int { return strings.Compare(a.Path, b.Path) })
	return out, nil
}

// rendering is one sheet in all formats.
type rendering struct {
	drawing *sheet.Drawing
	files   []folder.File
	err     error
}

func render(s *named, formats ...sheet.Renderer) (out rendering) {
	if out.drawing, out.err = s.sheet.Flatten(); out.err != nil {
		return out
	}
	d := out.drawing
	base := fmt.Sprintf("drawings/%02d-%s", s.number, s.slug)
	for _, format := range formats {
		var b bytes.Buffer
		if out.err = format.Render(&b, d); out.err != nil {
			return out
		}
		file := folder.File{Path: base + format.Extension(), Data: b.Bytes()}
		switch format.(type) {
		case dxf.Renderer:
			if file, out.err = audited(file.Path, file.Data); out.err != nil {
				return out
			}
		case svg.Renderer:
			var small bytes.Buffer
			if out.err = svg.Thumbnail(&small, d); out.err != nil {
				return out
			}
			file.Thumbnail, file.Flaws = small.Bytes(), d.Check()
		}
		out.files = append(out.files, file)
	}
	return out
}
