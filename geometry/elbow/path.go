package elbow

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Path is where a point of the forearm goes as the elbow bends: a circle,
// Still + Sin·sin θ + Cos·cos θ. A hinge turns every point of the forearm on a
// circle, so three vectors stand for the whole path, in whatever frame they
// are given, and sines and cosines are shared between persons.
type Path struct{ Still, Sin, Cos r3.Vec }

// Path returns the path of the point of the forearm's long axis at the
// distance length from the elbow, in the arm frame with the elbow as origin.
// It is Forearm's closed form, times length.
func (h Hinge) Path(length float64) Path {
	sb, cb := math.Sincos(h.Tilt)
	sg, cg := math.Sincos(h.Valgus)
	return Path{
		Still: r3.Vec{Y: length * sg * sb, Z: length * sg * cb},
		Sin:   r3.Vec{X: length * cg},
		Cos:   r3.Vec{Y: -length * cg * cb, Z: length * cg * sb},
	}
}

// At returns the place at the flexion with the given sine and cosine.
func (p Path) At(sin, cos float64) r3.Vec {
	return r3.Vec{
		X: p.Still.X + sin*p.Sin.X + cos*p.Cos.X,
		Y: p.Still.Y + sin*p.Sin.Y + cos*p.Cos.Y,
		Z: p.Still.Z + sin*p.Sin.Z + cos*p.Cos.Z,
	}
}

// Seen appends to points the path as seen from an axis through pivot, at each
// flexion. The axis must be a unit vector. The sines and cosines must be of
// equal number.
func (p Path) Seen(points []AxisPoint, pivot, axis r3.Vec, sin, cos []float64) []AxisPoint {
	// In a frame whose third direction is the axis, the two across it in any
	// turn, each coordinate is again a + b sin θ + c cos θ.
	u := r3.Unit(r3.Cross(axis, leastAlong(axis)))
	v := r3.Cross(axis, u)
	still := r3.Sub(p.Still, pivot)
	x0, xs, xc := r3.Dot(u, still), r3.Dot(u, p.Sin), r3.Dot(u, p.Cos)
	y0, ys, yc := r3.Dot(v, still), r3.Dot(v, p.Sin), r3.Dot(v, p.Cos)
	w0, ws, wc := r3.Dot(axis, still), r3.Dot(axis, p.Sin), r3.Dot(axis, p.Cos)
	for i, s := range sin {
		c := cos[i]
		x, y := x0+s*xs+c*xc, y0+s*ys+c*yc
		points = append(points, AxisPoint{Radial: math.Sqrt(x*x + y*y), Axial: w0 + s*ws + c*wc})
	}
	return points
}

// leastAlong returns the coordinate direction that lies least along v.
func leastAlong(v r3.Vec) r3.Vec {
	x, y, z := math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z)
	switch {
	case x <= y && x <= z:
		return r3.Vec{X: 1}
	case z <= y:
		return r3.Vec{Z: 1}
	}
	return r3.Vec{Y: 1}
}
