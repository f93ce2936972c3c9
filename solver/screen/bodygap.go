package screen

import (
	"math"

	"armwright/geometry/posture"
	"armwright/geometry/solid"
	"armwright/geometry/station"
	"armwright/geometry/station/values"
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	// headRadius of a ball round the head's centre of mass, mm: half of the
	// length of a man's head, 199 (2012 survey, M).
	headRadius = 100.0
	// bellyReach is how far the belly reaches up and down from its foremost
	// height, mm (judgement).
	bellyReach = 80.0
)

// bodyGaps adds, for every boundary person, the least gap of the moving arm
// and grip to the person's own trunk, head and thigh, and to those of nobody
// else: by mirror symmetry one side is enough where both arms are set alike.
func (s *Screen) bodyGaps(sc *Scene, out *require.Rows, known Memory) {
	g, v := sc.Geometry, &sc.Station.Values
	swings := swingsOf(g)
	for i := range sc.seated {
		if known.Recall(OfBodyGap, i, out) {
			continue
		}
		first := len(out.List)
		p := &sc.seated[i]
		below, enough := known.BodyGap(i)
		most := min(enough, out.Below("body-gap"))
		right, left, two := s.grasps(swings, p)
		if below >= enough || s.bodyGap(g, right, v, i, p, below, out) == nil {
			s.bodyGap(g, right, v, i, p, most, out)
		}
		if two {
			for _, w := range out.List[first:] {
				most = w.Value
			}
			if s.bodyGap(g, left, v, i, p, most, out) != nil {
				out.List = append(out.List[:first], out.List[len(out.List)-1])
			}
		}
		if len(out.List) == first && !math.IsInf(enough, 1) {
			out.Add("body-gap", i, enough)
		}
		known.Keep(OfBodyGap, i, out.List[first:])
	}
}

// swingsOf are the arm's ways by axis position.
func swingsOf(g *specs.Geometry) []build.Swing {
	m := drive.NewMachine(g)
	swings := make([]build.Swing, len(m.Axes))
	for i, axis := range m.Axes {
		swings[i] = build.NewSwing(m.Pivot, axis, m.Rest.Slope)
	}
	return swings
}

// grasp is how an arm is set for a person: its swing and the handle position.
type grasp struct {
	swing  *build.Swing
	handle int
}

// grasps are how a person's arms are set, two where the left one is set otherwise. A
// search, to which the handle is free, knows of one.
func (s *Screen) grasps(swings []build.Swing, p *seat.Person) (right, left grasp, two bool) {
	right, left = grasp{&swings[p.Axis], p.Handle}, grasp{&swings[p.Left.Axis], p.Left.Handle}
	return right, left, left != right && p.Handle >= 0 && s.Asked.People.Carrying.Sides != 0
}

// bodyGap adds the row of one arm of a person if the gap lies below a limit, nil if it does
// not: the lower the limit, the more can be passed over.
func (s *Screen) bodyGap(g *specs.Geometry, arm grasp, v *values.Station, i int, p *seat.Person, below float64, out *require.Rows) *require.Row {
	sw, planes := arm.swing, v.Planes()
	plane, in := planes.Arm, planes.GripIn
	from, to := station.ArmEnds(v)
	parts := bulksOf(p)
	var radii [2]float64
	if arm.handle >= 0 {
		r := g.Handle.Radius(arm.handle)
		radii = [2]float64{r, r}
	} else { // while the handle is free it may come to lie half a pitch to either side
		own := r3.Norm(p.Body.Hinge.Path(p.Body.Forearm).Sin)
		radii = [2]float64{own - g.Handle.Pitch/2, own + g.Handle.Pitch/2}
	}
	least, at, moving, part := below, 0, "", ""
	// A body between (r1, w1) and (r2, w2), radii and places along the axis, moves
	// by no more than its greatest radius times the turn: from a gap that has that
	// much to spare, angles may be passed over.
	swing := func(name string, r1, w1, r2, w2, radius float64) {
		half, far := math.Hypot(r2-r1, w2-w1)/2, max(r1, r2)
		for j := range parts {
			o := &parts[j]
			for k := 0; k < len(s.Angles); {
				middle := sw.Place((r1+r2)/2, (w1+w2)/2, s.Sin[k], s.Cos[k])
				gap := math.Sqrt(r3.Norm2(r3.Sub(middle, o.box.Centre))) - half - o.reach - radius
				if gap < least {
					a, b := sw.Place(r1, w1, s.Sin[k], s.Cos[k]), sw.Place(r2, w2, s.Sin[k], s.Cos[k])
					if gap = o.box.Gap(a, b) - o.radius - radius; gap < least {
						least, at, moving, part = gap, k, name, o.name
					}
				}
				from := s.Angles[k]
				for k++; k < len(s.Angles) && (s.Angles[k]-from)*far <= gap-least; k++ {
				}
			}
		}
	}
	for j, r := range radii {
		if j == 0 || r != radii[0] {
			swing(build.GripName, r, in, r, plane, g.Handle.Diameter/2)
		}
	}
	swing(build.TubeName, from, plane, to, plane, v.Arm.Height/2)
	if part == "" {
		return nil
	}
	w := out.Add("body-gap", i, least).At(s.Angles[at])
	if !out.Quiet {
		out.Named(w, "%s to %s", moving, part)
	}
	return w
}

// bulk is a part of a person: a box thickened by a radius.
type bulk struct {
	name   string
	box    solid.Box
	radius float64
	reach  float64
}

// bulksOf are the person's trunk, belly, head and right thigh: the chest's
// section with round sides about a middle plane that lies Protraction behind
// the line from hip to shoulder when reaching forward, the belly likewise about
// its foremost point, a ball, and a round bar along the seat.
func bulksOf(p *seat.Person) [4]bulk {
	b := p.Body
	hip := p.Pose.Hip
	shoulder := p.Pose.Shoulder
	hip.Y, shoulder.Y = 0, 0
	along := r3.Unit(r3.Sub(shoulder, hip))
	forward := r3.Vec{X: along.Z, Z: -along.X}
	axes := [3]r3.Vec{along, {Y: 1}, forward}
	back := posture.Protraction
	if p.Pose.Lean < 0 { // reclined: the shoulders stay back
		back = 0
	}
	depth := b.ChestDepth / 2
	side := max(0, b.ChestBreadth/2-depth)
	chest := solid.Box{Centre: r3.Sub(r3.Scale(0.5, r3.Add(hip, shoulder)), r3.Scale(back, forward)), Axes: axes, Half: [3]float64{b.Trunk / 2, side, 0}}
	belly := solid.Box{Centre: r3.Add(hip, r3.Add(r3.Scale(b.BellyHeight, along), r3.Scale(b.BellyFront-depth, forward))),
		Axes: axes, Half: [3]float64{bellyReach, side, 0}}
	head := solid.Box{Centre: r3.Add(hip, r3.Scale(seat.HeadAlong(p.Person, b), along)), Axes: axes}
	radius := b.ThighDepth / 2
	length := max(0, b.Knee-radius)
	thigh := solid.Box{
		Centre: r3.Vec{X: hip.X + length/2, Y: -b.ThighHalf, Z: hip.Z - b.Hip + radius},
		Axes:   [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}, Half: [3]float64{length / 2, 0, 0},
	}
	out := [4]bulk{{name: "chest", box: chest, radius: depth}, {name: "belly", box: belly, radius: depth},
		{name: "head", box: head, radius: headRadius}, {name: "thigh", box: thigh, radius: radius}}
	for i := range out {
		out[i].reach = out[i].box.Reach() + out[i].radius
	}
	return out
}
