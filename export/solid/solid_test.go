package solid

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"armwright/export/solid/solidtest"
	"armwright/geometry/contour"
	body "armwright/geometry/solid"
)

func placed(x, y, z, angle float64) body.Placement {
	p := body.Turn(r3.Vec{}, r3.Vec{X: 1, Y: 2, Z: -.5}, angle)
	p.Origin = r3.Vec{X: x, Y: y, Z: z}
	return p
}

// bodies are one of each kind that the writer knows.
func bodies() Model {
	tube := body.Prism{Profile: body.RectTube(60, 40, 3, 6), From: body.End{Tilt: r2.Vec{X: 1}}, To: body.End{Z: 300, Tilt: r2.Vec{X: -.4, Y: .3}}}
	tube.Bores = []body.Bore{
		{At: r3.Vec{X: 5, Z: 150}, Dir: r3.Vec{X: .1, Y: 1}, Diameter: 10},
		{At: r3.Vec{Y: 4, Z: 200}, Dir: r3.Vec{X: 1}, Diameter: 12, Depth: 20},
	}
	plate := body.Straight(body.NewProfile(
		contour.Path{Vertices: []contour.Vertex{{X: -50, Y: -30}, {X: 50, Y: -30}, {X: 50, Y: 30, Bulge: math.Tan(math.Pi / 8)}, {X: 20, Y: 60}, {X: -20, Y: 60, Bulge: -.4}, {X: -50, Y: 30}}},
		contour.Circle(r2.Vec{X: 30}, 8), contour.Circle(r2.Vec{X: -30}, 8),
		contour.Path{Vertices: []contour.Vertex{{X: -10, Y: 30}, {X: 10, Y: 30, Bulge: 1}, {X: 10, Y: 42}, {X: -10, Y: 42, Bulge: 1}}}), 10)
	block := body.Straight(body.Rect(60, 40, 0), 50)
	block.Bores = []body.Bore{{At: r3.Vec{X: 10, Y: 5}, Dir: r3.Vec{Z: -1}, Diameter: 10, Depth: 20}, {At: r3.Vec{X: -10}, Dir: r3.Vec{Z: 1}, Diameter: 8}}
	steel, yellow := Colour{.4, .42, .45}, Colour{1, .8, 0}
	at := placed(1000, 250, 300, .8)
	return Model{
		Name: "bodies", Number: "A-1", Notice: "Preliminary geometry. It's ⌀ 20 mm.",
		Parts: []Part{
			{"tube-right", "Tube, sawn aslant", tube, at, steel},
			{"tube-left", "Tube, sawn aslant", body.Mirrored(tube), at.Mirrored(), steel},
			{"box", "", body.Straight(body.Rect(30, 20, 0), 40), placed(0, 0, 500, 0), yellow},
			{"pipe", "Pipe", body.Prism{Profile: body.Pipe(33.7, 2.6), To: body.End{Z: 120, Tilt: r2.Vec{Y: 1}}}, placed(200, 0, 0, 2), steel},
			{"plate", "Plate", plate, placed(-300, 0, 0, -1), yellow},
			{"block", "Block", block, placed(0, -400, 0, 3), yellow},
			{"sheave", "Sheave", body.Turned{Outline: []r2.Vec{{X: 40}, {X: 40, Y: 3}, {X: 34, Y: 9}, {X: 40, Y: 15}, {X: 40, Y: 18}}, Bore: 20}, placed(0, 900, 0, 1), steel},
			{"shaft", "Shaft", body.Turned{Outline: []r2.Vec{{X: 10}, {X: 10, Y: 40}, {X: 15, Y: 40}, {X: 15, Y: 100}, {X: 10, Y: 100}, {X: 10, Y: 120}}}, placed(0, 1200, 0, 1), steel},
			{"knob", "Knob", body.Turned{Outline: []r2.Vec{{X: 5}, {X: 14, Y: 20}, {Y: 40}}}, placed(0, 1500, 0, 1), yellow},
			{"cable", "Cable", rope(), placed(0, 2000, 0, 1), steel},
			{"loop", "Chain", belt(), placed(0, 2500, 0, 1), steel},
			{"person/trunk", "", hull(body.Ball{Centre: r3.Vec{X: 10}, Radius: 90}, body.Ball{Centre: r3.Vec{X: 30, Y: 200, Z: 300}, Radius: 90}), placed(2000, 0, 0, .3), yellow},
			{"person/thigh", "", hull(body.Ball{Radius: 80}, body.Ball{Centre: r3.Vec{X: 300, Y: 40}, Radius: 60}), placed(3000, 0, 0, .3), yellow},
			{"person/foot", "", hull(body.Ball{Radius: 35}, body.Ball{Centre: r3.Vec{X: 180, Y: 20, Z: -12}, Radius: 20},
				body.Ball{Centre: r3.Vec{X: 170, Y: -30, Z: -14}, Radius: 18}), placed(3500, 0, 0, .3), yellow},
			{"person/chest", "", hull(body.Ball{Centre: r3.Vec{Y: 120}, Radius: 60}, body.Ball{Centre: r3.Vec{Y: -120}, Radius: 60},
				body.Ball{Centre: r3.Vec{Y: 100, Z: 300}, Radius: 70}, body.Ball{Centre: r3.Vec{Y: -100, Z: 300}, Radius: 70}), placed(4000, 0, 0, .3), yellow},
			{"person/pelvis", "", rounded(), placed(4500, 0, 0, .3), yellow},
			{"person/head", "", body.Ball{Centre: r3.Vec{Y: 10}, Radius: 90}, placed(2500, 0, 0, .3), yellow},
		},
	}
}

