package measure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"armwright/export/cutfile"
	"armwright/export/dxf"
	"armwright/export/sheet"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Files of a cam.
const (
	corePath  = "cut/cam.dxf"
	cheekPath = "cut/cam-cheek.dxf"
)

const (
	// outlineTolerance is how far the arcs of a cut file may stand off the
	// curve they stand for, mm (docs/dxf.md).
	outlineTolerance = 0.02
	// placeTolerance is how far a hole may lie, or its size differ, between
	// two files, mm: the rounding of both, and below what a cutting machine
	// can hold.
	placeTolerance = 0.005
	// offAxis is how far the bore of a keyed plate may be from its axis and still be
	// told from a slot, mm.
	offAxis = 1.0
	// quantum is the rounding of lengths, angles and torques in the report.
	quantum = 1e-4
)

// cutFile holds a cut file against the rules of cutting shops.
func (m *measurer) cutFile(path string) {
	faults := slices.DeleteFunc(cutfile.Check(m.drawings[path], cutfile.Rules{}), func(f cutfile.Fault) bool { return f.Warning })
	for _, f := range faults {
		m.out.fault(path, "fit for cutting", f.String())
	}
	if len(faults) == 0 {
		m.out.Compared++
	}
	if single, ok := strings.CutSuffix(path, nestSuffix); ok && m.drawings[single+".dxf"] != nil {
		m.nest(path, single+".dxf")
	}
}

// nestSuffix ends the path of a file with many pieces of one plate.
const nestSuffix = "-nest.dxf"

// nest holds every piece of a nested file against the file of one.
func (m *measurer) nest(path, single string) {
	one, ok := plateOf(m.drawings[single])
	if !ok {
		return // told for that file
	}
	cut := one.circles()
	var holes []dxf.Circle
	for _, e := range m.drawings[path].On(dxf.CutLayer) {
		if c, ok := e.(dxf.Circle); ok {
			holes = append(holes, c)
		}
	}
	pieces := 0
	var inner []contour.Path
	var shifts []r2.Vec
	from := one.outline.Bounds().Min
	largest := 0.0 // of what is cut out of a piece
	for _, loop := range one.inner {
		largest = max(largest, math.Abs(loop.Area()))
	}
	for _, e := range m.drawings[path].On(dxf.CutLayer) {
		p, ok := e.(dxf.Polyline)
		if !ok {
			continue
		}
		piece := p.Path()
		if math.Abs(piece.Area()) < (math.Abs(one.outline.Area())+largest)/2 {
			inner = append(inner, piece)
			continue
		}
		pieces++
		by := r2.Sub(piece.Bounds().Min, from)
		shifts = append(shifts, by)
		m.out.compare(path, fmt.Sprintf("piece %d off %s", pieces, single), "mm", 0, strays(piece, one.outline, by), placeTolerance)
		for i, h := range cut {
			at := dxf.Point{X: h.Centre.X + by.X, Y: h.Centre.Y + by.Y}
			off := math.NaN()
			if near := nearest(holes, at); near != nil {
				off = distance(near.Centre, at) + math.Abs(near.Radius-h.Radius)
			}
			m.out.compare(path, fmt.Sprintf("piece %d, hole %d", pieces, i+1), "mm", 0, off, placeTolerance)
		}
	}
	m.out.check(pieces > 0 && len(holes) == pieces*len(cut), path, "pieces and holes", fmt.Sprintf("%d pieces with %d holes", pieces, len(holes)))
	for i, by := range shifts {
		for k, loop := range one.inner {
			off := math.NaN()
			for _, o := range inner {
				if d := strays(o, loop, by); !(d >= off) {
					off = d
				}
			}
			m.out.compare(path, fmt.Sprintf("piece %d, slot %d", i+1, k+1), "mm", 0, off, placeTolerance)
		}
	}
	m.out.compare(path, "slots", "", float64(pieces*len(one.inner)), float64(len(inner)), 0)
}

