package solid

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"armwright/geometry/contour"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

func nearVec(t *testing.T, what string, got, want r3.Vec, tolerance float64) {
	t.Helper()
	if !(r3.Norm(r3.Sub(got, want)) <= tolerance) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Closed formulas of handbooks for volume, centroid and principal moments.
func TestBodiesByFormula(t *testing.T) {
	const pi = math.Pi
	box := func(x, y, z float64) [3]float64 {
		m := x * y * z / 12
		return [3]float64{m * (y*y + z*z), m * (x*x + z*z), m * (x*x + y*y)}
	}
	cylinder := func(r, h float64) [3]float64 {
		m := pi * r * r * h
		return [3]float64{m * (3*r*r + h*h) / 12, m * (3*r*r + h*h) / 12, m * r * r / 2}
	}
	minus := func(a, b [3]float64) [3]float64 {
		return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]}
	}
	coneMass := pi * 30 * 30 * 80 / 3.0
	tests := []struct {
		name     string
		body     Solid
		volume   float64
		centroid r3.Vec
		inertia  [3]float64
	}{
		{"box", Straight(Rect(30, 50, 0), 80), 30 * 50 * 80, r3.Vec{Z: 40}, box(30, 50, 80)},
		{"bar", Straight(Disc(40), 100), pi * 400 * 100, r3.Vec{Z: 50}, cylinder(20, 100)},
		{"pipe", Straight(Pipe(40, 5), 100), pi * (400 - 225) * 100, r3.Vec{Z: 50}, minus(cylinder(20, 100), cylinder(15, 100))},
		{"sharp tube", Straight(RectTube(60, 40, 3, 0), 200), (60*40 - 54*34) * 200, r3.Vec{Z: 100}, minus(box(60, 40, 200), box(54, 34, 200))},
		{"round", Round(40, 100), pi * 400 * 100, r3.Vec{Z: 50}, cylinder(20, 100)},
		{"bush", Tube(40, 30, 100), pi * (400 - 225) * 100, r3.Vec{Z: 50}, minus(cylinder(20, 100), cylinder(15, 100))},
		{"cone", Turned{Outline: []r2.Vec{{X: 30}, {Y: 80}}}, coneMass, r3.Vec{Z: 20},
			[3]float64{3. / 80 * coneMass * (4*900 + 6400), 3. / 80 * coneMass * (4*900 + 6400), .3 * coneMass * 900}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := tt.body.Validate(); err != nil {
				t.Error(err)
			}
			near(t, "volume", tt.body.Volume(), tt.volume, 1e-12*tt.volume)
			nearVec(t, "centroid", tt.body.Centroid(), tt.centroid, 1e-10)
			got := tt.body.Inertia()
			for i, want := range tt.inertia {
				near(t, "inertia", got[i][i], want, 1e-12*want)
				near(t, "product of inertia", got[i][(i+1)%3], 0, 1e-12*want)
			}
		})
	}
}

// Rounded corners: area of a rectangle less (4 - π) r², its second moment by
// that of the quarter discs about their own centroids (Steiner).
func TestRoundedSection(t *testing.T) {
	const w, h, r = 60., 40., 6.
	p := Rect(w, h, r)
	near(t, "area", p.Area(), w*h-(4-math.Pi)*r*r, 1e-9)
	// A spandrel's square less its quarter disc, both about the x axis.
	y := h/2 - r
	square := r*r*r*r/3 + 2*y*r*r*r/2 + y*y*r*r
	quarter := math.Pi*r*r*r*r/16 + 2*y*r*r*r/3 + y*y*math.Pi*r*r/4
	xx, _, xy := p.Second()
	near(t, "∫y²", xx, w*h*h*h/12-4*(square-quarter), 1e-7)
	near(t, "∫xy", xy, 0, 1e-7)
	tube := RectTube(w, h, 3, r)
	inner := Rect(w-6, h-6, r-3)
	near(t, "tube's area", tube.Area(), p.Area()-inner.Area(), 1e-9)
	for _, c := range []float64{h / 2, 15, 0} {
		if err := Rect(w, h, c).Validate(); err != nil {
			t.Errorf("corner %v: %v", c, err)
		}
	}
	near(t, "obround", Rect(w, h, h/2).Area(), (w-h)*h+math.Pi*h*h/4, 1e-9)
	near(t, "circle of four quarters", Rect(h, h, h/2).Area(), math.Pi*h*h/4, 1e-9)
}

