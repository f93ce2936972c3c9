package build

import (
	"math"

	"armwright/geometry/linkage"
	"armwright/geometry/station"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
)

// movers of the linkage of one arm: its bars as round bars of their eyes' size,
// the plates as a disc, and the sleeve that the plates hang on.
func (s *Builder) linkageMovers(v *values.Station) []Mover {
	t := v.Linkage.Train
	w := v.Planes()
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
	eye := v.BarThick / 2
	list := []Mover{
		{Name: inputName, W1: w.Input, W2: w.Input, Radius: eye, Places: path(arm, pin)},
		{Name: couplerName, W1: w.Coupler, W2: w.Coupler, Radius: eye, Places: path(pin, joint)},
		{Name: outputName, W1: w.Output, W2: w.Output, Radius: eye, Places: path(shaft, joint)},
		{Name: leverName, W1: w.PlateLever, W2: w.PlateLever, Radius: eye, Places: path(shaft, plates)},
	}
	const diameters = 8
	thick := station.PileThickness(&v.Linkage.Plates)
	middle := w.Plates + thick/2
	across := v.Linkage.Plates.Across / 2
	for i := range diameters {
		sin, cos := math.Sincos(math.Pi * float64(i) / diameters)
		rim := r2.Vec{X: across * cos, Y: across * sin}
		list = append(list, Mover{Name: plateName, W1: middle, W2: middle, Radius: thick / 2,
			Places: path(func(p linkage.Pose) r2.Vec { return r2.Sub(p.Plates, rim) }, func(p linkage.Pose) r2.Vec { return r2.Add(p.Plates, rim) })})
	}
	return list
}
