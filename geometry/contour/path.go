// Package contour holds plane outlines made of straight lines and circular
// arcs: their measures, support function, parallel curves, the fitting of arcs
// to a smooth curve, and convex hulls of points.
//
// Angles are counter-clockwise positive, in rad; the unit of length is the
// caller's, mm throughout the module.
package contour

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Vertex is a point of a path and the bulge of the piece from it to the next
// vertex: the tangent of a quarter of the arc's sweep, positive
// counter-clockwise, 0 for a line, 1 for a half circle. This is the notation
// of drawing exchange files.
type Vertex struct {
	X, Y, Bulge float64
}

// Point returns the place of the vertex.
func (v Vertex) Point() r2.Vec { return r2.Vec{X: v.X, Y: v.Y} }

// Path is a chain of lines and arcs. A closed path returns from the last
// vertex to the first; the bulge of an open path's last vertex is not used.
type Path struct {
	Vertices []Vertex
	Closed   bool
}

// Circle returns the closed counter-clockwise path of a circle: two half
// circles, starting on the +x side of the centre.
func Circle(centre r2.Vec, radius float64) Path {
	return Path{Closed: true, Vertices: []Vertex{
		{X: centre.X + radius, Y: centre.Y, Bulge: 1},
		{X: centre.X - radius, Y: centre.Y, Bulge: 1},
	}}
}

// Round returns centre and radius of a path that is a circle as [Circle] makes it;
// not ok for any other.
func (p Path) Round() (centre r2.Vec, radius float64, ok bool) {
	if len(p.Vertices) != 2 || math.Abs(p.Vertices[0].Bulge) != 1 || math.Abs(p.Vertices[1].Bulge) != 1 {
		return centre, 0, false
	}
	a, b := p.Vertices[0].Point(), p.Vertices[1].Point()
	return r2.Scale(0.5, r2.Add(a, b)), r2.Norm(r2.Sub(b, a)) / 2, true
}

// RoundEnds are the half circles of a slot, straight or curved; none of a circle.
func (p Path) RoundEnds() []Element {
	if _, _, round := p.Round(); round {
		return nil
	}
	var out []Element
	for i := range p.Len() {
		if e := p.Element(i); e.IsArc() && math.Abs(math.Abs(e.Sweep())-math.Pi) < 1e-6 {
			out = append(out, e)
		}
	}
	return out
}

// Polygon returns the closed path of straight lines through the points.
func Polygon(points ...r2.Vec) Path {
	p := Path{Closed: true, Vertices: make([]Vertex, len(points))}
	for i, q := range points {
		p.Vertices[i] = Vertex{X: q.X, Y: q.Y}
	}
	return p
}

// Len returns the number of elements.
func (p Path) Len() int {
	switch {
	case len(p.Vertices) < 2:
		return 0
	case p.Closed:
		return len(p.Vertices)
	default:
		return len(p.Vertices) - 1
	}
}

// Element returns the element from vertex i to the next.
func (p Path) Element(i int) Element {
	a := p.Vertices[i]
	b := p.Vertices[0]
	if i+1 < len(p.Vertices) {
		b = p.Vertices[i+1]
	}
	return newElement(a.Point(), b.Point(), a.Bulge)
}

// Length returns the length along the path.
func (p Path) Length() float64 {
	sum := 0.0
	for i := range p.Len() {
		sum += p.Element(i).Length()
	}
	return sum
}

// Area returns the area enclosed by a closed path, positive if it runs
// counter-clockwise. An open path is closed by a straight line.
func (p Path) Area() float64 {
	if len(p.Vertices) == 0 {
		return 0
	}
	sum := 0.0
	origin := p.Vertices[0].Point() // keeps the products small
	for i := range p.Len() {
		e := p.Element(i)
		sum += r2.Cross(r2.Sub(e.Start, origin), r2.Sub(e.End, origin)) / 2
		if e.IsArc() {
			a := e.Sweep()
			sum += e.Radius * e.Radius * (a - math.Sin(a)) / 2
		}
	}
	return sum
}

// Bounds returns the smallest upright box round the path, arcs included.
func (p Path) Bounds() r2.Box {
	var b r2.Box
	for i := range p.Len() {
		e := p.Element(i)
		right, _ := e.Support(r2.Vec{X: 1})
		up, _ := e.Support(r2.Vec{Y: 1})
		left, _ := e.Support(r2.Vec{X: -1})
		down, _ := e.Support(r2.Vec{Y: -1})
		if i == 0 {
			b = r2.Box{Min: r2.Vec{X: -left, Y: -down}, Max: r2.Vec{X: right, Y: up}}
			continue
		}
		b.Min = r2.Vec{X: min(b.Min.X, -left), Y: min(b.Min.Y, -down)}
		b.Max = r2.Vec{X: max(b.Max.X, right), Y: max(b.Max.Y, up)}
	}
	return b
}

