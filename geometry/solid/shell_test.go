package solid

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"armwright/geometry/contour"
)

// on returns how far a point is from a surface.
func (s *Surface) off(q r3.Vec) float64 {
	d := r3.Sub(q, s.At.Origin)
	h := r3.Dot(d, s.At.Z)
	switch s.Kind {
	case Plane:
		return h
	case Sphere:
		return r3.Norm(d) - s.Radius
	case Torus:
		return math.Hypot(math.Hypot(r3.Dot(d, s.At.X), r3.Dot(d, s.At.Y))-s.Radius, h) - s.Tube
	}
	return r3.Norm(r3.Sub(d, r3.Scale(h, s.At.Z))) - s.Radius - h*s.Slope
}

type failer interface{ Errorf(string, ...any) }

// checkShell holds a shell to what Shell promises, within a distance, and to
// Euler's formula for a body with holes right through it.
func checkShell(t failer, s *Shell, through int, slack float64) {
	uses := map[Use]int{}
	inner := 0
	for i, f := range s.Faces {
		inner += len(f.Loops) - 1
		for _, loop := range f.Loops {
			for k, u := range loop {
				uses[u]++
				_, end := ends(s, u)
				if start, _ := ends(s, loop[(k+1)%len(loop)]); start != end {
					t.Errorf("face %d: a loop is open after edge %d", i, u.Edge)
				}
				for _, x := range [...]float64{0, .3, .5, 1} {
					if q := along(s, u.Edge, x); math.Abs(f.Surface.off(q)) > slack {
						t.Errorf("face %d: edge %d is %v off its surface", i, u.Edge, f.Surface.off(q))
					}
				}
			}
		}
	}
	for i, e := range s.Edges {
		if uses[Use{i, false}] != 1 || uses[Use{i, true}] != 1 {
			t.Errorf("edge %d is used %d times and %d back", i, uses[Use{i, false}], uses[Use{i, true}])
		}
		if a, b := along(s, i, 0), along(s, i, 1); r3.Norm(r3.Sub(a, s.Vertices[e.From])) > slack || r3.Norm(r3.Sub(b, s.Vertices[e.To])) > slack {
			t.Errorf("edge %d ends at %v and %v, its vertices are %v and %v", i, a, b, s.Vertices[e.From], s.Vertices[e.To])
		}
		if l := e.Ellipse; l != nil && (math.Abs(r3.Dot(l.U, l.V)) > 1e-9*r3.Dot(l.U, l.U) || r3.Norm(l.U) < r3.Norm(l.V)-1e-9 || l.Sweep <= 0 || l.Sweep > math.Pi+1e-9) {
			t.Errorf("edge %d: ellipse %+v", i, *l)
		}
	}
	if got := len(s.Vertices) - len(s.Edges) + len(s.Faces) - inner; got != 2-2*through {
		t.Errorf("V-E+F-inner loops = %d, want %d for %d holes through", got, 2-2*through, through)
	}
}

func ends(s *Shell, u Use) (start, end int) {
	e := s.Edges[u.Edge]
	if u.Back {
		return e.To, e.From
	}
	return e.From, e.To
}

func along(s *Shell, edge int, x float64) r3.Vec {
	e := s.Edges[edge]
	if e.Ellipse != nil {
		return e.Ellipse.At(x)
	}
	return r3.Add(s.Vertices[e.From], r3.Scale(x, r3.Sub(s.Vertices[e.To], s.Vertices[e.From])))
}

