package cam

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Support is the support function of a plane convex curve at one outward
// normal angle t: its value h(t), the distance of the tangent from the origin,
// and its first and second derivatives by t.
type Support struct {
	H, H1, H2 float64
}

// Point returns the point where the tangent touches the curve. It lies H1
// along the tangent from the foot of the perpendicular; the two are the same
// only where H1 is 0.
//
//	x = h cos t - h' sin t,  y = h sin t + h' cos t
func (s Support) Point(t float64) r2.Vec {
	sin, cos := math.Sincos(t)
	return r2.Vec{X: s.H*cos - s.H1*sin, Y: s.H*sin + s.H1*cos}
}

// Radius returns the radius of curvature h + d2h/dt2. The curve is convex where it
// is positive; a taut cable cannot follow it elsewhere.
func (s Support) Radius() float64 { return s.H + s.H2 }

// normal returns the unit vector at the angle t.
func normal(t float64) r2.Vec {
	s, c := math.Sincos(t)
	return r2.Vec{X: c, Y: s}
}