func hull(balls ...body.Ball) Round {
	s, err := NewRound(balls...)
	if err != nil {
		panic(err)
	}
	return s
}

// rope runs up, a quarter to the side, another in a second plane and half round in a third.
func rope() body.Rope {
	return body.Rope{Diameter: 4, From: r3.Vec{Y: -100}, To: r3.Vec{X: -150, Y: 90, Z: -30}, Bends: []body.Bend{
		{Centre: r3.Vec{X: -40}, Axis: r3.Vec{Z: 1}, In: r3.Vec{}, Turn: math.Pi / 2},
		{Centre: r3.Vec{X: -100, Y: 40, Z: 50}, Axis: r3.Vec{Y: 1}, In: r3.Vec{X: -100, Y: 40}, Turn: math.Pi / 2},
		{Centre: r3.Vec{X: -150, Y: 65, Z: 80}, Axis: r3.Vec{X: -1}, In: r3.Vec{X: -150, Y: 40, Z: 80}, Turn: math.Pi},
	}}
}

func belt() body.Rope {
	loop, ok := body.Belt(8, r3.Vec{X: 10}, r3.Vec{X: 200, Y: 70}, r3.Vec{Z: 1}, 50, 30)
	if !ok {
		panic("no loop")
	}
	return loop
}

// rounded is a box of 120, 80 and 60 mm between the middles of balls of 10 mm.
func rounded() Round {
	var balls []body.Ball
	for i := range 8 {
		balls = append(balls, body.Ball{Centre: r3.Vec{X: 120 * float64(i&1), Y: 80 * float64(i>>1&1), Z: 60 * float64(i>>2)}, Radius: 10})
	}
	return hull(balls...)
}

func written(t testing.TB, m Model) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, m); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// volume of what may be a part: of shells of balls, by formula or NaN.
func volume(id string, b Body) float64 {
	switch id {
	case "person/trunk":
		return coneVolume(90, 90, math.Sqrt(20*20+200*200+300*300))
	case "person/thigh":
		return coneVolume(80, 60, math.Hypot(300, 40))
	case "person/pelvis": // Steiner's formula for a box
		const a, b, c, r = 120., 80, 60, 10
		return a*b*c + 2*r*(a*b+b*c+c*a) + math.Pi*r*r*(a+b+c) + 4./3*math.Pi*r*r*r
	}
	switch b := b.(type) {
	case body.Solid:
		return b.Volume()
	case body.Rope: // Pappus
		return math.Pi / 4 * b.Diameter * b.Diameter * b.Length()
	case body.Ball:
		return 4. / 3 * math.Pi * b.Radius * b.Radius * b.Radius
	}
	return math.NaN()
}

