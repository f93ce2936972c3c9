package solid

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// AuditError is what an audit found wrong with a file.
type AuditError struct {
	Entity int // its number, 0 where it is about the whole file
	Defect string
}

func (e *AuditError) Error() string {
	if e.Entity == 0 {
		return "solid: audit: " + e.Defect
	}
	return fmt.Sprintf("solid: audit: #%d: %s", e.Entity, e.Defect)
}

// accuracy is the distance, mm, within which vertices must be on the curves and
// surfaces of their edges and faces: what the file states.
const accuracy = 1e-5

// Audit checks a file of Write's kind without another program: that it is
// well-formed, that every reference is to an entity of the kind due there and
// every entity but those that say something of the whole is referred to; that
// loops run head to tail, every edge bounds two faces of one shell in opposite
// senses, and every vertex lies on the curves and surfaces that meet in it; that
// product ids are unique and each is placed once. It returns an *AuditError for
// the first defect.
func Audit(file []byte) error {
	f, err := parse(file)
	if err != nil {
		return err
	}
	a := auditor{file: f, bound: map[int]int{}}
	for _, check := range []func() error{a.references, a.shells, a.products} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

type auditor struct {
	*file
	bound map[int]int // edge curve: the shell it is part of
}

func fault(entity int, format string, args ...any) error {
	return &AuditError{entity, fmt.Sprintf(format, args...)}
}

// roots are the entities that say something of others and to which none refers.
var roots = map[string]bool{
	"APPLICATION_PROTOCOL_DEFINITION":                         true,
	"SHAPE_DEFINITION_REPRESENTATION":                         true,
	"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION":                  true,
	"PRODUCT_RELATED_PRODUCT_CATEGORY":                        true,
	"MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION": true,
}

// due says which kinds of entity each kind refers to, in the order of its
// references; the last stands for all that follow.
var due = map[string][]string{
	"VERTEX_POINT":                    {"CARTESIAN_POINT"},
	"VECTOR":                          {"DIRECTION"},
	"LINE":                            {"CARTESIAN_POINT", "VECTOR"},
	"CIRCLE":                          {"AXIS2_PLACEMENT_3D"},
	"ELLIPSE":                         {"AXIS2_PLACEMENT_3D"},
	"AXIS2_PLACEMENT_3D":              {"CARTESIAN_POINT", "DIRECTION", "DIRECTION"},
	"PLANE":                           {"AXIS2_PLACEMENT_3D"},
	"CYLINDRICAL_SURFACE":             {"AXIS2_PLACEMENT_3D"},
	"CONICAL_SURFACE":                 {"AXIS2_PLACEMENT_3D"},
	"SPHERICAL_SURFACE":               {"AXIS2_PLACEMENT_3D"},
	"TOROIDAL_SURFACE":                {"AXIS2_PLACEMENT_3D"},
	"EDGE_CURVE":                      {"VERTEX_POINT", "VERTEX_POINT", "LINE|CIRCLE|ELLIPSE"},
	"ORIENTED_EDGE":                   {"EDGE_CURVE"},
	"EDGE_LOOP":                       {"ORIENTED_EDGE"},
	"FACE_BOUND":                      {"EDGE_LOOP"},
	"FACE_OUTER_BOUND":                {"EDGE_LOOP"},
	"ADVANCED_FACE":                   {"FACE_OUTER_BOUND", "FACE_BOUND|PLANE|CYLINDRICAL_SURFACE|CONICAL_SURFACE|SPHERICAL_SURFACE|TOROIDAL_SURFACE"},
	"CLOSED_SHELL":                    {"ADVANCED_FACE"},
	"MANIFOLD_SOLID_BREP":             {"CLOSED_SHELL"},
	"PRODUCT":                         {"PRODUCT_CONTEXT"},
	"PRODUCT_DEFINITION":              {"PRODUCT_DEFINITION_FORMATION", "PRODUCT_DEFINITION_CONTEXT"},
	"PRODUCT_DEFINITION_SHAPE":        {"PRODUCT_DEFINITION|NEXT_ASSEMBLY_USAGE_OCCURRENCE"},
	"ITEM_DEFINED_TRANSFORMATION":     {"AXIS2_PLACEMENT_3D", "AXIS2_PLACEMENT_3D"},
	"NEXT_ASSEMBLY_USAGE_OCCURRENCE":  {"PRODUCT_DEFINITION", "PRODUCT_DEFINITION"},
	"SHAPE_DEFINITION_REPRESENTATION": {"PRODUCT_DEFINITION_SHAPE", "SHAPE_REPRESENTATION|ADVANCED_BREP_SHAPE_REPRESENTATION"},
	"STYLED_ITEM":                     {"PRESENTATION_STYLE_ASSIGNMENT", "MANIFOLD_SOLID_BREP"},
}

// references checks that every reference resolves to what is due, and that
// nothing is left over.
func (a *auditor) references() error {
	used := make([]bool, len(a.entities))
	kindsOf := map[string][][]string{}
	for name, list := range due {
		for _, kinds := range list {
			kindsOf[name] = append(kindsOf[name], strings.Split(kinds, "|"))
		}
	}
	for n := 1; n < len(a.entities); n++ {
		e := &a.entities[n]
		refs := e.refs
		kinds := kindsOf[e.name]
		if len(refs) < len(kinds) {
			return fault(n, "%s refers to %d entities, %d are due", e.name, len(refs), len(kinds))
		}
		for i, r := range refs {
			if r < 1 || r >= len(a.entities) {
				return fault(n, "#%d is not in the file", r)
			}
			used[r] = true
			if len(kinds) > 0 && !slices.Contains(kinds[min(i, len(kinds)-1)], a.entities[r].name) {
				return fault(n, "%s refers to #%d, a %s", e.name, r, a.entities[r].name)
			}
		}
	}
	for n := 1; n < len(a.entities); n++ {
		if !used[n] && !roots[a.entities[n].name] {
			return fault(n, "no entity refers to this %s", a.entities[n].name)
		}
	}
	return nil
}

// shells checks the boundary of every body.
func (a *auditor) shells() error {
	bodies := map[int]bool{} // shells that a body has
	for n := 1; n < len(a.entities); n++ {
		e := &a.entities[n]
		switch e.name {
		case "EDGE_CURVE":
			if err := a.edge(n); err != nil {
				return err
			}
		case "CLOSED_SHELL":
			if err := a.shell(n); err != nil {
				return err
			}
		case "MANIFOLD_SOLID_BREP":
			shell := e.refs[0]
			if bodies[shell] {
				return fault(n, "its shell is another body's")
			}
			bodies[shell] = true
		}
	}
	for n := 1; n < len(a.entities); n++ {
		if e := &a.entities[n]; e.name == "EDGE_CURVE" && a.bound[n] == 0 || e.name == "CLOSED_SHELL" && !bodies[n] {
			return fault(n, "the %s bounds nothing", e.name)
		}
	}
	return nil
}

// edge checks that an edge's curve goes through its vertices.
func (a *auditor) edge(n int) error {
	e := &a.entities[n]
	refs := e.refs
	if refs[0] == refs[1] {
		return fault(n, "the edge returns to its own vertex")
	}
	if !e.same() {
		return fault(n, "the edge runs against its curve")
	}
	for _, v := range refs[:2] {
		if off := a.offCurve(refs[2], a.vertex(v)); !(off <= accuracy) {
			return fault(n, "vertex #%d is %.3g mm off the curve", v, off)
		}
	}
	return nil
}

// shell checks that loops are closed, edges used twice, vertices on surfaces and
// plane faces the right way round.
func (a *auditor) shell(n int) error {
	type use struct {
		edge int
		same bool
	}
	uses := map[use]bool{}
	for _, face := range a.entities[n].refs {
		f := &a.entities[face]
		refs := f.refs
		bounds, surface := refs[:len(refs)-1], refs[len(refs)-1]
		for i, bound := range bounds {
			b := &a.entities[bound]
			if outer := b.name == "FACE_OUTER_BOUND"; outer != (i == 0) || !b.same() {
				return fault(bound, "the outer bound comes first, and bounds run the face's way")
			}
			loop := a.entities[b.refs[0]].refs
			var outline []r3.Vec
			for k, oriented := range loop {
				edge, same := a.oriented(oriented)
				if a.bound[edge] != 0 && a.bound[edge] != n {
					return fault(edge, "the edge is part of two shells")
				}
				a.bound[edge] = n
				if u := (use{edge, same}); uses[u] {
					return fault(edge, "the edge is used twice in one sense")
				} else {
					uses[u] = true
				}
				start, end := a.ends(oriented)
				if next, _ := a.ends(loop[(k+1)%len(loop)]); next != end {
					return fault(b.refs[0], "the loop is open after #%d", oriented)
				}
				if off := a.offSurface(surface, a.vertex(start)); !(off <= accuracy) {
					return fault(face, "vertex #%d is %.3g mm off the surface", start, off)
				}
				outline = append(outline, a.walk(oriented)...)
			}
			if s := &a.entities[surface]; s.name == "PLANE" {
				_, _, normal := a.frame(s.refs[0])
				if area := r3.Dot(normal, areaOf(outline)); !f.same() || (area > 0) != (i == 0) {
					return fault(bound, "the bound runs the wrong way round its face")
				}
			}
		}
	}
	for u := range uses {
		if !uses[use{u.edge, !u.same}] {
			return fault(u.edge, "the edge bounds one face only")
		}
	}
	return nil
}

// oriented returns the edge of an ORIENTED_EDGE and its sense.
func (a *auditor) oriented(n int) (edge int, same bool) {
	e := &a.entities[n]
	return e.refs[0], e.same()
}

// ends returns the vertices of an oriented edge, start first.
func (a *auditor) ends(n int) (start, end int) {
	edge, same := a.oriented(n)
	refs := a.entities[edge].refs
	if same {
		return refs[0], refs[1]
	}
	return refs[1], refs[0]
}

func (a *auditor) vertex(n int) r3.Vec { return a.triple(a.entities[n].refs[0]) }

// frame returns a placement's origin, x and z.
func (a *auditor) frame(n int) (origin, x, z r3.Vec) {
	refs := a.entities[n].refs
	if len(refs) != 3 {
		return
	}
	return a.triple(refs[0]), a.triple(refs[2]), a.triple(refs[1])
}

// own returns a point's coordinates in a placement.
func (a *auditor) own(placement int, q r3.Vec) r3.Vec {
	o, x, z := a.frame(placement)
	d := r3.Sub(q, o)
	return r3.Vec{X: r3.Dot(d, x), Y: r3.Dot(d, r3.Cross(z, x)), Z: r3.Dot(d, z)}
}

// axes returns the semi-axes of a circle or ellipse.
func (e *entity) axes() (major, minor float64) {
	major = e.number(2)
	if e.name == "CIRCLE" {
		return major, major
	}
	return major, e.number(3)
}

func (a *auditor) offCurve(n int, q r3.Vec) float64 {
	e := &a.entities[n]
	refs := e.refs
	if e.name == "LINE" {
		along := a.triple(a.entities[refs[1]].refs[0])
		return r3.Norm(r3.Cross(along, r3.Sub(q, a.triple(refs[0]))))
	}
	p := a.own(refs[0], q)
	major, minor := e.axes()
	return math.Hypot(p.Z, minor*(math.Hypot(p.X/major, p.Y/minor)-1))
}

func (a *auditor) offSurface(n int, q r3.Vec) float64 {
	e := &a.entities[n]
	p := a.own(e.refs[0], q)
	radius := e.number(2)
	switch e.name {
	case "PLANE":
		return math.Abs(p.Z)
	case "CYLINDRICAL_SURFACE":
		return math.Abs(math.Hypot(p.X, p.Y) - radius)
	case "CONICAL_SURFACE":
		s, c := math.Sincos(e.number(3))
		return math.Abs((math.Hypot(p.X, p.Y)-radius)*c - p.Z*s)
	case "SPHERICAL_SURFACE":
		return math.Abs(r3.Norm(p) - radius)
	case "TOROIDAL_SURFACE":
		return math.Abs(math.Hypot(math.Hypot(p.X, p.Y)-radius, p.Z) - e.number(3))
	}
	return math.Inf(1)
}

// walk returns points along an oriented edge, its end left out.
func (a *auditor) walk(n int) []r3.Vec {
	edge, same := a.oriented(n)
	refs := a.entities[edge].refs
	from, to := a.vertex(refs[0]), a.vertex(refs[1])
	points := []r3.Vec{from, to}
	if c := &a.entities[refs[2]]; c.name != "LINE" {
		at := c.refs[0]
		major, minor := c.axes()
		place := func(q r3.Vec) float64 {
			p := a.own(at, q)
			return math.Atan2(p.Y/minor, p.X/major)
		}
		first := place(from)
		sweep := math.Mod(place(to)-first+4*math.Pi, 2*math.Pi)
		o, x, z := a.frame(at)
		y := r3.Cross(z, x)
		points = points[:0]
		const pieces = 8
		for i := range pieces + 1 {
			s, c := math.Sincos(first + sweep*float64(i)/pieces)
			points = append(points, r3.Add(o, r3.Add(r3.Scale(major*c, x), r3.Scale(minor*s, y))))
		}
	}
	if !same {
		slices.Reverse(points)
	}
	return points[:len(points)-1]
}

// areaOf returns twice the vector area of a polygon.
func areaOf(ps []r3.Vec) r3.Vec {
	var sum r3.Vec
	for i := range ps {
		sum = r3.Add(sum, r3.Cross(r3.Sub(ps[i], ps[0]), r3.Sub(ps[(i+1)%len(ps)], ps[0])))
	}
	return sum
}

// products checks that ids are unique and that all products but one are placed
// in that one, once each.
func (a *auditor) products() error {
	ids := map[string]int{}
	count := map[string]int{}
	placed := map[int]int{}
	whole := 0
	for n := 1; n < len(a.entities); n++ {
		e := &a.entities[n]
		count[e.name]++
		switch e.name {
		case "PRODUCT":
			id := e.args[0].text
			if ids[id] != 0 || id == "" {
				return fault(n, "the product's id %q is empty or used twice", id)
			}
			ids[id] = n
		case "NEXT_ASSEMBLY_USAGE_OCCURRENCE":
			refs := e.refs
			if whole == 0 {
				whole = refs[0]
			}
			if refs[0] != whole || refs[1] == whole || placed[refs[1]] != 0 {
				return fault(n, "a part is placed twice, or not in the whole")
			}
			placed[refs[1]] = n
		}
	}
	parts := len(ids) - 1
	for _, must := range [...]struct {
		name string
		n    int
	}{
		{"NEXT_ASSEMBLY_USAGE_OCCURRENCE", parts}, {"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION", parts},
		{"ADVANCED_BREP_SHAPE_REPRESENTATION", parts}, {"MANIFOLD_SOLID_BREP", parts}, {"STYLED_ITEM", parts},
		{"SHAPE_DEFINITION_REPRESENTATION", parts + 1}, {"PRODUCT_RELATED_PRODUCT_CATEGORY", 1},
		{"MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION", 1},
	} {
		if count[must.name] != must.n || parts < 1 {
			return fault(0, "%d %s for %d parts", count[must.name], must.name, parts)
		}
	}
	return nil
}
