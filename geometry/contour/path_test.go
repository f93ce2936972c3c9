package contour

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

const deg = math.Pi / 180

func near9(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g within %g", what, got, want, tol)
	}
}

// Check 37 (D, E: ezdxf bulge_to_arc): bulges and their arcs.
func TestBulge(t *testing.T) {
	for sweep, bulge := range map[float64]float64{180: 1, 90: 0.41421356, 30: 0.13165250} {
		e := newElement(r2.Vec{}, r2.Vec{X: 10}, bulge)
		near9(t, "sweep", e.Sweep()/deg, sweep, 1e-6)
	}
	tests := []struct{ bulge, radius, sweep, cx, cy float64 }{
		{0.5, 6.25, 106.26020, 5, 3.75},
		{0.41421356, 7.0710678, 90, 5, 5},
	}
	for _, tt := range tests {
		e := newElement(r2.Vec{}, r2.Vec{X: 10}, tt.bulge)
		near9(t, "radius", e.Radius, tt.radius, 1e-6)
		near9(t, "sweep", e.Sweep()/deg, tt.sweep, 1e-5)
		near9(t, "centre x", e.Centre.X, tt.cx, 1e-6)
		near9(t, "centre y", e.Centre.Y, tt.cy, 1e-6)
	}
}

// Check 38 (E): two half circles make a circle of radius 5.
func TestCircle(t *testing.T) {
	c := Circle(r2.Vec{X: 5}, 5)
	near9(t, "length", c.Length(), 31.4159265, 1e-6)
	near9(t, "area", c.Area(), 25*math.Pi, 1e-9)
	b := c.Bounds()
	near9(t, "left", b.Min.X, 0, 1e-12)
	near9(t, "top", b.Max.Y, 5, 1e-12)
	if err := c.Validate(); err != nil {
		t.Error(err)
	}
	if a, _ := c.MaxCorner(); a > 1e-12 {
		t.Errorf("corner of %v on a circle", a)
	}
}

// stadium is a 30 by 20 rectangle with half circles of radius 10 at both ends.
func stadium() Path {
	return Path{Closed: true, Vertices: []Vertex{{-15, -10, 0}, {15, -10, 1}, {15, 10, 0}, {-15, 10, 1}}}
}

