package weldment

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

// Fillet is how the runs of a weld lie, which its joint tells only all together.
type Fillet struct {
	Throat float64 // mm
	Length float64 // of one run, mm
	Runs   int     // how many there are: one, or one on either side
	Around bool    // it goes all round
}

// sameRun is the difference, mm, below which two lengths of weld are one.
const sameRun = 0.5

// FilletOf reads a joint: its runs go all round if they are as long as the way round a
// section or a face of one of the parts; they are two if half of them is as long as a
// side of one.
func FilletOf(a *assembly.Assembly, j *assembly.Joint) Fillet {
	f := Fillet{Throat: j.Detail.Throat, Length: j.Detail.Run, Runs: 1}
	same := func(x float64, list []float64) bool {
		for _, y := range list {
			if math.Abs(x-y) < sameRun {
				return true
			}
		}
		return false
	}
	var rings, sides []float64
	for _, i := range [2]int{j.A, j.B} {
		r, s := rims(&a.Parts[i])
		rings, sides = append(rings, r...), append(sides, s...)
	}
	switch {
	case same(f.Length, rings):
		f.Around = true
	case !same(f.Length, sides) && same(f.Length/2, sides):
		f.Runs, f.Length = 2, f.Length/2
	}
	return f
}

// rims are the ways round a part's sections and faces, and the lengths of its sides.
func rims(p *assembly.Part) (rings, sides []float64) {
	low, high := solid.Bounds(p.Solid, solid.World())
	x, y, z := high.X-low.X, high.Y-low.Y, high.Z-low.Z
	rings = []float64{2 * (x + y), 2 * (x + z), 2 * (y + z), math.Pi * x}
	sides = []float64{x, y, z}
	switch s := p.Solid.(type) {
	case solid.Turned:
		for _, q := range s.Outline {
			rings = append(rings, 2*math.Pi*q.X)
		}
		rings = append(rings, math.Pi*s.Bore)
	case solid.Prism:
		// The side of a plate may be a chord of its outline.
		outer := s.Profile.Outer()
		for i := range outer.Len() {
			if e := outer.Element(i); !e.IsArc() {
				sides = append(sides, r2.Norm(r2.Sub(e.End, e.Start)))
			}
		}
		for _, e := range [2]solid.End{s.From, s.To} {
			w, h := x*math.Hypot(1, e.Tilt.X), y*math.Hypot(1, e.Tilt.Y)
			rings, sides = append(rings, 2*(w+h)), append(sides, w, h)
		}
	}
	return rings, sides
}