// coneVolume is that of the hull of two balls: a frustum between the rings where
// the flank touches them and the two caps beyond.
func coneVolume(r1, r2, length float64) float64 {
	sin := (r1 - r2) / length
	cos := math.Sqrt(1 - sin*sin)
	cap := func(r, height float64) float64 { return math.Pi * height * height * (3*r - height) / 3 }
	a, b, h := r1*cos, r2*cos, length*cos*cos
	return math.Pi*h/3*(a*a+a*b+b*b) + cap(r1, r1*(1+sin)) + cap(r2, r2*(1-sin))
}

func bounds(p Part) (low, high r3.Vec) {
	if s, ok := p.Solid.(body.Solid); ok {
		return body.Bounds(s, p.At)
	}
	return body.Extent(p.Solid.(body.Convex), p.At)
}

// OpenCASCADE computes volume, centroid and inertia by its own integration over
// the faces: it agrees with the closed formulas, part by part.
func TestOpenCASCADEAgrees(t *testing.T) {
	m := bodies()
	for _, p := range m.Parts {
		if s, ok := p.Solid.(body.Solid); ok {
			if err := s.Validate(); err != nil {
				t.Fatalf("%s: %v", p.ID, err)
			}
		}
	}
	file := written(t, m)
	if err := Audit(file); err != nil {
		t.Fatal(err)
	}
	read := solidtest.OpenCASCADE(t, true, file)[0]
	if len(read.Solids) != len(m.Parts) || read.Others != 0 || len(read.Overlaps) != 0 {
		t.Fatalf("%d solids, %d other entities, overlaps %v; want %d, none, none", len(read.Solids), read.Others, read.Overlaps, len(m.Parts))
	}
	for i, got := range read.Solids {
		p := m.Parts[i]
		if got.ID() != p.ID {
			t.Errorf("solid %d has the label %q, want %q", i, got.Label, p.ID)
		}
		if !got.Closed || got.Faces != len(p.Solid.Shell().Faces) {
			t.Errorf("%s: closed %v, %d faces, want %d", p.ID, got.Closed, got.Faces, len(p.Solid.Shell().Faces))
		}
		if v := volume(p.ID, p.Solid); math.Abs(got.Volume-v) > 1e-6*v {
			t.Errorf("%s: volume %.9g, want %.9g", p.ID, got.Volume, v)
		}
		if _, ok := p.Solid.(body.Rope); ok {
			continue // its box is not that of its edges
		}
		low, high := bounds(p)
		for k, want := range [...]float64{low.X, low.Y, low.Z, high.X, high.Y, high.Z} {
			// A half circle of 100 mm in 256 chords sags 0.002 mm.
			if math.Abs(got.Box[k]-want) > 5e-3 {
				t.Errorf("%s: box %v, want %v %v", p.ID, got.Box, low, high)
				break
			}
		}
		s, ok := p.Solid.(body.Solid)
		if !ok {
			continue
		}
		c := p.At.Point(s.Centroid())
		if d := r3.Norm(r3.Sub(c, r3.Vec{X: got.Centroid[0], Y: got.Centroid[1], Z: got.Centroid[2]})); d > 1e-5 {
			t.Errorf("%s: centroid %v, want %v", p.ID, got.Centroid, c)
		}
		inertia, axes := s.Inertia(), [3][3]float64{
			{p.At.X.X, p.At.Y.X, p.At.Z.X}, {p.At.X.Y, p.At.Y.Y, p.At.Z.Y}, {p.At.X.Z, p.At.Y.Z, p.At.Z.Z}}
		size := inertia[0][0] + inertia[1][1] + inertia[2][2]
		for a := range 3 {
			for b := range 3 {
				want := 0.0
				for k := range 3 {
					for l := range 3 {
						want += axes[a][k] * inertia[k][l] * axes[b][l]
					}
				}
				if math.Abs(got.Inertia[3*a+b]-want) > 1e-6*size {
					t.Errorf("%s: inertia [%d][%d] %v, want %v", p.ID, a, b, got.Inertia[3*a+b], want)
				}
			}
		}
	}
}

