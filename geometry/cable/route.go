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
	Guide    r2.Vec  // centre of the guide sheave in the plane of the cam, from the cam's axis; see Planes for the frame
	// Line holds the free cable between cam and guide sheave at the first, middle
	// and last loaded angle: contact and leaving point in the same plane.
	Line [3]Line
}

// Line is a piece of free cable in the plane of the cam.
type Line struct{ Contact, Leave r2.Vec }

// Route is the way of the right arm's cable, machine frame, arm at the first loaded
// angle, stack at rest. The guide sheave stands on the swivel bracket in the plane of
// the cam, so that the moment arm is the cam's own in every axis position. From it the
// cable leaves along the swivel line: as the bracket turns about that line, the sheave
// goes to one side square to the cable, which grows longer by a small amount of second
// order. Every other sheave stands still, in a plane square to the machine. The cable
// comes down to the rail, runs along it and rises plumb beside the tower; where the
// tower stands on its way down it turns up there at once. It runs inward over the tower
// and comes down on the stack.
type Route struct {
	Sheaves []Sheave // from the cam; the last one floats where one stack serves both arms
	Start   r3.Vec   // the cam's contact
	End     r3.Vec   // on the stack; the lowest point of the floating sheave
	Length  float64  // from Start to End, mm
	// Run is the height of the cable along the rail; AtTower tells that it does not
	// come down there, but turns up beside the tower.
	Run     float64
	AtTower bool
	// Fleet is the greatest angle of the cable to the planes of the guide sheave and
	// of the next one over axis positions, rad; elsewhere there is none.
	Fleet float64
	// Wrap is the least turn of the cable round the guide sheave, rad.
	Wrap float64
	// Span is the free cable from the guide sheave to the next one, mm.
	Span float64
	// Swing is how far the guide sheave swings with the bracket from the middle axis
	// position to each, rad.
	Swing []float64
	// Slack is by how much less cable the way takes in each axis position than in the
	// middle one, mm: what hangs loose, or below 0 lifts the stack as the axis is set.
	Slack []float64

	spans  []span
	radius float64
	low    int // sheaves before those over the tower
}

// span is the cable from the cam to the sheave after the guide in an axis position.
type span struct {
	plane       solid.Placement // of the cam
	guide, next cam.Sheave
}

// Sheaves is how many sheaves each arm's cable runs over at most, without a
// floating one.
const Sheaves = 5

// Sheave is a sheave with the direction from its axle to the bridge of its
// fork, in its plane. The guide sheave has no fork.
type Sheave struct {
	cam.Sheave
	Fork     r3.Vec
	Floating bool
}

// Run is the direction, of unit length, in which the cable runs on a sheave at a place of
// it.
func (s *Sheave) Run(at r3.Vec) r3.Vec {
	return r3.Unit(r3.Cross(s.Axis, r3.Sub(at, s.Centre)))
}

// Levels of the cable's way, mm.
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

