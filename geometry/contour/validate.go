package contour

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

const (
	// coincident is the distance, mm, below which two points are one: a
	// hundredth of the 1e-4 mm to which coordinates are written.
	coincident = 1e-6

	// smooth is the corner, rad, below which a joint counts as tangent. A
	// parallel curve 2 mm off gapes there by 2 µm.
	smooth = 1e-3

	// greatestBulge is an arc of 359.8 degrees; beyond, its circle is not
	// determined by the written coordinates.
	greatestBulge = 1e3
)

// Validate reports the first defect that makes a path unfit to be cut: too few
// vertices, numbers that are not finite, elements without length, arcs that
// are nearly full circles, lines that run back on themselves, elements that cross or
// touch. The error is an
// *Error with the index of the vertex or element.
func (p Path) Validate() error {
	if len(p.Vertices) < 2 {
		return &Error{Index: 0, Defect: "too few vertices", Hint: "a path needs at least two"}
	}
	for i, v := range p.Vertices {
		for _, x := range [...]float64{v.X, v.Y, v.Bulge} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return &Error{Index: i, Defect: "number not finite", Hint: "check the calculation that gave this vertex"}
			}
		}
		if math.Abs(v.Bulge) > greatestBulge {
			return &Error{Index: i, Defect: "bulge too great", Hint: "split the arc in two"}
		}
	}
	for i := range p.Len() {
		if e := p.Element(i); r2.Norm(r2.Sub(e.End, e.Start)) < coincident {
			return &Error{Index: i, Defect: "element without length", Hint: "leave out one of the two coincident vertices"}
		}
	}
	if p.Closed && len(p.Vertices) == 2 && math.Abs(p.Vertices[0].Bulge+p.Vertices[1].Bulge) < coincident {
		return &Error{Index: 1, Defect: "path runs back on itself", Hint: "a closed path must enclose an area"}
	}
	for i := range p.Len() {
		if (i > 0 || p.Closed) && p.spike(i) {
			return &Error{Index: i, Defect: "path runs back on itself", Hint: "leave out the vertex where it turns back"}
		}
	}
	if i, _, crosses := p.SelfIntersection(); crosses {
		return &Error{Index: i, Defect: "path meets itself", Hint: "the outline must be a simple loop"}
	}
	return nil
}

// spike reports whether the line that begins at vertex i goes back where the line before
// it came from, but for an angle that counts as none.
func (p Path) spike(i int) bool {
	before := (i + p.Len() - 1) % p.Len()
	return !p.Element(before).IsArc() && !p.Element(i).IsArc() && math.Abs(p.corner(i)) > math.Pi-smooth
}

// SelfIntersection reports whether two elements of the path cross or touch
// other than where one follows the other, and the first such pair.
func (p Path) SelfIntersection() (i, j int, found bool) {
	n := p.Len()
	boxes := make([]r2.Box, n)
	for k := range n {
		boxes[k] = Path{Vertices: []Vertex{p.Vertices[k], p.Vertices[(k+1)%len(p.Vertices)]}}.Bounds()
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			if apart(boxes[i], boxes[j]) {
				continue
			}
			follows := j == i+1
			precedes := p.Closed && i == 0 && j == n-1
			if p.meet(i, j, follows, precedes) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

func apart(a, b r2.Box) bool {
	return a.Min.X > b.Max.X+coincident || b.Min.X > a.Max.X+coincident ||
		a.Min.Y > b.Max.Y+coincident || b.Min.Y > a.Max.Y+coincident
}

// meet reports whether elements i and j meet elsewhere than at a vertex they
// share.
func (p Path) meet(i, j int, follows, precedes bool) bool {
	a, b := p.Element(i), p.Element(j)
	// Two lines or circles tangent at a shared vertex meet nowhere else; their
	// computed intersections are ill-conditioned.
	if (follows && math.Abs(p.corner(j)) < smooth || precedes && math.Abs(p.corner(i)) < smooth) && !(follows && precedes) {
		return false
	}
	qs, n := intersections(a, b)
	for _, q := range qs[:n] {
		shared := follows && near(q, a.End) || precedes && near(q, a.Start)
		if !shared && a.holds(q) && b.holds(q) {
			return true
		}
	}
	// End points lying on the other element, missed by rounding above.
	for _, q := range [...]r2.Vec{b.Start, b.End} {
		if !(follows && near(q, a.End)) && !(precedes && near(q, a.Start)) && a.Distance(q) < coincident {
			return true
		}
	}
	return false
}

// sharedVertex is the distance, mm, within which an intersection is taken to
// be the shared vertex itself; coordinates are rounded to 1e-4 mm and two
// elements that meet at a corner of the angle smooth magnify that.
const sharedVertex = 1e-2

func near(p, q r2.Vec) bool { return r2.Norm(r2.Sub(p, q)) < sharedVertex }

// intersections returns the points common to the lines or circles that carry
// two elements, at most two; parallel lines and equal circles give none.
func intersections(a, b Element) (qs [2]r2.Vec, n int) {
	switch {
	case a.IsArc() && b.IsArc():
		d := r2.Sub(b.Centre, a.Centre)
		dist := r2.Norm(d)
		if dist < coincident {
			return qs, 0
		}
		along := (a.Radius*a.Radius - b.Radius*b.Radius + dist*dist) / (2 * dist)
		return onCircle(a, r2.Add(a.Centre, r2.Scale(along/dist, d)), r2.Scale(1/dist, left(d)), along)
	case a.IsArc():
		return lineCircle(b, a)
	case b.IsArc():
		return lineCircle(a, b)
	}
	u, v := r2.Sub(a.End, a.Start), r2.Sub(b.End, b.Start)
	det := r2.Cross(u, v)
	if math.Abs(det) <= 1e-14*r2.Norm(u)*r2.Norm(v) {
		return qs, 0
	}
	s := r2.Cross(r2.Sub(b.Start, a.Start), v) / det
	qs[0] = r2.Add(a.Start, r2.Scale(s, u))
	return qs, 1
}

func lineCircle(line, arc Element) (qs [2]r2.Vec, n int) {
	u := r2.Unit(r2.Sub(line.End, line.Start))
	foot := r2.Add(line.Start, r2.Scale(r2.Dot(r2.Sub(arc.Centre, line.Start), u), u))
	return onCircle(arc, foot, u, r2.Norm(r2.Sub(foot, arc.Centre)))
}

// onCircle returns the points of the arc's circle on the line through foot
// along the unit vector u, foot being the line's nearest point to the centre,
// at the distance off.
func onCircle(arc Element, foot, u r2.Vec, off float64) (qs [2]r2.Vec, n int) {
	w := arc.Radius*arc.Radius - off*off
	if w < 0 {
		return qs, 0
	}
	half := r2.Scale(math.Sqrt(w), u)
	return [2]r2.Vec{r2.Add(foot, half), r2.Sub(foot, half)}, 2
}
