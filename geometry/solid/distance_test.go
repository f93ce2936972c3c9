package solid

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"armwright/geometry/contour"
)

func block(x, y, z float64) Convex {
	return &brick{r3.Vec{X: -x / 2, Y: -y / 2, Z: -z / 2}, r3.Vec{X: x / 2, Y: y / 2, Z: z / 2}}
}

// boxGap is the truth for two boxes: apart, the least of corner to box and edge
// to edge; together, the least overlap over the fifteen separating axes.
func boxGap(ha r3.Vec, a Placement, hb r3.Vec, b Placement) float64 {
	axes := func(p Placement) [3]r3.Vec { return [3]r3.Vec{p.X, p.Y, p.Z} }
	half := func(h r3.Vec) [3]float64 { return coordinates(h) }
	depth, apart := math.Inf(1), false
	try := func(n r3.Vec) {
		l := r3.Norm(n)
		if l < 1e-9 {
			return
		}
		n = r3.Scale(1/l, n)
		reach := 0.0
		for i := range 3 {
			reach += half(ha)[i]*math.Abs(r3.Dot(axes(a)[i], n)) + half(hb)[i]*math.Abs(r3.Dot(axes(b)[i], n))
		}
		o := reach - math.Abs(r3.Dot(n, r3.Sub(b.Origin, a.Origin)))
		apart = apart || o < 0
		depth = min(depth, o)
	}
	for i := range 3 {
		try(axes(a)[i])
		try(axes(b)[i])
		for j := range 3 {
			try(r3.Cross(axes(a)[i], axes(b)[j]))
		}
	}
	if !apart {
		return -depth
	}
	best := math.Inf(1)
	corners := func(h r3.Vec, p Placement) (c [8]r3.Vec) {
		for i := range c {
			s := func(bit int, x float64) float64 {
				if i>>bit&1 == 1 {
					return x
				}
				return -x
			}
			c[i] = p.Point(r3.Vec{X: s(0, h.X), Y: s(1, h.Y), Z: s(2, h.Z)})
		}
		return c
	}
	ca, cb := corners(ha, a), corners(hb, b)
	outside := func(q r3.Vec, h r3.Vec, p Placement) float64 {
		v := p.own(r3.Sub(q, p.Origin))
		o := func(x, h float64) float64 { return math.Max(0, math.Abs(x)-h) }
		return r3.Norm(r3.Vec{X: o(v.X, h.X), Y: o(v.Y, h.Y), Z: o(v.Z, h.Z)})
	}
	for i := range 8 {
		best = min(best, outside(ca[i], hb, b), outside(cb[i], ha, a))
	}
	for i := range 8 {
		for bi := range 3 {
			for j := range 8 {
				for bj := range 3 {
					if i>>bi&1 == 0 && j>>bj&1 == 0 {
						best = min(best, segmentGap(ca[i], ca[i|1<<bi], cb[j], cb[j|1<<bj]))
					}
				}
			}
		}
	}
	return best
}

// segmentGap is the distance between two segments: of the lines where their
// nearest points are within both, else the least from an end to the other.
func segmentGap(a, b, c, d r3.Vec) float64 {
	point := func(p, a, b r3.Vec) float64 {
		v := r3.Sub(b, a)
		u := math.Max(0, math.Min(1, r3.Dot(r3.Sub(p, a), v)/r3.Dot(v, v)))
		return r3.Norm(r3.Sub(p, r3.Add(a, r3.Scale(u, v))))
	}
	best := min(point(a, c, d), point(b, c, d), point(c, a, b), point(d, a, b))
	u, v, w := r3.Sub(b, a), r3.Sub(d, c), r3.Sub(c, a)
	n := r3.Cross(u, v)
	nn := r3.Dot(n, n)
	if nn > 1e-18*r3.Dot(u, u)*r3.Dot(v, v) {
		s := r3.Dot(r3.Cross(w, v), n) / nn
		t := r3.Dot(r3.Cross(w, u), n) / nn
		if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			best = min(best, math.Abs(r3.Dot(w, n))/math.Sqrt(nn))
		}
	}
	return best
}

