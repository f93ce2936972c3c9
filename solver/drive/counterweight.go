package drive

import (
	"math"

	"armwright/geometry/linkage"
	"armwright/specs"
)

// counterRadius is where the counterweight sits (own choice), mm.
const counterRadius = 150.0

// counterweights lists those a brief allows for a geometry, nil for none, the
// first preferred.
func (s *Designer) counterweights(g *specs.Geometry) []*specs.Counterweight {
	switch s.Asked.Resistance.Counter {
	case "none":
		return []*specs.Counterweight{nil}
	case "balance":
		return []*specs.Counterweight{s.counterweight(g, 0)}
	case "curve":
		return []*specs.Counterweight{s.curveCounterweight(g)}
	}
	list := []*specs.Counterweight{nil}
	if s.Asked.Resistance.Drive == "linkage" {
		// Behind a linkage the arm's weight is matched with the rest, and its bars
		// leave no room for a counterweight.
		return list
	}
	full := s.counterweight(g, 0)
	for _, share := range []float64{0.25, 0.5, 0.75, 1} { // a shop fits what plates it has
		c := *full
		c.Mass *= share
		list = append(list, &c)
	}
	return list
}

// counterweight brings the empty arm's moment to a share of the strength curve's
// first harmonic: 0 balances the arm, as nearly as a weight that turns with it can
// balance a cam that turns faster.
func (s *Designer) counterweight(g *specs.Geometry, share float64) *specs.Counterweight {
	bare := *g
	bare.Counterweight, bare.Eccentric = nil, nil
	moment := s.gravity(&bare, g.Pivots.MeanAxis())
	own, armAt := linkage.Harmonic{Cos: moment(0), Sin: moment(math.Pi / 2)}.Peak()
	arm := s.empty(&bare)
	curve := linkage.NearestHarmonic(s.Angles, s.Shape)
	needed, at := linkage.Harmonic{Cos: share*curve.Cos - arm.Cos, Sin: share*curve.Sin - arm.Sin}.Peak()
	return &specs.Counterweight{
		Mass: g.Handle.ArmMass * g.Handle.ArmCentre / counterRadius * needed / own, Radius: counterRadius,
		Phase: math.Remainder(armAt-at-math.Pi, 2*math.Pi),
	}
}

// empty is the first harmonic of what one arm with its drive weighs.
func (s *Designer) empty(g *specs.Geometry) linkage.Harmonic {
	return linkage.NearestHarmonic(s.Angles, s.GravityMoments(g))
}

// curveCounterweight is the lightest counterweight after which the empty arm's
// moment is as near to the strength curve as a weight that turns with the arm can
// bring it: a share c of the curve's own first harmonic H, its best in the least
// squares over the loaded range. With the arm's harmonic G the counterweight adds
// c H - G, which is least for c = G·H/H·H; a share below zero would push.
func (s *Designer) curveCounterweight(g *specs.Geometry) *specs.Counterweight {
	bare := *g
	bare.Counterweight, bare.Eccentric = nil, nil
	arm, curve := s.empty(&bare), linkage.NearestHarmonic(s.Angles, s.Shape)
	return s.counterweight(g, math.Max(0, (arm.Cos*curve.Cos+arm.Sin*curve.Sin)/(curve.Cos*curve.Cos+curve.Sin*curve.Sin)))
}
