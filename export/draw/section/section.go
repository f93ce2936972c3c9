// Package section cuts parts by a plane and draws what it meets: outlines and hatching in
// the picture of a camera that looks square on the plane.
package section

import (
	"math"
	"slices"

	"armwright/export/hidden"
	"armwright/export/sheet"
	mesh "armwright/export/solid"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Part is one that the plane may meet.
type Part struct {
	Body  mesh.Body
	Place solid.Placement
	Whole bool // drawn uncut: shafts, pins and screws along the plane (ISO 128-3)
}

// Face is what the plane meets of a part: closed loops in the camera's picture, mm, one
// within another where it is hollow.
type Face struct {
	Loops [][]r2.Vec
	Part  int // its index among those that were cut
}

// sagitta is how far, mm, a straight line may stand off a curve of a section.
const sagitta = 0.05

// aside is how far, mm, the plane stands off the camera's origin, so that it meets no
// corner of a body that lies symmetrical about it.
const aside = 1.37e-4

// Cut returns what the plane through a camera's origin, square to its line of sight, meets
// of parts; those that it misses are left out. Errors are those of bodies that cannot be
// divided into triangles.
func Cut(parts []Part, c hidden.Camera) ([]Face, error) {
	var out []Face
	for i := range parts {
		p := &parts[i]
		m, err := mesh.Divide(p.Body, sagitta)
		if err != nil {
			return nil, err
		}
		at := make([]r3.Vec, len(m.Points))
		for k, q := range m.Points {
			q = p.Place.Point(q)
			xy := c.See(q)
			at[k] = r3.Vec{X: xy.X, Y: xy.Y, Z: r3.Dot(r3.Sub(q, c.Origin), c.Toward) - aside}
		}
		var pieces [][2]r2.Vec
		for _, t := range m.Triangles {
			if s, ok := crossing(at[t[0]], at[t[1]], at[t[2]]); ok {
				pieces = append(pieces, s)
			}
		}
		if loops := joined(pieces); len(loops) > 0 {
			out = append(out, Face{loops, i})
		}
	}
	return out, nil
}

// crossing is where a triangle meets the plane z = 0.
func crossing(a, b, c r3.Vec) (out [2]r2.Vec, ok bool) {
	n := 0
	for _, e := range [3][2]r3.Vec{{a, b}, {b, c}, {c, a}} {
		if (e[0].Z > 0) == (e[1].Z > 0) {
			continue
		}
		from, to := e[0], e[1]
		if from.Z > to.Z {
			from, to = to, from // the same place for both triangles at the edge
		}
		s := from.Z / (from.Z - to.Z)
		out[n] = r2.Vec{X: from.X + s*(to.X-from.X), Y: from.Y + s*(to.Y-from.Y)}
		n++
	}
	return out, n == 2
}

// same is the distance, mm, below which two ends of pieces are one.
const same = 1e-5

// joined puts pieces together to closed loops without what lies on a straight line.
func joined(pieces [][2]r2.Vec) [][]r2.Vec {
	type key [2]int64
	of := func(p r2.Vec) key { return key{int64(math.Round(p.X / same)), int64(math.Round(p.Y / same))} }
	ends := map[key][]int{}
	for i, p := range pieces {
		if of(p[0]) == of(p[1]) {
			continue
		}
		ends[of(p[0])] = append(ends[of(p[0])], i)
		ends[of(p[1])] = append(ends[of(p[1])], i)
	}
	used := make([]bool, len(pieces))
	next := func(p r2.Vec) (r2.Vec, bool) {
		for _, i := range ends[of(p)] {
			if used[i] {
				continue
			}
			used[i] = true
			if of(pieces[i][0]) == of(p) {
				return pieces[i][1], true
			}
			return pieces[i][0], true
		}
		return r2.Vec{}, false
	}
	var out [][]r2.Vec
	for i, p := range pieces {
		if used[i] || of(p[0]) == of(p[1]) {
			continue
		}
		used[i] = true
		loop := []r2.Vec{p[0]}
		for q, ok := p[1], true; ok && of(q) != of(p[0]); q, ok = next(q) {
			loop = append(loop, q)
		}
		if loop = straightened(loop); len(loop) > 2 {
			out = append(out, loop)
		}
	}
	return out
}

// straightened is a loop without the corners that stand off the line between their
// neighbours by less than a thousandth of a millimetre.
func straightened(loop []r2.Vec) []r2.Vec {
	const off = 1e-3
	var apart []r2.Vec // the plane passes close by corners
	for _, p := range loop {
		if n := len(apart); n == 0 || r2.Norm(r2.Sub(p, apart[n-1])) > 2*off && r2.Norm(r2.Sub(p, apart[0])) > 2*off {
			apart = append(apart, p)
		}
	}
	loop = apart
	for again := true; again && len(loop) > 2; {
		again = false
		var kept []r2.Vec
		for i, p := range loop {
			before := loop[len(loop)-1]
			if len(kept) > 0 {
				before = kept[len(kept)-1]
			}
			way := r2.Sub(loop[(i+1)%len(loop)], before)
			if long := r2.Norm(way); long > same && math.Abs(r2.Cross(way, r2.Sub(p, before)))/long < off {
				again = true
				continue
			}
			kept = append(kept, p)
		}
		loop = kept
	}
	return loop
}

// Lines draws faces of parts within a window: outlines, broken off at its border, and
// hatching, one way for each part, none for those drawn uncut, and screws before them.
func Lines(parts []Part, faces []Face, window r2.Box, screws ...Screw) []sheet.Entity {
	var out []sheet.Entity
	var shanks [][]sheet.Vertex
	for i := range screws {
		shanks = append(shanks, screws[i].shank())
	}
	hatched := 0
	for _, f := range faces {
		h := sheet.Hatch{Angle: math.Pi/4 + float64(hatched%2)*math.Pi/2, Spacing: 2 + 0.5*float64(hatched/2%3), Without: shanks}
		for _, loop := range f.Loops {
			loop = clipped(loop, window)
			if len(loop) < 3 {
				continue
			}
			out = append(out, outlines(loop, window)...)
			v := make([]sheet.Vertex, len(loop))
			for i, p := range loop {
				v[i] = sheet.Vertex{Vec: p}
			}
			h.Loops = append(h.Loops, v)
		}
		if len(h.Loops) > 0 && !parts[f.Part].Whole {
			out = append(out, h)
			hatched++
		}
	}
	for i := range screws {
		out = append(out, screws[i].lines()...)
	}
	return out
}

// clipped is what a window leaves of a loop, one side after the other (I. E. Sutherland
// and G. W. Hodgman, 1974).
func clipped(loop []r2.Vec, w r2.Box) []r2.Vec {
	for _, side := range [4]struct{ n, p r2.Vec }{{r2.Vec{X: 1}, w.Min}, {r2.Vec{Y: 1}, w.Min}, {r2.Vec{X: -1}, w.Max}, {r2.Vec{Y: -1}, w.Max}} {
		in := func(p r2.Vec) float64 { return r2.Dot(side.n, r2.Sub(p, side.p)) }
		var kept []r2.Vec
		for i, p := range loop {
			q := loop[(i+1)%len(loop)]
			a, b := in(p), in(q)
			if a >= 0 {
				kept = append(kept, p)
			}
			if (a >= 0) != (b >= 0) {
				kept = append(kept, r2.Add(p, r2.Scale(a/(a-b), r2.Sub(q, p))))
			}
		}
		loop = kept
	}
	return loop
}

// outlines are the sides of a loop that do not lie along a window's border.
func outlines(loop []r2.Vec, w r2.Box) []sheet.Entity {
	border := func(p, q r2.Vec) bool {
		on := func(a, b, edge float64) bool { return math.Abs(a-edge) < same && math.Abs(b-edge) < same }
		return on(p.X, q.X, w.Min.X) || on(p.X, q.X, w.Max.X) || on(p.Y, q.Y, w.Min.Y) || on(p.Y, q.Y, w.Max.Y)
	}
	n := len(loop)
	start := -1
	for i := range loop {
		if border(loop[i], loop[(i+1)%n]) {
			start = (i + 1) % n
			break
		}
	}
	if start < 0 {
		line := sheet.Polyline{Role: sheet.Visible, Closed: true}
		for _, p := range loop {
			line.Vertices = append(line.Vertices, sheet.Vertex{Vec: p})
		}
		return []sheet.Entity{line}
	}
	var out []sheet.Entity
	line := sheet.Polyline{Role: sheet.Visible}
	end := func() {
		if len(line.Vertices) > 1 {
			out = append(out, line)
		}
		line.Vertices = nil
	}
	for k := range n {
		p, q := loop[(start+k)%n], loop[(start+k+1)%n]
		if border(p, q) {
			end()
			continue
		}
		if line.Vertices == nil {
			line.Vertices = append(line.Vertices, sheet.Vertex{Vec: p})
		}
		line.Vertices = append(line.Vertices, sheet.Vertex{Vec: q})
	}
	end()
	return out
}

// Extent is a box that holds faces whole.
func Extent(faces []Face) r2.Box {
	box := r2.Box{Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, f := range faces {
		for _, loop := range f.Loops {
			for _, p := range loop {
				box.Min = r2.Vec{X: min(box.Min.X, p.X), Y: min(box.Min.Y, p.Y)}
				box.Max = r2.Vec{X: max(box.Max.X, p.X), Y: max(box.Max.Y, p.Y)}
			}
		}
	}
	margin := r2.Vec{X: 1, Y: 1}
	return r2.Box{Min: r2.Sub(box.Min, margin), Max: r2.Add(box.Max, margin)}
}

// Inside is a place within what a window leaves of a part, for a balloon: the middle of the
// widest stretch across it; nil where nothing is left.
func (f *Face) Inside(w r2.Box) *r2.Vec {
	low, high := w.Max.Y, w.Min.Y
	for _, l := range f.Loops {
		for _, p := range clipped(l, w) {
			low, high = min(low, p.Y), max(high, p.Y)
		}
	}
	var best *r2.Vec
	wide := 0.0
	for k := 1; k < 8; k++ {
		y := low + (high-low)*(float64(k)+0.013)/8
		var xs []float64
		for _, l := range f.Loops {
			for i, p := range l {
				q := l[(i+1)%len(l)]
				if (p.Y > y) != (q.Y > y) {
					xs = append(xs, min(max(p.X+(y-p.Y)/(q.Y-p.Y)*(q.X-p.X), w.Min.X), w.Max.X))
				}
			}
		}
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			if xs[i+1]-xs[i] > wide {
				best, wide = &r2.Vec{X: (xs[i] + xs[i+1]) / 2, Y: y}, xs[i+1]-xs[i]
			}
		}
	}
	return best
}
