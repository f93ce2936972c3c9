package build

import (
	"math"

	"armwright/geometry/linkage"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// movers of the linkage of one arm: its bars as round bars of their eyes' size,
// the plates as a disc, and the sleeve that the plates hang on.
func (s *Builder) linkageMovers(g *specs.Geometry, l station.Layout) []Mover {
	t := drive.Train(g.Linkage)
	n := len(s.Angles)
	path := func(from, to func(linkage.Pose) r2.Vec) [][2]r2.Vec {
		ends := make([][2]r2.Vec, n)
		for k, theta := range s.Angles {
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
	list := []Mover{
		{Name: inputName, W1: l.CamPlane(), W2: l.CamPlane(), Radius: eye, Places: path(arm, pin)},
		{Name: couplerName, W1: l.CouplerPlane(), W2: l.CouplerPlane(), Radius: eye, Places: path(pin, joint)},
		{Name: outputName, W1: l.CamPlane(), W2: l.CamPlane(), Radius: eye, Places: path(shaft, joint)},
		{Name: leverName, W1: l.LeverPlane(), W2: l.LeverPlane(), Radius: eye, Places: path(shaft, plates)},
	}
	const diameters = 8
	for i := range diameters {
		sin, cos := math.Sincos(math.Pi * float64(i) / diameters)
		rim := r2.Vec{X: PlateRim * cos, Y: PlateRim * sin}
		list = append(list, Mover{Name: plateName, W1: l.PlatePlane(), W2: l.PlatePlane(), Radius: PlateThickness(l.PlatesEachArm) / 2,
			Places: path(func(p linkage.Pose) r2.Vec { return r2.Sub(p.Plates, rim) }, func(p linkage.Pose) r2.Vec { return r2.Add(p.Plates, rim) })})
	}
	return list
}

// PlateThickness is that of plates of a mass, kg, and full diameter, mm.
func PlateThickness(mass float64) float64 {
	return mass / (math.Pi * PlateRim * PlateRim * stock.SteelDensity)
}

// LinkageGaps are the gaps between parts of a linkage that pass each other in
// parallel planes: they stay as they are.
func LinkageGaps(l station.Layout) []OwnGap {
	pins := l.CouplerPlane() + l.BarThick/2
	return []OwnGap{
		{inputName, "its bearing bar", l.CamPlane() - l.BarThick/2 - l.BearingPlane() - l.ArmTube/2},
		{leverName, couplerName, l.LeverPlane() - l.BarThick/2 - pins},
		{plateName, couplerName, l.PlatePlane() - PlateThickness(l.PlatesEachArm)/2 - pins},
	}
}

// OwnGap is a gap that stays.
type OwnGap struct {
	Moving, Fixed string
	Gap           float64
}

// linkageReach is how far outward along the machine's y the plates come on an axis,
// mm from the pivot.
func (s *Builder) linkageReach(g *specs.Geometry, l station.Layout, axis r3.Vec) float64 {
	t := drive.Train(g.Linkage)
	sw := station.NewSwing(r3.Vec{}, axis, 0)
	rim := PlateRim * math.Hypot(sw.Forward.Y, sw.Up.Y)
	most := 0.0
	for _, theta := range s.Angles {
		p, _ := t.At(theta)
		most = math.Max(most, rim-sw.InPlane(p.Plates.X, p.Plates.Y, l.DriveEnd()).Y)
	}
	return most
}
