package hidden

import (
	"math"

	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Shape is what a solid shows and what it hides, in its own frame.
type Shape struct {
	solid  solid.Solid
	ridges []ridge
	rounds []curve
	pieces []piece
	hollow bool // pieces hide edges of the shape's own: it has holes, or is not convex
}

// ridge is a straight piece of an edge between two faces.
type ridge struct {
	a, b  r3.Vec
	n     [2]r3.Vec // outward normals of the faces there
	inner [2]bool   // which of them is the wall of a hole
	cross bool      // one of them is across the solid's own z: an end
}

// smooth is the cosine of the angle between two faces below which their edge is no
// line: 12 degrees.
const smooth = 0.978

// curve is a cylinder or a cone between two ends: its contour is where it turns away
// from the viewer.
type curve struct {
	x, y, z r3.Vec
	slope   float64
	ends    [2][]solid.Ellipse // pieces of the lower and of the upper rim; none at a tip
	tip     [2]r3.Vec
	inner   bool
}

// piece is a convex body.
type piece struct {
	planes  []plane
	corners []r3.Vec
}

// plane is a face: n·x <= d inside, n outward.
type plane struct {
	n r3.Vec
	d float64
}

// NewShape prepares a solid. Curves are broken up so that no chord stands off by more
// than the sagitta, mm.
func NewShape(s solid.Solid, sagitta float64) *Shape {
	out := &Shape{solid: s}
	out.boundary(s.Shell(), sagitta)
	switch s := s.(type) {
	case solid.Prism:
		out.prism(s, sagitta)
	case solid.Turned:
		out.turned(s, sagitta)
	}
	return out
}

// boundary takes edges and curved faces from a shell.
func (o *Shape) boundary(s *solid.Shell, sagitta float64) {
	type side struct {
		face  int
		other int
	}
	of := make([]side, len(s.Edges))
	for i := range of {
		of[i] = side{-1, -1}
	}
	for f := range s.Faces {
		for _, l := range s.Faces[f].Loops {
			for _, u := range l {
				if of[u.Edge].face < 0 {
					of[u.Edge].face = f
				} else {
					of[u.Edge].other = f
				}
			}
		}
	}
	for i, e := range s.Edges {
		f, g := &s.Faces[of[i].face], &s.Faces[of[i].other]
		chord := func(a, b r3.Vec) {
			mid := r3.Scale(0.5, r3.Add(a, b))
			across := func(f *solid.Face) bool {
				return f.Surface.Kind == solid.Plane && !f.Inner && math.Abs(f.Surface.At.Z.Z) > 0.1
			}
			o.ridges = append(o.ridges, ridge{a: a, b: b, n: [2]r3.Vec{f.Surface.Outward(mid), g.Surface.Outward(mid)},
				inner: [2]bool{f.Inner, g.Inner}, cross: across(f) || across(g)})
		}
		from, to := s.Vertices[e.From], s.Vertices[e.To]
		if e.Ellipse == nil {
			chord(from, to)
			continue
		}
		n := chords(r3.Norm(e.Ellipse.U), e.Ellipse.Sweep, sagitta)
		at := from
		for k := 1; k < n; k++ {
			next := e.Ellipse.At(float64(k) / float64(n))
			chord(at, next)
			at = next
		}
		chord(at, to)
	}
	for f := range s.Faces {
		o.round(s, &s.Faces[f])
	}
}

// chords is how many chords an arc takes.
func chords(radius, sweep, sagitta float64) int {
	step := math.Pi / 6
	if sagitta < radius {
		step = min(step, 2*math.Acos(1-sagitta/radius))
	}
	return max(1, int(math.Ceil(sweep/step-1e-9)))
}

// round takes a cylinder or a cone: the pieces of its rims by the end they are on.
func (o *Shape) round(s *solid.Shell, f *solid.Face) {
	if f.Surface.Kind != solid.Cylinder && f.Surface.Kind != solid.Cone {
		return
	}
	at := &f.Surface.At
	r := curve{x: at.X, y: at.Y, z: at.Z, slope: f.Surface.Slope, inner: f.Inner}
	var seams []solid.Edge
	for _, u := range f.Loops[0] {
		e := s.Edges[u.Edge]
		if e.Ellipse == nil {
			seams = append(seams, e)
			continue
		}
	}
	if len(seams) == 0 {
		return
	}
	// A rim belongs to the end that its seam's vertex is on.
	height := func(v int) float64 { return r3.Dot(s.Vertices[v], at.Z) }
	low, high := seams[0].From, seams[0].To
	if height(low) > height(high) {
		low, high = high, low
	}
	r.tip = [2]r3.Vec{s.Vertices[low], s.Vertices[high]}
	for _, u := range f.Loops[0] {
		e := s.Edges[u.Edge]
		if e.Ellipse == nil {
			continue
		}
		end := 0
		for _, q := range seams {
			a, b := q.From, q.To
			if height(a) > height(b) {
				a, b = b, a
			}
			if e.From == b || e.To == b {
				end = 1
			}
		}
		r.ends[end] = append(r.ends[end], *e.Ellipse)
	}
	o.rounds = append(o.rounds, r)
}

// on returns the point of a rim that lies in a direction across the axis.
func (r *curve) on(end int, dir r3.Vec) (r3.Vec, bool) {
	if len(r.ends[end]) == 0 {
		return r.tip[end], true
	}
	for i := range r.ends[end] {
		e := &r.ends[end][i]
		// Seen along the axis every rim is a circle.
		t := math.Atan2(r3.Dot(e.V, dir), r3.Dot(e.U, dir))
		past := math.Mod(t-e.Start+4*math.Pi, 2*math.Pi)
		const slack = 1e-6
		if past > 2*math.Pi-slack {
			past = 0
		}
		if past <= e.Sweep+slack {
			s, c := math.Sincos(e.Start + past)
			return r3.Add(e.Centre, r3.Add(r3.Scale(c, e.U), r3.Scale(s, e.V))), true
		}
	}
	return r3.Vec{}, false
}

// prism takes the convex pieces of a prism's filled outline.
func (o *Shape) prism(p solid.Prism, sagitta float64) {
	outer := p.Profile.Outer()
	points := outer.Points(sagitta)
	o.hollow = len(p.Profile.Holes()) > 0 || len(p.Bores) > 0
	loops := [][]r2.Vec{points}
	if !isConvex(points) {
		o.hollow = true
		loops = convexPieces(points)
	}
	low, high := endNormals(p)
	for _, loop := range loops {
		var c piece
		for i, q := range loop {
			next := loop[(i+1)%len(loop)]
			d := r2.Sub(next, q)
			if length := r2.Norm(d); length > 1e-9 {
				n := r3.Vec{X: d.Y / length, Y: -d.X / length}
				c.planes = append(c.planes, plane{n, n.X*q.X + n.Y*q.Y})
			}
			c.corners = append(c.corners, lift(p.From, q), lift(p.To, q))
		}
		c.planes = append(c.planes, plane{low, r3.Dot(low, lift(p.From, r2.Vec{}))}, plane{high, r3.Dot(high, lift(p.To, r2.Vec{}))})
		o.pieces = append(o.pieces, c)
	}
}

// turned takes the pieces of a turned body between the corners of its outline.
func (o *Shape) turned(t solid.Turned, sagitta float64) {
	o.hollow = t.Bore > 0 || len(t.Outline) > 2
	for i := range len(t.Outline) - 1 {
		a, b := t.Outline[i], t.Outline[i+1]
		if b.Y-a.Y < 1e-9 {
			continue
		}
		n := max(12, chords(max(a.X, b.X), 2*math.Pi, sagitta))
		half := math.Pi / float64(n)
		slope := (b.X - a.X) * math.Cos(half) / (b.Y - a.Y)
		c := piece{planes: []plane{{r3.Vec{Z: -1}, -a.Y}, {r3.Vec{Z: 1}, b.Y}}}
		for k := range n {
			sin, cos := math.Sincos(2 * half * float64(k))
			c.corners = append(c.corners, r3.Vec{X: a.X * cos, Y: a.X * sin, Z: a.Y}, r3.Vec{X: b.X * cos, Y: b.X * sin, Z: b.Y})
			sin, cos = math.Sincos(2*half*float64(k) + half)
			normal := r3.Vec{X: cos, Y: sin, Z: -slope}
			length := r3.Norm(normal)
			c.planes = append(c.planes, plane{r3.Scale(1/length, normal), (a.X*math.Cos(half) - slope*a.Y) / length})
		}
		o.pieces = append(o.pieces, c)
	}
}

// straight is the sine of the angle up to which a corner that turns right counts as none.
const straight = 1e-6

// isConvex reports whether a counter-clockwise loop turns left everywhere.
func isConvex(loop []r2.Vec) bool {
	n := len(loop)
	for i, q := range loop {
		in, out := r2.Sub(q, loop[(i+n-1)%n]), r2.Sub(loop[(i+1)%n], q)
		if r2.Cross(in, out) < -straight*r2.Norm(in)*r2.Norm(out) {
			return false
		}
	}
	return true
}

// convexPieces divides a loop into convex ones.
func convexPieces(points []r2.Vec) [][]r2.Vec {
	loops, err := contour.ConvexLoops(points, straight)
	if err != nil {
		return [][]r2.Vec{points}
	}
	out := make([][]r2.Vec, len(loops))
	for i, loop := range loops {
		for _, k := range loop {
			out[i] = append(out[i], points[k])
		}
	}
	return out
}
