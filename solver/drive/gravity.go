package drive

import (
	"math"

	"armwright/geometry/linkage"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

// resisting returns the moment about the right arm's axis of a mass (kg) at a
// distance (mm) from the pivot in a direction that turns with the arm, at
// flexion theta, resisting flexion positive: the full three-dimensional
// moment, N·mm. direction is the unit vector at flexion 0.
func resisting(axis, direction r3.Vec, mass, distance, theta float64) float64 {
	w := linkage.Weight{Mass: mass, Axis: axis, Arm: r3.Scale(distance, direction)}
	return -w.Torque(theta)
}

// Across removes a direction's component along the axis.
func Across(v, axis r3.Vec) r3.Vec {
	return r3.Unit(r3.Sub(v, r3.Scale(r3.Dot(v, axis), axis)))
}

// armDirection is where the arm points at flexion 0: down the pad.
func armDirection(m Machine, axis r3.Vec) r3.Vec {
	s, c := math.Sincos(m.Rest.Slope)
	return Across(r3.Vec{X: c, Z: -s}, axis)
}

// gravity returns the moment of arm, handle, counterweight and eccentric weight, and of
// the middle user's forearm where the brief counts it, at a flexion about an axis,
// resisting flexion positive.
func (s *Designer) gravity(g *specs.Geometry, axis r3.Vec) func(theta float64) float64 {
	direction := armDirection(NewMachine(g), axis)
	add := func(mass, distance float64) linkage.Harmonic {
		h := linkage.Weight{Mass: mass, Axis: axis, Arm: r3.Scale(distance, direction)}.Moment()
		return linkage.Harmonic{Cos: -h.Cos, Sin: -h.Sin}
	}
	sum := add(g.Handle.ArmMass, g.Handle.ArmCentre)
	if c := g.Counterweight; c != nil {
		sum = sum.Add(add(c.Mass, -c.Radius).Ahead(c.Phase))
	}
	if e := g.Eccentric; e != nil {
		sum = sum.Add(eccentricMoment(axis, *e))
	}
	if s.CountsLimb() {
		sum = sum.Add(s.limbMoment(direction, axis))
	}
	return sum.At
}

// GravityMoments are those moments over the loaded range, with the axis in its
// middle position, and what the parts of a drive that is designed anew weigh.
func (s *Designer) GravityMoments(g *specs.Geometry) []float64 {
	moment := s.gravity(g, g.Pivots.MeanAxis())
	out := make([]float64, len(s.Angles))
	for i, theta := range s.Angles {
		out[i] = moment(theta)
		if s.own != nil {
			out[i] += s.own[i]
		}
	}
	return out
}

// The grip, mm.
const (
	Grip     = 32.0 // common optimum 33 mm of three studies of grip diameter
	GripRoom = 25.0 // beyond the hand, both ends together (judgement)
)

// Masses at either end of an arm's tube, kg (own choice).
const (
	GripMass = 0.6 // bar, clamp and end caps
	hubMass  = 1.0
)

// The tube of an arm is taken to begin hubReach from the axis and to end gripPast beyond
// the outermost handle position, mm: about where the station's does.
const (
	hubReach = 60.0
	gripPast = 40.0
)

// ArmMass returns mass and centre of one arm whose outermost handle position
// is at reach: hub, tube and grip.
func ArmMass(perMetre, reach float64) (mass, centre float64) {
	length := reach + gripPast - hubReach
	tube := length / 1000 * perMetre
	mass = hubMass + tube + GripMass
	centre = (tube*(hubReach+length/2) + GripMass*reach) / mass
	return mass, centre
}

// eccentricMoment is the moment of an eccentric weight about the right arm's
// axis, resisting flexion positive.
func eccentricMoment(axis r3.Vec, e specs.Eccentric) linkage.Harmonic {
	w := linkage.Lever{Mass: e.Mass, Radius: e.Radius, Phase: e.Phase}.On(r3.Vec{}, axis)
	h := w.Moment()
	return linkage.Harmonic{Cos: -h.Cos, Sin: -h.Sin}
}

// limbMoment is the moment of the middle user's forearm about an axis, resisting
// flexion positive: half of each median one's.
func (s *Designer) limbMoment(direction, axis r3.Vec) linkage.Harmonic {
	var sum linkage.Harmonic
	for _, l := range s.limbs {
		h := linkage.Weight{Mass: l.mass / 2, Axis: axis, Arm: r3.Scale(l.centre, direction)}.Moment()
		sum = sum.Add(linkage.Harmonic{Cos: -h.Cos, Sin: -h.Sin})
	}
	return sum
}

// CountsLimb says whether the brief has the forearm's weight counted in the torque.
func (s *Designer) CountsLimb() bool { return s.Asked.Resistance.Forearm == "counted" }