// plate is what a cut file of a cam holds.
type plate struct {
	outline contour.Path
	keyed   contour.Path   // a loop about the cam axis inside the outline: a bore with its keyway
	inner   []contour.Path // everything else that is cut out and is no circle, the keyed bore too
	holes   []dxf.Circle   // the bore's circle among them
}

// plateOf returns the largest loop of a cut file, the keyed bore and the holes.
func plateOf(d *dxf.Document) (p plate, ok bool) {
	largest := 0.0
	var loops []contour.Path
	for _, e := range d.On(dxf.CutLayer) {
		switch e := e.(type) {
		case dxf.Polyline:
			path := e.Path()
			if !e.Closed || path.Validate() != nil {
				continue
			}
			loops = append(loops, path)
			if a := math.Abs(path.Area()); a > largest {
				p.outline, largest, ok = path, a, true
			}
		case dxf.Circle:
			p.holes = append(p.holes, e)
		}
	}
	for _, path := range loops {
		if math.Abs(path.Area()) >= largest {
			continue
		}
		p.inner = append(p.inner, path)
		if bore, found := boreOf(path); found && path.Contains(r2.Vec{}) && distance(bore.Centre, dxf.Point{}) < offAxis {
			p.keyed = path
			p.holes = append([]dxf.Circle{bore}, p.holes...)
		}
	}
	return p, ok
}

// circles are the holes that are cut as circles.
func (p plate) circles() []dxf.Circle {
	if p.keyed.Len() > 0 {
		return p.holes[1:]
	}
	return p.holes
}

// strays is how far a loop, moved back by, strays from another or that one from
// it, mm.
func strays(loop, from contour.Path, by r2.Vec) float64 {
	worst := 0.0
	for _, q := range loop.Points(outlineTolerance) {
		gap, _ := from.Distance(r2.Sub(q, by))
		worst = math.Max(worst, gap)
	}
	for _, q := range from.Points(outlineTolerance) {
		gap, _ := loop.Distance(r2.Add(q, by))
		worst = math.Max(worst, gap)
	}
	return worst
}

// boreOf is the circle that most of a keyed bore's arcs lie on.
func boreOf(p contour.Path) (dxf.Circle, bool) {
	longest := 0.0
	var out dxf.Circle
	for i := range p.Len() {
		if e := p.Element(i); e.IsArc() && e.Length() > longest {
			longest, out = e.Length(), dxf.Circle{Centre: dxf.Point{X: e.Centre.X, Y: e.Centre.Y}, Radius: e.Radius}
		}
	}
	return out, longest > 0
}

// cam measures the cam's cut files: the moment arm and the torque that the
// core's outline gives, the cheek about it, and the holes of both.
func (m *measurer) cam() {
	r := &m.report.Resistance
	file := m.drawings[corePath]
	if file == nil {
		return
	}
	c := &r.Cam
	given := []*float64{c.Ratio, c.CableDiameter, c.CableTension, c.Guide.X, c.Guide.Y, c.Guide.Radius}
	if slices.Contains(given, nil) || c.Guide.Side == nil || len(c.MomentArm) != len(r.Angles) ||
		len(r.Gravity) != len(r.Angles) || len(r.Delivered) != len(r.Angles) {
		m.out.fault(reportPath, "cam", "a cut file is listed, but the cam is not reported in full")
		return
	}
	core, ok := plateOf(file)
	if !ok {
		m.out.fault(corePath, "outline", "there is no closed outline on layer "+dxf.CutLayer)
		return
	}
	guide := cam.Guide{X: *c.Guide.X, Y: *c.Guide.Y, Radius: *c.Guide.Radius, Side: cam.Open}
	if *c.Guide.Side == "crossed" {
		guide.Side = cam.Crossed
	}
	psiQ := math.Atan2(guide.Y, guide.X)
	reach := math.Hypot(guide.X, guide.Y)
	for i, angle := range r.Angles {
		got, err := cam.Measure(core.outline, *c.CableDiameter, guide, *c.Ratio, angle*specs.Degree)
		if err != nil {
			m.out.fault(corePath, fmt.Sprintf("moment arm at %g°", angle), err.Error())
			continue
		}
		// An outline that stands off by e turns the cable by e/span, which
		// moves its line by e·|Q| sin(psi-psiQ)/span. The guide's place is
		// rounded like everything in the report.
		tolerance := (outlineTolerance+2*quantum)*math.Max(1, reach*math.Abs(math.Sin(got.Psi-psiQ))/got.Span) + quantum
		m.out.compare(corePath, fmt.Sprintf("moment arm at %g°", angle), "mm", c.MomentArm[i], got.Arm, tolerance)
		pull := *c.Ratio * *c.CableTension / 1000 // N·m per mm of moment arm
		m.out.compare(corePath, fmt.Sprintf("torque at %g°", angle), "N m", r.Delivered[i], pull*got.Arm+r.Gravity[i], pull*tolerance+4*quantum)
	}
	m.bend(core.outline)
	m.hub(core)
	if file := m.drawings[cheekPath]; file != nil {
		if cheek, ok := plateOf(file); !ok {
			m.out.fault(cheekPath, "outline", "there is no closed outline on layer "+dxf.CutLayer)
		} else {
			m.cheek(core, cheek)
		}
	}
	m.camSheet(core)
}