// Lengths and areas of elementary figures (D).
func TestMeasures(t *testing.T) {
	square := Polygon(r2.Vec{}, r2.Vec{X: 4}, r2.Vec{X: 4, Y: 4}, r2.Vec{Y: 4})
	quarter := Path{Closed: true, Vertices: []Vertex{{0, 0, 0}, {8, 0, math.Tan(90 * deg / 4)}, {0, 8, 0}}}
	threeQuarters := Path{Closed: true, Vertices: []Vertex{{0, 0, 0}, {8, 0, math.Tan(270 * deg / 4)}, {0, -8, 0}}}
	bite := Path{Closed: true, Vertices: []Vertex{{0, 0, 0}, {4, 0, -1}, {4, 4, 0}, {0, 4, 0}}}
	tests := []struct {
		name         string
		path         Path
		length, area float64
	}{
		{"square", square, 16, 16},
		{"stadium", stadium(), 60 + 20*math.Pi, 600 + 100*math.Pi},
		{"quarter disc", quarter, 16 + 4*math.Pi, 16 * math.Pi},
		{"three quarters", threeQuarters, 16 + 12*math.Pi, 48 * math.Pi},
		{"bitten square", bite, 12 + 2*math.Pi, 16 - 2*math.Pi},
	}
	for _, tt := range tests {
		near9(t, tt.name+" length", tt.path.Length(), tt.length, 1e-9)
		near9(t, tt.name+" area", tt.path.Area(), tt.area, 1e-9)
		if err := tt.path.Validate(); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	b := threeQuarters.Bounds()
	for i, x := range []float64{b.Min.X + 8, b.Min.Y + 8, b.Max.X - 8, b.Max.Y - 8} {
		near9(t, fmt.Sprintf("three quarters bound %d", i), x, 0, 1e-9)
	}
	if r, i := stadium().MinRadius(); math.Abs(r-10) > 1e-12 || i != 1 {
		t.Errorf("least radius %v at %d", r, i)
	}
	if _, i := square.MinRadius(); i != -1 {
		t.Errorf("a square has an arc at %d", i)
	}
}

func TestContains(t *testing.T) {
	tests := []struct {
		x, y float64
		want bool
	}{{0, 0, true}, {24, 0, true}, {-24.9, 0, true}, {25.1, 0, false}, {23, 9, false}, {15, 9.9, true}, {0, 10.1, false}}
	for _, tt := range tests {
		if got := stadium().Contains(r2.Vec{X: tt.x, Y: tt.y}); got != tt.want {
			t.Errorf("(%v, %v) inside: %v", tt.x, tt.y, got)
		}
	}
	// A disc asked on and off the chords of its arcs, in all directions.
	for _, at := range []r2.Vec{{}, {X: .5}, {Y: .5}, {X: -.5}, {Y: -.5}, {X: .3, Y: .3}} {
		for k := range 8 {
			disc := Circle(r2.Vec{}, 1).Place(float64(k)*45*deg, r2.Vec{})
			if k%2 == 0 { // exact right angles
				for i, v := range disc.Vertices {
					disc.Vertices[i] = Vertex{math.Round(v.X), math.Round(v.Y), v.Bulge}
				}
			}
			if !disc.Contains(at) || disc.Contains(r2.Scale(3, r2.Add(at, r2.Vec{X: 2}))) {
				t.Errorf("disc turned by %d: %v is misplaced", 45*k, at)
			}
		}
	}
	bite := Path{Closed: true, Vertices: []Vertex{{0, 0, 0}, {4, 0, -1}, {4, 4, 0}, {0, 4, 0}}}
	if bite.Contains(r2.Vec{X: 3, Y: 2}) || !bite.Contains(r2.Vec{X: 1, Y: 2}) {
		t.Error("the bite counts as inside")
	}
}

// randomConvex draws a convex, smooth path: sectors of constant radius that
// close, in opposite pairs.
func randomConvex(t *rapid.T) Path {
	n := rapid.IntRange(2, 9).Draw(t, "pairs")
	rho := rapid.SliceOfN(rapid.Float64Range(5, 120), n, n).Draw(t, "radius")
	p := Path{Closed: true}
	at := r2.Vec{X: rapid.Float64Range(-40, 40).Draw(t, "x")}
	step := math.Pi / float64(n)
	for i := range 2 * n {
		a := float64(i) * step
		p.Vertices = append(p.Vertices, Vertex{at.X, at.Y, math.Tan(step / 4)})
		r := rho[i%n]
		at = r2.Add(at, r2.Vec{X: r * (math.Cos(a+step) - math.Cos(a)), Y: r * (math.Sin(a+step) - math.Sin(a))})
	}
	return p
}

// Parallel curves of a convex body (Steiner): length grows by 2 pi d, area by
// length d + pi d^2, the support function by d everywhere. Cauchy: the mean of
// the support function is length / 2 pi.
func TestOffsetProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomConvex(t)
		d := rapid.Float64Range(-4, 30).Draw(t, "d")
		q, err := p.Offset(d)
		if err != nil {
			t.Fatal(err)
		}
		if e := math.Abs(q.Length() - p.Length() - 2*math.Pi*d); e > 1e-8 {
			t.Fatalf("length off by %v", e)
		}
		if e := math.Abs(q.Area() - p.Area() - p.Length()*d - math.Pi*d*d); e > 1e-6 {
			t.Fatalf("area off by %v", e)
		}
		if a, i := q.MaxCorner(); a > 1e-8 {
			t.Fatalf("corner %v at %d", a, i)
		}
		mean := 0.0
		for k := range 720 {
			s, c := math.Sincos(float64(k) * deg / 2)
			n := r2.Vec{X: c, Y: s}
			h, at := p.Support(n)
			hq, _ := q.Support(n)
			mean += h / 720
			if math.Abs(hq-h-d) > 1e-8 {
				t.Fatalf("support grows by %v, want %v", hq-h, d)
			}
			if dist, _ := p.Distance(at); dist > 1e-8 {
				t.Fatalf("support point %v off the path", dist)
			}
		}
		if e := math.Abs(mean - p.Length()/(2*math.Pi)); e > 1e-3*mean+1e-3 {
			t.Fatalf("Cauchy: mean support off by %v", e)
		}
		if err := p.Validate(); err != nil {
			t.Fatal(err)
		}
	})
}