// A right triangle away from the origin: bh³/36, hb³/36 and -b²h²/72 about its
// centroid, a third of the way along both legs.
func TestTriangleSection(t *testing.T) {
	const b, h = 30., 40.
	p := NewProfile(contour.Polygon(r2.Vec{X: 100, Y: -50}, r2.Vec{X: 100 + b, Y: -50}, r2.Vec{X: 100, Y: -50 + h}))
	c := p.Centroid()
	near(t, "x", c.X, 100+b/3, 1e-10)
	near(t, "y", c.Y, -50+h/3, 1e-10)
	xx, yy, xy := p.Second()
	near(t, "∫y²", xx, b*h*h*h/36, 1e-5)
	near(t, "∫x²", yy, h*b*b*b/36, 1e-5)
	near(t, "∫xy", xy, -b*b*h*h/72, 1e-5)
}

// The segment of a circle that an arc of 300 degrees cuts off: area
// r²(θ - sin θ)/2, centroid 4r sin³(θ/2) / 3(θ - sin θ) from the middle, and
// ∫x² = r⁴/8 (θ - sin θ + 2 sin θ sin²(θ/2)) about it, x along the chord's normal.
func TestLongArc(t *testing.T) {
	const r = 20.
	theta := 300 * math.Pi / 180
	s, c := math.Sincos(theta / 2)
	p := NewProfile(contour.Path{Vertices: []contour.Vertex{{X: r * c, Y: -r * s, Bulge: math.Tan(theta / 4)}, {X: r * c, Y: r * s}}})
	k := theta - math.Sin(theta)
	near(t, "area", p.Area(), r*r*k/2, 1e-10)
	near(t, "centroid", p.Centroid().X, 4*r*s*s*s/(3*k), 1e-11)
	_, yy, _ := p.Second()
	x := p.Centroid().X
	near(t, "∫x²", yy+p.Area()*x*x, r*r*r*r/8*(k+2*math.Sin(theta)*s*s), 1e-7)
}

// A right circular cylinder of radius r cut off aslant, heights h1 and h2:
// V = πr²(h1+h2)/2, centroid r(h1-h2)/(4(h1+h2)) toward the high side, at
// (5h1²+6h1h2+5h2²)/(16(h1+h2)) above the base (handbook formula).
func TestTruncatedCylinder(t *testing.T) {
	const r, h1, h2 = 20., 90., 50.
	p := Prism{Profile: Disc(2 * r), To: End{Z: (h1 + h2) / 2, Tilt: r2.Vec{X: (h1 - h2) / (2 * r)}}}
	near(t, "volume", p.Volume(), math.Pi*r*r*(h1+h2)/2, 1e-7)
	nearVec(t, "centroid", p.Centroid(),
		r3.Vec{X: r * (h1 - h2) / (4 * (h1 + h2)), Z: (5*h1*h1 + 6*h1*h2 + 5*h2*h2) / (16 * (h1 + h2))}, 1e-10)
}

// A wedge that falls to an edge is half a box: a triangular prism whose moments
// are those of the triangle carried across.
func TestWedge(t *testing.T) {
	const b, h, l = 30., 40., 50.
	wedge := Prism{Profile: Rect(b, l, 0), To: End{Z: h / 2, Tilt: r2.Vec{X: -h / b}}}
	near(t, "volume", wedge.Volume(), b*h*l/2, 1e-8)
	nearVec(t, "centroid", wedge.Centroid(), r3.Vec{X: b/3 - b/2, Z: h / 3}, 1e-10)
	// Triangle about its centroid: ∫z² = bh³/36, ∫x² = hb³/36, ∫xz = -b²h²/72.
	xx, zz, xz := h*b*b*b/36*l, b*h*h*h/36*l, -b*b*h*h/72*l
	yy := b * h / 2 * l * l * l / 12
	want := Tensor{{yy + zz, 0, -xz}, {0, xx + zz, 0}, {-xz, 0, xx + yy}}
	got := wedge.Inertia()
	for i := range 3 {
		for j := range 3 {
			near(t, "inertia", got[i][j], want[i][j], 1e-6)
		}
	}
}