func TestBoxes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(1, 400).Draw(t, name) }
		ha, hb := r3.Vec{X: f("ax"), Y: f("ay"), Z: f("az")}, r3.Vec{X: f("bx"), Y: f("by"), Z: f("bz")}
		a, b := drawPlacement(t, "a", 600), drawPlacement(t, "b", 600)
		if rapid.Bool().Draw(t, "square to each other") {
			o := b.Origin
			b = a
			b.Origin = o
		}
		want := boxGap(ha, a, hb, b)
		ba, bb := block(2*ha.X, 2*ha.Y, 2*ha.Z), block(2*hb.X, 2*hb.Y, 2*hb.Z)
		got, onA, onB := Distance(ba, a, bb, b)
		if math.Abs(got-want) > 2e-6 {
			t.Fatalf("gap %.9g, want %.9g", got, want)
		}
		if d := r3.Norm(r3.Sub(onA, onB)); math.Abs(d-math.Abs(want)) > 1e-5 {
			t.Errorf("points %.9g apart, want %.9g", d, math.Abs(want))
		}
	})
}

// Known pairs.
func TestDistances(t *testing.T) {
	const r2half = math.Sqrt2 / 2
	bar := Round(40, 100).Hull()
	thin := Round(20, 300).Hull()
	cone := Turned{Outline: []r2.Vec{{X: 30}, {Y: 40}}}.Hull() // flanks at 3:4
	disc := Round(200, 10).Hull()
	lying := func(x, y, z float64) Placement { // own z along y
		return Along(r3.Vec{X: x, Y: y, Z: z}, r3.Vec{X: x, Y: y + 1, Z: z}, r3.Vec{Z: 1})
	}
	tests := []struct {
		name string
		a    Convex
		pa   Placement
		b    Convex
		pb   Placement
		gap  float64
	}{
		{"balls apart", Ball{Radius: 3}, World(), Ball{Centre: r3.Vec{X: 3, Y: 4}, Radius: 1}, World(), 1},
		{"balls overlap", Ball{Radius: 5}, World(), Ball{Centre: r3.Vec{X: 3, Y: 4}, Radius: 2}, World(), -2},
		{"balls in one place", Ball{Radius: 5}, World(), Ball{Radius: 2}, World(), -7},
		{"capsules cross", Balls{{r3.Vec{X: -50}, 5}, {r3.Vec{X: 50}, 5}}, World(), Balls{{r3.Vec{Y: -50, Z: 30}, 7}, {r3.Vec{Y: 50, Z: 30}, 7}}, World(), 18},
		{"capsules cut", Balls{{r3.Vec{X: -50}, 5}, {r3.Vec{X: 50}, 5}}, World(), Balls{{r3.Vec{Y: -50, Z: 8}, 7}, {r3.Vec{Y: 50, Z: 8}, 7}}, World(), -4},
		{"capsules meet at right angles", Balls{{r3.Vec{X: -50}, 5}, {r3.Vec{X: 50}, 5}}, World(), Balls{{r3.Vec{Y: -50}, 7}, {r3.Vec{Y: 50}, 7}}, World(), -12},
		{"capsules in line", Balls{{r3.Vec{}, 5}, {r3.Vec{X: 50}, 5}}, World(), Balls{{r3.Vec{X: 70}, 7}, {r3.Vec{X: 90}, 7}}, World(), 8},
		{"ball over a bar's end", bar, World(), Ball{r3.Vec{X: 5, Z: 110}, 3}, World(), 7},
		{"ball off a bar's edge", bar, World(), Ball{r3.Vec{X: 23, Z: 104}, 3}, World(), 2},
		{"ball beside a bar", bar, World(), Ball{r3.Vec{X: 18, Y: 24, Z: 50}, 3}, World(), 7},
		{"ball in a bar", bar, World(), Ball{r3.Vec{X: 12, Y: 9, Z: 50}, 3}, World(), -8},
		{"bars side by side", bar, World(), thin, Shift(r3.Vec{X: 24, Y: 18}), 0},
		{"bars apart", bar, World(), thin, Shift(r3.Vec{X: 48, Y: 36}), 30},
		{"bars overlap", bar, World(), thin, Shift(r3.Vec{X: 16, Y: 12}), -10},
		{"bar in bar, one axis", bar, World(), thin, Shift(r3.Vec{Z: -100}), -30},
		{"disc on bar, one axis", disc, World(), bar, Shift(r3.Vec{Z: 5}), -5},
		{"bars across", bar, World(), thin, lying(50, -150, 50), 20},
		{"bars across and cut", bar, World(), thin, lying(25, -150, 50), -5},
		{"point beside a cone", cone, World(), Ball{r3.Vec{X: 15 + 8, Z: 20 + 6}, 0}, World(), 10},
		{"ball at a cone", cone, World(), Ball{r3.Vec{X: 15 + 8, Z: 20 + 6}, 12}, World(), -2},
		{"cone's tip", cone, World(), Ball{r3.Vec{Z: 60}, 5}, World(), 15},
		{"box corners", block(10, 10, 10), World(), block(10, 10, 10), Shift(r3.Vec{X: 13, Y: 14, Z: 10}), 5},
		{"boxes touch", block(10, 10, 10), World(), block(10, 10, 10), Shift(r3.Vec{X: 10}), 0},
		{"boxes in one place", block(10, 20, 30), World(), block(10, 20, 30), World(), -10},
		{"box edge on face", block(20, 20, 20), World(), block(10, 10, 10), Turn(r3.Vec{X: 30}, r3.Vec{Z: 1}, math.Pi/4).Then(Shift(r3.Vec{X: 30})), 0},
		{"point in a box", block(20, 20, 20), World(), Ball{r3.Vec{X: 7}, 0}, World(), -3},
		{"two points", Ball{}, World(), Ball{}, Shift(r3.Vec{Y: 2}), 2},
		{"two points in one place", Ball{}, World(), Ball{}, World(), 0},
	}
	// The turned box stands with an edge toward the other.
	for i := range tests {
		if tests[i].name == "box edge on face" {
			p := Turn(r3.Vec{}, r3.Vec{Z: 1}, math.Pi/4)
			p.Origin.X = 30
			tests[i].pb, tests[i].gap = p, 30-10-10*r2half
		}
	}
	for _, tt := range tests {
		for _, both := range []bool{false, true} {
			gap, onA, onB := Distance(tt.a, tt.pa, tt.b, tt.pb)
			if both {
				gap, onB, onA = Distance(tt.b, tt.pb, tt.a, tt.pa)
			}
			near(t, tt.name, gap, tt.gap, 1e-6)
			near(t, tt.name+", points", r3.Norm(r3.Sub(onA, onB)), math.Abs(tt.gap), 1e-3)
		}
	}
}