// bend holds the arcs of the root against the radius that the cable needs.
func (m *measurer) bend(root contour.Path) {
	c := &m.report.Resistance.Cam
	if c.RequiredRadius == nil || c.LeastRadius == nil {
		return
	}
	least := math.Inf(1)
	for i := range root.Len() {
		if e := root.Element(i); e.IsArc() {
			least = math.Min(least, e.Radius)
		}
	}
	// Arcs fitted to a curve may be this much tighter than it: the outline is
	// made with the least radius less one part in two hundred.
	const tighter = 0.005
	bound := math.Min(*c.LeastRadius, *c.RequiredRadius)
	m.out.Compared++
	if got := least + *c.CableDiameter/2; got < bound*(1-2*tighter) {
		m.out.Differences = append(m.out.Differences, Difference{File: corePath, What: "least radius of the cable's centre", Want: bound, Got: got, Unit: "mm", Tolerance: 2 * tighter * bound})
	}
}

// cheek holds the rim against the root, which it surrounds at one distance
// all round, and the holes of both plates.
func (m *measurer) cheek(core, cheek plate) {
	depth := cam.NewGroove(*m.report.Resistance.Cam.CableDiameter).Depth
	worst := depth
	for _, q := range cheek.outline.Points(outlineTolerance) {
		gap, _ := core.outline.Distance(q)
		if core.outline.Contains(q) {
			gap = -gap
		}
		if math.Abs(gap-depth) > math.Abs(worst-depth) {
			worst = gap
		}
	}
	m.out.compare(cheekPath, "rim above the groove root", "mm", depth, worst, 2*outlineTolerance)
	m.holes(cheekPath, "core plate", core.holes, cheek.holes)
	if core.keyed.Len() > 0 {
		off := math.NaN()
		if cheek.keyed.Len() > 0 {
			off = strays(cheek.keyed, core.keyed, r2.Vec{})
		}
		m.out.compare(cheekPath, "keyed bore off the core plate's", "mm", 0, off, placeTolerance)
	}
}

// holes compares the holes of one file with those of another.
func (m *measurer) holes(path, other string, want, got []dxf.Circle) {
	m.out.compare(path, "number of holes", "", float64(len(want)), float64(len(got)), 0)
	for i, h := range want {
		what := fmt.Sprintf("hole %d of the %s, at (%.2f, %.2f)", i+1, other, h.Centre.X, h.Centre.Y)
		near := nearest(got, h.Centre)
		if near == nil {
			continue
		}
		m.out.compare(path, what+", place", "mm", 0, distance(near.Centre, h.Centre), placeTolerance)
		m.out.compare(path, what+", diameter", "mm", 2*h.Radius, 2*near.Radius, placeTolerance)
	}
}