// Frustum and stepped shaft: sums of the parts' formulas.
func TestTurnedBySections(t *testing.T) {
	const r1, r2_, h = 30., 10., 60.
	f := Turned{Outline: []r2.Vec{{X: r1}, {X: r2_, Y: h}}}
	q := r1*r1 + r1*r2_ + r2_*r2_
	near(t, "frustum", f.Volume(), math.Pi*h/3*q, 1e-8)
	near(t, "its centroid", f.Centroid().Z, h/4*(r1*r1+2*r1*r2_+3*r2_*r2_)/q, 1e-10)
	s := Turned{Outline: []r2.Vec{{X: 10}, {X: 10, Y: 40}, {X: 15, Y: 40}, {X: 15, Y: 100}, {X: 10, Y: 100}, {X: 10, Y: 120}}, Bore: 8}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	near(t, "shaft", s.Volume(), math.Pi*(100*60+225*60-16*120), 1e-8)
	near(t, "its centroid", s.Centroid().Z, (100*40*20+225*60*70+100*20*110-16*120*60)/(100*60+225*60-16*120.), 1e-10)
	if n := len(s.Pieces()); n != 3 {
		t.Errorf("%d pieces, want 3: the thick part and the two thin ends", n)
	}
}

// Bores take the volume of a cylinder out of each wall, about its own middle.
func TestBores(t *testing.T) {
	tube := Straight(RectTube(60, 40, 3, 6), 200)
	plain := tube.Volume()
	hole := math.Pi * 25
	tests := []struct {
		name  string
		bore  Bore
		taken float64
	}{
		{"through", Bore{At: r3.Vec{X: 5, Z: 50}, Dir: r3.Vec{Y: 1}, Diameter: 10}, 6 * hole},
		{"other way", Bore{At: r3.Vec{X: 5, Y: 90, Z: 50}, Dir: r3.Vec{Y: -2}, Diameter: 10}, 6 * hole},
		{"one wall", Bore{At: r3.Vec{X: 5, Z: 50}, Dir: r3.Vec{Y: 1}, Diameter: 10, Depth: 20}, 3 * hole},
		{"blind in the far wall", Bore{At: r3.Vec{X: 5, Z: 50}, Dir: r3.Vec{Y: 1}, Diameter: 10, Depth: 38}, 4 * hole},
		{"across", Bore{At: r3.Vec{Y: -4, Z: 50}, Dir: r3.Vec{X: 1}, Diameter: 10}, 6 * hole},
		// At 30 degrees to the normal the way through a wall is 3/cos 30.
		{"aslant in plan", Bore{At: r3.Vec{Z: 50}, Dir: r3.Vec{X: .5, Y: math.Sqrt(3) / 2}, Diameter: 10}, 6 / math.Cos(math.Pi/6) * hole},
	}
	for _, tt := range tests {
		b := tube
		b.Bores = []Bore{tt.bore}
		if err := b.Validate(); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		near(t, tt.name, plain-b.Volume(), tt.taken, 1e-8)
	}
	block := Straight(Rect(60, 40, 0), 50)
	block.Bores = []Bore{{At: r3.Vec{X: 10, Y: 5, Z: 99}, Dir: r3.Vec{Z: -1}, Diameter: 10, Depth: 20}}
	if err := block.Validate(); err != nil {
		t.Error(err)
	}
	near(t, "blind in an end", block.Volume(), 60*40*50-20*hole, 1e-8)
	v := 20 * hole
	nearVec(t, "its centroid", block.Centroid(), r3.Scale(1/(120000-v), r3.Sub(r3.Vec{Z: 25 * 120000}, r3.Scale(v, r3.Vec{X: 10, Y: 5, Z: 40}))), 1e-10)
	// Steiner: ∫xy of the hole about the block's axes is v·10·5.
	c := block.Centroid()
	near(t, "its product of inertia", block.Inertia()[0][1], v*10*5+(120000-v)*c.X*c.Y, 1e-5)
}

