package solid

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Turned is a body turned about its own z: shafts, sheaves, pins, knobs. Outline
// holds the corners (radius, z) of half its section from the bottom up, z never
// falling: cylinders, cones and, where z stays, plane shoulders. The first and
// last corner bound the plane ends; a radius of 0 there makes a tip. Bore is the
// diameter of a hole right through along z, 0 for none.
type Turned struct {
	Outline []r2.Vec
	Bore    float64
}

// Round returns the plain round bar of diameter d from z = 0 to a length.
func Round(d, length float64) Turned {
	return Turned{Outline: []r2.Vec{{X: d / 2}, {X: d / 2, Y: length}}}
}

// Tube returns the round bar of diameter d with a bore, from z = 0 to a length.
func Tube(d, bore, length float64) Turned {
	t := Round(d, length)
	t.Bore = bore
	return t
}

func (t Turned) bulk() bulk { return t.moments().bulk }

func (t Turned) moments() moments {
	var m moments
	slice := func(a, b r2.Vec) {
		mid, half := r2.Scale(.5, r2.Add(a, b)), r2.Scale(.5, r2.Sub(b, a))
		if half.Y == 0 {
			return
		}
		// Polynomials of degree 4 at most, for which three points are exact.
		for _, g := range gauss3 {
			q := r2.Add(mid, r2.Scale(g.at, half))
			rr := q.X * q.X
			w := math.Pi * half.Y * g.weight * rr
			m.volume += w
			m.first.Z += w * q.Y
			m.second[0][0] += w * rr / 4
			m.second[2][2] += w * q.Y * q.Y
		}
	}
	n := len(t.Outline)
	for i := range n - 1 {
		slice(t.Outline[i], t.Outline[i+1])
	}
	if t.Bore > 0 { // walked downward: taken off
		slice(r2.Vec{X: t.Bore / 2, Y: t.Outline[n-1].Y}, r2.Vec{X: t.Bore / 2, Y: t.Outline[0].Y})
	}
	m.second[1][1] = m.second[0][0]
	return m
}

// Volume implements Solid.
func (t Turned) Volume() float64 { return t.bulk().volume }

// Centroid implements Solid.
func (t Turned) Centroid() r3.Vec { return t.bulk().centroid() }

// Inertia implements Solid.
func (t Turned) Inertia() Tensor { return t.moments().inertia() }

// Hull implements Solid.
func (t Turned) Hull() Convex { return &spindle{t.Outline} }

// Pieces implements Solid: from the bottom up, each as long as it stays convex.
func (t Turned) Pieces() []Convex {
	var out []Convex
	start := 0
	last := len(t.Outline) - 1
	for i := 1; i <= last; i++ {
		if i < last && r2.Cross(r2.Sub(t.Outline[i], t.Outline[i-1]), r2.Sub(t.Outline[i+1], t.Outline[i])) >= 0 {
			continue
		}
		if t.Outline[i].Y > t.Outline[start].Y {
			out = append(out, &spindle{t.Outline[start : i+1]})
		}
		start = i
	}
	return out
}

func (t Turned) box() (low, high r3.Vec) {
	r := 0.0
	for _, q := range t.Outline {
		r = max(r, q.X)
	}
	return r3.Vec{X: -r, Y: -r, Z: t.Outline[0].Y}, r3.Vec{X: r, Y: r, Z: t.Outline[len(t.Outline)-1].Y}
}

func (t Turned) mirrored() Solid { return t }

// Validate implements Solid.
func (t Turned) Validate() error {
	fail := func(i int, defect, hint string) error {
		return &Error{Feature: "outline", Index: i, Defect: defect, Hint: hint}
	}
	n := len(t.Outline)
	if n < 2 {
		return fail(0, "too few corners", "a turned body needs two at least")
	}
	if !(t.Bore >= 0) || math.IsInf(t.Bore, 0) {
		return &Error{Feature: "bore", Defect: "diameter is not a length", Hint: "give 0 for none"}
	}
	for i, q := range t.Outline {
		if !finite(q.X, q.Y) {
			return fail(i, "number not finite", "check the calculation that gave this corner")
		}
		end := i == 0 || i == n-1
		switch {
		case q.X < 0 || !end && q.X < touching:
			return fail(i, "radius is not above zero", "only the first and the last corner may lie on the axis")
		case t.Bore > 0 && q.X < t.Bore/2+touching:
			return fail(i, fmt.Sprintf("the bore of %g mm leaves no wall", t.Bore), "make the bore smaller or the body thicker here")
		case i == 0:
			continue
		case q.Y < t.Outline[i-1].Y:
			return fail(i, "the outline turns back down", "list the corners from the bottom up")
		case r2.Norm(r2.Sub(q, t.Outline[i-1])) < touching:
			return fail(i, "two corners in one place", "leave one of them out")
		case i >= 2 && q.Y == t.Outline[i-1].Y && t.Outline[i-1].Y == t.Outline[i-2].Y:
			return fail(i, "two shoulders at one height", "leave the corner between them out")
		}
	}
	if t.Outline[n-1].Y-t.Outline[0].Y < touching {
		return fail(n-1, "the body has no length", "let the corners rise")
	}
	// The plane ends are the first and the last corner's own discs.
	if t.Outline[1].Y == t.Outline[0].Y {
		return fail(1, "a shoulder at the bottom end", "begin with the corner of the end's own radius")
	}
	if t.Outline[n-1].Y == t.Outline[n-2].Y {
		return fail(n-1, "a shoulder at the top end", "end with the corner of the end's own radius")
	}
	return nil
}

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