func TestShells(t *testing.T) {
	tube := Prism{Profile: RectTube(60, 40, 3, 6), From: End{Tilt: r2.Vec{X: 1}}, To: End{Z: 300, Tilt: r2.Vec{X: -.4, Y: .3}}}
	bored := tube
	bored.Bores = []Bore{
		{At: r3.Vec{X: 5, Z: 150}, Dir: r3.Vec{X: .1, Y: 1}, Diameter: 10},
		{At: r3.Vec{Y: 4, Z: 200}, Dir: r3.Vec{X: 1}, Diameter: 12, Depth: 20},
	}
	block := Straight(Rect(60, 40, 0), 50)
	block.Bores = []Bore{{At: r3.Vec{X: 10, Y: 5}, Dir: r3.Vec{Z: -1}, Diameter: 10, Depth: 20}, {At: r3.Vec{X: -10}, Dir: r3.Vec{Z: 1}, Diameter: 8}}
	tests := []struct {
		name    string
		body    Solid
		faces   int
		through int
	}{
		{"box", Straight(Rect(3, 4, 0), 5), 6, 0},
		{"bar", Straight(Disc(20), 50), 4, 0},
		{"pipe", Prism{Profile: Pipe(20, 2), To: End{Z: 50, Tilt: r2.Vec{Y: 1}}}, 6, 1},
		{"tube", tube, 18, 1},
		{"drilled tube", bored, 18 + 4 + 2, 1 + 2 + 1},
		{"drilled block", block, 6 + 3 + 2, 1},
		{"keyhole", Straight(NewProfile(contour.Path{Vertices: []contour.Vertex{{X: 2, Y: -9}, {X: 2, Bulge: 3}, {X: -2}, {X: -2, Y: -9}}}), 5), 7, 0},
		{"cone", Turned{Outline: []r2.Vec{{X: 30}, {Y: 80}}}, 3, 0},
		{"double cone", Turned{Outline: []r2.Vec{{}, {X: 30, Y: 10}, {Y: 80}}}, 4, 0},
		{"sheave", Turned{Outline: []r2.Vec{{X: 40}, {X: 40, Y: 3}, {X: 34, Y: 9}, {X: 40, Y: 15}, {X: 40, Y: 18}}, Bore: 20}, 12, 1},
		{"stepped", Turned{Outline: []r2.Vec{{X: 10}, {X: 10, Y: 40}, {X: 15, Y: 40}, {X: 15, Y: 100}, {X: 10, Y: 100}, {X: 10, Y: 120}}}, 10, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := tt.body.Validate(); err != nil {
				t.Fatal(err)
			}
			s := tt.body.Shell()
			checkShell(t, s, tt.through, 1e-9)
			if len(s.Faces) != tt.faces {
				t.Errorf("%d faces, want %d", len(s.Faces), tt.faces)
			}
			checkShell(t, Mirrored(tt.body).Shell(), tt.through, 1e-9)
		})
	}
}

// Round faces have the radius of their arc, cut in two or not, and their normals
// point out of the material.
func TestRoundFaces(t *testing.T) {
	bodies := map[string]struct {
		body   Prism
		radius []float64
	}{
		"keyhole": {Straight(NewProfile(contour.Path{Vertices: []contour.Vertex{{X: 2, Y: -9}, {X: 2, Bulge: 3}, {X: -2}, {X: -2, Y: -9}}}), 5), []float64{10. / 3}},
		"tube":    {Straight(RectTube(60, 40, 3, 6), 50), []float64{6, 3}},
		"hollow":  {Straight(NewProfile(contour.Path{Vertices: []contour.Vertex{{}, {X: 40, Bulge: -.3}, {X: 40, Y: 30}, {Y: 30}}}), 5), []float64{30 * (1 + .09) / 1.2}},
	}
	for name, tt := range bodies {
		inside := func(q r3.Vec) bool {
			v := r2.Vec{X: q.X, Y: q.Y}
			in := tt.body.Profile.Outer().Contains(v)
			for _, h := range tt.body.Profile.Holes() {
				in = in && !h.Contains(v)
			}
			return in
		}
		s := tt.body.Shell()
		found := 0
		for _, f := range s.Faces {
			if f.Surface.Kind != Cylinder {
				continue
			}
			found++
			if !slices.ContainsFunc(tt.radius, func(r float64) bool { return math.Abs(r-f.Surface.Radius) < 1e-9 }) {
				t.Errorf("%s: a round face of radius %v, want %v", name, f.Surface.Radius, tt.radius)
			}
			q := along(s, f.Loops[0][0].Edge, .5)
			n := r3.Scale(.01, f.Surface.Outward(q))
			if inside(r3.Add(q, n)) || !inside(r3.Sub(q, n)) {
				t.Errorf("%s: the normal %v at %v does not point out of the material", name, n, q)
			}
		}
		if found == 0 {
			t.Errorf("%s has no round face", name)
		}
	}
}