func TestValidate(t *testing.T) {
	tube := RectTube(60, 40, 3, 6)
	with := func(b Bore) Solid {
		p := Straight(tube, 200)
		p.Bores = []Bore{b}
		return p
	}
	across := r3.Vec{Y: 1}
	tests := []struct {
		name    string
		body    Solid
		feature string
	}{
		{"edge", with(Bore{At: r3.Vec{X: 21, Z: 50}, Dir: across, Diameter: 10}), "bore"},
		{"round face", with(Bore{At: r3.Vec{X: 28, Z: 50}, Dir: across, Diameter: 1}), "bore"},
		{"end", with(Bore{At: r3.Vec{Z: 4}, Dir: across, Diameter: 10}), "bore"},
		{"miss", with(Bore{At: r3.Vec{X: 40, Z: 50}, Dir: across, Diameter: 10}), "bore"},
		{"wall", with(Bore{At: r3.Vec{X: 27.5, Z: 50}, Dir: across, Diameter: 10}), "bore"},
		{"aslant", with(Bore{At: r3.Vec{Z: 50}, Dir: r3.Vec{Y: 1, Z: 1}, Diameter: 10}), "bore"},
		{"no size", with(Bore{At: r3.Vec{Z: 50}, Dir: across}), "bore"},
		{"NaN", with(Bore{At: r3.Vec{Z: math.NaN()}, Dir: across, Diameter: 4}), "bore"},
		{"bottom", with(Bore{At: r3.Vec{Z: 50}, Dir: r3.Vec{X: .2, Y: 1}, Diameter: 10, Depth: .5}), "bore"},
		{"crossing bores", Prism{Profile: Rect(40, 40, 0), To: Flat(90), Bores: []Bore{
			{At: r3.Vec{Z: 50}, Dir: r3.Vec{X: 1}, Diameter: 10}, {At: r3.Vec{Z: 55}, Dir: across, Diameter: 10}}}, "bore"},
		{"hole outside", Straight(NewProfile(contour.Polygon(r2.Vec{}, r2.Vec{X: 50}, r2.Vec{X: 50, Y: 50}), contour.Circle(r2.Vec{X: 10, Y: 40}, 3)), 5), "hole"},
		{"hole on the edge", Straight(NewProfile(contour.Polygon(r2.Vec{}, r2.Vec{X: 50}, r2.Vec{X: 50, Y: 50}), contour.Circle(r2.Vec{X: 30, Y: 3}, 3)), 5), "hole"},
		{"hole in hole", Straight(NewProfile(contour.Circle(r2.Vec{}, 50), contour.Circle(r2.Vec{}, 30), contour.Circle(r2.Vec{}, 10)), 5), "hole"},
		{"holes meet", Straight(NewProfile(contour.Circle(r2.Vec{}, 50), contour.Circle(r2.Vec{}, 10), contour.Circle(r2.Vec{X: 19}, 10)), 5), "hole"},
		{"ends cross", Prism{Profile: tube, To: End{Z: 20, Tilt: r2.Vec{X: 1}}}, "ends"},
		{"ends swapped", Prism{Profile: tube, From: Flat(10)}, "ends"},
		{"outline falls", Turned{Outline: []r2.Vec{{X: 5}, {X: 5, Y: 10}, {X: 8, Y: 9}}}, "outline"},
		{"bore too wide", Turned{Outline: []r2.Vec{{X: 5}, {X: 5, Y: 10}}, Bore: 10}, "outline"},
		{"waist of nothing", Turned{Outline: []r2.Vec{{X: 5}, {Y: 5}, {X: 5, Y: 10}}}, "outline"},
	}
	for _, tt := range tests {
		var e *Error
		if err := tt.body.Validate(); !errors.As(err, &e) || e.Feature != tt.feature || e.Hint == "" {
			t.Errorf("%s: %v, want an error about %s", tt.name, err, tt.feature)
		}
	}
	// Bores that pass each other in the hollow of a tube are sound.
	p := Straight(tube, 200)
	p.Bores = []Bore{{At: r3.Vec{Z: 50}, Dir: r3.Vec{X: 1}, Diameter: 10}, {At: r3.Vec{Z: 50}, Dir: across, Diameter: 10}}
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
}

// drawBody draws one of the kinds of body that parts are made of, and sound.
func drawBody(t *rapid.T) Solid {
	body := drawKind(t)
	if err := body.Validate(); err != nil {
		t.Fatal(err)
	}
	return body
}

