package fit

import (
	"fmt"
	"math"
	"slices"

	"armwright/geometry/balance"
	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
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
	return l
}

// feet of the base, counter-clockwise: rear right, front right, front left,
// rear left. Edge i runs from foot i to the next.
func feet(b *specs.Base) []r2.Vec {
	w := b.Width / 2
	return []r2.Vec{{X: b.Rear, Y: -w}, {X: b.Front, Y: -w}, {X: b.Front, Y: w}, {X: b.Rear, Y: w}}
}

var edgeNames = [4]string{"side", "front", "side", "rear"}

// stability adds the tipping rows and, when cases is not nil, every case.
func (s *study) stability(g *specs.Geometry, l station.Layout, st station.Structure, sat []Person, takeUp float64, out *rows, cases *[]StabilityCase) {
	if g.Base == nil {
		return
	}
	polygon := feet(g.Base)
	judge := func(id, title string, who int, mass float64, c r3.Vec, theta float64, person string) {
		edges := balance.Edges(polygon, mass, c)
		// Right and left are mirror images: three edges are enough.
		for i := 1; i < 4; i++ {
			out.add(id, who, edges[i].Tilt).at(theta).named(title + ", over the " + edgeNames[i])
		}
		if cases != nil {
			e := balance.LeastTilt(edges)
			name := ""
			for i := range edges {
				if edges[i].Tilt == e.Tilt {
					name = edgeNames[i]
				}
			}
			*cases = append(*cases, StabilityCase{Case: title, Person: person, Mass: mass, X: c.X, Y: c.Y, Z: c.Z, Tilt: e.Tilt, Edge: name, Energy: e.Energy})
		}
	}
	first, last := s.angles[0], s.angles[len(s.angles)-1]
	type state struct {
		title string
		theta float64
		mass  float64
		c     r3.Vec
	}
	var states []state
	for _, v := range []struct {
		title string
		theta float64
		lift  float64
	}{{"arms at the start", first, 0}, {"arms at the end, load lifted", last, takeUp}} {
		mass, c := l.Moved(st, v.theta-first, v.lift).Centre()
		states = append(states, state{v.title, v.theta, mass, c})
	}
	for _, v := range states {
		judge("tilt-empty", "empty, "+v.title, -1, v.mass, v.c, v.theta, "")
	}
	m := newMachine(g)
	for i := range sat {
		p := &sat[i]
		who := i
		body := []float64{p.Person.Mass}
		if i == s.heavy {
			body = append(body, math.Max(100, math.Max(p.Person.Mass, s.asked.Stock.MaxUser)))
		}
		for k, kg := range body {
			title := ""
			if k == 1 {
				title = fmt.Sprintf("rated user of %.0f kg, ", kg)
			}
			for _, v := range states {
				arm, _ := p.Pose.Turned(m.axes[p.Axis], humeralTurn)
				c := massCentre(p.Person, p.Body, p.Pose, arm, v.theta)
				mass := v.mass + kg
				c = r3.Scale(1/mass, r3.Add(r3.Scale(v.mass, v.c), r3.Scale(kg, c)))
				judge("tilt-occupied", title+v.title, who, mass, c, v.theta, p.Person.Label)
			}
		}
	}
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

// gaps adds the least gap between the moving arm and what stands still, over
// the loaded range. The arm is two bodies: its tube in the arm's plane, and
// the grip bar from the tube inward. A gap in the side view and one across it
// add as the legs of a right angle.
func (s *study) gaps(l station.Layout, st station.Structure, out *rows) {
	least, angle, with := math.Inf(1), 0.0, ""
	pivot := l.PivotSpacing / 2
	tubeIn, tubeOut := pivot+l.ArmPlane()-l.ArmTube/2, pivot+l.ArmPlane()+l.ArmTube/2
	gripIn := pivot + l.GripMiddle - l.GripLength/2
	for _, theta := range s.angles {
		sin, cos := math.Sincos(theta - s.angles[0] - l.StartAngle)
		at := func(r float64) r2.Vec { return r2.Vec{X: r * cos, Y: l.PivotHeight + r*sin} }
		for i := range st.Members {
			m := &st.Members[i]
			lo, hi := math.Abs(m.A.Y), math.Abs(m.B.Y)
			if lo > hi {
				lo, hi = hi, lo
			}
			if m.A.Y*m.B.Y < 0 {
				lo = 0
			}
			a, b := r2.Vec{X: m.A.X, Y: m.A.Z}, r2.Vec{X: m.B.X, Y: m.B.Z}
			half := m.Deep / 2
			if m.A.X == m.B.X && m.A.Z == m.B.Z { // runs across: seen end on
				half *= math.Sqrt2
			} else { // its ends across count in its width
				lo, hi = lo-m.Wide/2, hi+m.Wide/2
			}
			tube := apart(segmentGap(at(hubReach), at(l.ArmReach+gripPast), a, b)-half-l.ArmTube/2, tubeIn, tubeOut, lo, hi)
			bar := apart(segmentGap(at(l.ArmReach), at(l.ArmReach), a, b)-half-grip/2, gripIn, tubeOut, lo, hi)
			if gap := math.Min(tube, bar); gap < least {
				least, angle, with = gap, theta, m.Title
			}
		}
		if floor := at(l.ArmReach+gripPast).Y - l.ArmTube/2; floor < least {
			least, angle, with = floor, theta, "the floor"
		}
	}
	out.add("crush-gap", -1, least).at(angle).named("arm to " + with)
}

// apart combines a gap in the side view with the gap between two spans across
// it; a negative gap is none.
func apart(side, lo1, hi1, lo2, hi2 float64) float64 {
	across := math.Max(0, math.Max(lo2-hi1, lo1-hi2))
	if across == 0 {
		return side
	}
	return math.Hypot(math.Max(0, side), across)
}

// segmentGap is the distance between two segments in the plane; segments that
// cross count as zero.
func segmentGap(a, b, c, d r2.Vec) float64 {
	cross := func(o, p, q r2.Vec) float64 { return r2.Cross(r2.Sub(p, o), r2.Sub(q, o)) }
	if cross(a, b, c)*cross(a, b, d) < 0 && cross(c, d, a)*cross(c, d, b) < 0 {
		return 0
	}
	return math.Min(math.Min(pointGap(a, c, d), pointGap(b, c, d)), math.Min(pointGap(c, a, b), pointGap(d, a, b)))
}

func pointGap(p, a, b r2.Vec) float64 {
	d := r2.Sub(b, a)
	n := r2.Dot(d, d)
	t := 0.0
	if n > 0 {
		t = math.Max(0, math.Min(1, r2.Dot(r2.Sub(p, a), d)/n))
	}
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(t, d))))
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
