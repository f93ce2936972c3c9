package build

import (
	"errors"
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/cable"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/geometry/station/values"
	"armwright/solver/drive"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Station is what a geometry is built of: the one list of parts and joints from
// which balance, gaps, strength, drawings and lists are worked out.
type Station struct {
	Values   values.Station
	Assembly *assembly.Assembly
	Needs    []station.Need // what must hold so that it can be made as it is meant; short of it where Slack is negative
	Tower    station.Tower
	Route    *cable.Route // of the right arm's cable; nil without one
	Fault    error        // a *station.ValueError of values from which nothing can be built; then there is no assembly
}

// Mass is that of all parts, kg; 0 without an assembly.
func (s *Station) Mass() float64 {
	if s.Assembly == nil {
		return 0
	}
	return s.Assembly.Mass()
}

// Station builds a geometry with its resistance. With a maker, which the next
// build uses again, what is returned lasts until then; without one it stays. A
// bench has no station: there are values, but its assembly is nil, and so is that
// of what cannot be built.
func (s *Builder) Station(g *specs.Geometry, d *drive.State, maker *station.Maker) Station {
	if s.Bench() {
		return Station{Values: s.Values(g, d)}
	}
	if maker == nil {
		maker = new(station.Maker)
	}
	out := Station{Values: s.Values(g, d)}
	out.Assembly, out.Needs, out.Fault = maker.Build(&out.Values)
	out.Tower, out.Route = maker.Tower(), maker.Route()
	return out
}

// sound makes a part that has no shape, as of a length below nothing, a fault of the
// whole: a search may pass through such a station, but nothing can be drawn of it.
func (s *Station) sound() {
	if s.Assembly == nil {
		return
	}
	for i := range s.Assembly.Parts {
		p := &s.Assembly.Parts[i]
		if err := p.Solid.Validate(); err != nil {
			var e *solid.Error
			why := err.Error()
			if errors.As(err, &e) {
				why = e.Defect
			}
			s.Assembly, s.Needs, s.Route = nil, nil, nil
			s.Fault = &station.ValueError{Value: p.ID, Hint: "the values round it leave this part no shape: " + why}
			return
		}
	}
}

// Stand is where the station stands on the floor: the rectangle of its feet's
// middles, mm. Half is from the midline.
type Stand struct{ Rear, Front, Half float64 }

// Stand is that of the assembly's feet; of what cannot be built, of the base.
func (s *Station) Stand(b *specs.Base) Stand {
	if s.Assembly == nil {
		return Stand{b.Rear, b.Front, b.Width / 2}
	}
	out := Stand{math.Inf(1), math.Inf(-1), 0}
	for i := range s.Assembly.Parts {
		if p := &s.Assembly.Parts[i]; p.Is(assembly.Ground) {
			out.Rear, out.Front, out.Half = min(out.Rear, p.Centre.X), max(out.Front, p.Centre.X), max(out.Half, p.Centre.Y)
		}
	}
	return out
}

// Feet are the corners, counter-clockwise: rear right, front right, front left,
// rear left. Edge i runs from foot i to the next.
func (s Stand) Feet() []r2.Vec {
	return []r2.Vec{{X: s.Rear, Y: -s.Half}, {X: s.Front, Y: -s.Half}, {X: s.Front, Y: s.Half}, {X: s.Rear, Y: s.Half}}
}

// ArmWeight is the mass, kg, of one arm with its handle in the middle position, and
// the distance of its centre from the pivot axis, mm.
func (s *Builder) ArmWeight(g *specs.Geometry) (mass, centre float64) {
	v := s.undriven(g)
	v.Counter, v.Eccentric = values.Counter{}, values.Eccentric{}
	var maker station.Maker
	a, _, err := maker.Build(&v)
	if err != nil {
		return drive.ArmMass(s.Arm.Mass, v.Handle.Least)
	}
	pose := a.Reference
	pose.Handle = (v.Handle.Positions - 1) / 2
	places := a.At(pose, nil)
	var sum assembly.Weight
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Side == assembly.Right && p.Is(assembly.Turns) {
			sum.Add(p.Mass, places[p.Group].Point(p.Centre))
		}
	}
	axis := v.Axes[len(v.Axes)/2]
	out := r3.Sub(sum.Centre(), v.Pivot())
	return sum.Mass, r3.Norm(r3.Sub(out, r3.Scale(r3.Dot(out, axis), axis)))
}

// Middle is the pose with every setting in the middle of its positions and the arms
// at the first loaded angle.
func (s *Station) Middle() assembly.Pose {
	pose := s.Assembly.Reference
	middle := func(n int) int { return max(0, n-1) / 2 }
	pose.Seat, pose.Handle, pose.Foot = middle(s.Values.Seat.Positions), middle(s.Values.Handle.Positions), middle(s.Values.FootPlate.Positions)
	pose.Chest = middle(s.Values.Chest.Positions)
	return pose
}
