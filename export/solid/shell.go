package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/solid"
)

// brep writes a body's boundary and returns its MANIFOLD_SOLID_BREP.
func (d *data) brep(id string, s *solid.Shell) int {
	vertices := make([]int, len(s.Vertices))
	for i, v := range s.Vertices {
		vertices[i] = d.entity("VERTEX_POINT", d.point(v))
	}
	edges := make([]int, len(s.Edges))
	for i, e := range s.Edges {
		var curve int
		if e.Ellipse != nil {
			curve = d.ellipse(e.Ellipse)
		} else {
			curve = d.line(s.Vertices[e.From], s.Vertices[e.To])
		}
		edges[i] = d.begin("EDGE_CURVE")
		d.text("'',")
		d.ref(vertices[e.From])
		d.text(",")
		d.ref(vertices[e.To])
		d.text(",")
		d.ref(curve)
		d.text(",.T.")
		d.end()
	}
	faces := make([]int, len(s.Faces))
	for i := range s.Faces {
		faces[i] = d.face(&s.Faces[i], edges)
	}
	shell := d.begin("CLOSED_SHELL")
	d.text("'',")
	d.refs(faces)
	d.end()
	n := d.begin("MANIFOLD_SOLID_BREP")
	d.str(id)
	d.text(",")
	d.ref(shell)
	d.end()
	return n
}

func (d *data) line(from, to r3.Vec) int {
	dir := d.direction(r3.Sub(to, from))
	vector, ok := d.vectors[dir]
	if !ok {
		vector = d.begin("VECTOR")
		d.text("'',")
		d.ref(dir)
		d.text(",1.")
		d.end()
		d.vectors[dir] = vector
	}
	return d.entity("LINE", d.point(from), vector)
}

// round is the ratio of an ellipse's axes, less 1, below which it is a circle: a
// thousandth of the accuracy over a radius of a metre.
const round = 1e-11

func (d *data) ellipse(e *solid.Ellipse) int {
	a, b := r3.Norm(e.U), r3.Norm(e.V)
	at := d.placement(solid.Placement{Origin: e.Centre, X: e.U, Z: r3.Cross(e.U, e.V)})
	name := "ELLIPSE"
	if a-b <= round*a {
		name = "CIRCLE"
	}
	n := d.begin(name)
	d.text("'',")
	d.ref(at)
	d.text(",")
	d.length(a)
	if name == "ELLIPSE" {
		d.text(",")
		d.length(b)
	}
	d.end()
	return n
}

func (d *data) face(f *solid.Face, edges []int) int {
	bounds := make([]int, len(f.Loops))
	for i, loop := range f.Loops {
		uses := make([]int, len(loop))
		for k, u := range loop {
			uses[k] = d.begin("ORIENTED_EDGE")
			d.text("'',*,*,")
			d.ref(edges[u.Edge])
			d.sense(!u.Back)
			d.end()
		}
		l := d.begin("EDGE_LOOP")
		d.text("'',")
		d.refs(uses)
		d.end()
		name := "FACE_BOUND"
		if i == 0 {
			name = "FACE_OUTER_BOUND"
		}
		bounds[i] = d.begin(name)
		d.text("'',")
		d.ref(l)
		d.sense(true)
		d.end()
	}
	surface := d.surface(&f.Surface)
	n := d.begin("ADVANCED_FACE")
	d.text("'',")
	d.refs(bounds)
	d.text(",")
	d.ref(surface)
	d.sense(!f.Surface.Inward)
	d.end()
	return n
}

// sense writes a last parameter that is a sense.
func (d *data) sense(same bool) {
	if same {
		d.text(",.T.")
	} else {
		d.text(",.F.")
	}
}

func (d *data) surface(s *solid.Surface) int {
	at := d.placement(s.At)
	var n int
	switch s.Kind {
	case solid.Plane:
		return d.entity("PLANE", at)
	case solid.Cylinder:
		n = d.begin("CYLINDRICAL_SURFACE")
	case solid.Cone:
		n = d.begin("CONICAL_SURFACE")
	case solid.Sphere:
		n = d.begin("SPHERICAL_SURFACE")
	case solid.Torus:
		n = d.begin("TOROIDAL_SURFACE")
	}
	d.text("'',")
	d.ref(at)
	d.text(",")
	d.length(s.Radius)
	switch s.Kind {
	case solid.Cone:
		d.text(",")
		d.real(quantise(math.Atan(s.Slope), directionDecimals), directionDecimals)
	case solid.Torus:
		d.text(",")
		d.length(s.Tube)
	}
	d.end()
	return n
}