func TestWriteIsTheSameTwice(t *testing.T) {
	a, b := written(t, bodies()), written(t, bodies())
	if !bytes.Equal(a, b) {
		t.Error("two files of one model differ")
	}
	for _, want := range []string{`FILE_DESCRIPTION(('Preliminary geometry. It''s \X2\2300\X0\ 20 mm.'),'2;1')`,
		`FILE_NAME('bodies A-1','2000-01-01T00:00:00'`, "AUTOMOTIVE_DESIGN", "PRODUCT('tube-right','tube-right','Tube, sawn aslant'", "ELLIPSE", "CONICAL_SURFACE", "SPHERICAL_SURFACE"} {
		if !bytes.Contains(a, []byte(want)) {
			t.Errorf("the file has no %s", want)
		}
	}
}

func TestModelRefused(t *testing.T) {
	box := body.Straight(body.Rect(3, 4, 0), 5)
	part := Part{ID: "a", Solid: box, At: body.World()}
	bad := part
	bad.Colour.G = 2
	for name, m := range map[string]Model{
		"no name":      {Parts: []Part{part}},
		"no parts":     {Name: "m"},
		"twice":        {Name: "m", Parts: []Part{part, part}},
		"named as all": {Name: "a", Parts: []Part{part}},
		"no id":        {Name: "m", Parts: []Part{{Solid: box}}},
		"colour":       {Name: "m", Parts: []Part{bad}},
	} {
		var e *Error
		if err := Write(&bytes.Buffer{}, m); !errors.As(err, &e) || e.Hint == "" {
			t.Errorf("%s: %v", name, err)
		}
		if err := WriteMesh(&bytes.Buffer{}, m); !errors.As(err, &e) {
			t.Errorf("%s, mesh: %v", name, err)
		}
	}
}

// Each defect put into a sound file is found.
func TestAuditFinds(t *testing.T) {
	m := bodies()
	m.Parts = m.Parts[2:3]
	sound := string(written(t, m))
	with := func(name, part string) string {
		for l := range strings.Lines(sound) {
			if strings.Contains(l, "="+name+"(") && strings.Contains(l, part) {
				return l
			}
		}
		t.Fatalf("no %s with %s", name, part)
		return ""
	}
	line := func(name string) string { return with(name, "") }
	swap := func(name, from, to string) string {
		l := with(name, from)
		return strings.Replace(sound, l, strings.Replace(l, from, to, 1), 1)
	}
	plane := line("PLANE")
	tests := map[string]struct{ file, want string }{
		"cut off":                  {sound[:len(sound)/2], "begin and end"},
		"an instance lost":         {strings.Replace(sound, line("PLANE"), "", 1), "out of order"},
		"broken instance":          {swap("PLANE", ");", ";"), "not an instance"},
		"dangling reference":       {swap("CLOSED_SHELL", "(#", "(#9"), "not in the file"},
		"wrong kind":               {strings.Replace(sound, plane, plane[:strings.LastIndex(plane, "#")]+"#1);\n", 1), "refers to #1, a APPLICATION_CONTEXT"},
		"left over":                {strings.Replace(sound, "ENDSEC;\nEND", fmt.Sprintf("#%d=DIRECTION('',(0.,0.,1.));\nENDSEC;\nEND", strings.Count(sound, "\n#")+1), 1), "no entity refers"},
		"open loop":                {swap("ORIENTED_EDGE", ".T.", ".F."), "the loop is open"},
		"vertex off":               {swap("CARTESIAN_POINT", "15.", "15.1"), "mm off the curve"},
		"face turned":              {swap("ADVANCED_FACE", ".T.", ".F."), "wrong way"},
		"bound turned":             {swap("FACE_OUTER_BOUND", ".T.", ".F."), "the face's way"},
		"edge against":             {swap("EDGE_CURVE", ".T.", ".F."), "against its curve"},
		"a list that never begins": {strings.Replace(sound, plane, strings.Replace(plane, "PLANE(", "PLANE()", 1), 1), "not an instance"},
		"lists without end":        {strings.Replace(sound, plane, plane[:strings.Index(plane, "(")]+strings.Repeat("(", 1e6)+"\n", 1), "not an instance"},
		"id of the whole":          {strings.Replace(sound, "PRODUCT('box'", "PRODUCT('bodies'", 1), "used twice"},
	}
	if err := Audit([]byte(sound)); err != nil {
		t.Fatal(err)
	}
	for name, tt := range tests {
		var e *AuditError
		if err := Audit([]byte(tt.file)); !errors.As(err, &e) || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", name, err, tt.want)
		}
	}
	// A face less leaves edges with one face.
	l := line("CLOSED_SHELL")
	open := strings.Replace(l, ","+l[strings.LastIndex(l, "#"):strings.Index(l, "));")], "", 1)
	if err := Audit([]byte(strings.Replace(sound, l, open, 1))); err == nil {
		t.Error("an open shell is not found")
	}
}

