package draw

import (
	"math"

	"armwright/export/sheet"
	"armwright/geometry/contour"
	"armwright/geometry/linkage"
	"armwright/geometry/station"
	"armwright/solver/build"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// pose is the linkage at one elbow angle. A result holds one that closes over
// the loaded range.
func (m *machine) pose(theta float64) linkage.Pose {
	p, _ := m.layout.Train.At(theta)
	return p
}

// placedBar is a bar of the linkage in the plane across the axis.
type placedBar struct {
	station.NamedBar
	a, b  r2.Vec  // its bores
	plane float64 // of its middle, outward from the pivot
}

// placed are the bars of the linkage at one elbow angle.
func (m *machine) placed(p linkage.Pose) [4]placedBar {
	l := m.layout
	bars := l.Bars().Named()
	return [4]placedBar{
		{bars[0], r2.Vec{}, p.Pin, l.CamPlane()}, {bars[1], p.Pin, p.Joint, l.CouplerPlane()},
		{bars[2], p.Shaft, p.Joint, l.CamPlane()}, {bars[3], p.Shaft, p.Plates, l.LeverPlane()},
	}
}

// outline is the bar's outline in its place.
func (b placedBar) outline() contour.Path {
	d := r2.Sub(b.b, b.a)
	return b.Outline().Place(math.Atan2(d.Y, d.X), b.a)
}

// plate is the bar as a body.
func (m *machine) plate(b placedBar) prism {
	thick := m.layout.BarThick
	q := prism{round: true, along: r3.Scale(thick, m.axis), part: b.Title}
	for _, v := range b.outline().Points(chord) {
		q.base = append(q.base, m.across(v, b.plane-thick/2))
	}
	return q
}

// inputBar is the bar on the arm's shaft at an elbow angle, at which the linkage
// need not close.
func (m *machine) inputBar(theta float64) prism {
	t := m.layout.Train
	s, c := math.Sincos(theta + t.InputPhase + t.Direction)
	return m.plate(placedBar{m.layout.Bars().Named()[0], r2.Vec{}, r2.Scale(t.Bars.Input, at(c, s)), m.layout.CamPlane()})
}

// train are the bars of the right arm's linkage at an elbow angle, its pins and
// its plates; none without one.
func (m *machine) train(theta float64) []prism {
	l := m.layout
	if l.Train == nil {
		return nil
	}
	var out []prism
	p := m.pose(theta)
	for _, b := range m.placed(p) {
		out = append(out, m.plate(b))
	}
	pin := func(at r2.Vec, from, long, across float64, part string) {
		q := rod(m.across(at, from), m.across(at, from+long), across)
		q.part = part
		out = append(out, q)
	}
	ends := (l.PinLength() - (l.CouplerPlane() - l.CamPlane() + l.BarThick)) / 2
	for _, at := range [...]r2.Vec{p.Pin, p.Joint} {
		pin(at, l.CamPlane()-l.BarThick/2-ends, l.PinLength(), station.PinAcross(l.BarThick), "Coupler pin")
	}
	pin(p.Plates, l.LeverPlane()+l.BarThick/2, station.SleeveLength, station.SleeveAcross, "Plate sleeve")
	return append(out, m.platesOf(theta, sheet.Visible)...)
}

// platesOf is the stack of plates of a linkage at an elbow angle.
func (m *machine) platesOf(theta float64, role sheet.Role) []prism {
	at, plane := m.pose(theta).Plates, m.layout.PlatePlane()
	half := build.PlateThickness(m.layout.PlatesEachArm) / 2
	q := rod(m.across(at, plane-half), m.across(at, plane+half), 2*build.PlateRim)
	q.bare, q.role = true, role
	return []prism{q}
}

// outputUnit is the output shaft of a linkage with its two bearings, simplified.
func (m *machine) outputUnit() []prism {
	l := m.layout
	if l.Train == nil {
		return nil
	}
	at := l.Train.Shaft()
	end := l.LeverPlane() + l.BarThick/2
	shaft := rod(m.across(at, end-l.OutputShaftLength()), m.across(at, end), l.Shaft)
	shaft.part = "Output shaft"
	return append([]prism{shaft}, m.bearings(at, "Output shaft bearing")...)
}
