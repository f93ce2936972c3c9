package fit

import (
	"math"

	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Names of moving parts.
const (
	tubeName, gripName, counterName, plateName, eccentricName = "arm", "grip", "counterweight", "plates", "eccentric weight"
	inputName, couplerName, outputName, leverName             = "input bar", "coupler", "output bar", "plate lever"
)

// mover is one moving body of the right arm: a segment from (r, w) to (r, w),
// distances from the axis and outward along it, thickened by a radius; a disc
// has several, one for each of its diameters.
type mover struct {
	name           string
	r1, w1, r2, w2 float64
	radius         float64
	phase          float64 // ahead of the arm
	across         float64 // half length across the radius: a diameter of a disc, mm
	turn           float64 // of that diameter
	// places are both ends at each angle of the grid, forward and up in the plane
	// across the axis, of what does not turn with the arm; nil of what does.
	places [][2]r2.Vec
}

// ends returns the segment at a flexion whose sine and cosine, with the
// mover's own phase, are given.
func (m *mover) ends(sw station.Swing, sin, cos float64) (a, b r3.Vec) {
	if m.across == 0 {
		return sw.Place(m.r1, m.w1, sin, cos), sw.Place(m.r2, m.w2, sin, cos)
	}
	c := sw.Place(m.r1, m.w1, sin, cos)
	s, k := math.Sincos(m.turn)
	d := r3.Scale(m.across, r3.Add(r3.Scale(k, sw.Forward), r3.Scale(s, sw.Up)))
	return r3.Add(c, d), r3.Sub(c, d)
}

// half the length of the mover.
func (m *mover) half() float64 {
	if m.places != nil {
		return r2.Norm(r2.Sub(m.places[0][0], m.places[0][1])) / 2
	}
	if m.across > 0 {
		return m.across
	}
	return math.Hypot(m.r2-m.r1, m.w2-m.w1) / 2
}

// far is how far from the axis the mover comes.
func (m *mover) far() float64 {
	if m.places == nil {
		return max(math.Abs(m.r1), math.Abs(m.r2)) + m.across
	}
	most := 0.0
	for _, ends := range m.places {
		most = max(most, r2.Norm2(ends[0]), r2.Norm2(ends[1]))
	}
	return math.Sqrt(most)
}

// beyond tells whether two places are farther apart than a distance.
func beyond(a, b r3.Vec, distance float64) bool {
	return distance < 0 || r3.Norm2(r3.Sub(a, b)) > distance*distance
}

// movers lists the moving bodies of one arm.
func (s *builder) movers(g *specs.Geometry, l station.Layout) []mover {
	plane := l.ArmPlane()
	in, out := l.GripMiddle-l.GripLength/2, plane
	list := []mover{
		{name: tubeName, r1: station.HubReach, w1: plane, r2: l.ArmReach + station.GripPast, w2: plane, radius: l.ArmTube / 2},
		{name: gripName, r1: l.ArmReach, w1: in, r2: l.ArmReach, w2: out, radius: g.Handle.Diameter / 2},
		{name: gripName, r1: g.Handle.Least, w1: in, r2: g.Handle.Least, w2: out, radius: g.Handle.Diameter / 2},
	}
	if l.CounterMass > 0 {
		half := math.Sqrt(l.CounterMass/(stock.SteelDensity*station.CounterThick)) / 2
		w := l.CounterPlane()
		list = append(list, mover{name: counterName, r1: -l.CounterPlace - half, w1: w, r2: half - l.CounterPlace, w2: w, radius: station.CounterThick / 2, phase: l.CounterPhase})
	}
	// Round plates by some of their diameters.
	disc := func(name string, r, w, rim, thick, phase float64) {
		const diameters = 8
		for i := range diameters {
			list = append(list, mover{name: name, r1: r, w1: w, radius: thick / 2, phase: phase, across: rim, turn: math.Pi * float64(i) / diameters})
		}
	}
	slope := l.Rest.Slope // the swing points down the pad at flexion 0
	if e := g.Eccentric; e != nil && e.Mass > 0 {
		disc(eccentricName, e.Radius, l.CounterPlane(), math.Sqrt(e.Mass/(math.Pi*stock.SteelDensity*station.CounterThick)), station.CounterThick, e.Phase+slope)
	}
	if v := g.Lever; v != nil {
		disc(plateName, v.Radius, l.CamPlane(), plateRim, plateThickness(l.PlatesEachArm), v.Phase+slope)
	}
	if g.Linkage != nil {
		list = append(list, s.linkageMovers(g, l)...)
	}
	return list
}

// gap is that of the body with the ends e to a box.
func (m *mover) gap(e [2]r3.Vec, b *station.Box) float64 { return b.Gap(e[0], e[1]) - m.radius }

// overFloor is its gap to the floor.
func (m *mover) overFloor(e [2]r3.Vec) float64 { return min(e[0].Z, e[1].Z) - m.radius }

// otherArm is its gap to the other arm, which may stand at any angle: nearest where
// it mirrors this one.
func (m *mover) otherArm(e [2]r3.Vec) float64 { return 2 * (min(-e[0].Y, -e[1].Y) - m.radius) }