func FuzzAudit(f *testing.F) {
	m := bodies()
	m.Parts = m.Parts[2:3]
	f.Add(written(f, m))
	f.Fuzz(func(_ *testing.T, file []byte) { Audit(file) })
}

// Triangles close each body, face outward and hold nearly its volume.
func TestMesh(t *testing.T) {
	for _, p := range bodies().Parts {
		m, err := Divide(p.Solid, Sagitta)
		if err != nil {
			t.Fatal(err)
		}
		type key [3]int64
		place := func(i int) key {
			q := m.Points[i]
			return key{int64(math.Round(q.X * 1e6)), int64(math.Round(q.Y * 1e6)), int64(math.Round(q.Z * 1e6))}
		}
		edges := map[[2]key]int{}
		six := 0.0
		for _, f := range m.Triangles {
			a, b, c := m.Points[f[0]], m.Points[f[1]], m.Points[f[2]]
			six += r3.Dot(a, r3.Cross(b, c))
			n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
			// A sliver's three points say little of the face that they are on.
			leans := .8
			if r3.Norm(n) < max(r3.Norm(r3.Sub(b, a)), r3.Norm(r3.Sub(c, b)), r3.Norm(r3.Sub(a, c))) {
				leans = 0
			}
			for k, v := range f {
				edges[[2]key{place(v), place(f[(k+1)%3])}]++
				if math.Abs(r3.Norm(m.Normals[v])-1) > 1e-9 {
					t.Fatalf("%s: normal %v", p.ID, m.Normals[v])
				}
				if r3.Dot(n, m.Normals[v]) < leans*r3.Norm(n) {
					t.Errorf("%s: the normal %v leans from the triangle's, %v", p.ID, m.Normals[v], r3.Unit(n))
				}
			}
		}
		if _, round := p.Solid.(body.Convex); round {
			for _, f := range m.Triangles {
				for k, v := range f {
					if c := r3.Dot(m.Normals[v], m.Normals[f[(k+1)%3]]); c < math.Cos(10.5*math.Pi/180) {
						t.Fatalf("%s: normals of neighbours %.1f degrees apart", p.ID, math.Acos(c)*180/math.Pi)
					}
				}
			}
		}
		for e, n := range edges {
			if n != 1 || edges[[2]key{e[1], e[0]}] != 1 {
				t.Fatalf("%s: edge %v bounds %d triangles one way and %d the other", p.ID, e, n, edges[[2]key{e[1], e[0]}])
			}
		}
		// A sagitta of 0.2 takes less than 0.2 mm off each face, or adds it.
		if v := volume(p.ID, p.Solid); math.Abs(six/6-v) > .02*v {
			t.Errorf("%s: volume %v, want %v", p.ID, six/6, v)
		}
	}
}