func nearest(list []dxf.Circle, p dxf.Point) *dxf.Circle {
	var best *dxf.Circle
	for i := range list {
		if best == nil || distance(list[i].Centre, p) < distance(best.Centre, p) {
			best = &list[i]
		}
	}
	return best
}

// camSheet holds the cam's sheet against the core plate as cut: its outline
// and holes as drawn, found by the dimension of the bore, whose middle is the
// cam axis.
func (m *measurer) camSheet(core plate) {
	path := m.sheet("cam")
	if path == "" {
		return
	}
	d := m.drawings[path]
	visible := sheet.Visible.Style().Layer
	list := dimensions(d)
	at := slices.IndexFunc(list, func(q dimension) bool {
		return q.Kind == dxf.Diameter && strings.HasSuffix(q.Text, boreFit)
	})
	if at < 0 {
		m.out.fault(path, "bore", "no diameter with the fit "+strings.TrimSpace(boreFit))
		return
	}
	bore := list[at]
	axis := dxf.Point{X: (bore.Line.X + bore.First.X) / 2, Y: (bore.Line.Y + bore.First.Y) / 2}
	real := func(p dxf.Point) dxf.Point {
		return dxf.Point{X: (p.X - axis.X) * bore.factor, Y: (p.Y - axis.Y) * bore.factor}
	}
	var drawn []dxf.Circle
	var loops []contour.Path // about the axis
	for _, e := range d.Entities {
		switch e := e.(type) {
		case dxf.Circle:
			if e.Layer == visible {
				e.Centre, e.Radius = real(e.Centre), e.Radius*bore.factor
				drawn = append(drawn, e)
			}
		case dxf.Polyline:
			if e.Layer != visible || !e.Closed {
				continue
			}
			p := e
			p.Vertices = slices.Clone(e.Vertices)
			for i, v := range e.Vertices {
				p.Vertices[i].Point = real(v.Point)
			}
			if at := p.Path(); at.Contains(r2.Vec{}) {
				loops = append(loops, at)
			}
		}
	}
	slack := placeTolerance + 2*step*bore.factor
	drawnAs := func(what string, cut contour.Path) {
		var best contour.Path
		off := math.Inf(1)
		for _, loop := range loops {
			if d := math.Abs(math.Abs(loop.Area()) - math.Abs(cut.Area())); d < off {
				best, off = loop, d
			}
		}
		if math.IsInf(off, 1) {
			m.out.fault(path, what, "it is not drawn")
			return
		}
		m.out.compare(path, "drawn "+what+" off the cut one", "mm", 0, strays(best, cut, r2.Vec{}), slack)
	}
	drawnAs("outline", core.outline)
	if core.keyed.Len() > 0 {
		drawnAs("keyed bore", core.keyed)
	}
	for i, h := range core.circles() {
		what := fmt.Sprintf("hole %d of the core plate, at (%.2f, %.2f)", i+1, h.Centre.X, h.Centre.Y)
		if near := nearest(drawn, h.Centre); near == nil {
			m.out.fault(path, what, "no hole is drawn")
		} else {
			m.out.compare(path, what+", place", "mm", 0, distance(near.Centre, h.Centre), slack)
			m.out.compare(path, what+", diameter", "mm", 2*h.Radius, 2*near.Radius, 2*slack)
		}
	}
	m.out.compare(path, "bore as dimensioned", "mm", 2*innermost(core.holes).Radius, bore.value, slack)
	// The bore is on the axis in the file that is cut.
	m.out.compare(corePath, "bore off the cam axis", "mm", 0, distance(innermost(core.holes).Centre, dxf.Point{}), placeTolerance)
}

// innermost is the hole nearest to the cam axis: the bore.
func innermost(holes []dxf.Circle) dxf.Circle {
	if near := nearest(holes, dxf.Point{}); near != nil {
		return *near
	}
	return dxf.Circle{}
}

// boreFit ends the text of the bore's diameter.
const boreFit = " H7"
