package cam

import (
	"errors"
	"math"
	"testing"

	"armwright/geometry/contour"
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