func TestRoundShells(t *testing.T) {
	checkShell(t, Ball{r3.Vec{X: 3}, 20}.Shell(), 0, 1e-9)
	s, err := Balls{{r3.Vec{X: 3}, 20}, {r3.Vec{X: 50, Y: 80, Z: -3}, 20}}.Shell()
	if err != nil {
		t.Fatal(err)
	}
	checkShell(t, s, 0, 1e-9)
	if len(s.Faces) != 6 {
		t.Errorf("%d faces, want 6", len(s.Faces))
	}
}

// Corners of the boundary are within the bounds, and reach them all.
func TestShellFillsBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		body := drawBody(t)
		p := drawPlacement(t, "at ", 300)
		s := body.Shell()
		low, high := Bounds(body, p)
		gotLow, gotHigh := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
		const n = 200
		for i := range s.Edges {
			for k := range n + 1 {
				q := p.Point(along(s, i, float64(k)/n))
				gotLow = r3.Vec{X: min(gotLow.X, q.X), Y: min(gotLow.Y, q.Y), Z: min(gotLow.Z, q.Z)}
				gotHigh = r3.Vec{X: max(gotHigh.X, q.X), Y: max(gotHigh.Y, q.Y), Z: max(gotHigh.Z, q.Z)}
			}
		}
		// Chords of a half ellipse of axis 120 in 200 steps sag 0.01 at most.
		if r3.Norm(r3.Sub(gotLow, low)) > .02 || r3.Norm(r3.Sub(gotHigh, high)) > .02 {
			t.Errorf("edges reach from %v to %v, bounds %v to %v", gotLow, gotHigh, low, high)
		}
	})
}

// inside reports whether a convex area holds a point, by its support function.
func (r *rim) inside(q r2.Vec, slack float64) bool {
	for i := range 720 {
		s, c := math.Sincos(float64(i) * math.Pi / 360)
		n := r2.Vec{X: c, Y: s}
		if r2.Dot(n, q) > r2.Dot(n, r.support(n))+slack {
			return false
		}
	}
	return true
}

// Pieces cover the outline, and outside it only what Pieces allows.
func TestPieces(t *testing.T) {
	fork := contour.Path{Closed: true, Vertices: []contour.Vertex{
		{}, {X: 60}, {X: 60, Y: 80, Bulge: 1}, {X: 45, Y: 80}, {X: 45, Y: 30, Bulge: -1}, {X: 15, Y: 30}, {X: 15, Y: 80, Bulge: 1}, {Y: 80},
	}}
	tests := []struct {
		name string
		path contour.Path
		most int
	}{
		{"rectangle", rect(30, 40, 5), 1},
		{"angle", contour.Polygon(r2.Vec{}, r2.Vec{X: 50}, r2.Vec{X: 50, Y: 5}, r2.Vec{X: 5, Y: 5}, r2.Vec{X: 5, Y: 50}, r2.Vec{Y: 50}), 2},
		{"fork", fork, 40},
		{"kidney", contour.Path{Closed: true, Vertices: []contour.Vertex{{X: 40, Bulge: 1}, {X: -40, Bulge: 1}, {X: -20, Bulge: -1}, {X: 20, Bulge: 1}}}, 40},
	}
	for _, tt := range tests {
		p := NewProfile(tt.path)
		pieces := p.pieces()
		if len(pieces) > tt.most {
			t.Errorf("%s: %d pieces, want at most %d", tt.name, len(pieces), tt.most)
		}
		b := p.outer.Bounds()
		const n = 60
		for i := range n + 1 {
			for k := range n + 1 {
				q := r2.Vec{X: b.Min.X - 1 + (b.Max.X-b.Min.X+2)*float64(i)/n, Y: b.Min.Y - 1 + (b.Max.Y-b.Min.Y+2)*float64(k)/n}
				covered := false
				for j := range pieces {
					covered = covered || pieces[j].inside(q, 1e-9)
				}
				d, _ := p.outer.Distance(q)
				if in := p.outer.Contains(q); in && !covered && d > 1e-6 || !in && covered && d > 1.1*Sagitta {
					t.Errorf("%s: %v is covered %v, inside %v by %v", tt.name, q, covered, in, d)
				}
			}
		}
	}
}
