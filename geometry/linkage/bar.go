package linkage

import (
	"math"

	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// Eye is the round end of a bar about a bore, mm.
type Eye struct {
	Radius float64
	Bore   float64 // diameter; 0 for none
}

// Bar is a flat bar with a round eye at either end, A at the origin and B at
// (Length, 0), and straight flanks that touch both. Neither eye may hold the
// other: Length > |A.Radius - B.Radius|.
type Bar struct {
	Length float64 // between the bores, mm
	A, B   Eye
}

// Web is the plate left between the bar's two bores, mm; not above zero where they
// run into each other.
func (b Bar) Web() float64 { return b.Length - b.A.Bore/2 - b.B.Bore/2 }

// slant is the angle by which the flanks close in from A to B.
func (b Bar) slant() float64 { return math.Asin((b.A.Radius - b.B.Radius) / b.Length) }

// Outline is the bar's outline, counter-clockwise.
func (b Bar) Outline() contour.Path {
	s, c := math.Sincos(b.slant())
	// Flank ends: the radii there stand across the flank.
	a := r2.Scale(b.A.Radius, r2.Vec{X: s, Y: c})
	e := r2.Add(r2.Vec{X: b.Length}, r2.Scale(b.B.Radius, r2.Vec{X: s, Y: c}))
	round := func(sweep float64) float64 { return math.Tan(sweep / 4) }
	return contour.Path{Closed: true, Vertices: []contour.Vertex{
		{X: a.X, Y: a.Y, Bulge: round(math.Pi + 2*b.slant())},
		{X: a.X, Y: -a.Y},
		{X: e.X, Y: -e.Y, Bulge: round(math.Pi - 2*b.slant())},
		{X: e.X, Y: e.Y},
	}}
}

// Bores are the bores of the eyes that have one.
func (b Bar) Bores() []contour.Path {
	var out []contour.Path
	if b.A.Bore > 0 {
		out = append(out, contour.Circle(r2.Vec{}, b.A.Bore/2))
	}
	if b.B.Bore > 0 {
		out = append(out, contour.Circle(r2.Vec{X: b.Length}, b.B.Bore/2))
	}
	return out
}

// Areas returns the bar's area without its bores, mm², in two shares, at A and
// at B, whose common centre is the bar's.
func (b Bar) Areas() (atA, atB float64) {
	slant := b.slant()
	var area, moment float64 // about A, along the bar
	add := func(a, centre float64) { area, moment = area+a, moment+a*centre }
	// A sector of half angle h has its centre at 2 r sin h / 3 h.
	h := math.Pi/2 + slant
	add(b.A.Radius*b.A.Radius*h, -2*b.A.Radius*math.Sin(h)/(3*h))
	h = math.Pi/2 - slant
	add(b.B.Radius*b.B.Radius*h, b.Length+2*b.B.Radius*math.Sin(h)/(3*h))
	// Between the sectors: twice a quadrilateral of the bar's axis and a flank.
	s, c := math.Sincos(slant)
	corners := [4]r2.Vec{{}, {X: b.Length}, {X: b.Length + b.B.Radius*s, Y: b.B.Radius * c}, {X: b.A.Radius * s, Y: b.A.Radius * c}}
	for i, p := range corners {
		q := corners[(i+1)%4]
		cross := r2.Cross(p, q)
		add(cross, (p.X+q.X)/3)
	}
	add(-math.Pi/4*b.A.Bore*b.A.Bore, 0)
	add(-math.Pi/4*b.B.Bore*b.B.Bore, b.Length)
	return area - moment/b.Length, moment / b.Length
}

// Distance returns how far a point of the bar's plane lies from its outline, mm,
// negative inside; bores count as filled.
func (b Bar) Distance(q r2.Vec) float64 {
	s, c := math.Sincos(b.slant())
	q.Y = math.Abs(q.Y)
	// Along the flank from where it touches A's eye: beyond its ends an eye is nearest.
	switch along := c*q.X - s*q.Y; {
	case along < 0:
		return r2.Norm(q) - b.A.Radius
	case along > c*b.Length:
		return r2.Norm(r2.Sub(q, r2.Vec{X: b.Length})) - b.B.Radius
	}
	return s*q.X + c*q.Y - b.A.Radius
}
