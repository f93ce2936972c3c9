package draw

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"armwright/export/dxf"
	"armwright/export/sheet"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/solver/fit"

	"gonum.org/v1/gonum/spatial/r2"
)

// CutFiles writes the files for a cutting machine: 1:1 in mm, closed loops on
// layer CUT, marks on layer ETCH, cam axis at the origin, position of flexion
// 0. A cam gives two: the core plate, whose outline is the groove root, and
// the cheek plates, whose outline is the rim. A station without a cam gives
// none. Errors: those of [CamOf], and a *CutError for what a shop would send
// back.
func CutFiles(r *fit.Result, o Options) ([]File, error) {
	if r.Frame.Geometry.Cam == nil {
		return nil, nil
	}
	c, err := CamOf(r)
	if err != nil {
		return nil, err
	}
	var out []File
	for _, p := range [...]struct {
		path, what string
		outline    contour.Path
		thickness  float64
		marks      []cam.Mark
	}{
		{"cut/cam.dxf", "cam core plate: the outline is the groove root", c.Outline.Root, c.Core, c.Outline.Marks},
		{"cut/cam-cheek.dxf", "cam cheek plate, two to a cam: the outline is the rim", c.Outline.Blank, c.Cheek, nil},
	} {
		d := dxf.New()
		d.Comments = []string{sheet.Notice, fmt.Sprintf("%s, %g mm %s", p.what, p.thickness, r.Frame.Stock.Steel)}
		d.Layers = []dxf.Layer{{Name: dxf.CutLayer, Color: dxf.Red}, {Name: dxf.EtchLayer, Color: dxf.Blue}}
		cut, etch := dxf.Attr{Layer: dxf.CutLayer}, dxf.Attr{Layer: dxf.EtchLayer}
		d.Add(dxf.Outline(cut, p.outline))
		for _, h := range c.Outline.Holes {
			d.Add(dxf.Circle{Attr: cut, Centre: point(h.Centre), Radius: h.Diameter / 2})
		}
		for _, m := range append(p.marks, datum(c.Outline.Holes)...) {
			d.Add(dxf.Line{Attr: etch, A: point(m.From), B: point(m.To)})
		}
		if err := cuttable(p.path, d, p.thickness); err != nil {
			return nil, err
		}
		var b bytes.Buffer
		if err := dxf.Write(&b, d, o.version()); err != nil {
			return nil, err
		}
		out = append(out, File{p.path, b.Bytes()})
	}
	return out, nil
}

// cuttable refuses a document that a cutting shop would send back.
func cuttable(path string, d *dxf.Document, thickness float64) error {
	var faults []dxf.CutFault
	for _, f := range dxf.CheckCut(d, dxf.CutRules{Thickness: thickness}) {
		if !f.Warning {
			faults = append(faults, f)
		}
	}
	if len(faults) > 0 {
		return &CutError{Path: path, Faults: faults}
	}
	return nil
}

func point(p r2.Vec) dxf.Point { return dxf.Point{X: p.X, Y: p.Y} }

// datum is the cross of the axes through the cam axis, drawn beside the bore,
// which is cut away, and not into other holes.
func datum(holes []cam.Hole) []cam.Mark {
	const clear, length = 1.5, 4.0
	inner := clear
	for _, h := range holes {
		if h.Name == "bore" {
			inner += h.Diameter / 2
		}
	}
	var out []cam.Mark
	for i := range 4 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 2)
		m := cam.Mark{Name: "datum", From: at(inner*math.Round(cos), inner*math.Round(sin)), To: at((inner+length)*math.Round(cos), (inner+length)*math.Round(sin))}
		middle := r2.Scale(0.5, r2.Add(m.From, m.To))
		free := true
		for _, h := range holes {
			free = free && (h.Name == "bore" || r2.Norm(r2.Sub(h.Centre, middle)) > h.Diameter/2+length/2)
		}
		if free {
			out = append(out, m)
		}
	}
	return out
}

// CutError says that a file is not fit for a cutting machine.
type CutError struct {
	Path   string
	Faults []dxf.CutFault
}

func (e *CutError) Error() string {
	list := make([]string, len(e.Faults))
	for i, f := range e.Faults {
		list[i] = f.String()
	}
	return fmt.Sprintf("draw: %s cannot be cut: %s (%s)", e.Path, strings.Join(list, "; "), e.Hint())
}

// Hint says what to do.
func (e *CutError) Hint() string {
	return "use a smaller shaft or a thinner cam plate, or raise resistance.least_arm"
}
