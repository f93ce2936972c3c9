package cam

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// A round cam gives its radius wherever its cable leads, and the tangent from a place at
// a distance d is as long as the root of d² less the radius squared.
func TestLedOfCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
		radius := draw("radius", 20, 150)
		law, err := NewLaw(0.1, 2.2, []float64{radius, radius, radius, radius})
		if err != nil {
			t.Fatal(err)
		}
		p := Profile{Law: law, Ratio: draw("ratio", 1, 2), Guide: Guide{X: -400, Y: -200, Side: Open}}
		to := r2.Rotate(r2.Vec{X: -400, Y: -200}, draw("turned", -0.5, 0.5), r2.Vec{})
		r, err := p.Led(draw("theta", 0.1, 2.2), to)
		if err != nil {
			t.Fatal(err)
		}
		if want := math.Sqrt(r2.Norm2(to) - radius*radius); math.Abs(r.Arm-radius) > 1e-9 || math.Abs(r.Span-want) > 1e-6 {
			t.Errorf("arm %v and span %v, want %v and %v", r.Arm, r.Span, radius, want)
		}
	})
}

// To the leaving point of its own guide the cable runs as it does to the guide.
func TestLedToOwnGuide(t *testing.T) {
	law, err := NewLaw(0.1, 2.2, []float64{50, 60, 75, 95, 115, 120, 110, 90})
	if err != nil {
		t.Fatal(err)
	}
	for _, side := range []int{Open, Crossed} {
		p := Profile{Law: law, Ratio: 1.5, Guide: Guide{X: -300, Y: -150, Radius: 48, Side: side}}
		for theta := 0.1; theta < 2.2; theta += 0.1 {
			want, err := p.At(theta)
			if err != nil {
				t.Fatal(err)
			}
			got, err := p.Led(theta, want.Leave)
			if err != nil || math.Abs(got.Arm-want.Arm) > 1e-6 || r2.Norm(r2.Sub(got.Contact, want.Contact)) > 1e-4 {
				t.Errorf("side %d at %.1f: %+v (%v), want arm %v at %v", side, theta, got, err, want.Arm, want.Contact)
			}
		}
	}
	p := Profile{Law: law, Ratio: 1.5, Guide: Guide{X: -300, Y: -150, Radius: 48, Side: Open}}
	var e *Error
	if _, err := p.Led(1, r2.Vec{X: 10}); !errors.As(err, &e) {
		t.Errorf("a place within the cam gives %v", err)
	}
}