// Lead leads the cable. planes are those of the cam, one for each axis position, and
// normal is the direction of the swivel line, out of the pad. Not ok where the cable does
// not come down.
func Lead(c *Values, planes []solid.Placement, middle int, normal r3.Vec, at Levels) (route Route, ok bool) {
	up := r3.Vec{Z: 1}
	away := r3.Scale(-1, normal)
	route.Run = at.Run
	guide, ok := guideAt(c, &planes[middle], away)
	if !ok {
		return route, false
	}
	// The next corner of the cable's way.
	low := (guide.Out.Z - at.Run) / -away.Z
	if !(low > 0) {
		return route, false
	}
	corner := r3.Add(guide.Out, r3.Scale(low, away))
	route.Sheaves = append(make([]Sheave, 0, Sheaves+1), Sheave{Sheave: guide})
	if corner.X <= at.Rise && at.Rise < guide.Out.X {
		route.AtTower = true
		corner = r3.Add(guide.Out, r3.Scale((at.Rise-guide.Out.X)/away.X, away))
		side, _ := cam.Corner("tower side", corner, away, up, c.Radius)
		route.Sheaves = append(route.Sheaves, Sheave{Sheave: side, Fork: r3.Vec{Z: -1}})
	} else {
		ahead := r3.Vec{X: math.Copysign(1, at.Rise-corner.X)}
		rail, turns := cam.Corner("rail", corner, away, ahead, c.Radius)
		if !turns {
			return route, false
		}
		foot, _ := cam.Corner("tower foot", r3.Vec{X: at.Rise, Y: corner.Y, Z: at.Run}, ahead, up, c.Radius)
		route.Sheaves = append(route.Sheaves, Sheave{Sheave: rail, Fork: r3.Vec{Z: -1}}, Sheave{Sheave: foot, Fork: r3.Vec{Z: -1}})
	}
	route.Start = onCam(&planes[middle], c.Line[0].Contact)
	route.radius, route.low = c.Radius, len(route.Sheaves)
	route.Onto(at)
	route.sweep(c, planes, middle, away)
	return route, true
}

// Onto leads the cable anew over the tower: what it does before hangs on no level but
// that of the run and on the tower's place.
func (r *Route) Onto(at Levels) {
	down, up, inward := r3.Vec{Z: -1}, r3.Vec{Z: 1}, r3.Vec{Y: 1}
	over := r3.Vec{X: at.Rise, Y: r.Sheaves[r.low-1].Out.Y, Z: at.Over}
	stack := r3.Vec{X: at.Rise, Y: -at.Down, Z: at.Over}
	outer, _ := cam.Corner("tower top, outer", over, up, inward, r.radius)
	inner, _ := cam.Corner("tower top, inner", stack, inward, down, r.radius)
	r.Sheaves = append(r.Sheaves[:r.low], Sheave{Sheave: outer, Fork: up}, Sheave{Sheave: inner, Fork: up})
	r.End = r3.Vec{X: at.Rise, Y: -at.Down, Z: at.Rest}
	if !at.Pair {
		floating := cam.Return("floating", r.End, down, inward, r.radius)
		floating.Turn /= 2 // the other half is the left arm's
		r.Sheaves = append(r.Sheaves, Sheave{Sheave: floating, Fork: down, Floating: true})
		r.End = r3.Add(floating.Centre, r3.Scale(r.radius, down))
	}
	r.measure()
}

// guideAt is the guide sheave in the plane of the cam, with the cable as it runs at the
// first loaded angle and leaves in a direction. Not ok where there is no line to it.
func guideAt(c *Values, plane *solid.Placement, away r3.Vec) (cam.Sheave, bool) {
	g := cam.Sheave{Name: "guide", Axis: plane.Z, Radius: c.Radius, Centre: onCam(plane, c.Guide), In: onCam(plane, c.Line[0].Leave)}
	run := r3.Sub(g.In, onCam(plane, c.Line[0].Contact))
	if r3.Dot(r3.Cross(g.Axis, r3.Sub(g.In, g.Centre)), run) < 0 {
		g.Axis = r3.Scale(-1, g.Axis)
	}
	out := r3.Cross(away, g.Axis)
	if n := r3.Norm(out); n > 0 && r3.Norm2(run) > 0 {
		g.Out = r3.Add(g.Centre, r3.Scale(c.Radius/n, out))
		g.Turn = turnOf(&g, g.In, g.Out)
		return g, true
	}
	return g, false
}

// turnOf is the turn of a cable on a sheave from one place of it to another, below 0
// where it would have to go round backward.
func turnOf(s *cam.Sheave, from, to r3.Vec) float64 {
	a, b := r3.Sub(from, s.Centre), r3.Sub(to, s.Centre)
	turn := math.Atan2(r3.Dot(r3.Cross(a, b), s.Axis), r3.Dot(a, b))
	if turn < -math.Pi/2 { // more than half round
		turn += 2 * math.Pi
	}
	return turn
}

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

