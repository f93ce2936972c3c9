package fit

import (
	"math"

	"armwright/geometry/linkage"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// movers of the linkage of one arm: its bars as round bars of their eyes' size,
// the plates as a disc, and the sleeve that the plates hang on.
func (s *builder) linkageMovers(g *specs.Geometry, l station.Layout) []mover {
	t := Train(g.Linkage)
	n := len(s.angles)
	path := func(from, to func(linkage.Pose) r2.Vec) [][2]r2.Vec {
		ends := make([][2]r2.Vec, n)
		for k, theta := range s.angles {
			p, _ := t.At(theta)
			ends[k] = [2]r2.Vec{from(p), to(p)}
		}
		return ends
	}
	arm := func(linkage.Pose) r2.Vec { return r2.Vec{} }
	pin := func(p linkage.Pose) r2.Vec { return p.Pin }
	joint := func(p linkage.Pose) r2.Vec { return p.Joint }
	shaft := func(p linkage.Pose) r2.Vec { return p.Shaft }
	plates := func(p linkage.Pose) r2.Vec { return p.Plates }
	eye := l.BarThick / 2
	list := []mover{
		{name: inputName, w1: l.CamPlane(), w2: l.CamPlane(), radius: eye, places: path(arm, pin)},
		{name: couplerName, w1: l.CouplerPlane(), w2: l.CouplerPlane(), radius: eye, places: path(pin, joint)},
		{name: outputName, w1: l.CamPlane(), w2: l.CamPlane(), radius: eye, places: path(shaft, joint)},
		{name: leverName, w1: l.LeverPlane(), w2: l.LeverPlane(), radius: eye, places: path(shaft, plates)},
	}
	const diameters = 8
	for i := range diameters {
		sin, cos := math.Sincos(math.Pi * float64(i) / diameters)
		rim := r2.Vec{X: plateRim * cos, Y: plateRim * sin}
		list = append(list, mover{name: plateName, w1: l.PlatePlane(), w2: l.PlatePlane(), radius: plateThickness(l.PlatesEachArm) / 2,
			places: path(func(p linkage.Pose) r2.Vec { return r2.Sub(p.Plates, rim) }, func(p linkage.Pose) r2.Vec { return r2.Add(p.Plates, rim) })})
	}
	return list
}

// plateThickness is that of plates of full diameter, mm.
func plateThickness(mass float64) float64 {
	return mass / (math.Pi * plateRim * plateRim * stock.SteelDensity)
}

// ownLinkageGaps are the gaps between parts of a linkage that pass each other in
// parallel planes: they stay as they are.
func ownLinkageGaps(l station.Layout) []ownGap {
	pins := l.CouplerPlane() + l.BarThick/2
	return []ownGap{
		{inputName, "its bearing bar", l.CamPlane() - l.BarThick/2 - l.BearingPlane() - l.ArmTube/2},
		{leverName, couplerName, l.LeverPlane() - l.BarThick/2 - pins},
		{plateName, couplerName, l.PlatePlane() - plateThickness(l.PlatesEachArm)/2 - pins},
	}
}

// ownGap is a gap that stays.
type ownGap struct {
	moving, fixed string
	gap           float64
}

// linkageReach is how far outward along the machine's y the plates come on an axis,
// mm from the pivot.
func (s *builder) linkageReach(g *specs.Geometry, l station.Layout, axis r3.Vec) float64 {
	t := Train(g.Linkage)
	sw := station.NewSwing(r3.Vec{}, axis, 0)
	rim := plateRim * math.Hypot(sw.Forward.Y, sw.Up.Y)
	most := 0.0
	for _, theta := range s.angles {
		p, _ := t.At(theta)
		most = math.Max(most, rim-sw.InPlane(p.Plates.X, p.Plates.Y, l.DriveEnd()).Y)
	}
	return most
}