// A square offset outwards gains round corners; inwards it is refused.
func TestOffsetCorners(t *testing.T) {
	square := Polygon(r2.Vec{}, r2.Vec{X: 4}, r2.Vec{X: 4, Y: 4}, r2.Vec{Y: 4})
	q, err := square.Offset(1)
	if err != nil {
		t.Fatal(err)
	}
	near9(t, "length", q.Length(), 16+2*math.Pi, 1e-9)
	near9(t, "area", q.Area(), 16+16+math.Pi, 1e-9)
	if err := q.Validate(); err != nil {
		t.Error(err)
	}
	var e *Error
	if _, err := square.Offset(-1); !errors.As(err, &e) || e.Defect != "corner" {
		t.Errorf("inward offset of a square: %v", err)
	}
	if _, err := stadium().Offset(-10); !errors.As(err, &e) || e.Index != 1 {
		t.Errorf("offset wider than the arcs: %v", err)
	}
}

func TestValidate(t *testing.T) {
	bow := Polygon(r2.Vec{}, r2.Vec{X: 4, Y: 4}, r2.Vec{X: 4}, r2.Vec{Y: 4})
	// A half circle that swings out through the opposite side.
	pierced := Path{Closed: true, Vertices: []Vertex{{0, 0, 0}, {8, 0, 0}, {8, 2, -1}, {0, 2, 0}}}
	tests := []struct {
		name   string
		path   Path
		index  int
		defect string
	}{
		{"empty", Path{}, 0, "too few vertices"},
		{"nan", Path{Vertices: []Vertex{{0, 0, 0}, {math.NaN(), 0, 0}}}, 1, "number not finite"},
		{"inf bulge", Path{Vertices: []Vertex{{0, 0, math.Inf(1)}, {1, 0, 0}}}, 0, "number not finite"},
		{"full arc", Path{Vertices: []Vertex{{0, 0, 1e6}, {1, 0, 0}}}, 0, "bulge too great"},
		{"double vertex", Polygon(r2.Vec{}, r2.Vec{X: 1}, r2.Vec{X: 1}, r2.Vec{Y: 1}), 1, "element without length"},
		{"there and back", Path{Closed: true, Vertices: []Vertex{{0, 0, .5}, {1, 0, -.5}}}, 1, "path runs back on itself"},
		{"back along a line", Path{Vertices: []Vertex{{0, 0, 0}, {9, 0, 0}, {4, 0, 0}}}, 1, "path runs back on itself"},
		{"back at the end of a loop", Path{Closed: true, Vertices: []Vertex{{4, 0, 0}, {9, 0, 0}, {9, 5, 0}, {0, 5, 0}, {0, 0, 0}, {6, 0, 0}}}, 0, "path runs back on itself"},
		{"bow tie", bow, 0, "path meets itself"},
		{"pierced", pierced, 0, "path meets itself"},
	}
	for _, tt := range tests {
		var e *Error
		if err := tt.path.Validate(); !errors.As(err, &e) || e.Index != tt.index || e.Defect != tt.defect {
			t.Errorf("%s: %v, want %q at %d", tt.name, err, tt.defect, tt.index)
		}
	}
}

