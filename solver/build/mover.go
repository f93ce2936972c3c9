package build

import (
	"math"

	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/geometry/station/values"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Names of moving parts.
const (
	TubeName, GripName, CounterName, plateName, EccentricName = "arm", "grip", "counterweight", "plates", "eccentric weight"
	inputName, couplerName, outputName, leverName             = "input bar", "coupler", "output bar", "plate lever"
)

// Mover is one moving body of the right arm: a segment from (r, w) to (r, w),
// distances from the axis and outward along it, thickened by a radius; a disc
// has several, one for each of its diameters.
type Mover struct {
	Name           string
	r1, W1, r2, W2 float64
	Radius         float64
	Phase          float64 // ahead of the arm
	across         float64 // half length across the radius: a diameter of a disc, mm
	turn           float64 // of that diameter
	// Places are both ends at each angle of the grid, forward and up in the plane
	// across the axis, of what does not turn with the arm; nil of what does.
	Places [][2]r2.Vec
}

// Ends returns the segment at a flexion whose sine and cosine, with the
// mover's own phase, are given.
func (m *Mover) Ends(sw Swing, sin, cos float64) (a, b r3.Vec) {
	if m.across == 0 {
		return sw.Place(m.r1, m.W1, sin, cos), sw.Place(m.r2, m.W2, sin, cos)
	}
	c := sw.Place(m.r1, m.W1, sin, cos)
	s, k := math.Sincos(m.turn)
	d := r3.Scale(m.across, r3.Add(r3.Scale(k, sw.Forward), r3.Scale(s, sw.Up)))
	return r3.Add(c, d), r3.Sub(c, d)
}

// Half the length of the mover.
func (m *Mover) Half() float64 {
	if m.Places != nil {
		return r2.Norm(r2.Sub(m.Places[0][0], m.Places[0][1])) / 2
	}
	if m.across > 0 {
		return m.across
	}
	return math.Hypot(m.r2-m.r1, m.W2-m.W1) / 2
}

// Far is how far from the axis the mover comes.
func (m *Mover) Far() float64 {
	if m.Places == nil {
		return max(math.Abs(m.r1), math.Abs(m.r2)) + m.across
	}
	most := 0.0
	for _, ends := range m.Places {
		most = max(most, r2.Norm2(ends[0]), r2.Norm2(ends[1]))
	}
	return math.Sqrt(most)
}

// Beyond reports whether two places are farther apart than a distance.
func Beyond(a, b r3.Vec, distance float64) bool {
	return distance < 0 || r3.Norm2(r3.Sub(a, b)) > distance*distance
}

// Movers lists the moving bodies of one arm.
func (s *Builder) Movers(v *values.Station) []Mover {
	p := v.Planes()
	from, to := station.ArmEnds(v)
	h := &v.Handle
	last := h.Greatest()
	list := []Mover{
		{Name: TubeName, r1: from, W1: p.Arm, r2: to, W2: p.Arm, Radius: v.Arm.Height / 2},
		{Name: GripName, r1: last, W1: p.GripIn, r2: last, W2: p.Arm, Radius: h.Diameter / 2},
		{Name: GripName, r1: h.Least, W1: p.GripIn, r2: h.Least, W2: p.Arm, Radius: h.Diameter / 2},
	}
	const thick = values.WeightThick
	if c := &v.Counter; c.Mass > 0 {
		half := math.Sqrt(c.Mass/(stock.SteelDensity*thick)) / 2
		w := p.Counter + thick/2
		list = append(list, Mover{Name: CounterName, r1: -c.Radius - half, W1: w, r2: half - c.Radius, W2: w, Radius: thick / 2, Phase: c.Phase})
	}
	// Round plates by some of their diameters.
	disc := func(name string, r, w, rim, thick, phase float64) {
		const diameters = 8
		for i := range diameters {
			list = append(list, Mover{Name: name, r1: r, W1: w, Radius: thick / 2, Phase: phase, across: rim, turn: math.Pi * float64(i) / diameters})
		}
	}
	slope := v.Rest.Slope // the swing points down the pad at flexion 0
	if e := &v.Eccentric; e.Mass > 0 {
		disc(EccentricName, e.Radius, p.Eccentric+thick/2, math.Sqrt(e.Mass/(math.Pi*stock.SteelDensity*thick)), thick, e.Phase+slope)
	}
	switch v.Drive {
	case values.LeverDrive:
		thick := station.PileThickness(&v.Lever.Plates)
		disc(plateName, v.Lever.Radius, p.Plates+thick/2, v.Lever.Plates.Across/2, thick, v.Lever.Phase+slope)
	case values.LinkageDrive:
		list = append(list, s.linkageMovers(v)...)
	}
	return list
}

// Gap is that of the body with the ends e to a box.
func (m *Mover) Gap(e [2]r3.Vec, b *solid.Box) float64 { return b.Gap(e[0], e[1]) - m.Radius }

// OverFloor is its gap to the floor.
func (m *Mover) OverFloor(e [2]r3.Vec) float64 { return min(e[0].Z, e[1].Z) - m.Radius }

// OtherArm is its gap to the other arm, which may stand at any angle: nearest where
// it mirrors this one.
func (m *Mover) OtherArm(e [2]r3.Vec) float64 { return 2 * (min(-e[0].Y, -e[1].Y) - m.Radius) }
