package build

import (
	"fmt"
	"math"

	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices of the route, mm.
const (
	cableAbove   = 30.0               // of the cable at the tower's foot above the base tubes
	guideTurn    = 100 * specs.Degree // of the cable round the guide sheave at the first angle: far more than the cam's line swings
	redirectNear = 4.0                // of the outer redirect sheave's corner from the guide sheave, in radii
	routeSheaves = 4                  // guide, two redirect, top: each arm's, without the floating one
	cableEnd     = 150.0              // at either end of a cable, for an eye and its sleeve
)

// camFrame places the right arm's cam plane in space: the cam axis' place in it,
// and the unit vectors forward and up in it, for one axis.
type camFrame struct{ origin, forward, up, axis r3.Vec }

func newCamFrame(m drive.Machine, l station.Layout, c *specs.Cam, axis r3.Vec) camFrame {
	f := camFrame{axis: axis, forward: drive.Across(r3.Vec{X: 1}, axis)}
	f.up = r3.Cross(axis, f.forward)
	f.origin = r3.Add(m.Pivot, r3.Add(r3.Scale(l.CamPlane(), axis), f.vector(r2.Vec{X: c.CentreX, Y: c.CentreY})))
	return f
}

func (f camFrame) vector(v r2.Vec) r3.Vec {
	return r3.Add(r3.Scale(v.X, f.forward), r3.Scale(v.Y, f.up))
}

// point is a place in the cam plane, told from the cam axis, in space.
func (f camFrame) point(v r2.Vec) r3.Vec { return r3.Add(f.origin, f.vector(v)) }

// sheaves leads the cable: from the cam round the guide sheave, which lies in the
// cam plane of the middle axis position, in that plane to a redirect sheave close
// by, inwards and down to the foot of the tower, up beside the stack, over the
// top sheave, and down to the floating sheave in the middle or to the arm's own
// stack. Each redirect sheave lies in the plane of its two lines. The guide sheave
// stays where it is while the axis positions swing the cam's plane about it. Nil
// for another drive, a bench, or where the cable would have to turn right back.
func (s *Builder) sheaves(g *specs.Geometry, l station.Layout, d *drive.State) (list []cam.Sheave, begin cam.State) {
	c := g.Cam
	if c == nil || g.Base == nil {
		return nil, begin
	}
	m := drive.NewMachine(g)
	middle := newCamFrame(m, l, c, m.Geometry.Pivots.MeanAxis())
	radius := c.GuideR
	low := l.Side + cableAbove
	foot := r3.Vec{X: l.Tower, Y: -(l.StackAside + l.StackLong/2 + drive.CableBeside), Z: low}
	start, err := d.Profile.At(s.Angles[0])
	if err != nil {
		return nil, begin
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
		return nil, begin
	}
	top := s.TopRadius()
	high := r3.Vec{X: foot.X, Y: foot.Y, Z: l.TowerTall - l.Side - drive.SheaveBelow - top}
	over := cam.Return("tower top", high, up, r3.Vec{Y: 1}, top)
	list = []cam.Sheave{guideSheave, outer, inner, over}
	if !s.Pair() {
		// The floating sheave's half: the other is the left arm's.
		rest := r3.Vec{X: over.Out.X, Y: over.Out.Y, Z: l.StackTop + radius}
		list = append(list, cam.Return("floating, on the stack", rest, r3.Scale(-1, up), r3.Vec{Y: 1}, radius))
	}
	return list, start
}

// Route is the whole way of the cable with its fleet angle and length; nil where
// there is none.
func (s *Builder) Route(g *specs.Geometry, d *drive.State) *drive.Route {
	r := s.Station(g, d, nil).Route
	if r == nil {
		return nil
	}
	out := &drive.Route{Length: r.Length, Pair: s.Pair(), Start: r.Start, End: r.End, CamFleet: r.Fleet}
	for _, sheave := range r.Sheaves {
		out.Sheaves = append(out.Sheaves, drive.RouteSheave{Sheave: sheave.Sheave, Load: sheave.Load(d.HeavyTension)})
	}
	for _, swing := range r.Swing {
		out.Sheaves[0].Swivel = max(out.Sheaves[0].Swivel, math.Abs(swing))
	}
	if o := d.Outline; o.Pitch.Len() > 0 {
		start, err := d.Profile.At(s.Angles[0])
		if err != nil {
			return out
		}
		each := out.Length + onCam(o, start.Phi)
		if out.Pair {
			out.Cut = each + 2*cableEnd
		} else {
			out.Cut = 2 * (each + cableEnd)
		}
	}
	return out
}

// onCam is the length of cable, mm, that lies on the cam from the contact with
// normal angle phi to where it leaves the groove for its anchor.
func onCam(o cam.Outline, phi float64) float64 {
	return turning(o.Pitch, o.WrapTo+o.DeadWrap-o.WrapFrom) - turning(o.Pitch, phi-o.WrapFrom)
}

// turning is the length of a convex path from its start until it has turned by
// an angle.
func turning(p contour.Path, angle float64) float64 {
	length := 0.0
	for i := range p.Len() {
		e := p.Element(i)
		sweep := e.Sweep()
		if sweep >= angle {
			if sweep > 0 {
				length += e.Length() * math.Max(0, angle) / sweep
			}
			return length
		}
		length, angle = length+e.Length(), angle-sweep
	}
	return length
}

// Fleet is the largest angle of the cable to the cam's plane over the loaded range
// and the axis positions, rad: 0 on a bench, a right angle where no cable can be led.
func (s *Builder) Fleet(g *specs.Geometry, d *drive.State) float64 {
	if s.Bench() {
		return 0
	}
	if r := s.Station(g, d, nil).Route; r != nil {
		return r.Fleet
	}
	return math.Pi / 2
}

// RouteNotes tells when the brief counts other sheaves than the route has.
func (s *Builder) RouteNotes(r *drive.Route) []string {
	if n := s.Asked.Resistance.Sheaves; r != nil && n != station.RouteSheaves {
		return []string{fmt.Sprintf("Friction is reckoned with %d sheaves between cam and stack as the brief says; the route drawn has %d (resistance.sheaves).", n, station.RouteSheaves)}
	}
	return nil
}
