package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Placement is where a body's own frame stands in another: the origin, mm, and
// right-handed unit vectors along the own axes. The zero value is of no use;
// start from World.
type Placement struct{ Origin, X, Y, Z r3.Vec }

// World returns the placement that changes nothing.
func World() Placement {
	return Placement{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
}

// Shift returns World moved by an offset.
func Shift(by r3.Vec) Placement {
	p := World()
	p.Origin = by
	return p
}

// Turn returns World turned by angle, right-handed, about the line through point
// along axis. The axis may have any length but zero.
func Turn(point, axis r3.Vec, angle float64) Placement {
	k := r3.Unit(axis)
	s, c := math.Sincos(angle)
	about := func(v r3.Vec) r3.Vec { // Rodrigues' rotation
		v = r3.Add(r3.Add(r3.Scale(c, v), r3.Scale(s, r3.Cross(k, v))), r3.Scale((1-c)*r3.Dot(k, v), k))
		return v
	}
	p := Placement{X: about(r3.Vec{X: 1}), Y: about(r3.Vec{Y: 1}), Z: about(r3.Vec{Z: 1})}
	p.Origin = r3.Sub(point, about(point))
	return p
}

// Along returns the frame of a body that runs from one point to another: origin
// at from, own z toward to, own y as near to up as may be. Where up runs along
// the body, or is zero, own y is as near to the outer x, or else y, as may be.
func Along(from, to, up r3.Vec) Placement {
	z := r3.Unit(r3.Sub(to, from))
	const parallel = 1e-9 // sine below which a direction across is not determined
	for _, u := range [...]r3.Vec{up, {X: 1}, {Y: 1}} {
		y := r3.Sub(u, r3.Scale(r3.Dot(u, z), z))
		if n := r3.Norm(y); n > parallel*r3.Norm(u) {
			y = r3.Scale(1/n, y)
			return Placement{Origin: from, X: r3.Cross(y, z), Y: y, Z: z}
		}
	}
	panic("solid: Along needs two points apart from each other")
}

// Point takes a point of the own frame to the outer frame.
func (p Placement) Point(v r3.Vec) r3.Vec { return r3.Add(p.Origin, p.Vector(v)) }

// Vector takes a direction of the own frame to the outer frame.
func (p Placement) Vector(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: p.X.X*v.X + p.Y.X*v.Y + p.Z.X*v.Z,
		Y: p.X.Y*v.X + p.Y.Y*v.Y + p.Z.Y*v.Z,
		Z: p.X.Z*v.X + p.Y.Z*v.Y + p.Z.Z*v.Z,
	}
}

// own takes a direction of the outer frame to the own frame.
func (p *Placement) own(v r3.Vec) r3.Vec {
	return r3.Vec{X: r3.Dot(p.X, v), Y: r3.Dot(p.Y, v), Z: r3.Dot(p.Z, v)}
}

// Then returns where q, given in p's own frame, stands in p's outer frame.
func (p Placement) Then(q Placement) Placement {
	return Placement{Origin: p.Point(q.Origin), X: p.Vector(q.X), Y: p.Vector(q.Y), Z: p.Vector(q.Z)}
}

// Inverse returns where the outer frame stands in the own frame.
func (p Placement) Inverse() Placement {
	return Placement{
		Origin: r3.Scale(-1, p.own(p.Origin)),
		X:      r3.Vec{X: p.X.X, Y: p.Y.X, Z: p.Z.X},
		Y:      r3.Vec{X: p.X.Y, Y: p.Y.Y, Z: p.Z.Y},
		Z:      r3.Vec{X: p.X.Z, Y: p.Y.Z, Z: p.Z.Z},
	}
}

// Mirrored returns the placement at which Mirrored(s) is the mirror image, in
// the outer x-z plane, of s at p. It is right-handed as p is.
func (p Placement) Mirrored() Placement {
	m := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	return Placement{Origin: m(p.Origin), X: m(p.X), Y: r3.Scale(-1, m(p.Y)), Z: m(p.Z)}
}
