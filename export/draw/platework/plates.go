package platework

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"armwright/export/cutfile"
	"armwright/export/dxf"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/geometry/station"
	"armwright/solver"
	"armwright/solver/drive"

	"gonum.org/v1/gonum/spatial/r2"
)

// Cut is a file for a cutting machine.
type Cut struct {
	Path string // in the output folder: "cut/cam.dxf"
	*dxf.Document
}

// Cuts are the files for a cutting machine: 1:1 in mm, closed loops on
// layer CUT, marks on layer ETCH. A cam gives two, cam axis at the origin,
// position of flexion 0: the core plate, whose outline is the groove root, and
// the cheek plates, whose outline is the rim; and a third where it is clamped on
// its shaft, the split hub. A linkage gives its four bars, the first bore at the
// origin, the second on the x axis. Every other plate of the station gives one in
// its own frame with its name etched on, and a second one ending in -left where
// the left part is not the right one turned round; of a station whose parts lack
// something that they need to be made, those that could not be cut are left out.
// Nested, each comes in a second file as well, as often as a station
// needs it, side by side on one plate. Errors: those of [CamOf], and a *CutError
// for what a shop would send back.
func Cuts(r *solver.Result, nested bool) ([]Cut, error) {
	plates, err := all(r)
	if err != nil {
		return nil, err
	}
	steel, units := r.Frame.Stock.Steel, r.Frame.Drawing.Reads()
	var out []Cut
	add := func(p *plate, path, what string, places []r2.Vec) error {
		d := newCut(fmt.Sprintf("%s, %s %s", what, units.Size(p.thickness, "mm"), steel))
		for _, by := range places {
			p.place(d, by)
		}
		out = append(out, Cut{path, d})
		return cuttable(path, d, p.thickness)
	}
	for i := range plates {
		p := &plates[i]
		if err := add(p, p.path, p.what, []r2.Vec{{}}); err != nil {
			return nil, err
		}
	}
	if !nested {
		return out, nil
	}
	for i := range plates {
		p := &plates[i]
		name := strings.TrimSuffix(p.path, ".dxf") + "-nest.dxf"
		what := fmt.Sprintf("%d x %s", p.count, strings.TrimPrefix(p.path, "cut/"))
		if err := add(p, name, what, rows(p.outline.Bounds(), p.count)); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// all are the plates that a cutting machine cuts for a result.
func all(r *solver.Result) ([]plate, error) {
	plates, err := ofDrive(r)
	if err != nil || r.Station.Assembly == nil {
		return plates, err
	}
	for _, p := range ofStation(r.Station.Assembly) {
		d := newCut(p.what)
		p.place(d, r2.Vec{})
		// Of a station that cannot be made as it is meant, a plate may be none.
		if cuttable(p.path, d, p.thickness) == nil || !lacking(r) {
			plates = append(plates, p)
		}
	}
	return plates, nil
}

// lacking reports whether a station lacks something that its parts need to be made.
func lacking(r *solver.Result) bool {
	return slices.ContainsFunc(r.Station.Needs, func(n station.Need) bool { return n.Slack < 0 })
}

// ofDrive are those of cam or linkage.
func ofDrive(r *solver.Result) ([]plate, error) {
	if r.Frame.Geometry.Linkage != nil {
		return barPlates(r), nil
	}
	if r.Frame.Geometry.Cam == nil {
		return nil, nil
	}
	c, err := CamOf(r)
	if err != nil {
		return nil, err
	}
	edge := c.Outline
	cross := datum(edge.Holes, c.Plate.KeyDepth)
	plates := []plate{
		{path: "cut/cam.dxf", what: "cam core plate: the outline is the groove root", count: 2, outline: edge.Root, thickness: c.Core, keyed: edge.Keyed, holes: edge.Holes, marks: append(slices.Clone(edge.Marks), cross...)},
		{path: "cut/cam-cheek.dxf", what: "cam cheek plate, two to a cam: the outline is the rim", count: 4, outline: edge.Blank, thickness: c.Cheek, keyed: edge.Keyed, holes: edge.Holes, marks: cross},
	}
	if h := r.Resistance.Hub; h.Kind == "clamp" {
		plates = append(plates, plate{path: "cut/cam-hub.dxf", what: "split hub, one to a cam: drill across the slot where etched", count: 2, outline: h.Split.Outline, thickness: h.Plate, holes: h.Split.Holes, marks: screwMarks(h)})
	}
	return plates, nil
}

// barPlates are the bars of a linkage.
func barPlates(r *solver.Result) []plate {
	v := &r.Station.Values
	var out []plate
	for _, b := range partlist.Bars(v) {
		holes := []cam.Hole{{Name: "bore", Diameter: b.A.Bore}, {Name: "pin", Centre: r2.Vec{X: b.Length, Y: 0}, Diameter: b.B.Bore}}
		out = append(out, plate{path: "cut/" + b.ID + ".dxf", what: strings.ToLower(b.Title) + ", " + b.What, count: 2, outline: b.Outline(), thickness: v.BarThick, holes: holes, marks: datum(holes, 0)})
	}
	return out
}

// plate is one part that is cut from plate.
type plate struct {
	path, what string
	count      int // in one station
	outline    contour.Path
	thickness  float64
	keyed      contour.Path // the bore with its keyway, instead of the hole "bore"
	holes      []cam.Hole
	slots      []contour.Path // other holes
	marks      []cam.Mark
}

// newCut is an empty cut file.
func newCut(what string) *dxf.Document {
	d := dxf.New()
	d.Comments = []string{sheet.Notice, what}
	d.Layers = []dxf.Layer{{Name: dxf.CutLayer, Color: dxf.Red}, {Name: dxf.EtchLayer, Color: dxf.Blue}}
	return d
}

// place adds the part to a cut file with its origin at by.
func (p plate) place(d *dxf.Document, by r2.Vec) {
	cut, etch := dxf.Attr{Layer: dxf.CutLayer}, dxf.Attr{Layer: dxf.EtchLayer}
	d.Add(dxf.Outline(cut, p.outline.Place(0, by)))
	if p.keyed.Len() > 0 {
		d.Add(dxf.Outline(cut, p.keyed.Place(0, by)))
	}
	for _, h := range p.slots {
		d.Add(dxf.Outline(cut, h.Place(0, by)))
	}
	for _, h := range round(p.holes, p.keyed) {
		d.Add(dxf.Circle{Attr: cut, Centre: point(r2.Add(h.Centre, by)), Radius: h.Diameter / 2})
	}
	for _, m := range p.marks {
		d.Add(dxf.Line{Attr: etch, A: point(r2.Add(m.From, by)), B: point(r2.Add(m.To, by))})
	}
}

// round returns the holes that are circles: all, but for the bore where it has a
// keyway.
func round(holes []cam.Hole, keyed contour.Path) []cam.Hole {
	if keyed.Len() == 0 {
		return holes
	}
	return slices.DeleteFunc(slices.Clone(holes), func(h cam.Hole) bool { return h.Name == "bore" })
}

// screwMarks are the screw's axis across the ears of a split hub.
func screwMarks(h drive.Hub) []cam.Mark {
	const inside = 2.0 // from the edges
	from, to := h.Clamp.Slot/2+inside, h.Split.Half-inside
	return []cam.Mark{
		{Name: "screw", From: r2.Vec{X: h.Split.ScrewX, Y: from}, To: r2.Vec{X: h.Split.ScrewX, Y: to}},
		{Name: "screw", From: r2.Vec{X: h.Split.ScrewX, Y: -from}, To: r2.Vec{X: h.Split.ScrewX, Y: -to}},
	}
}

// A nested plate, mm: own choices.
const (
	plateWide = 1000.0 // along x
	partGap   = 10.0   // between parts, and to the plate's edge at the origin
)

// rows gives the places of n equal parts in rows on one plate whose lower left
// corner is the origin, the box round one of them given.
func rows(box r2.Box, n int) []r2.Vec {
	w, h := box.Max.X-box.Min.X+partGap, box.Max.Y-box.Min.Y+partGap
	each := max(1, int((plateWide-partGap)/w))
	out := make([]r2.Vec, n)
	for i := range out {
		out[i] = r2.Vec{X: partGap + float64(i%each)*w - box.Min.X, Y: partGap + float64(i/each)*h - box.Min.Y}
	}
	return out
}

// cuttable refuses a document that a cutting shop would send back.
func cuttable(path string, d *dxf.Document, thickness float64) error {
	var faults []cutfile.Fault
	for _, f := range cutfile.Check(d, cutfile.Rules{Thickness: thickness}) {
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

// datum is the cross of the axes through the cam axis, drawn beside the bore and
// its keyway, which are cut away, and not into other holes.
func datum(holes []cam.Hole, keyway float64) []cam.Mark {
	const clear, length = 1.5, 4.0
	inner := clear + keyway
	for _, h := range holes {
		if h.Name == "bore" {
			inner += h.Diameter / 2
		}
	}
	var out []cam.Mark
	for i := range 4 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 2)
		m := cam.Mark{Name: "datum", From: r2.Vec{X: inner * math.Round(cos), Y: inner * math.Round(sin)}, To: r2.Vec{X: (inner + length) * math.Round(cos), Y: (inner + length) * math.Round(sin)}}
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
	Faults []cutfile.Fault
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
	return "use a smaller shaft or a thinner stock.cam_plate; for a cam, raise resistance.least_arm"
}