func drawKind(t *rapid.T) Solid {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	end := func(name string, z float64) End {
		return End{Z: z, Tilt: r2.Vec{X: f(name+" tilt x", -1, 1), Y: f(name+" tilt y", -1, 1)}}
	}
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0:
		p := Prism{Profile: RectTube(f("w", 40, 80), f("h", 40, 80), 3, f("corner", 0, 8)), From: end("from", 0), To: end("to", f("length", 200, 900))}
		p.Bores = []Bore{{At: r3.Vec{X: f("bore x", -2, 2), Z: 100}, Dir: r3.Vec{X: f("bore slant", -.1, .1), Y: 1}, Diameter: 8}}
		return p
	case 1:
		a, c := r2.Vec{X: f("a", 40, 90)}, r2.Vec{X: f("b", 20, 90), Y: f("c", 30, 70)}
		return Straight(NewProfile(contour.Polygon(r2.Vec{}, a, c), contour.Circle(r2.Scale(1./3, r2.Add(a, c)), 2)), f("thickness", 3, 20))
	case 2:
		return Prism{Profile: Pipe(f("d", 20, 60), 2), From: end("from", 0), To: end("to", f("length", 150, 400))}
	case 3:
		return Straight(Rect(f("w", 30, 80), f("h", 30, 80), 0), f("length", 3, 90))
	default:
		r := f("r", 8, 30)
		return Turned{Outline: []r2.Vec{{X: r}, {X: r, Y: 20}, {X: r + f("step", 1, 9), Y: 20}, {X: r + f("far", 1, 9), Y: 60}}, Bore: f("bore", 0, 10)}
	}
}

func drawPlacement(t *rapid.T, name string, reach float64) Placement {
	f := func(s string, r float64) float64 { return rapid.Float64Range(-r, r).Draw(t, name+s) }
	axis := r3.Vec{X: f("ax", 1), Y: f("ay", 1), Z: f("az", 1)}
	if r3.Norm(axis) < 1e-3 {
		axis = r3.Vec{Z: 1}
	}
	p := Turn(r3.Vec{}, axis, f("angle", math.Pi))
	p.Origin = r3.Vec{X: f("x", reach), Y: f("y", reach), Z: f("z", reach)}
	return p
}

// A body cut in two by a plane is the sum of both parts, whatever the cut.
func TestCutInTwo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		prof := NewProfile(contour.Path{Vertices: []contour.Vertex{{X: 1, Y: 2, Bulge: f("bulge", -.6, 1)}, {X: 40, Y: f("y", -9, 9)}, {X: 30, Y: 40, Bulge: .4}}})
		whole := Prism{Profile: prof, From: End{Z: 0, Tilt: r2.Vec{X: .3}}, To: End{Z: 200, Tilt: r2.Vec{Y: -.5}}}
		cut := End{Z: 100, Tilt: r2.Vec{X: f("tx", -.5, .5), Y: f("ty", -.5, .5)}}
		low, high := whole, whole
		low.To, high.From = cut, cut
		m := whole.moments()
		m.less(low.moments(), World())
		m.less(high.moments(), World())
		scale := whole.Volume()
		if math.Abs(m.volume) > 1e-10*scale || r3.Norm(m.first) > 1e-8*scale || math.Abs(m.second[0][2]) > 1e-6*scale {
			t.Errorf("what is left: %+v", m)
		}
	})
}

// The inertia of a body does not depend on where in its frame it stands.
func TestInertiaStays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dx, dz := rapid.Float64Range(-50, 50).Draw(t, "dx"), rapid.Float64Range(-50, 50).Draw(t, "dz")
		path := contour.Path{Vertices: []contour.Vertex{{X: 1, Y: 2, Bulge: .4}, {X: 40, Y: 3}, {X: 30, Y: 40, Bulge: -.2}}}
		a := Prism{Profile: NewProfile(path), To: End{Z: 90, Tilt: r2.Vec{X: .4}}}
		b := Prism{Profile: NewProfile(path.Place(0, r2.Vec{X: dx})), From: Flat(dz), To: End{Z: 90 + dz - .4*dx, Tilt: r2.Vec{X: .4}}}
		ia, ib := a.Inertia(), b.Inertia()
		for i := range 3 {
			for j := range 3 {
				if math.Abs(ia[i][j]-ib[i][j]) > 1e-9*ia[0][0] {
					t.Errorf("[%d][%d]: %v and %v", i, j, ia[i][j], ib[i][j])
				}
			}
		}
	})
}

func TestMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawBody(t)
		p := drawPlacement(t, "at ", 500)
		m, q := Mirrored(s), p.Mirrored()
		if v := s.Volume(); math.Abs(m.Volume()-v) > 1e-12*v {
			t.Errorf("volume %v, want %v", m.Volume(), v)
		}
		mirror := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
		if a, b := mirror(p.Point(s.Centroid())), q.Point(m.Centroid()); r3.Norm(r3.Sub(a, b)) > 1e-9 {
			t.Errorf("centroid %v, want %v", b, a)
		}
		low, high := Bounds(s, p)
		mlow, mhigh := Bounds(m, q)
		low.Y, high.Y = -high.Y, -low.Y
		if r3.Norm(r3.Sub(low, mlow))+r3.Norm(r3.Sub(high, mhigh)) > 1e-9 {
			t.Errorf("bounds %v %v, want %v %v", mlow, mhigh, low, high)
		}
		if d := r3.Norm(r3.Sub(r3.Cross(q.X, q.Y), q.Z)); d > 1e-12 {
			t.Errorf("the mirrored frame is not right-handed")
		}
		if q.Mirrored() != p {
			t.Errorf("mirrored twice: %v, want %v", q.Mirrored(), p)
		}
		twice := Mirrored(m)
		if a, ok := s.(Prism); ok {
			b := twice.(Prism)
			if !sameProfile(a.Profile, b.Profile) || a.From != b.From || a.To != b.To || len(a.Bores) != len(b.Bores) || len(a.Bores) > 0 && a.Bores[0] != b.Bores[0] {
				t.Errorf("mirrored twice: %+v, want %+v", b, a)
			}
		}
	})
}

func sameProfile(a, b *Profile) bool {
	if len(a.holes) != len(b.holes) {
		return false
	}
	for i := range 1 + len(a.holes) {
		p, q := a.loop(i), b.loop(i)
		if len(p.Vertices) != len(q.Vertices) {
			return false
		}
		for k := range p.Vertices {
			if p.Vertices[k] != q.Vertices[k] {
				return false
			}
		}
	}
	return true
}

func TestPlacement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPlacement(t, "p", 900), drawPlacement(t, "q", 900)
		v := r3.Vec{X: 3, Y: -7, Z: 11}
		if d := r3.Norm(r3.Sub(p.Then(q).Point(v), p.Point(q.Point(v)))); d > 1e-9 {
			t.Errorf("Then: off by %v", d)
		}
		if d := r3.Norm(r3.Sub(p.Inverse().Point(p.Point(v)), v)); d > 1e-9 {
			t.Errorf("Inverse: off by %v", d)
		}
	})
	// A quarter turn about a vertical line takes +x to +y.
	nearVec(t, "turn", Turn(r3.Vec{X: 10}, r3.Vec{Z: 5}, math.Pi/2).Point(r3.Vec{X: 12, Z: 1}), r3.Vec{X: 10, Y: 2, Z: 1}, 1e-12)
	a := Along(r3.Vec{X: 1}, r3.Vec{X: 9}, r3.Vec{X: 1, Z: 3})
	if a.Z != (r3.Vec{X: 1}) || a.Y != (r3.Vec{Z: 1}) || a.X != (r3.Vec{Y: 1}) {
		t.Errorf("Along: %+v", a)
	}
	if up := Along(r3.Vec{}, r3.Vec{Z: 5}, r3.Vec{Z: 1}); up.Y != (r3.Vec{X: 1}) {
		t.Errorf("Along with up along the body: %+v", up)
	}
}

