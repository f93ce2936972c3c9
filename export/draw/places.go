package draw

import (
	"math"
	"slices"

	"armwright/export/hidden"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// span is how far a part reaches along a direction from a place, in the reference
// pose.
func span(p *assembly.Part, from, along r3.Vec) (low, high float64) {
	frame := solid.Along(r3.Vec{}, along, r3.Vec{})
	// Own z of the frame is the direction: the part as the frame has it.
	l, h := solid.Bounds(p.Solid, frame.Inverse().Then(p.Place))
	at := r3.Dot(from, along)
	return l.Z - at, h.Z - at
}

// reach is how far parts reach along a direction from a place; ok is false for none.
func (m *machine) reach(parts []int, from, along r3.Vec) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, i := range parts {
		l, h := span(&m.a.Parts[i], from, along)
		low, high, ok = min(low, l), max(high, h), true
	}
	return low, high, ok
}

// base is the box round the rails with their caps in the plan.
func (m *machine) base() r2.Box {
	rails := m.ofItems(false, "rail", "rail-cap")
	x0, x1, _ := m.reach(rails, r3.Vec{}, r3.Vec{X: 1})
	y0, y1, _ := m.reach(rails, r3.Vec{}, r3.Vec{Y: 1})
	return r2.Box{Min: at(x0, y0), Max: at(x1, y1)}
}

// armFrame is the frame of the right arm in the reference pose: origin on the pivot,
// x along the arm, y across it towards more flexion, z outward along the axis.
func (m *machine) armFrame() solid.Placement {
	along := m.armAt(m.first)
	if p := m.part("arm-tube-right"); p != nil {
		along = p.Place.Z
	}
	return solid.Placement{Origin: m.pivot, X: along, Y: r3.Cross(m.axis, along), Z: m.axis}
}

// onArm is a place as the frame of the arm has it, along and across the arm.
func (m *machine) onArm(q r3.Vec) r2.Vec { return hidden.Onto(m.armFrame()).See(q) }

// ahead is the angle from the arm to what points a phase above forward at
// flexion 0, flexion positive.
func (m *machine) ahead(phase float64) float64 {
	forward, up := m.plane()
	a := m.armAt(0)
	return math.Remainder(phase-math.Atan2(r3.Dot(a, up), r3.Dot(a, forward)), 2*math.Pi)
}

// detents are the holes of a tube from a place along a direction, in rising order.
func detents(p *assembly.Part, from, along r3.Vec) []float64 {
	prism, ok := p.Solid.(solid.Prism)
	if !ok {
		return nil
	}
	var out []float64
	for _, b := range prism.Bores {
		out = append(out, r3.Dot(r3.Sub(p.Place.Point(b.At), from), along))
	}
	slices.Sort(out)
	return out
}

// handleAt is how far the grip is from the axis in a position.
func (m *machine) handleAt(i int) float64 {
	p := m.part("grip-bar-right")
	if p == nil {
		return m.geo.Handle.Radius(i)
	}
	pose := m.reference()
	pose.Handle = i
	return m.onArm(m.displaced(pose)[p.Group].Point(p.Place.Origin)).X
}

// seatTop is the height of the seat's loaded surface in a position.
func (m *machine) seatTop(i int) float64 {
	foam := m.part("seat-foam")
	if foam == nil {
		return m.geo.Seat.Top(i)
	}
	pose := m.reference()
	pose.Seat = i
	_, top := span(foam, r3.Vec{}, r3.Vec{Z: 1})
	return top + m.a.At(pose, nil)[foam.Group].Origin.Z
}

// backFace is the face of the back pad in the view from the right: from where it
// meets the lowest seat to its upper edge. The foam's own x runs up the slope, z out
// of it.
func (m *machine) backFace(p *assembly.Part) (low, high r2.Vec) {
	_, top := span(p, r3.Vec{}, p.Place.X)
	_, face := span(p, r3.Vec{}, p.Place.Z)
	up, out := hidden.FromRight().See(p.Place.X), hidden.FromRight().See(p.Place.Z)
	on := func(x float64) r2.Vec { return r2.Add(r2.Scale(x, up), r2.Scale(face, out)) }
	return on((m.geo.Seat.Lowest - face*out.Y) / up.Y), on(top)
}

// bearingMiddle is the middle between the right pivot's bearings in a position.
func (m *machine) bearingMiddle(i int, shaft string) r3.Vec {
	a, b := m.part(shaft+"-inner-housing-right"), m.part(shaft+"-outer-housing-right")
	if a == nil || b == nil {
		return m.pivot
	}
	return m.swivelAt(i).Point(r3.Scale(0.5, r3.Add(a.Place.Origin, b.Place.Origin)))
}

// swivelAt returns the displacement of the right swivel bracket for an axis position.
func (m *machine) swivelAt(i int) solid.Placement {
	pose := m.reference()
	pose.Axis = i
	g := m.group("swivel-right")
	return m.a.At(pose, nil)[g]
}
