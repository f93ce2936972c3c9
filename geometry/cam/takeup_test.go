package cam

import (
	"errors"
	"math"
	"testing"

	"armwright/geometry/contour"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// A round cam of radius 60 that turns by 1.2 rad winds up 72 mm, open, crossed
// or tied, and gives it back.
func TestTakeUpOfACircle(t *testing.T) {
	root := contour.Circle(Support{}.Point(0), 58)
	for _, g := range []Guide{{X: 50, Y: -400, Radius: 45, Side: Open}, {X: 50, Y: -400, Radius: 45, Side: Crossed}, {X: -300, Side: Open}} {
		for _, sign := range []float64{1, -1} {
			got, err := MeasureTakeUp(root, 4, g, 1.5, 0.4, 0.4+sign*0.8)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "take-up", got, sign*72, 1e-9)
		}
	}
	var e *Error
	hollow := contour.Path{Closed: true, Vertices: append([]contour.Vertex(nil), root.Vertices...)}
	hollow.Vertices[0].Bulge *= -0.1
	if _, err := MeasureTakeUp(hollow, 4, Guide{X: 50, Y: -400, Radius: 45, Side: Open}, 1, 0, 1); !errors.As(err, &e) {
		t.Errorf("hollow outline: %v", err)
	}
}

// Work on the load equals the work of the torque (virtual work): the cable drawn
// in, measured along the outline, is the integral of the moment arm, measured
// from tangents, within 0.1 %; take-up identity 9 of the check list (D).
func TestTakeUpIsTheIntegralOfTheArm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProfile(t)
		out, err := p.Outline(Plate{Cable: 4, MinRadius: 10})
		if err != nil {
			t.Skip()
		}
		from, to := p.Law.Range()
		got, err := MeasureTakeUp(out.Root, 4, p.Guide, p.Ratio, from, to)
		if err != nil {
			t.Fatal(err)
		}
		sum := integral(func(theta float64) float64 {
			r, err := Measure(out.Root, 4, p.Guide, p.Ratio, theta)
			if err != nil {
				t.Fatal(err)
			}
			return r.Arm * p.Ratio
		}, from, to)
		if math.Abs(got-sum) > 1e-4*sum {
			t.Fatalf("drawn in %.5f mm, integral of the arm %.5f", got, sum)
		}
	})
}

// The gauge's quick support of a convex outline is the outline's own, corners and
// lines included, and a hollow one is bridged all the same.
func TestGaugeSupport(t *testing.T) {
	p := Profile{peaked(t, 60, 110), Guide{X: -185, Y: -236, Radius: 48, Side: Open}, 1.5}
	out, err := p.Outline(plate())
	if err != nil {
		t.Fatal(err)
	}
	square := contour.Polygon(r2.Vec{X: 40, Y: 30}, r2.Vec{X: -40, Y: 30}, r2.Vec{X: -40, Y: -30}, r2.Vec{X: 40, Y: -30})
	hollow := contour.Polygon(r2.Vec{X: 40, Y: 30}, r2.Vec{X: 0, Y: 5}, r2.Vec{X: -40, Y: 30}, r2.Vec{X: -40, Y: -30}, r2.Vec{X: 40, Y: -30})
	for name, root := range map[string]contour.Path{"cam": out.Root, "square": square, "hollow": hollow, "circle": contour.Circle(r2.Vec{X: 3}, 50)} {
		m, err := NewGauge(root, 4, p.Guide, 1)
		if err != nil {
			t.Fatal(err)
		}
		if convex := m.from != nil; convex != (name != "hollow") {
			t.Errorf("%s: convex %v", name, convex)
		}
		for phi := -7.0; phi < 7; phi += 0.01 {
			want, _ := root.Support(normal(phi))
			got, at := m.support(phi, normal(phi))
			if math.Abs(got-want) > 1e-9 || math.Abs(r2.Dot(at, normal(phi))-want) > 1e-9 {
				t.Fatalf("%s at %.2f: %.9f, want %.9f", name, phi, got, want)
			}
		}
	}
}

// Exact synthesis of a cam and measurement of its outline at every degree of the
// loaded range: what a slider on the page asks for.
func BenchmarkSynthesisAndMeasurement(b *testing.B) {
	const degree = math.Pi / 180
	p := Profile{peaked(b, 60, 110), Guide{X: -185, Y: -236, Radius: 48, Side: Open}, 1.5}
	from, to := p.Law.Range()
	values := p.Law.Values()
	for b.Loop() {
		law, err := NewLaw(from, to, values)
		if err != nil {
			b.Fatal(err)
		}
		q := Profile{law, p.Guide, p.Ratio}
		out, err := q.Outline(plate())
		if err != nil {
			b.Fatal(err)
		}
		m, err := NewGauge(out.Root, 4, q.Guide, q.Ratio)
		if err != nil {
			b.Fatal(err)
		}
		for theta := from; theta <= to+1e-9; theta += degree {
			if _, err := m.At(theta); err != nil {
				b.Fatal(err)
			}
		}
	}
}
