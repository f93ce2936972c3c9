package solid_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"armwright/geometry/balance"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// shapelyProgram answers cases read from stdin, one JSON object a line: the
// hull of points, its area, the distance of a point from its boundary, signed,
// and the gap between a segment and a turned rectangle.
const shapelyProgram = `
import sys, json
from shapely.geometry import MultiPoint, Point, LineString, Polygon
for line in sys.stdin:
    c = json.loads(line)
    hull = MultiPoint(c["points"]).convex_hull
    p = Point(c["p"])
    d = hull.exterior.distance(p)
    a, b = LineString(c["a"]), LineString(c["b"])
    print(json.dumps({
        "area": hull.area, "corners": len(hull.exterior.coords) - 1,
        "inside": d if hull.contains(p) else -d,
        "box": Polygon(c["box"]).distance(a)}))
`

// Hulls, distances from their edges, and clearances agree with shapely, a
// geometry library that is not ours, on 1000 random cases. shapely is plane:
// the solids lie with their mid-planes in one plane, turned at random in space.
func TestAgainstShapely(t *testing.T) {
	python := os.Getenv("ARMWRIGHT_PYTHON")
	if python == "" {
		python = "/usr/bin/python3"
	}
	if err := exec.Command(python, "-c", "import shapely").Run(); err != nil {
		message := "shapely is not installed (Debian: python3-shapely)"
		if os.Getenv("ARMWRIGHT_READERS") == "required" {
			t.Fatal(message)
		}
		t.Skip(message)
	}
	type pair [2]float64
	type question struct {
		Points []pair `json:"points"`
		P      pair   `json:"p"`
		A      []pair `json:"a"`
		B      []pair `json:"b"`
		Box    []pair `json:"box"`
	}
	type answer struct {
		Area, Inside, Box float64
		Corners           int
	}
	rng := rand.New(rand.NewPCG(6, 1000))
	point := func() r2.Vec { return r2.Vec{X: 1000 * rng.Float64(), Y: 1000 * rng.Float64()} }
	as := func(v r2.Vec) pair { return pair{v.X, v.Y} }

	const cases = 1000
	var asked bytes.Buffer
	var ours []answer
	for range cases {
		var q question
		points := make([]r2.Vec, 3+rng.IntN(20))
		for i := range points {
			points[i] = point()
			q.Points = append(q.Points, as(points[i]))
		}
		p, a, b, c, d, middle := point(), point(), point(), point(), point(), point()
		q.P, q.A, q.B = as(p), []pair{as(a), as(b)}, []pair{as(c), as(d)}
		turn, half := 2*math.Pi*rng.Float64(), r2.Vec{X: 10 + 200*rng.Float64(), Y: 10 + 200*rng.Float64()}
		sin, cos := math.Sincos(turn)
		for _, s := range []r2.Vec{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}} {
			x, y := s.X*half.X, s.Y*half.Y
			q.Box = append(q.Box, pair{middle.X + x*cos - y*sin, middle.Y + x*sin + y*cos})
		}
		line, err := json.Marshal(q)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&asked, "%s\n", line)

		hull := contour.Hull(points)
		inside := math.Inf(1)
		for _, e := range balance.Edges(hull, 1, r3.Vec{X: p.X, Y: p.Y, Z: 1}) {
			inside = math.Min(inside, e.Inside)
		}
		if inside < 0 { // of the lines through the edges; outside, shapely takes the nearest corner too
			inside = math.Inf(-1)
			for i := range hull {
				inside = math.Max(inside, -segment(p, hull[i], hull[(i+1)%len(hull)]))
			}
		}
		u, v := randomPlane(rng)
		in := func(p r2.Vec) r3.Vec { return r3.Add(r3.Scale(p.X, u), r3.Scale(p.Y, v)) }
		box := solid.Box{
			Centre: in(middle), Half: [3]float64{half.X, half.Y, 5},
			Axes: [3]r3.Vec{in(r2.Vec{X: cos, Y: sin}), in(r2.Vec{X: -sin, Y: cos}), r3.Cross(u, v)},
		}
		ours = append(ours, answer{
			Area: contour.Polygon(hull...).Area(), Corners: len(hull), Inside: inside,
			Box: max(0, box.Gap(in(a), in(b))),
		})
	}
	cmd := exec.Command(python, "-c", shapelyProgram)
	cmd.Stdin = &asked
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	theirs := json.NewDecoder(bytes.NewReader(out))
	for i, got := range ours {
		var want answer
		if err := theirs.Decode(&want); err != nil {
			t.Fatalf("case %d: %v", i, err)
		}
		if got.Corners != want.Corners {
			t.Errorf("case %d: hull of %d corners, shapely %d", i, got.Corners, want.Corners)
		}
		for _, v := range []struct {
			name      string
			got, want float64
			tol       float64
		}{
			{"area", got.Area, want.Area, 1e-6}, {"inside", got.Inside, want.Inside, 1e-8},
			{"segment to box", got.Box, want.Box, 1e-8},
		} {
			if !(math.Abs(v.got-v.want) <= v.tol) {
				t.Errorf("case %d: %s %.12g, shapely %.12g", i, v.name, v.got, v.want)
			}
		}
	}
}

// segment is the distance of a point from a segment, by calculus: the test's
// own.
func segment(p, a, b r2.Vec) float64 {
	d := r2.Sub(b, a)
	s := math.Max(0, math.Min(1, r2.Dot(r2.Sub(p, a), d)/r2.Norm2(d)))
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(s, d))))
}

// randomPlane returns two unit vectors at right angles.
func randomPlane(rng *rand.Rand) (u, v r3.Vec) {
	u = r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
	v = r3.Unit(r3.Cross(u, r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}))
	return u, v
}
