package draw

import (
	"math"
	"strconv"
	"sync"

	"armwright/export/hidden"
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/elbow"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"
	"armwright/solver"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

// machine is one station in the terms of drawing.
type machine struct {
	r           *solver.Result
	geo         *specs.Geometry
	values      *values.Station    // what it is built from
	a           *assembly.Assembly // what it is built of; nil on a bench
	list        []partlist.Line
	item        []string               // number in the parts list of each part
	sagitta     float64                // to which curves are broken up, mm
	shapes      []func() *hidden.Shape // of the parts, made when first asked for
	pivot       r3.Vec                 // right
	axis        r3.Vec                 // right, outward: the middle axis position
	first, last float64                // loaded range
}

// chord is how far, mm, a straight line may stand off a curve of a view.
const chord = 0.1

func newMachine(r *solver.Result) *machine {
	g := &r.Frame.Geometry
	m := &machine{r: r, geo: g, values: &r.Station.Values, a: r.Station.Assembly, sagitta: chord, pivot: g.Pivots.Right(), axis: g.Pivots.MeanAxis()}
	loaded := r.Frame.Resistance.Loaded
	m.first, m.last = loaded.From, loaded.To
	m.list = partlist.Of(r)
	if m.a == nil {
		return m
	}
	m.shapes = make([]func() *hidden.Shape, len(m.a.Parts))
	for i := range m.a.Parts {
		m.shapes[i] = sync.OnceValue(func() *hidden.Shape { return hidden.NewShape(m.a.Parts[i].Solid, m.sagitta) })
	}
	m.item = make([]string, len(m.a.Parts))
	for i := range m.list {
		for _, p := range m.list[i].Parts {
			m.item[p] = strconv.Itoa(m.list[i].Item)
		}
	}
	if p := m.part("arm-shaft-right"); p != nil {
		m.axis = p.Place.Z
	}
	return m
}

// part is the part of an id, nil without one.
func (m *machine) part(id string) *assembly.Part {
	if m.a == nil {
		return nil
	}
	if i, ok := m.a.Index(id); ok {
		return &m.a.Parts[i]
	}
	return nil
}

// chosen are the parts for which a condition holds.
func (m *machine) chosen(holds func(p *assembly.Part) bool) []int {
	var out []int
	for i := range m.a.Parts {
		if holds(&m.a.Parts[i]) {
			out = append(out, i)
		}
	}
	return out
}

// ofItems are the parts of some items, of the right side and the middle alone where
// one is set.
func (m *machine) ofItems(one bool, items ...string) []int {
	return m.chosen(func(p *assembly.Part) bool {
		if one && p.Side == assembly.Left {
			return false
		}
		for _, id := range items {
			if p.Item == id {
				return true
			}
		}
		return false
	})
}

// in reports whether a part rides on a group, at first hand or through others.
func (m *machine) in(p *assembly.Part, group string) bool {
	for g := p.Group; g >= 0; g = m.a.Groups[g].Parent {
		if m.a.Groups[g].ID == group {
			return true
		}
	}
	return false
}

// group is the place in Groups of an id, -1 without one.
func (m *machine) group(id string) int {
	for i := range m.a.Groups {
		if m.a.Groups[i].ID == id {
			return i
		}
	}
	return -1
}

// bodies are parts in a pose, told from the reference pose, in which all parts have the
// places that they are made to.
func (m *machine) bodies(parts []int, pose assembly.Pose, role sheet.Role, bare bool) []hidden.Body {
	groups := m.displaced(pose)
	out := make([]hidden.Body, len(parts))
	for k, i := range parts {
		out[k] = hidden.Body{Shape: m.shapes[i](), Place: m.a.Place(i, groups), Role: role, Bare: bare, Item: m.item[i]}
		if role == sheet.Phantom {
			out[k].Item = ""
		}
	}
	return out
}

// displaced is the displacement of every group from the reference pose.
func (m *machine) displaced(pose assembly.Pose) []solid.Placement {
	out := m.a.At(pose, nil)
	for i, p := range m.a.At(m.a.Reference, nil) {
		out[i] = out[i].Then(p.Inverse())
	}
	return out
}

// reference is the pose in which sheets show the station: middle axis position, first
// loaded angle, seat and foot plate lowest.
func (m *machine) reference() assembly.Pose { return m.a.Reference }

// slope is that of the pad; level on a bench without one.
func (m *machine) slope() float64 {
	if m.geo.Pad == nil {
		return 0
	}
	return m.geo.Pad.Slope
}

// armAt is the unit vector along the right arm at a flexion.
func (m *machine) armAt(theta float64) r3.Vec {
	s, c := math.Sincos(m.slope())
	down := r3.Vec{X: c, Z: -s}
	down = r3.Unit(r3.Sub(down, r3.Scale(r3.Dot(down, m.axis), m.axis)))
	return elbow.Rotate(down, m.axis, theta)
}

// plane returns the cam plane's own directions, forward and up.
func (m *machine) plane() (forward, up r3.Vec) {
	x := r3.Vec{X: 1}
	forward = r3.Unit(r3.Sub(x, r3.Scale(r3.Dot(x, m.axis), m.axis)))
	return forward, r3.Cross(m.axis, forward)
}

// drivePlane looks at the drive from outside, forward to the right and up, the pivot
// at the origin.
func (m *machine) drivePlane() hidden.Camera {
	forward, up := m.plane()
	return hidden.Camera{Right: forward, Up: up, Toward: m.axis, Origin: m.pivot}
}

// outward is how far a place is from the pivot along the axis.
func (m *machine) outward(q r3.Vec) float64 { return r3.Dot(r3.Sub(q, m.pivot), m.axis) }

// transmission is what drives the countershaft of a frame's cam; not ok for a cam
// on the arm shaft and one whose wheels the frame does not tell.
func transmission(f *specs.Frame) (t stock.Transmission, ok bool) {
	if c := f.Geometry.Cam; c == nil || c.ArmTeeth == 0 {
		return t, false
	}
	t, err := stock.TransmissionOf(f.Stock.Transmission)
	return t.In(f.Region), err == nil
}

// whole is everything that stands on the floor: arms at the first loaded angle, the
// seat at its lowest; and as phantoms the arms at the last loaded angle and the seat
// at its highest.
// What is smaller than least, mm from corner to corner of its box, is left out.
func (m *machine) whole(least float64) []hidden.Body {
	pose := m.reference()
	shown := func(p *assembly.Part) bool {
		if least == 0 {
			return true
		}
		low, high := solid.Bounds(p.Solid, solid.World())
		return r3.Norm(r3.Sub(high, low)) >= least
	}
	out := m.bodies(m.chosen(shown), pose, sheet.Visible, true)
	last := pose
	last.Flexion = [2]float64{m.last, m.last}
	if t := m.geo.Seat; t != nil {
		last.Seat = t.Positions - 1
	}
	moved := m.chosen(func(p *assembly.Part) bool {
		if p.Is(assembly.Fastener) || p.Is(assembly.Rises) || !shown(p) {
			return false
		}
		return m.in(p, "arm-right") || m.in(p, "arm-left") || m.in(p, "output-right") || m.in(p, "output-left") || m.in(p, "seat") && pose.Seat != last.Seat
	})
	return append(out, m.bodies(moved, last, sheet.Phantom, true)...)
}
