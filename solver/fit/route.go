package fit

import (
	"fmt"
	"math"

	"armwright/geometry/cam"
	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Route is the cable of the right arm from the cam to the shared stack, machine
// frame. The left arm's is its mirror image; the two are one cable that carries
// a floating sheave on the stack.
type Route struct {
	Sheaves []RouteSheave // from the guide sheave to the floating one
	// CamFleet is the largest angle of the cable to the cam's plane over the loaded
	// range and all axis positions, rad.
	CamFleet float64
	Length   float64 // of the cable from the cam's contact at the first angle to the middle of the floating sheave, stack at rest, mm
}

// RouteSheave is one sheave with the larger fleet angle of its two cable lines,
// rad. The guide sheave swivels about the cable that leaves it, by up to Swivel
// to either side, rad, so that its plane follows the cam's; the others stand
// still.
type RouteSheave struct {
	cam.Sheave
	Fleet  float64
	Swivel float64
}

// Own choices of the route, mm.
const (
	cableAbove   = 30.0      // of the cable at the tower's foot above the base tubes
	guideTurn    = 100 * deg // of the cable round the guide sheave at the first angle: far more than the cam's line swings
	redirectNear = 4.0       // of the outer redirect sheave's corner from the guide sheave, in radii
	cableBeside  = 15.0      // between the stack's side and the cable that rises beside it
	sheaveBelow  = 5.0       // between the top sheave's rim and the tower's top tube
	routeSheaves = 4         // guide, two redirect, top: each arm's, without the floating one
)

// topHeadroom is what the tower needs above the raised stack for the top sheave
// and the floating one.
func (s *study) topHeadroom() float64 {
	return math.Max(stackHeadroom, s.topRadius()+s.asked.Resistance.SheaveRadius+2*sheaveBelow)
}

// topRadius is the top sheave's radius: it spans from the cable beside the stack
// to the floating sheave.
func (s *study) topRadius() float64 {
	return (s.plate.Length/2 + cableBeside - s.asked.Resistance.SheaveRadius) / 2
}

// camFrame places the right arm's cam plane in space: the cam axis' place in it,
// and the unit vectors forward and up in it, for one axis.
type camFrame struct{ origin, forward, up, axis r3.Vec }

func newCamFrame(m machine, l station.Layout, c *specs.Cam, axis r3.Vec) camFrame {
	f := camFrame{axis: axis, forward: across(r3.Vec{X: 1}, axis)}
	f.up = r3.Cross(axis, f.forward)
	f.origin = r3.Add(m.pivot, r3.Add(r3.Scale(l.CamPlane(), axis), f.vector(r2.Vec{X: c.CentreX, Y: c.CentreY})))
	return f
}

func (f camFrame) vector(v r2.Vec) r3.Vec {
	return r3.Add(r3.Scale(v.X, f.forward), r3.Scale(v.Y, f.up))
}

// point is a place in the cam plane, told from the cam axis, in space.
func (f camFrame) point(v r2.Vec) r3.Vec { return r3.Add(f.origin, f.vector(v)) }

// route leads the cable: from the cam round the guide sheave, which lies in the
// cam plane of the middle axis position, in that plane to a redirect sheave close
// by, inwards and down to the foot of the tower, up beside the stack, over the
// top sheave, and down to the floating sheave in the middle. Each redirect sheave
// lies in the plane of its two lines. The guide sheave stays where it is while the
// axis positions swing the cam's plane about it. Nil for another drive, a bench,
// or where the cable would have to turn right back.
func (s *study) route(g *specs.Geometry, d *drive) *Route {
	c := g.Cam
	if c == nil || g.Base == nil {
		return nil
	}
	m, l := newMachine(g), s.layout(g)
	middle := newCamFrame(m, l, c, middleAxis(m))
	radius := c.GuideR
	low := l.Side + cableAbove
	foot := r3.Vec{X: l.Tower, Y: -(l.StackLong/2 + cableBeside), Z: low}
	start, err := d.Profile.At(s.angles[0])
	if err != nil {
		return nil
	}
	guide := r2.Vec{X: c.GuideX, Y: c.GuideY}
	// Seen along the axis from outside, the cable comes from the contact.
	in := r2.Unit(r2.Sub(start.Leave, start.Contact))
	at := r2.Sub(start.Leave, guide)
	sense := math.Copysign(1, at.X*in.Y-at.Y*in.X)
	// It turns on round the guide sheave without crossing itself.
	rotate := func(v r2.Vec) r2.Vec { return r2.Rotate(v, sense*guideTurn, r2.Vec{}) }
	leave := r2.Add(guide, rotate(at))
	first := middle.point(r2.Add(leave, r2.Scale(redirectNear*radius, rotate(in))))
	guideSheave := cam.Sheave{
		Name: "guide", Centre: middle.point(guide), Axis: r3.Scale(sense, middle.axis), Radius: radius,
		In: middle.point(start.Leave), Out: middle.point(leave), Turn: guideTurn,
	}
	run := r3.Unit(r3.Sub(first, guideSheave.Out))
	inward := r3.Unit(r3.Sub(foot, first))
	up := r3.Vec{Z: 1}
	outer, ok1 := cam.Corner("redirect, outer", first, run, inward, radius)
	inner, ok2 := cam.Corner("redirect, tower foot", foot, inward, up, radius)
	if !ok1 || !ok2 {
		return nil
	}
	top := s.topRadius()
	high := r3.Vec{X: foot.X, Y: foot.Y, Z: l.TowerTall - l.Side - sheaveBelow - top}
	over := cam.Return("tower top", high, up, r3.Vec{Y: 1}, top)
	// The floating sheave's half: the other is the left arm's.
	rest := r3.Vec{X: over.Out.X, Y: over.Out.Y, Z: l.StackTop + radius}
	float := cam.Return("floating, on the stack", rest, r3.Scale(-1, up), r3.Vec{Y: 1}, radius)

	list := []cam.Sheave{guideSheave, outer, inner, over, float}
	out := &Route{Length: start.Span}
	for i, sheave := range list {
		out.Sheaves = append(out.Sheaves, RouteSheave{Sheave: sheave})
		length := sheave.Turn * sheave.Radius
		if i == len(list)-1 {
			length /= 2
		}
		out.Length += length
		if i > 0 {
			before := &out.Sheaves[i-1]
			now := &out.Sheaves[i]
			line := r3.Sub(sheave.In, before.Out)
			out.Length += r3.Norm(line)
			line = r3.Unit(line)
			before.Fleet = math.Max(before.Fleet, before.Sheave.Fleet(line))
			now.Fleet = math.Max(now.Fleet, now.Sheave.Fleet(line))
		}
	}
	out.CamFleet, out.Sheaves[0].Swivel = s.fleet(g, d.Profile)
	return out
}

// fleet is the largest angle of the cable to the cam's plane, and to the guide
// sheave's middle plane, over the loaded range and the axis positions. The guide
// sheave stands in the cam plane of the middle axis position and swivels with the
// cable; the cam's plane swings with the axis. A cam that a measured frame's guide
// does not reach counts as square to the cable.
func (s *study) fleet(g *specs.Geometry, p cam.Profile) (atCam, swivel float64) {
	m, l := newMachine(g), s.layout(g)
	middle := newCamFrame(m, l, g.Cam, middleAxis(m))
	for _, axis := range m.axes {
		f := newCamFrame(m, l, g.Cam, axis)
		for _, theta := range s.angles {
			state, err := p.At(theta)
			if err != nil {
				return math.Pi / 2, math.Pi / 2
			}
			line := r3.Unit(r3.Sub(middle.point(state.Leave), f.point(state.Contact)))
			atCam = math.Max(atCam, math.Asin(math.Min(1, math.Abs(r3.Dot(line, axis)))))
			swivel = math.Max(swivel, math.Asin(math.Min(1, math.Abs(r3.Dot(line, middle.axis)))))
		}
	}
	return atCam, swivel
}

// routeNotes tells when the brief counts other sheaves than the route has.
func (s *study) routeNotes(r *Route) []string {
	if n := s.asked.Resistance.Sheaves; r != nil && n != routeSheaves {
		return []string{fmt.Sprintf("Friction is reckoned with %d sheaves between cam and stack as the brief says; the route drawn has %d (resistance.sheaves).", n, routeSheaves)}
	}
	return nil
}
