package drive

import (
	"math"

	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// LeverMoments of a unit plate mass over the loaded range, N·mm/kg.
func (s *Designer) LeverMoments(g *specs.Geometry, v specs.Lever) []float64 {
	axis := g.Pivots.MeanAxis()
	forward := Across(r3.Vec{X: 1}, axis)
	out := make([]float64, len(s.Angles))
	for i, theta := range s.Angles {
		out[i] = resisting(axis, forward, 1, v.Radius, theta+v.Phase)
	}
	return out
}

// designLever sets radius and phase of the plates: the phase with the least
// rms difference from the curve at the middle load, the radius by level.
func (s *Designer) designLever(g *specs.Geometry) {
	r := s.Asked.Resistance
	gravity := s.GravityMoments(g)
	v := specs.Lever{Radius: r.LeverRadius.From}
	set := func(phase float64) float64 {
		v.Phase = phase
		v.Radius = 1
		unit := s.LeverMoments(g, v)
		t := s.torque(r.Load.Heavy, unit)
		peak := t.Target[len(t.Target)-1] / s.Shape[len(s.Shape)-1]
		v.Radius = s.wantedLevel() / (peak * r.Load.Heavy)
		v.Radius = math.Max(r.LeverRadius.From, math.Min(r.LeverRadius.To, v.Radius))
		unit = s.LeverMoments(g, v)
		for i := range unit {
			unit[i] = unit[i]*r.Load.Middle + gravity[i]
		}
		return s.torque(r.Load.Middle, unit).RMS
	}
	// The lever is level where the curve peaks, give or take; the rms has one
	// minimum there.
	lo, hi := -140*specs.Degree, -20*specs.Degree
	const golden = 0.6180339887498949
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fa, fb := set(a), set(b)
	for hi-lo > 1e-5 {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - golden*(hi-lo)
			fa = set(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + golden*(hi-lo)
			fb = set(b)
		}
	}
	set((lo + hi) / 2)
	g.Lever = &v
}