// Whatever the bodies: the same the other way round, moved as one with both, and
// moved apart by the gap along the line between the points they touch.
func TestDistanceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) Convex {
			switch rapid.IntRange(0, 5).Draw(t, name) {
			case 0:
				return Balls{{r3.Vec{}, 50}, {r3.Vec{X: 10, Y: 200, Z: -40}, 50}}
			case 1:
				return Ball{r3.Vec{X: 3}, 80}
			default:
				return drawBody(t).Hull()
			}
		}
		a, b := draw("a"), draw("b")
		pa, pb := drawPlacement(t, "a", 500), drawPlacement(t, "b", 500)
		gap, onA, onB := Distance(a, pa, b, pb)
		const size = 2000
		tolerance := 1e-8 * size
		if gap < 1 { // overlapping, or faces nearly in one plane
			tolerance = 1e-6*size + 1e-3*math.Abs(gap)
		}
		if math.IsNaN(gap) {
			t.Fatal("not a number")
		}
		if back, _, _ := Distance(b, pb, a, pa); math.Abs(back-gap) > tolerance {
			t.Errorf("the other way round %v, want %v", back, gap)
		}
		than := gap + rapid.Float64Range(-300, 300).Draw(t, "than")
		near, way := Nearer(a, pa, b, pb, than)
		switch {
		case math.Abs(than-gap) <= tolerance: // either answer
		case (near < than) != (gap < than):
			t.Errorf("%v told to be nearer than %v: %v", gap, than, near)
		case near < than && math.Abs(near-gap) > tolerance:
			t.Errorf("nearer than %v by %v, want %v", than, near, gap)
		case near >= than && (near < than-tolerance || near > gap+tolerance):
			t.Errorf("%v told for what lies between %v and %v", near, than, gap)
		}
		along := func(c Convex, p Placement, d r3.Vec) float64 { return r3.Dot(d, p.Point(c.Support(p.own(d)))) }
		if seen := -along(b, pb, r3.Scale(-1, way)) - along(a, pa, way); math.Abs(seen-near) > tolerance {
			t.Errorf("%v apart along %v, told %v", seen, way, near)
		}
		m := drawPlacement(t, "moved", 900)
		if moved, _, _ := Distance(a, m.Then(pa), b, m.Then(pb)); math.Abs(moved-gap) > tolerance {
			t.Errorf("moved %v, want %v", moved, gap)
		}
		// Moved together or apart by what is told they touch, no more and no less.
		apart := pb
		apart.Origin = r3.Add(pb.Origin, r3.Sub(onA, onB))
		if left, _, _ := Distance(a, pa, b, apart); math.Abs(left) > 1e-6*size+1e-3*math.Abs(min(gap, 0)) {
			t.Errorf("gap %v: %v after moving by it", gap, left)
		}
	})
}

