// Package cable leads the right arm's cable from the cam over its sheaves to the weight
// stack, and tells how it runs as the arm moves and its axis is set. Machine frame, mm,
// rad.
package cable

import (
	"math"

	"armwright/geometry/cam"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Values are the cable of one arm and its way from the cam to the stack. Zero
// Diameter is a station without one.
type Values struct {
	Diameter float64 // mm
	PerMetre float64 // kg/m
	Name     string  // as lists of stock tell it
	Radius   float64 // of every sheave, to the cable's centre
	// Line holds the free cable between cam and guide sheave, evenly spread from the
	// first loaded angle to the last, in the plane that the cable is laid in: contact and
	// leaving point in the plane of the cam, from the cam's axis. See values.Planes for
	// the frame.
	Line [Lines]Line
}

// Lines is how many free lines a cable is told by: over more of them the greatest angle
// to the cam's plane grows by less than 0.02 degree. Middle is the one at the middle of
// the loaded range.
const (
	Lines  = 9
	Middle = Lines / 2
)

// Line is a piece of free cable in the plane of the cam.
type Line struct{ Contact, Leave r2.Vec }

// Route is the way of the right arm's cable, machine frame, arm at the first loaded
// angle, stack at rest. All sheaves but the guide stand in planes square to the
// machine: the cable leaves the guide sheave plumb down beside the rail, runs along
// the rail, rises plumb beside the tower, runs inward over it and comes down on the
// stack.
type Route struct {
	Sheaves []Sheave // from the cam; the last one floats where one stack serves both arms
	Start   r3.Vec   // the cam's contact
	End     r3.Vec   // on the stack; the lowest point of the floating sheave
	// Hang is the plumb line about which the guide sheave swivels, its place at
	// the height of the sheave's centre in the reference position of the axis.
	Hang r3.Vec
	// Toward is the level direction from Hang to the guide sheave's centre there.
	Toward r3.Vec
	Length float64 // from Start to End, mm
	// Fleet is the greatest angle of the cable to the cam's plane over axis
	// positions and the loaded range, rad; at the sheaves there is none.
	Fleet float64
	// Wrap is the least turn of the cable round the guide sheave, rad.
	Wrap float64
	// Swing is by how much the guide sheave swivels from the reference in each axis
	// position, rad, right-handed about the upward plumb line.
	Swing []float64
	// Rise is by how much the guide sheave is set higher than in the reference in each
	// axis position, mm: so that, told in the cam's plane, the cable of the middle of
	// the range leans least from the line that it was laid in, above all out of the plane.
	Rise []float64
	// Slack is by how much less cable the way takes in each axis position than in the
	// middle one, arm at the first loaded angle, mm: what hangs loose, or below 0 lifts
	// the stack as the axis is set.
	Slack []float64

	radius float64
	planes []solid.Placement
}

// Sheaves is how many sheaves each arm's cable runs over, without a floating one.
const Sheaves = 5

// Sheave is a sheave with the direction from its axle to the bridge of its
// fork, in its plane.
type Sheave struct {
	cam.Sheave
	Fork     r3.Vec
	Floating bool
}

// Levels are those of the cable's way, mm.
type Levels struct {
	Run  float64 // of the cable along the rail
	Rise float64 // x of the tower
	Over float64 // of the cable over the tower
	Down float64 // its distance from the midline above the stack
	Rest float64 // of the floating sheave's centre, or of the cable's end on the stack, at rest
	Pair bool
}

// onCam is a place of the plane of the cam in space.
func onCam(plane *solid.Placement, q r2.Vec) r3.Vec { return plane.Point(r3.Vec{X: q.X, Y: q.Y}) }

// Lead leads the cable. planes are those of the cam, one for each axis position;
// reference is the position in which the way is told. laid is the plane in which the
// guide sheave is placed and the lines are told: that of the middle position, or half
// way between the two in the middle. Not ok where the lines do not lead to a guide
// sheave that turns the cable down.
func Lead(c *Values, planes []solid.Placement, reference int, laid solid.Placement, at Levels) (route Route, ok bool) {
	down := r3.Vec{Z: -1}
	leave := onCam(&laid, c.Line[Middle].Leave)
	line := r3.Sub(leave, onCam(&laid, c.Line[Middle].Contact))
	if !(r3.Norm(line) > 0) {
		return route, false
	}
	line = r3.Unit(line)
	// Radii reach from the line's leaving point to the sheave's centre.
	across := r3.Cross(line, down)
	sin := r3.Norm(across)
	if sin < leastTurn {
		return route, false
	}
	axis := r3.Scale(1/sin, across)
	centre := r3.Add(leave, r3.Scale(c.Radius, r3.Cross(axis, line)))
	route.Hang = r3.Sub(centre, r3.Scale(c.Radius, r3.Cross(axis, down)))
	route.radius, route.planes = c.Radius, planes
	route.lift(c, reference)
	from := onCam(&planes[reference], c.Line[Middle].Contact)
	if from.X == route.Hang.X && from.Y == route.Hang.Y {
		return route, false
	}
	guide := route.guide(from, reference)
	route.Toward = r3.Unit(r3.Sub(guide.Centre, guide.Out))
	route.Start = onCam(&planes[reference], c.Line[0].Contact)
	route.Sheaves = append(make([]Sheave, 0, 6), Sheave{Sheave: guide, Fork: down})
	route.Onto(at)
	route.sweep(c, reference)
	return route, true
}

// lift finds how high the guide sheave is set in each axis position, and puts Hang to
// its height in the reference: where the cable of the middle of the range leans least
// from the line that it was laid in. Leans in the cam's plane count by their squares,
// those out of it by their fourth powers, as much where both are fleetEven.
func (r *Route) lift(c *Values, reference int) {
	r.Rise = make([]float64, len(r.planes))
	mid := c.Line[Middle]
	laid := r2.Sub(mid.Leave, mid.Contact)
	along := r2.Unit(laid)
	normal := r2.Vec{X: -along.Y, Y: along.X}
	even := fleetEven * r2.Norm(laid)
	for i := range r.planes {
		plane := &r.planes[i]
		in, contact := plane.Inverse(), onCam(plane, mid.Contact)
		up := in.Vector(r3.Vec{Z: 1})
		// By how much the leaving point moves across the line, in the plane and out of
		// it, for each mm higher.
		beside, out := normal.X*up.X+normal.Y*up.Y, up.Z
		const rounds, near = 30, 1e-6 // mm
		for range rounds {
			_, leave := r.Tangent(i, contact)
			q := in.Point(leave)
			off := r2.Dot(normal, r2.Sub(r2.Vec{X: q.X, Y: q.Y}, mid.Contact))
			cubic := 2 * q.Z * q.Z / (even * even)
			step := (beside*off + out*cubic*q.Z) / math.Max(beside*beside+3*cubic*out*out, steepest*steepest)
			if math.Abs(step) < near {
				break
			}
			r.Rise[i] -= step
		}
	}
	set := r.Rise[reference]
	r.Hang.Z += set
	for i := range r.Rise {
		r.Rise[i] -= set
	}
}

// fleetEven is the lean, rad, that weighs as much out of the cam's plane as in it: cable
// and groove bear 1.5 deg out of it, and a curve's torque changes by half a percent for
// each degree in it where it may be off by 6 (judgement).
const fleetEven = 0.3 * math.Pi / 180

// steepest is the least share of a rise that moves a line aside: the sine of the turn
// round the guide sheave where the cable comes down to it steeply.
const steepest = 0.2

// guide is the guide sheave for a cable from a place, in an axis position.
func (r *Route) guide(from r3.Vec, position int) cam.Sheave {
	hang := r.At(position)
	turn, leave := r.Tangent(position, from)
	down := r3.Vec{Z: -1}
	level := r3.Unit(r3.Vec{X: from.X - hang.X, Y: from.Y - hang.Y})
	return cam.Sheave{
		Name: "guide", Axis: r3.Cross(down, level), Radius: r.radius,
		Centre: r3.Add(hang, r3.Scale(r.radius, level)), In: leave, Out: hang, Turn: turn,
	}
}

// Onto leads the cable anew from the guide sheave on: what it does before depends on no
// level but that of the run.
func (r *Route) Onto(at Levels) {
	down, up, inward := r3.Vec{Z: -1}, r3.Vec{Z: 1}, r3.Vec{Y: 1}
	hang := r3.Vec{X: r.Hang.X, Y: r.Hang.Y, Z: at.Run}
	in := r3.Vec{X: math.Copysign(1, at.Rise-hang.X)}
	rise := r3.Vec{X: at.Rise, Y: hang.Y, Z: at.Run}
	over := r3.Vec{X: at.Rise, Y: hang.Y, Z: at.Over}
	stack := r3.Vec{X: at.Rise, Y: -at.Down, Z: at.Over}
	rail, _ := cam.Corner("rail", hang, down, in, r.radius)
	foot, _ := cam.Corner("tower foot", rise, in, up, r.radius)
	outer, _ := cam.Corner("tower top, outer", over, up, inward, r.radius)
	inner, _ := cam.Corner("tower top, inner", stack, inward, down, r.radius)
	r.Sheaves = append(r.Sheaves[:1],
		Sheave{Sheave: rail, Fork: down}, Sheave{Sheave: foot, Fork: down}, Sheave{Sheave: outer, Fork: up}, Sheave{Sheave: inner, Fork: up})
	r.End = r3.Vec{X: at.Rise, Y: -at.Down, Z: at.Rest}
	if !at.Pair {
		floating := cam.Return("floating", r.End, down, inward, r.radius)
		floating.Turn /= 2 // the other half is the left arm's
		r.Sheaves = append(r.Sheaves, Sheave{Sheave: floating, Fork: down, Floating: true})
		r.End = r3.Add(floating.Centre, r3.Scale(r.radius, down))
	}
	r.measure()
}

// leastTurn is the sine of a turn below which the guide sheave's plane is not
// determined.
const leastTurn = 1e-6

// measure sums up the cable's length.
func (r *Route) measure() {
	r.Length = 0
	from := r.Start
	for i := range r.Sheaves {
		s := &r.Sheaves[i]
		r.Length += r3.Norm(r3.Sub(s.In, from)) + s.Turn*s.Radius
		from = s.Out
		if s.Floating {
			from = r.End
		}
	}
	r.Length += r3.Norm(r3.Sub(r.End, from))
}

// sweep follows the cable between cam and guide sheave over axis positions and
// loaded range: the guide sheave swivels about the plumb line so that the cable runs
// in its middle plane.
func (r *Route) sweep(c *Values, reference int) {
	planes := r.planes
	r.Wrap = math.Inf(1)
	r.Swing, r.Slack = make([]float64, len(planes)), make([]float64, len(planes))
	for i := range planes {
		for k := range c.Line {
			contact := onCam(&planes[i], c.Line[k].Contact)
			turn, leave := r.Tangent(i, contact)
			r.Wrap = math.Min(r.Wrap, turn)
			line := r3.Sub(leave, contact)
			r.Fleet = math.Max(r.Fleet, math.Asin(math.Min(1, math.Abs(r3.Dot(line, planes[i].Z))/r3.Norm(line))))
			if k == 0 {
				r.Slack[i] = -(r3.Norm(line) + c.Radius*turn + r.Rise[i])
			}
			if k == Middle && i != reference {
				to := r3.Sub(contact, r.Hang)
				r.Swing[i] = math.Atan2(r.Toward.X*to.Y-r.Toward.Y*to.X, r.Toward.X*to.X+r.Toward.Y*to.Y)
			}
		}
	}
	in := r.Slack[reference]
	for i := range r.Slack {
		r.Slack[i] -= in
	}
}

// At is the place of Hang in an axis position.
func (r *Route) At(position int) r3.Vec {
	return r3.Vec{X: r.Hang.X, Y: r.Hang.Y, Z: r.Hang.Z + r.Rise[position]}
}

// Step is how many axis positions have the guide sheave lower than one of them, those
// before it counted where it is as low.
func (r *Route) Step(position int) int {
	n := 0
	for i, rise := range r.Rise {
		if rise < r.Rise[position] || rise == r.Rise[position] && i < position {
			n++
		}
	}
	return n
}

// Tangent is the turn of a cable that comes from a place, round the guide sheave set for
// an axis position and swivelled toward that place, and its leaving point. The turn is
// below 0 where the place is on the wrong side.
func (r *Route) Tangent(position int, from r3.Vec) (turn float64, leave r3.Vec) {
	hang, radius := r.At(position), r.radius
	to := r3.Sub(from, hang)
	level := r3.Vec{X: to.X, Y: to.Y}
	far := r3.Norm(level)
	if far == 0 {
		return 0, hang
	}
	level = r3.Scale(1/far, level)
	// In the sheave's plane, told from its centre: x level toward the cam, z up.
	x, z := far-radius, to.Z
	away := math.Hypot(x, z)
	if away <= radius {
		return -math.Pi, hang
	}
	angle := math.Atan2(z, x) + math.Acos(radius/away)
	s, k := math.Sincos(angle)
	leave = r3.Add(hang, r3.Add(r3.Scale(radius+radius*k, level), r3.Vec{Z: radius * s}))
	return math.Pi - angle, leave
}

// Path is the cable's centreline from the cam to the stack, arcs in chords.
func (r *Route) Path(dst []r3.Vec) []r3.Vec {
	return r.Onward(r.Sheaves[0].bend(append(dst, r.Start)))
}

// Onward is the part of Path after the guide sheave.
func (r *Route) Onward(dst []r3.Vec) []r3.Vec {
	for i := 1; i < len(r.Sheaves); i++ {
		dst = r.Sheaves[i].bend(dst)
	}
	if last := dst[len(dst)-1]; last != r.End {
		dst = append(dst, r.End)
	}
	return dst
}

// bend adds the cable's way round the sheave.
func (s *Sheave) bend(dst []r3.Vec) []r3.Vec {
	const chord = 15 * math.Pi / 180
	n := int(math.Ceil(s.Turn / chord))
	arm := r3.Sub(s.In, s.Centre)
	side := r3.Cross(s.Axis, arm)
	for k := range n + 1 {
		sin, cos := math.Sincos(s.Turn * float64(k) / float64(n))
		dst = append(dst, r3.Add(s.Centre, r3.Add(r3.Scale(cos, arm), r3.Scale(sin, side))))
	}
	return dst
}

// Plane is that of the cam in an axis position: origin on its axis, own x forward, y up.
func (r *Route) Plane(position int) solid.Placement { return r.planes[position] }
