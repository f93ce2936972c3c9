package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/contour"
	"armwright/geometry/solid"
)

// Sagitta is the distance, mm, by which triangles of a file depart from a round
// face or edge at most.
const Sagitta = 0.2

// widest is the angle, rad, of round face that one strip of triangles takes up
// at most, so that small pins look round too.
const widest = math.Pi / 6

// Mesh is a body's boundary in triangles, counter-clockwise seen from outside.
// Vertices are shared within a face and not between faces: each has the normal of
// its own.
type Mesh struct {
	Points, Normals []r3.Vec
	Triangles       [][3]int
}

func (m *Mesh) vertex(q, normal r3.Vec) int {
	m.Points = append(m.Points, q)
	m.Normals = append(m.Normals, normal)
	return len(m.Points) - 1
}

// Divide divides a body's boundary into triangles that depart from round faces and
// edges by the sagitta, mm, at most; of round bodies see Round. Faces that meet in an
// edge share its points, so that the mesh is closed.
func Divide(b Body, sagitta float64) (*Mesh, error) {
	m := &Mesh{}
	if c, ok := b.(solid.Convex); ok {
		m.round(c)
		return m, nil
	}
	if r, ok := b.(solid.Rope); ok {
		m.rope(r, sagitta)
		return m, nil
	}
	s := b.Shell()
	edges := make([][]r3.Vec, len(s.Edges))
	for i, e := range s.Edges {
		edges[i] = divide(s, e, sagitta)
	}
	for i := range s.Faces {
		f := &s.Faces[i]
		switch {
		case f.Surface.Kind == solid.Plane:
			if err := m.flat(f, edges); err != nil {
				return nil, err
			}
		case f.Surface.Kind == solid.Sphere:
			return nil, &Error{Defect: "a round body has no support function", Hint: "give a Ball or a Round"}
		default:
			m.ruled(s, f, edges)
		}
	}
	return m, nil
}

// divide returns points along an edge, from its start to its end.
func divide(s *solid.Shell, e solid.Edge, sagitta float64) []r3.Vec {
	from, to := s.Vertices[e.From], s.Vertices[e.To]
	if e.Ellipse == nil {
		return []r3.Vec{from, to}
	}
	n := strips(r3.Norm(e.Ellipse.U), e.Ellipse.Sweep, sagitta)
	out := make([]r3.Vec, n+1)
	for i := range out {
		out[i] = e.Ellipse.At(float64(i) / float64(n))
	}
	out[0], out[n] = from, to
	return out
}

// strips returns how many chords an arc takes.
func strips(radius, sweep, sagitta float64) int {
	step := widest
	if sagitta < radius {
		step = min(step, 2*math.Acos(1-sagitta/radius))
	}
	return max(1, int(math.Ceil(sweep/step-1e-9)))
}

// chain returns the points of a use of an edge.
func chain(edges [][]r3.Vec, u solid.Use) []r3.Vec {
	ps := edges[u.Edge]
	if !u.Back {
		return ps
	}
	out := make([]r3.Vec, len(ps))
	for i, p := range ps {
		out[len(ps)-1-i] = p
	}
	return out
}

// flat divides a plane face.
func (m *Mesh) flat(f *solid.Face, edges [][]r3.Vec) error {
	at := f.Surface.At.Inverse()
	loops := make([][]r2.Vec, len(f.Loops))
	start := len(m.Points)
	for i, loop := range f.Loops {
		for _, u := range loop {
			ps := chain(edges, u)
			for _, q := range ps[:len(ps)-1] {
				v := at.Point(q)
				loops[i] = append(loops[i], r2.Vec{X: v.X, Y: v.Y})
				m.vertex(q, f.Surface.At.Z)
			}
		}
	}
	triangles, err := contour.Triangulate(loops...)
	if err != nil {
		return err
	}
	for _, t := range triangles {
		m.Triangles = append(m.Triangles, [3]int{start + t[0], start + t[1], start + t[2]})
	}
	return nil
}

// ruled divides a face of a cylinder or cone between two round edges, or one
// and a tip. The two straight edges between them become sides of triangles.
func (m *Mesh) ruled(s *solid.Shell, f *solid.Face, edges [][]r3.Vec) {
	var round [][]r3.Vec // counter-clockwise: the first forward, the other back
	for _, u := range f.Loops[0] {
		if s.Edges[u.Edge].Ellipse != nil {
			round = append(round, chain(edges, u))
		}
	}
	low := round[0]
	var high []r3.Vec
	if len(round) == 2 {
		high = round[1]
	} else { // the point that both straight edges reach
		tip := f.Loops[0][0]
		for _, u := range f.Loops[0] {
			if s.Edges[u.Edge].Ellipse == nil {
				tip = u
				break
			}
		}
		ps := chain(edges, tip)
		high = []r3.Vec{ps[len(ps)-1]}
		if high[0] == low[0] || high[0] == low[len(low)-1] {
			high[0] = ps[0]
		}
	}
	n, k := len(low)-1, len(high)-1
	normal := func(q r3.Vec) r3.Vec { return f.Surface.Outward(q) }
	lows, highs := make([]int, n+1), make([]int, k+1)
	for i, q := range low {
		lows[i] = m.vertex(q, normal(q))
	}
	if k > 0 {
		for i, q := range high { // from over the start of low to over its end
			highs[k-i] = m.vertex(q, normal(q))
		}
	}
	for i, j := 0, 0; i < n || j < k; {
		switch {
		case k == 0: // at a tip each triangle has a normal of its own
			tip := m.vertex(high[0], normal(r3.Scale(.5, r3.Add(low[i], low[i+1]))))
			m.Triangles = append(m.Triangles, [3]int{lows[i], lows[i+1], tip})
			i++
		case j == k || i < n && (i+1)*k <= (j+1)*n:
			m.Triangles = append(m.Triangles, [3]int{lows[i], lows[i+1], highs[j]})
			i++
		default:
			m.Triangles = append(m.Triangles, [3]int{lows[i], highs[j+1], highs[j]})
			j++
		}
	}
}