// An oblique end of a round bar reaches up by its tilt times the radius.
func TestBounds(t *testing.T) {
	bar := Prism{Profile: Disc(40), To: End{Z: 100, Tilt: r2.Vec{X: .5, Y: 0}}}
	low, high := Bounds(bar, World())
	nearVec(t, "low", low, r3.Vec{X: -20, Y: -20}, 1e-12)
	nearVec(t, "high", high, r3.Vec{X: 20, Y: 20, Z: 110}, 1e-12)
	// A disc seen on a slope of 30 degrees is 2r sin high.
	low, high = Bounds(Round(40, 10), Turn(r3.Vec{}, r3.Vec{Y: 1}, math.Pi/6))
	near(t, "height", high.Z-low.Z, 40*math.Sin(math.Pi/6)+10*math.Cos(math.Pi/6), 1e-12)
}

func BenchmarkNewProfile(b *testing.B) {
	b.Run("tube", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			RectTube(60, 40, 3, 6)
		}
	})
	b.Run("mirrored", func(b *testing.B) {
		for b.Loop() {
			RectTube(60, 40, 3, 6).Mirrored()
		}
	})
}

func BenchmarkVolume(b *testing.B) {
	p := Prism{Profile: RectTube(60, 40, 3, 6), From: End{Tilt: r2.Vec{X: 1}}, To: End{Z: 400, Tilt: r2.Vec{Y: .5}}}
	p.Bores = []Bore{{At: r3.Vec{X: 5, Z: 150}, Dir: r3.Vec{Y: 1}, Diameter: 10}}
	b.Run("mitred and drilled", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			p.Volume()
		}
	})
}

// What a bore takes out reaches in every direction as far as the farthest point of its
// two rims, which lie aslant in both ways.
func TestStretchReaches(t *testing.T) {
	p := Prism{Profile: RectTube(60, 60, 5, 8), From: End{Tilt: r2.Vec{X: .3, Y: -.4}}, To: End{Z: 200, Tilt: r2.Vec{X: -.2, Y: .5}}}
	solid := p
	solid.Profile = Rect(60, 60, 0)
	for name, b := range map[string]Bore{"across": {At: r3.Vec{X: 4, Z: 100}, Dir: r3.Vec{X: .2, Y: 1}, Diameter: 12}, "endways": {At: r3.Vec{X: 5, Y: -6}, Dir: r3.Vec{Z: 1}, Diameter: 12}} {
		body := p
		if name == "endways" {
			body = solid
		}
		for _, s := range body.cut(b) {
			for _, d := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: -1, Y: 2, Z: 3}, {X: 1, Y: -2, Z: -3}, {Y: -1, Z: 1}, {X: 2, Y: 1, Z: -1}} {
				most := math.Inf(-1)
				for _, e := range []End{s.enter.plane, s.out.plane} {
					for k := range 3600 {
						sin, cos := math.Sincos(float64(k) * math.Pi / 1800)
						most = max(most, r3.Dot(d, s.at.Point(e.over(r2.Vec{X: s.radius * cos, Y: s.radius * sin}))))
					}
				}
				got := s.Support(d)
				if reach := r3.Dot(d, got); math.Abs(reach-most) > 1e-3 {
					t.Errorf("%s along %v: reaches %v, want %v", name, d, reach, most)
				}
			}
		}
	}
}

// A turned body falls into pieces where its outline turns inward, each convex, which
// together reach as high as it does: a spool of two flanges on a core has three.
func TestTurnedPieces(t *testing.T) {
	spool := Turned{Outline: []r2.Vec{{X: 20}, {X: 20, Y: 5}, {X: 8, Y: 5}, {X: 8, Y: 45}, {X: 20, Y: 45}, {X: 20, Y: 50}}}
	pieces := spool.Pieces()
	type span struct{ low, high, radius float64 }
	want := []span{{0, 5, 20}, {5, 45, 8}, {45, 50, 20}}
	if len(pieces) != len(want) {
		t.Fatalf("%d pieces, want %d", len(pieces), len(want))
	}
	for i, p := range pieces {
		got := span{p.Support(r3.Vec{Z: -1}).Z, p.Support(r3.Vec{Z: 1}).Z, p.Support(r3.Vec{X: 1}).X}
		if got != want[i] {
			t.Errorf("piece %d is %v, want %v", i, got, want[i])
		}
	}
	if n := len(Turned{Outline: []r2.Vec{{}, {X: 30, Y: 10}, {Y: 80}}}.Pieces()); n != 1 {
		t.Errorf("a double cone has %d pieces", n)
	}
}