func TestDistanceDoesNotAllocate(t *testing.T) {
	a, b := block(30, 40, 500), Prism{Profile: Rect(40, 40, 4), To: End{Z: 100, Tilt: r2.Vec{X: 1}}}.Hull()
	var c Convex = Balls{{r3.Vec{}, 60}, {r3.Vec{X: 90}, 60}}
	at := Shift(r3.Vec{X: 300, Y: 40})
	if n := testing.AllocsPerRun(100, func() {
		Distance(a, World(), b, at)
		Distance(c, World(), b, at)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// A sharp upright box is measured by its corners' coordinates alone, also where
// its profile runs from another corner; a box that lies askew is not.
func TestBoxesAreBricks(t *testing.T) {
	turned := contour.Polygon(r2.Vec{X: 3, Y: 4}, r2.Vec{Y: 4}, r2.Vec{}, r2.Vec{X: 3})
	for _, p := range []*Profile{Rect(3, 4, 0), NewProfile(turned)} {
		if _, ok := Straight(p, 5).Hull().(*brick); !ok {
			t.Error("a box is no brick")
		}
	}
	trapezium := contour.Polygon(r2.Vec{}, r2.Vec{X: 3}, r2.Vec{X: 3, Y: 4}, r2.Vec{X: 1, Y: 4})
	for _, p := range []Prism{Straight(NewProfile(trapezium), 5), {Profile: Rect(3, 4, 0), To: End{Z: 9, Tilt: r2.Vec{X: 1}}}, Straight(Rect(3, 4, 1), 5)} {
		if _, ok := p.Hull().(*brick); ok {
			t.Error("what is no box is a brick")
		}
	}
}

func BenchmarkDistance(b *testing.B) {
	tilted := Turn(r3.Vec{}, r3.Vec{X: 1, Y: 2, Z: 3}, .7)
	tilted.Origin = r3.Vec{X: 90, Y: 60, Z: 20}
	tube := Prism{Profile: RectTube(60, 40, 3, 6), From: End{Tilt: r2.Vec{X: 1}}, To: End{Z: 400, Tilt: r2.Vec{Y: .5}}}.Hull()
	tests := []struct {
		name string
		a, b Convex
		at   Placement
	}{
		{"boxes apart", block(30, 40, 50), block(60, 20, 10), tilted},
		{"boxes square", block(30, 40, 50), block(60, 20, 10), Shift(r3.Vec{X: 90, Y: 60, Z: 20})},
		{"boxes overlap", block(130, 140, 50), block(60, 120, 10), tilted},
		{"tubes", tube, tube, tilted},
		{"tube and capsule", tube, Balls{{r3.Vec{X: 90}, 40}, {r3.Vec{X: 200, Z: 80}, 40}}, tilted},
		{"rounds", Round(40, 300).Hull(), Round(100, 20).Hull(), tilted},
		{"rounds on one axis", Round(40, 300).Hull(), Round(100, 20).Hull(), Shift(r3.Vec{Z: 40})},
	}
	for _, tt := range tests {
		b.Run(tt.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Distance(tt.a, World(), tt.b, tt.at)
			}
		})
	}
}
