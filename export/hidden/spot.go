package hidden

import (
	"math"

	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// spot is a place on a face, its normal outward, at which a balloon may point.
type spot struct{ at, n r3.Vec }

// spots are places on the faces of a solid, those in the middle of a face first.
func (o *Shape) spots() []spot {
	switch s := o.solid.(type) {
	case solid.Prism:
		return prismSpots(s)
	case solid.Turned:
		return turnedSpots(s)
	}
	return nil
}

// lift is the place of an end plane over one of the profile's.
func lift(e solid.End, q r2.Vec) r3.Vec { return r3.Vec{X: q.X, Y: q.Y, Z: e.At(q)} }

// endNormals are the outward normals of a prism's ends.
func endNormals(p solid.Prism) (low, high r3.Vec) {
	return r3.Unit(r3.Vec{X: p.From.Tilt.X, Y: p.From.Tilt.Y, Z: -1}), r3.Unit(r3.Vec{X: -p.To.Tilt.X, Y: -p.To.Tilt.Y, Z: 1})
}

// prismSpots are on the ends, outside holes, and on the sides.
func prismSpots(p solid.Prism) []spot {
	var out []spot
	low, high := endNormals(p)
	outer := p.Profile.Outer()
	middle := p.Profile.Centroid()
	inside := func(q r2.Vec) bool {
		for _, h := range p.Profile.Holes() {
			if h.Contains(q) {
				return false
			}
		}
		return outer.Contains(q)
	}
	shares := [...]float64{0, 0.25, 0.5, 0.75, 0.9, 0.97}
	for _, share := range shares {
		for i, v := range outer.Vertices {
			q := r2.Add(middle, r2.Scale(share, r2.Sub(v.Point(), middle)))
			if inside(q) {
				out = append(out, spot{lift(p.To, q), high}, spot{lift(p.From, q), low})
			}
			if share == 0 && i == 0 {
				break
			}
		}
	}
	for i := range outer.Len() {
		e := outer.Element(i)
		q := e.At(0.5)
		t, _ := outer.Element(i).Tangents()
		if e.IsArc() {
			t = r2.Vec{X: -(q.Y - e.Centre.Y), Y: q.X - e.Centre.X}
			if e.Bulge < 0 {
				t = r2.Scale(-1, t)
			}
		}
		n := r3.Unit(r3.Vec{X: t.Y, Y: -t.X})
		a, b := lift(p.From, q), lift(p.To, q)
		for _, share := range [...]float64{0.5, 0.2, 0.8, 0.35, 0.65, 0.05, 0.95} {
			out = append(out, spot{r3.Add(a, r3.Scale(share, r3.Sub(b, a))), n})
		}
	}
	return out
}

// turnedSpots are on the cylinders and cones, the ends and the shoulders.
func turnedSpots(t solid.Turned) []spot {
	var out []spot
	const around = 8
	ring := func(r, z, n float64) { // on a plane face
		for k := range around {
			sin, cos := math.Sincos(float64(k) * 2 * math.Pi / around)
			out = append(out, spot{r3.Vec{X: r * cos, Y: r * sin, Z: z}, r3.Vec{Z: n}})
		}
	}
	for i := range len(t.Outline) - 1 {
		a, b := t.Outline[i], t.Outline[i+1]
		if b.Y-a.Y < 1e-9 {
			ring((a.X+b.X)/2, a.Y, math.Copysign(1, a.X-b.X))
			continue
		}
		slope := (b.X - a.X) / (b.Y - a.Y)
		for _, share := range [...]float64{0.5, 0.15, 0.85} {
			r, z := a.X+share*(b.X-a.X), a.Y+share*(b.Y-a.Y)
			for k := range around {
				sin, cos := math.Sincos((float64(k) + 0.5) * 2 * math.Pi / around)
				out = append(out, spot{r3.Vec{X: r * cos, Y: r * sin, Z: z}, r3.Unit(r3.Vec{X: cos, Y: sin, Z: -slope})})
			}
		}
	}
	first, last := t.Outline[0], t.Outline[len(t.Outline)-1]
	ring((first.X+t.Bore/2)/2, first.Y, -1)
	ring((last.X+t.Bore/2)/2, last.Y, 1)
	return out
}
