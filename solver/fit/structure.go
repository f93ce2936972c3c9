package fit

import (
	"math"
	"slices"

	"armwright/geometry/balance"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
)

// Own choices of construction, mm and kg.
const (
	stackRest     = 40.0  // stack's underside above the base tube
	stackHeadroom = 120.0 // above the raised stack, for its head and the top sheaves
	plateRim      = 225.0 // half the diameter of a 450 mm plate
	armTube       = 40.0  // side of the arm's square tube
	armTubeWall   = "40x40x3"
	gripMass      = 0.6 // bar, clamp and end caps
	hubMass       = 1.0
	hubReach      = 60.0 // the arm's tube starts this far from the axis
	gripPast      = 40.0 // the tube ends this far past the outermost position
)

// armMass returns mass and centre of one arm whose outermost handle position
// is at reach: hub, tube and grip.
func armMass(perMetre, reach float64) (mass, centre float64) {
	length := reach + gripPast - hubReach
	tube := length / 1000 * perMetre
	mass = hubMass + tube + gripMass
	centre = (tube*(hubReach+length/2) + gripMass*reach) / mass
	return mass, centre
}

// layout turns geometry into members and lumps.
func (s *study) layout(g *specs.Geometry) station.Layout {
	m := newMachine(g)
	reach := g.Handle.Least + float64(g.Handle.Positions-1)*g.Handle.Pitch
	l := station.Layout{
		Side: s.member.H, PerMetre: s.member.Mass,
		PivotHeight: g.Pivots.Height, PivotSpacing: g.Pivots.Spacing,
		Rest: m.rest, ArmReach: reach, GripMiddle: g.Handle.Middle, GripLength: g.Handle.GripLength,
		ArmTube: s.arm.H, ArmPerMetre: s.arm.Mass, ArmMass: g.Handle.ArmMass, ArmCentre: g.Handle.ArmCentre,
		StartAngle: m.rest.Slope - s.angles[0],
	}
	if c := g.Counterweight; c != nil {
		l.CounterMass, l.CounterPlace = c.Mass, c.Radius
	}
	if b := g.Base; b != nil {
		l.Rear, l.Front, l.Width = b.Rear, b.Front, b.Width
		l.PadPost, l.SeatPost, l.Tower, l.TowerTall = b.PadPost, b.SeatPost, b.Tower, b.TowerTall
	}
	if t := g.Seat; t != nil {
		l.SeatTop, l.SeatFront, l.SeatDepth, l.SeatWidth = t.Lowest, t.Front, t.Depth, t.Width
	}
	if b := g.Back; b != nil {
		l.HasBack, l.BackAngle, l.BackFoot, l.BackLong = true, b.Angle, b.Foot, b.Length
	}
	heavy := s.asked.Resistance.Load.Heavy
	if g.Cam != nil {
		plate := stock.StackPlate()
		_, tall := plate.Stack(heavy)
		l.StackMass, l.StackLong, l.StackDeep = heavy, plate.Length, plate.Width
		l.StackTop = l.Side + stackRest + tall
	}
	if v := g.Lever; v != nil {
		l.PlatesEachArm, l.PlateRadius, l.PlatePhase = heavy, v.Radius, v.Phase+s.angles[0]
	}
	if e := g.Eccentric; e != nil {
		l.EccentricMass, l.EccentricPlace, l.EccentricPhase = e.Mass, e.Radius, e.Phase+s.angles[0]
	}
	return l
}

// feet of the base, counter-clockwise: rear right, front right, front left,
// rear left. Edge i runs from foot i to the next.
func feet(b *specs.Base) []r2.Vec {
	w := b.Width / 2
	return []r2.Vec{{X: b.Rear, Y: -w}, {X: b.Front, Y: -w}, {X: b.Front, Y: w}, {X: b.Rear, Y: w}}
}

// loadFactor on the working load for member stress (EN 957-2 5.2: 2.5, from
// memory).
const loadFactor = 2.5

