package sheet

import (
	"math"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// ChordError is the largest distance on paper, mm, between a curve and what
// stands for it: chords where hatching is clipped, arcs for an ellipse.
const ChordError = 0.02

// clearChord is the same where texts only have to keep clear of lines.
const clearChord = 0.2

func polar(angle float64) r2.Vec { return r2.Vec{X: math.Cos(angle), Y: math.Sin(angle)} }

// left turns v a quarter turn counter-clockwise.
func left(v r2.Vec) r2.Vec { return r2.Vec{X: -v.Y, Y: v.X} }

// along is p + t·dir.
func along(p, dir r2.Vec, t float64) r2.Vec { return r2.Add(p, r2.Scale(t, dir)) }

func straight(points ...r2.Vec) []Vertex {
	out := make([]Vertex, len(points))
	for i, p := range points {
		out[i].Vec = p
	}
	return out
}

func circlePath(centre r2.Vec, radius float64) []Vertex {
	d := r2.Vec{X: radius}
	return []Vertex{{r2.Add(centre, d), 1}, {r2.Sub(centre, d), 1}}
}

// arcPath is the arc from start counter-clockwise to end; a sweep of nothing
// is read as the full circle. It is cut into pieces of at most half a circle.
func arcPath(centre r2.Vec, radius, start, end float64) []Vertex {
	sweep := math.Mod(end-start, 2*math.Pi)
	if sweep <= 0 {
		sweep += 2 * math.Pi
	}
	return sweptPath(centre, radius, start, sweep)
}

// sweptPath is the arc from start over a signed sweep.
func sweptPath(centre r2.Vec, radius, start, sweep float64) []Vertex {
	n := int(math.Ceil(math.Abs(sweep)/math.Pi - 1e-9))
	n = max(n, 1)
	out := make([]Vertex, n+1)
	for i := range out {
		out[i].Vec = along(centre, polar(start+sweep*float64(i)/float64(n)), radius)
		if i < n {
			out[i].Bulge = math.Tan(sweep / float64(n) / 4)
		}
	}
	return out
}

// ArcOf gives centre and radius of the arc from a to b, and its start angle
// and signed sweep in rad. A bulge of 0 has no centre and must not be asked.
func ArcOf(a, b r2.Vec, bulge float64) (centre r2.Vec, radius, start, sweep float64) {
	chord := r2.Sub(b, a)
	// The centre is left of the chord by c/2·(1-b²)/(2b).
	centre = along(r2.Scale(0.5, r2.Add(a, b)), left(chord), (1-bulge*bulge)/(4*bulge))
	radius = r2.Norm(r2.Sub(a, centre))
	d := r2.Sub(a, centre)
	return centre, radius, math.Atan2(d.Y, d.X), 4 * math.Atan(bulge)
}

// spans calls f for each piece of a path.
func spans(path []Vertex, closed bool, f func(a, b r2.Vec, bulge float64)) {
	for i := 1; i < len(path); i++ {
		f(path[i-1].Vec, path[i].Vec, path[i-1].Bulge)
	}
	if n := len(path); closed && n > 1 {
		f(path[n-1].Vec, path[0].Vec, path[n-1].Bulge)
	}
}

// flatten gives the corners of a path with its arcs cut into chords that are
// within a distance of them.
func flatten(path []Vertex, closed bool, within float64) []r2.Vec {
	if len(path) == 0 {
		return nil
	}
	out := append(make([]r2.Vec, 0, len(path)+1), path[0].Vec)
	spans(path, closed, func(a, b r2.Vec, bulge float64) {
		if bulge != 0 {
			centre, radius, start, sweep := ArcOf(a, b, bulge)
			step := 2 * math.Acos(math.Max(0, 1-within/math.Max(radius, within)))
			n := int(math.Ceil(math.Abs(sweep) / step))
			for i := 1; i < n; i++ {
				out = append(out, along(centre, polar(start+sweep*float64(i)/float64(n)), radius))
			}
		}
		out = append(out, b)
	})
	return out
}

// pathBox is the bounding box of a path, arcs included exactly.
func pathBox(path []Vertex, closed bool) r2.Box {
	box := boxes.Empty()
	for _, v := range path {
		box = boxes.Grow(box, v.Vec)
	}
	spans(path, closed, func(a, b r2.Vec, bulge float64) {
		if bulge == 0 {
			return
		}
		centre, radius, start, sweep := ArcOf(a, b, bulge)
		lo, hi := math.Min(start, start+sweep), math.Max(start, start+sweep)
		for k := math.Ceil(lo / (math.Pi / 2)); k*math.Pi/2 <= hi; k++ {
			box = boxes.Grow(box, along(centre, polar(k*math.Pi/2), radius))
		}
	})
	return box
}
