package measure

import (
	"math"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// hubPath is the cut file of a split hub.
const hubPath = "cut/cam-hub.dxf"

// hub holds what the cam sits on its shaft with against the report: bore, the
// keyway's width, depth and place as cut, or the split hub.
func (m *measurer) hub(core plate) {
	h := m.report.Resistance.Cam.Hub
	if h == nil {
		return
	}
	m.out.compare(corePath, "bore", "mm", h.Bore, 2*innermost(core.holes).Radius, placeTolerance)
	m.out.check((core.keyed.Len() > 0) == (h.KeyWidth != nil), corePath, "keyway", "cut and report do not agree on whether there is one")
	if h.KeyWidth != nil && h.HubKeyway != nil && core.keyed.Len() > 0 {
		left, right, floor := flanks(core.keyed)
		m.out.compare(corePath, "keyway's width", "mm", *h.KeyWidth, right-left, placeTolerance)
		m.out.compare(corePath, "keyway past the bore", "mm", *h.HubKeyway, floor-h.Bore/2, placeTolerance)
		m.out.compare(corePath, "keyway's middle off the plumb", "mm", 0, (left+right)/2, placeTolerance)
	}
	file := m.drawings[hubPath]
	if h.ClampScrew == nil {
		m.out.check(file == nil, hubPath, "split hub", "the report has none")
		return
	}
	if file == nil {
		m.out.fault(hubPath, "split hub", "the report has one, but no cut file")
		return
	}
	split, ok := plateOf(file)
	if !ok {
		m.out.fault(hubPath, "outline", "there is no closed outline")
		return
	}
	bore, ok := boreOf(hollow(split.outline))
	if !ok {
		m.out.fault(hubPath, "bore", "there is none")
		return
	}
	m.out.compare(hubPath, "bore", "mm", h.Bore, 2*bore.Radius, placeTolerance)
	m.out.compare(hubPath, "bore off the axis", "mm", 0, math.Hypot(bore.Centre.X, bore.Centre.Y), placeTolerance)
	for _, o := range split.holes {
		off := math.NaN()
		if near := nearest(core.holes, o.Centre); near != nil {
			off = distance(near.Centre, o.Centre) + 2*math.Abs(near.Radius-o.Radius)
		}
		m.out.compare(hubPath, "screw hole off the cam's", "mm", 0, off, placeTolerance)
	}
}

// flanks are the places of a keyway's sides and floor: the straight pieces that
// stand upright, and the highest point.
func flanks(keyed contour.Path) (left, right, floor float64) {
	left, right = math.NaN(), math.NaN()
	for i := range keyed.Len() {
		e := keyed.Element(i)
		d := r2.Sub(e.End, e.Start)
		if e.IsArc() || math.Abs(d.X) > math.Abs(d.Y) {
			continue
		}
		if x := (e.Start.X + e.End.X) / 2; d.Y > 0 {
			right = x
		} else {
			left = x
		}
	}
	return left, right, keyed.Bounds().Max.Y
}

// hollow is a path's arcs that bend inwards: a split hub's bore.
func hollow(p contour.Path) contour.Path {
	out := contour.Path{}
	inward := -math.Copysign(1, p.Area())
	for i := range p.Len() {
		if v := p.Vertices[i]; v.Bulge*inward > 0 {
			end := p.Vertices[(i+1)%len(p.Vertices)]
			end.Bulge = 0
			out.Vertices = append(out.Vertices, v, end)
		}
	}
	return out
}