// members adds the screening of tubes and bearings: what pads and pivots put
// on their post, what the seat puts on its own. One arm's peak torque at the
// heaviest load is level.
func (s *study) members(g *specs.Geometry, l station.Layout, sat []Person, level, tension float64, out *rows) {
	if g.Base == nil {
		return
	}
	sec, e := s.member, stock.YoungsModulus
	stress := func(moment, axial float64) float64 {
		return loadFactor * (moment/sec.Wx + axial/sec.Area) / s.steel.Yield
	}
	// Pivot post: a cantilever from the base, loaded by what seat and pads do
	// not keep inside the person: the pads' normal force and the handles'.
	worst, moment, axial := -1, 0.0, 0.0
	arm := l.CrossbarHeight() - l.Side
	radial := 0.0
	for i := range sat {
		p := &sat[i]
		peak := math.Min(p.Person.ElbowStrength(), level)
		eq := balance.Seated{
			Weight: p.Person.Mass * balance.G, Slope: p.Pose.ArmSlope, UpperArm: p.Body.UpperArm,
			Support: (l.Rest.Near + l.Rest.Far) / 2, Reach: p.Body.Forearm, SeatTop: l.PivotHeight - p.SeatTop,
		}
		for k, theta := range s.angles {
			eq.Load = 2 * peak * s.shape[k] / p.Body.Forearm
			r := eq.At(theta)
			sd, cd := math.Sincos(eq.Slope)
			sin, cos := math.Sincos(theta - eq.Slope)
			// On the station: the pads are pushed down and forward, the handles
			// against their motion's reaction.
			fx := -r.Pad*sd - eq.Load*sin
			fz := -r.Pad*cd + eq.Load*cos
			px, pz := -eq.Support*cd, eq.Support*sd
			hx, hz := p.Body.Forearm*cos, p.Body.Forearm*sin
			// About the foot of the post.
			x0, z0 := l.PadPost, l.Side-l.PivotHeight
			mo := math.Abs((px-x0)*(-r.Pad*cd) - (pz-z0)*(-r.Pad*sd) + (hx-x0)*(eq.Load*cos) - (hz-z0)*(-eq.Load*sin))
			if mo > moment {
				worst, moment, axial = i, mo, math.Abs(fz)
			}
			radial = math.Max(radial, math.Hypot(fx, fz)/2)
		}
	}
	posts := 1.0
	if l.HasBack {
		posts = 2 // one post a pivot
	}
	out.add("member-stress", worst, stress(moment/posts, axial/posts)).named("pivot post at the base")
	// Tip deflection of a cantilever under an end moment-equivalent force.
	out.add("member-deflection", worst, moment/posts*arm/(3*e*sec.Ix)).named("pivot post")
	// Seat post: the rated user 150 mm off its centreline (judgement).
	user := math.Max(s.asked.Stock.MaxUser, s.persons[s.heavy].Mass) * balance.G
	out.add("member-stress", -1, stress(user*150, user)).named("seat post, user 150 mm off centre")

	// Two bearings to a pivot, the arm outside them by half their distance:
	// the near one carries one and a half times the load.
	load := 1.5 * (radial + tension)
	if w := g.Lever; w != nil {
		load += 1.5 * s.asked.Resistance.Load.Heavy * balance.G
	}
	if load > 0 {
		out.add("bearing-static", -1, s.bearing.Static/load).named("pivot bearing next to the arm")
	}
}

// driveWidth is the outside width over the drives in every axis position. The
// plane of cam or plates stands across the canted axis, so that a part far from
// the axis in that plane reaches outward too.
func (s *study) driveWidth(g *specs.Geometry, l station.Layout) float64 {
	reach := 0.0
	if c := g.Cam; c != nil {
		reach = math.Hypot(c.CentreX, c.CentreY) + slices.Max(c.Law) + s.cable.GrooveDepth()
	}
	if v := g.Lever; v != nil {
		reach = v.Radius + plateRim
	}
	half := 0.0
	for _, a := range newMachine(g).axes {
		half = math.Max(half, -a.Y*l.DriveEnd()+math.Sqrt(1-a.Y*a.Y)*reach)
	}
	return g.Pivots.Spacing + 2*half
}

// sizes adds the outside dimensions of the station.
func (s *study) sizes(g *specs.Geometry, l station.Layout, out *rows) {
	if g.Base == nil {
		return
	}
	out.add("footprint-length", -1, g.Base.Front-g.Base.Rear)
	out.add("footprint-width", -1, math.Max(g.Base.Width, s.driveWidth(g, l))).named("the wider of base and drives")
	top, angle := l.TowerTall, 0.0
	for _, theta := range s.angles {
		z := l.PivotHeight + (l.ArmReach+gripPast)*math.Sin(theta-s.angles[0]-l.StartAngle) + armTube/2
		if z > top {
			top, angle = z, theta
		}
	}
	out.add("height", -1, top).at(angle)
}
