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
	full := g.Handle.ArmMass * g.Handle.ArmCentre / counterRadius
	switch s.Asked.Resistance.Counter {
	case "none":
		return []*specs.Counterweight{nil}
	case "balance":
		return []*specs.Counterweight{{Mass: full, Radius: counterRadius}}
	case "curve":
		return []*specs.Counterweight{s.curveCounterweight(g)}
	}
	list := []*specs.Counterweight{nil}
	if s.Asked.Resistance.Drive == "linkage" {
		// Behind a linkage the arm's weight is matched with the rest, and its bars
		// leave no room for a counterweight.
		return list
	}
	for _, share := range []float64{0.25, 0.5, 0.75, 1} { // a shop fits what plates it has
		list = append(list, &specs.Counterweight{Mass: share * full, Radius: counterRadius})
	}
	return list
}

// curveCounterweight is the lightest counterweight after which the empty arm's
// moment is as near to the strength curve as a weight that turns with the arm can
// bring it: a share c of the curve's own first harmonic H, its best in the least
// squares over the loaded range. With the arm's harmonic G the counterweight adds
// c H - G, which is least for c = G·H/H·H; a share below zero would push.
func (s *Designer) curveCounterweight(g *specs.Geometry) *specs.Counterweight {
	bare := *g
	bare.Counterweight, bare.Eccentric = nil, nil
	moment := s.gravity(&bare, g.Pivots.MeanAxis())
	arm := linkage.Harmonic{Cos: moment(0), Sin: moment(math.Pi / 2)}
	curve := linkage.NearestHarmonic(s.Angles, s.Shape)
	share := math.Max(0, (arm.Cos*curve.Cos+arm.Sin*curve.Sin)/(curve.Cos*curve.Cos+curve.Sin*curve.Sin))
	needed, at := linkage.Harmonic{Cos: share*curve.Cos - arm.Cos, Sin: share*curve.Sin - arm.Sin}.Peak()
	own, armAt := arm.Peak()
	return &specs.Counterweight{
		Mass: g.Handle.ArmMass * g.Handle.ArmCentre / counterRadius * needed / own, Radius: counterRadius,
		Phase: math.Remainder(armAt-at-math.Pi, 2*math.Pi),
	}
}
