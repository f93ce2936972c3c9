package contour

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Fit returns an open path of arcs through the first and last of the points,
// tangent to the given unit tangents there, smooth throughout, from which no
// point lies farther than tolerance. Each pair of arcs (biarc, joint at equal
// tangent lengths: Bolton 1975) spans as many points as the tolerance allows,
// but turns no more than a right angle. The points must be samples of one
// smooth curve, close enough together that it does not stray between them.
//
// The errors are *Error: fewer than two points, a tangent for every point
// missing, a tolerance that is not positive, coincident points, numbers that
// are not finite, and neighbours that no biarc joins because the tangents
// there turn through too much of a circle.
func Fit(points, tangents []r2.Vec, tolerance float64) (Path, error) {
	if err := checkSamples(points, tangents, tolerance); err != nil {
		return Path{}, err
	}
	last := len(points) - 1
	path := Path{}
	for i := 0; i < last; {
		reach, pieces, ok := i+1, biarc{}, false
		if pieces, ok = joinBiarc(points, tangents, i, reach, math.Inf(1)); !ok {
			return Path{}, &Error{Index: i, Defect: "tangents turn too far between two points", Hint: "sample the curve more closely"}
		}
		// Double the span while it holds, then halve the step.
		step := 1
		for reach+step <= last {
			b, ok := joinBiarc(points, tangents, i, reach+step, tolerance)
			if !ok {
				break
			}
			reach, pieces, step = reach+step, b, step*2
		}
		for step /= 2; step > 0; step /= 2 {
			if reach+step > last {
				continue
			}
			if b, ok := joinBiarc(points, tangents, i, reach+step, tolerance); ok {
				reach, pieces = reach+step, b
			}
		}
		path.Vertices = append(path.Vertices,
			Vertex{X: points[i].X, Y: points[i].Y, Bulge: pieces.first.Bulge},
			Vertex{X: pieces.first.End.X, Y: pieces.first.End.Y, Bulge: pieces.second.Bulge})
		i = reach
	}
	path.Vertices = append(path.Vertices, Vertex{X: points[last].X, Y: points[last].Y})
	return path, nil
}

func checkSamples(points, tangents []r2.Vec, tolerance float64) error {
	switch {
	case len(points) < 2:
		return &Error{Defect: "too few points", Hint: "a curve needs at least two"}
	case len(points) != len(tangents):
		return &Error{Index: min(len(points), len(tangents)), Defect: "points and tangents differ in number", Hint: "give a tangent for every point"}
	case !(tolerance > 0):
		return &Error{Defect: "tolerance not positive", Hint: "give a tolerance above zero"}
	}
	for i, p := range points {
		n := r2.Norm(tangents[i])
		if s := p.X + p.Y + n; math.IsNaN(s) || math.IsInf(s, 0) || math.Abs(n-1) > 1e-9 {
			return &Error{Index: i, Defect: "point not finite or tangent not a unit vector", Hint: "check the calculation that gave this sample"}
		}
		if i > 0 && r2.Norm(r2.Sub(p, points[i-1])) < coincident {
			return &Error{Index: i, Defect: "coincident points", Hint: "leave one out"}
		}
	}
	return nil
}

// biarc is two arcs that join smoothly.
type biarc struct{ first, second Element }

// joinBiarc joins samples i and j by a biarc and reports whether it exists and
// keeps all samples between within the tolerance.
func joinBiarc(points, tangents []r2.Vec, i, j int, tolerance float64) (biarc, bool) {
	t0, t1 := tangents[i], tangents[j]
	v := r2.Sub(points[j], points[i])
	if r2.Dot(t0, t1) < -1e-12 || r2.Dot(v, t0) <= 0 || r2.Dot(v, t1) <= 0 {
		return biarc{}, false
	}
	// Both tangent lengths d satisfy |v - d(t0+t1)| = 2d; this form of the
	// root stays exact for nearly equal tangents.
	vt := r2.Dot(v, r2.Add(t0, t1))
	v2 := r2.Norm2(v)
	d := v2 / (vt + math.Sqrt(vt*vt+2*(1-r2.Dot(t0, t1))*v2))
	joint := r2.Scale(.5, r2.Add(
		r2.Add(points[i], r2.Scale(d, t0)),
		r2.Sub(points[j], r2.Scale(d, t1))))

	c0, c1 := r2.Sub(joint, points[i]), r2.Sub(points[j], joint)
	b := biarc{
		first:  newElement(points[i], joint, halfTan(t0, c0)),
		second: newElement(joint, points[j], halfTan(c1, t1)),
	}
	for k := i + 1; k < j; k++ {
		if math.Min(b.first.Distance(points[k]), b.second.Distance(points[k])) > tolerance {
			return biarc{}, false
		}
	}
	return b, true
}

// halfTan returns the tangent of half the angle from u to v. Between an arc's
// end tangent and its chord, which make half its sweep, that is its bulge.
func halfTan(u, v r2.Vec) float64 {
	return r2.Cross(u, v) / (r2.Norm(u)*r2.Norm(v) + r2.Dot(u, v))
}
