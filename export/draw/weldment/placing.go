package weldment

import (
	"math"
	"strings"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Placing is where a member is in the frame of its weldment.
type Placing struct {
	Part   int
	At     [3]float64 // mm
	Square bool       // it lies along the axes; else the angles say how its own z runs
	Plan   float64    // of the own z in the plan from x to y, rad
	Rise   float64    // of the own z above the plan, rad
	Turn   float64    // about the own z, from where own y is as near to z as may be, rad
	ref    [3]place
}

// Members are the weldment's blocks as they are placed in its frame, the datum first.
func (w *Weldment) Members(a *assembly.Assembly, frame solid.Placement) []Placing {
	out := make([]Placing, len(w.Blocks))
	for i := range w.Blocks {
		out[i] = placingOf(a, w.Blocks[i].Lead, frame)
	}
	return out
}

func placingOf(a *assembly.Assembly, part int, frame solid.Placement) Placing {
	p := &a.Parts[part]
	axes := frame
	axes.Origin = r3.Vec{}
	ref := reference(p, &frame, frame)
	out := Placing{Part: part, At: [3]float64{ref[0].at, ref[1].at, ref[2].at}, Square: ref[0].kind != middle, ref: ref}
	if out.Square {
		return out
	}
	own := axes.Inverse().Then(p.Place)
	z := own.Z
	out.Rise = math.Asin(max(-1, min(1, z.Z)))
	if math.Hypot(z.X, z.Y) > parallel {
		out.Plan = math.Atan2(z.Y, z.X)
	}
	if !p.Round() {
		level := solid.Along(r3.Vec{}, z, r3.Vec{Z: 1})
		out.Turn = math.Atan2(r3.Dot(own.Y, r3.Scale(-1, level.X)), r3.Dot(own.Y, level.Y))
		// A rectangle looks alike turned by half a circle.
		out.Turn = math.Remainder(out.Turn, math.Pi)
	}
	return out
}

// to says what of a member the coordinates are of.
func (p *Placing) to(plate bool) string {
	switch {
	case !p.Square && plate:
		return "zero of its cut file"
	case !p.Square:
		return "middle of end"
	}
	var axes, faces []string
	for k, name := range [3]string{"x", "y", "z"} {
		if p.ref[k].kind == axis {
			axes = append(axes, name)
		} else {
			faces = append(faces, name)
		}
	}
	switch {
	case len(axes) == 0:
		return "faces"
	case len(faces) == 0:
		return "axis"
	}
	return strings.Join(axes, " ") + " axis, " + strings.Join(faces, " ") + " face"
}