// The quaternion turns the axes to where they are (its rotation matrix by Euler
// and Rodrigues), and w is not negative.
func TestQuaternion(t *testing.T) {
	for _, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: 1, Y: -2, Z: 3}, {X: -3, Y: .1, Z: .2}} {
		for _, angle := range []float64{0, .3, 1.6, 2.5, math.Pi, -1, -3} {
			p := body.Turn(r3.Vec{}, axis, angle)
			q := quaternion(p.X, p.Y, p.Z)
			x, y, z, w := float64(q[0]), float64(q[1]), float64(q[2]), float64(q[3])
			got := []r3.Vec{
				{X: 1 - 2*(y*y+z*z), Y: 2 * (x*y + z*w), Z: 2 * (x*z - y*w)},
				{X: 2 * (x*y - z*w), Y: 1 - 2*(x*x+z*z), Z: 2 * (y*z + x*w)},
				{X: 2 * (x*z + y*w), Y: 2 * (y*z - x*w), Z: 1 - 2*(x*x+y*y)},
			}
			for i, want := range []r3.Vec{p.X, p.Y, p.Z} {
				if r3.Norm(r3.Sub(got[i], want)) > 1e-6 || w < 0 {
					t.Errorf("%v about %v: quaternion %v turns axis %d to %v, want %v", angle, axis, q, i, got[i], want)
				}
			}
		}
	}
}

// Two parts alike are written twice, each with points of its own.
func TestPartsShareNoPlace(t *testing.T) {
	box := body.Straight(body.Rect(3, 4, 0), 5)
	file := written(t, Model{Name: "m", Parts: []Part{{ID: "a", Solid: box, At: body.World()}, {ID: "b", Solid: box, At: body.World()}}})
	for what, want := range map[string]int{"=CARTESIAN_POINT('',(0.,0.,0.))": 3, "=CARTESIAN_POINT('',(1.5,2.,5.))": 2, "=DIRECTION('',(1.,0.,0.))": 1} {
		if n := bytes.Count(file, []byte(what)); n != want {
			t.Errorf("%d %s, want %d", n, what, want)
		}
	}
}

func TestWriteMesh(t *testing.T) {
	m := bodies()
	var a, b bytes.Buffer
	if err := errors.Join(WriteMesh(&a, m), WriteMesh(&b, m)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two files of one model differ")
	}
	got := solidtest.GLTF(t, a.Bytes())
	if got.Issues != 0 {
		t.Errorf("%d issues: %q", got.Issues, got.Messages)
	}
	var ids []string
	for _, p := range m.Parts {
		ids = append(ids, p.ID)
	}
	if !slices.Equal(got.Nodes, ids) || got.Materials != 2 {
		t.Errorf("nodes %q, %d materials; want %q, 2", got.Nodes, got.Materials, ids)
	}
}

// hundredFifty is a model of the size of a station.
func hundredFifty() Model {
	m := Model{Name: "station", Number: "B-7", Notice: "Preliminary geometry."}
	kinds := bodies().Parts[:9]
	for i := range 150 {
		p := kinds[i%len(kinds)]
		p.ID = fmt.Sprintf("%s-%d", p.ID, i)
		p.At.Origin.X += float64(137 * i % 1000)
		m.Parts = append(m.Parts, p)
	}
	return m
}

func TestStationIsSmall(t *testing.T) {
	file := written(t, hundredFifty())
	if err := Audit(file); err != nil {
		t.Fatal(err)
	}
	if len(file) > 3e6 {
		t.Errorf("%d bytes for 150 parts, want 3 MB at most", len(file))
	}
	var mesh bytes.Buffer
	if err := WriteMesh(&mesh, hundredFifty()); err != nil {
		t.Fatal(err)
	}
	t.Logf("STEP %d bytes, mesh %d bytes", len(file), mesh.Len())
}

func BenchmarkWriteStep(b *testing.B) {
	m := hundredFifty()
	for b.Loop() {
		written(b, m)
	}
}

func BenchmarkAudit(b *testing.B) {
	file := written(b, hundredFifty())
	for b.Loop() {
		Audit(file)
	}
}

func BenchmarkWriteMesh(b *testing.B) {
	m := hundredFifty()
	for b.Loop() {
		WriteMesh(&bytes.Buffer{}, m)
	}
}