// Support returns the largest value of n·q over all points q of the path, arcs
// included, and the point where it is reached; n must be a unit vector. For a
// closed path it is the support function of its convex hull, which is also
// what a taut cable round the path rests on. An empty path gives zeros.
func (p Path) Support(n r2.Vec) (float64, r2.Vec) {
	if p.Len() == 0 {
		return 0, r2.Vec{}
	}
	best, at := p.Element(0).Support(n)
	for i := 1; i < p.Len(); i++ {
		if h, q := p.Element(i).Support(n); h > best {
			best, at = h, q
		}
	}
	return best, at
}

// Contains reports whether a point lies inside a closed path by the even-odd
// rule. On the path itself either answer may be given.
func (p Path) Contains(q r2.Vec) bool {
	in := false
	for i := range p.Len() {
		e := p.Element(i)
		// A point on the chord itself must count to the same side in both
		// tests, the one the ray along +x gives it.
		chord := r2.Sub(e.End, e.Start)
		side := r2.Cross(chord, r2.Sub(q, e.Start))
		onLeft := side > 0 || side == 0 && chord.Y == 0 && chord.X > 0
		if (e.Start.Y > q.Y) != (e.End.Y > q.Y) && onLeft == (chord.Y > 0) {
			in = !in
		}
		// The piece between chord and arc turns inside and outside over.
		if e.IsArc() && onLeft == (e.Bulge < 0) && r2.Norm2(r2.Sub(q, e.Centre)) < e.Radius*e.Radius {
			in = !in
		}
	}
	return in
}

// Distance returns the distance of a point from the nearest point of the path
// and the index of that element, -1 for an empty path.
func (p Path) Distance(q r2.Vec) (float64, int) {
	best, at := 0.0, -1
	for i := range p.Len() {
		if d := p.Element(i).Distance(q); at < 0 || d < best {
			best, at = d, i
		}
	}
	return best, at
}

// MinRadius returns the smallest radius among the arcs and the index of that
// element, -1 if the path has no arcs. Corners are not counted.
func (p Path) MinRadius() (float64, int) {
	best, at := 0.0, -1
	for i := range p.Len() {
		if e := p.Element(i); e.IsArc() && (at < 0 || e.Radius < best) {
			best, at = e.Radius, i
		}
	}
	return best, at
}

// MaxCorner returns the largest angle between the tangents where two elements
// meet, and the index of the vertex, -1 if no two elements meet.
func (p Path) MaxCorner() (float64, int) {
	best, at := 0.0, -1
	for i := range p.Len() {
		if i == 0 && !p.Closed {
			continue
		}
		if a := math.Abs(p.corner(i)); at < 0 || a > best {
			best, at = a, i
		}
	}
	return best, at
}

// corner returns the angle the tangent turns at vertex i, where the element
// before ends and element i starts.
func (p Path) corner(i int) float64 {
	before := i - 1
	if before < 0 {
		before = p.Len() - 1
	}
	_, in := p.Element(before).Tangents()
	out, _ := p.Element(i).Tangents()
	return math.Atan2(r2.Cross(in, out), r2.Dot(in, out))
}

// Place returns the path turned by angle about the origin and then moved by
// offset.
func (p Path) Place(angle float64, offset r2.Vec) Path {
	s, c := math.Sincos(angle)
	q := Path{Closed: p.Closed, Vertices: make([]Vertex, len(p.Vertices))}
	for i, v := range p.Vertices {
		at := r2.Add(turn(v.Point(), c, s), offset)
		q.Vertices[i] = Vertex{X: at.X, Y: at.Y, Bulge: v.Bulge}
	}
	return q
}

// Points returns points along the path, its vertices among them, so close
// together that no arc stands more than sagitta off the line between two. A
// closed path's first point is not repeated.
func (p Path) Points(sagitta float64) []r2.Vec {
	var qs []r2.Vec
	for i := range p.Len() {
		e := p.Element(i)
		n := 1
		if e.IsArc() && sagitta > 0 && sagitta < e.Radius {
			n = int(math.Ceil(math.Abs(e.Sweep()) / (2 * math.Acos(1-sagitta/e.Radius))))
		} else if e.IsArc() {
			n = 4
		}
		for k := range n {
			qs = append(qs, e.At(float64(k)/float64(n)))
		}
	}
	if p.Len() > 0 && !p.Closed {
		qs = append(qs, p.Vertices[len(p.Vertices)-1].Point())
	}
	return qs
}

// Error reports a defect of a path or of the data for one.
type Error struct {
	Index  int    // of the vertex, element or sample concerned
	Defect string // what is wrong
	Hint   string // what to do about it
}

func (e *Error) Error() string {
	return fmt.Sprintf("contour: %s at index %d: %s", e.Defect, e.Index, e.Hint)
}