// A line goes on beyond its ends for no distance, and an arc beyond its sweep.
func TestElementDistance(t *testing.T) {
	line := Polygon(r2.Vec{}, r2.Vec{X: 10}, r2.Vec{X: 10, Y: 1}).Element(0)
	arc := Circle(r2.Vec{}, 10).Element(0) // the upper half
	for _, c := range []struct {
		e    Element
		p    r2.Vec
		want float64
	}{
		{line, r2.Vec{X: 4, Y: 3}, 3}, {line, r2.Vec{X: 13, Y: 4}, 5}, {line, r2.Vec{X: -3, Y: -4}, 5}, {line, r2.Vec{X: 13}, 3},
		{arc, r2.Vec{Y: 13}, 3}, {arc, r2.Vec{Y: 6}, 4}, {arc, r2.Vec{X: 13, Y: -4}, 5}, {arc, r2.Vec{}, 10},
	} {
		if got := c.e.Distance(c.p); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v is %v from %v, want %v", c.p, got, c.e, c.want)
		}
	}
}

// Circles of two radii meet where the right triangle says: 30 and 40 mm, 50 apart.
func TestArcsMeet(t *testing.T) {
	a, b := Circle(r2.Vec{}, 30).Element(0), Circle(r2.Vec{X: 50}, 40).Element(0)
	qs, n := intersections(a, b)
	if n != 2 || math.Abs(qs[0].X-18) > 1e-9 || math.Abs(math.Abs(qs[0].Y)-24) > 1e-9 || math.Abs(qs[0].Y+qs[1].Y) > 1e-9 {
		t.Errorf("they meet at %v (%d), want (18, ±24)", qs, n)
	}
}

func TestPlace(t *testing.T) {
	p := stadium()
	q := p.Place(90*deg, r2.Vec{X: 100})
	b := q.Bounds()
	near9(t, "width", b.Max.X-b.Min.X, 20, 1e-9)
	near9(t, "height", b.Max.Y-b.Min.Y, 50, 1e-9)
	near9(t, "middle", (b.Max.X+b.Min.X)/2, 100, 1e-9)
}

func TestPoints(t *testing.T) {
	p := stadium()
	qs := p.Points(.01)
	area := math.Abs(Polygon(qs...).Area())
	if want := p.Area(); area > want || area < want-.01*p.Length() {
		t.Errorf("area of the points %v, of the path %v", area, want)
	}
}

// An open path gives its ends too; an arc without a sagitta four pieces.
func TestPointsOfAnOpenPath(t *testing.T) {
	p := Path{Vertices: []Vertex{{0, 0, 0}, {10, 0, 1}, {10, 20, 0}, {0, 20, 0}}}
	qs := p.Points(0)
	if want := 1 + 4 + 1 + 1; len(qs) != want || qs[0] != (r2.Vec{}) || qs[len(qs)-1] != (r2.Vec{Y: 20}) {
		t.Errorf("points %v, want %d from the first to the last vertex", qs, want)
	}
	if len((Path{}).Points(1)) != 0 {
		t.Error("an empty path has points")
	}
}

func ExamplePath_Offset() {
	plate := Path{Closed: true, Vertices: []Vertex{{-15, -10, 0}, {15, -10, 1}, {15, 10, 0}, {-15, 10, 1}}}
	groove, err := plate.Offset(-2)
	fmt.Println(err)
	fmt.Printf("%.2f mm round, %.2f mm round the groove\n", plate.Length(), groove.Length())
	// Output:
	// <nil>
	// 122.83 mm round, 110.27 mm round the groove
}