// sweep follows the cable from the cam to the sheave after the guide over axis positions
// and the loaded range.
func (r *Route) sweep(c *Values, planes []solid.Placement, middle int, away r3.Vec) {
	r.Wrap, r.Span = math.Inf(1), math.Inf(1)
	r.Swing, r.Slack, r.spans = make([]float64, len(planes)), make([]float64, len(planes)), make([]span, len(planes))
	axis := planes[middle].Z
	for i := range planes {
		r.Swing[i] = math.Atan2(r3.Dot(r3.Cross(axis, planes[i].Z), r3.Scale(-1, away)), r3.Dot(axis, planes[i].Z))
		guide, _ := guideAt(c, &planes[i], away)
		next := r.Sheaves[1].Sheave
		guide.Out, next.In = tangent(&guide, &next)
		r.spans[i] = span{planes[i], guide, next}
		line := r3.Sub(next.In, guide.Out)
		long := r3.Norm(line)
		r.Span = min(r.Span, long)
		r.Slack[i] = -(guide.Radius*turnOf(&guide, guide.In, guide.Out) + long + next.Radius*turnOf(&next, next.In, next.Out))
		if long > 0 {
			line = r3.Scale(1/long, line)
			r.Fleet = max(r.Fleet, guide.Fleet(line), next.Fleet(line))
		}
		for k := range c.Line {
			r.Wrap = min(r.Wrap, turnOf(&guide, onCam(&planes[i], c.Line[k].Leave), guide.Out))
		}
	}
	in := r.Slack[middle]
	for i := range r.Slack {
		r.Slack[i] -= in
	}
}

// tangent is where a cable leaves one sheave and meets the next, whose planes are nearly
// one: each end lies where the line is square to the radius. It starts from where the
// cable meets the next sheave in the middle axis position; each round brings both some
// ten times nearer.
func tangent(from, to *cam.Sheave) (leave, meet r3.Vec) {
	meet = to.In
	for range 6 {
		leave = touch(from, meet, -1)
		meet = touch(to, leave, 1)
	}
	return leave, meet
}

// touch is where a cable from or to a place touches a sheave: it comes from there (1) or
// goes there (-1). A place too near has the rim's nearest point.
func touch(s *cam.Sheave, place r3.Vec, way float64) r3.Vec {
	d := r3.Sub(place, s.Centre)
	d = r3.Sub(d, r3.Scale(r3.Dot(d, s.Axis), s.Axis))
	n := r3.Norm(d)
	if n == 0 {
		return s.In
	}
	d = r3.Scale(1/n, d)
	cos := min(1, s.Radius/n)
	sin := way * math.Sqrt(1-cos*cos)
	return r3.Add(s.Centre, r3.Scale(s.Radius, r3.Add(r3.Scale(cos, d), r3.Scale(sin, r3.Cross(s.Axis, d)))))
}

// Path is the cable's centreline from the cam to the stack, arcs in chords.
func (r *Route) Path(dst []r3.Vec) []r3.Vec {
	return r.follow(append(dst, r.Start), r.Sheaves)
}

// Onward is the part of Path after the two sheaves that Lead tells of.
func (r *Route) Onward(dst []r3.Vec) []r3.Vec {
	return r.follow(append(dst, r.Sheaves[1].Out), r.Sheaves[2:])
}

// follow adds the cable's way over some sheaves, the last one with them, to its end.
func (r *Route) follow(dst []r3.Vec, sheaves []Sheave) []r3.Vec {
	for i := range sheaves {
		const chord = 15 * math.Pi / 180
		s := &sheaves[i]
		n := max(1, int(math.Ceil(s.Turn/chord)))
		for k := range n + 1 {
			dst = append(dst, around(&s.Sheave, s.Turn*float64(k)/float64(n)))
		}
	}
	if last := dst[len(dst)-1]; last != r.End {
		dst = append(dst, r.End)
	}
	return dst
}
