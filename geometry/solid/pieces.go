package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"armwright/geometry/contour"
)

// pieces returns rims of convex areas that together cover the filled outline:
// triangles joined as long as what they make stays convex (Hertel and Mehlhorn
// 1983), at most four times as many as need be.
func (p *Profile) pieces() []rim {
	p.once.Do(func() { p.convex = p.split() })
	return p.convex
}

func (p *Profile) split() []rim {
	if convex(p.outer) {
		return []rim{p.edge()}
	}
	fine := subdivide(p.outer)
	points := make([]r2.Vec, fine.Len())
	for i, v := range fine.Vertices {
		points[i] = v.Point()
	}
	loops, err := contour.ConvexLoops(points, 0)
	if err != nil { // no simple outline: Validate says so, the hull still covers it
		return []rim{p.edge()}
	}
	out := make([]rim, len(loops))
	for n, loop := range loops {
		for i, at := range loop {
			if next := loop[(i+1)%len(loop)]; next == (at+1)%len(points) {
				out[n].add(fine.Element(at))
			} else {
				out[n].points = append(out[n].points, points[at])
			}
		}
	}
	return out
}

// convex reports whether a counter-clockwise path turns left everywhere, arcs
// and corners, but for rounding.
func convex(p contour.Path) bool {
	for i := range p.Len() {
		_, in := p.Element((i + p.Len() - 1) % p.Len()).Tangents()
		out, _ := p.Element(i).Tangents()
		if p.Vertices[i].Bulge < 0 || r2.Cross(in, out) < -1e-9 {
			return false
		}
	}
	return true
}

// subdivide cuts arcs into some that no chord departs from by more than Sagitta.
// Those that bulge outward stay arcs; hollow ones become their chords, which
// fills them by as much.
func subdivide(p contour.Path) contour.Path {
	out := contour.Path{Closed: true}
	for i := range p.Len() {
		e := p.Element(i)
		n := 1
		if e.IsArc() {
			half := math.Acos(max(0, 1-Sagitta/e.Radius))
			n = int(math.Ceil(math.Abs(e.Sweep()) / (2 * half)))
		}
		bulge := max(0, math.Tan(e.Sweep()/float64(4*n)))
		for k := range n {
			q := e.At(float64(k) / float64(n))
			out.Vertices = append(out.Vertices, contour.Vertex{X: q.X, Y: q.Y, Bulge: bulge})
		}
	}
	return out
}