// Corners by hand: a square has four of 90 degrees, an open path none at its start, a
// kite one of 180 − 2 atan(1/3).
func TestMaxCorner(t *testing.T) {
	square := Path{Closed: true, Vertices: []Vertex{{}, {X: 10}, {X: 10, Y: 10}, {Y: 10}}}
	open := Path{Vertices: []Vertex{{X: 5, Y: 5}, {}, {X: 10}, {X: 20, Y: 1}}}
	kite := Path{Closed: true, Vertices: []Vertex{{}, {X: 3, Y: -1}, {X: 5}, {X: 3, Y: 1}}}
	for _, c := range []struct {
		name string
		path Path
		want float64
		at   int
	}{
		{"square", square, 90 * deg, 0},
		{"open", open, 135 * deg, 1}, // 45 degrees down, then level
		{"kite", kite, 180*deg - 2*math.Atan(1.0/3), 0},
		{"one element", Path{Vertices: []Vertex{{}, {X: 1}}}, 0, -1},
		{"nothing", Path{}, 0, -1},
	} {
		if a, at := c.path.MaxCorner(); math.Abs(a-c.want) > 1e-12 || at != c.at {
			t.Errorf("%s: %v degrees at %d, want %v at %d", c.name, a/deg, at, c.want/deg, c.at)
		}
	}
	// Support and Contains of a path of one arc and of a single piece.
	half := Path{Closed: true, Vertices: []Vertex{{X: 10, Bulge: 1}, {X: -10}}}
	if h, q := half.Support(r2.Vec{X: -0.6, Y: 0.8}); math.Abs(h-10) > 1e-12 || math.Abs(q.Y-8) > 1e-12 {
		t.Errorf("support %v at %v", h, q)
	}
	if !half.Contains(r2.Vec{Y: 9.9}) || half.Contains(r2.Vec{Y: -0.1}) || half.Contains(r2.Vec{X: 8, Y: 8}) {
		t.Error("half a disc holds other points")
	}
	if a := half.Area(); math.Abs(a-50*math.Pi) > 1e-12 {
		t.Errorf("area %v", a)
	}
}

// Polygons on whole numbers against an exact test: two edges that do not follow each
// other share a point, or two that do lie on one another.
func TestValidateExactly(t *testing.T) {
	type point struct{ x, y int }
	turn := func(a, b, c point) int { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }
	on := func(a, b, c point) bool { // c on the segment ab
		return turn(a, b, c) == 0 && min(a.x, b.x) <= c.x && c.x <= max(a.x, b.x) && min(a.y, b.y) <= c.y && c.y <= max(a.y, b.y)
	}
	sign := func(n int) int { return min(1, max(-1, n)) }
	cross := func(a, b, c, d point) bool {
		if on(a, b, c) || on(a, b, d) || on(c, d, a) || on(c, d, b) {
			return true
		}
		return sign(turn(a, b, c))*sign(turn(a, b, d)) < 0 && sign(turn(c, d, a))*sign(turn(c, d, b)) < 0
	}
	seen := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "vertices")
		closed := rapid.Bool().Draw(t, "closed")
		var ps []point
		var path Path
		path.Closed = closed
		for range n {
			p := point{rapid.IntRange(0, 9).Draw(t, "x"), rapid.IntRange(0, 9).Draw(t, "y")}
			ps = append(ps, p)
			path.Vertices = append(path.Vertices, Vertex{X: float64(p.x), Y: float64(p.y)})
		}
		edges := n - 1
		if closed {
			edges = n
		}
		want := false
		for i := range edges {
			a, b := ps[i], ps[(i+1)%n]
			if a == b {
				t.Skip("an edge without length")
			}
			for j := i + 1; j < edges; j++ {
				c, d := ps[j], ps[(j+1)%n]
				switch {
				case j == i+1: // c is b
					want = want || turn(a, b, d) == 0 && (on(a, b, d) || on(b, d, a))
				case closed && i == 0 && j == n-1: // d is a
					want = want || turn(c, a, b) == 0 && (on(c, a, b) || on(a, b, c))
				default:
					want = want || cross(a, b, c, d)
				}
			}
		}
		if got := path.Validate() != nil; got != want {
			t.Fatalf("%v, closed %v: %v, want %v", ps, closed, got, want)
		}
		seen[want]++
	})
	if seen[true] < 5 || seen[false] < 5 {
		t.Errorf("drawn one-sidedly: %v", seen)
	}
}
