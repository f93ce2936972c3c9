package person

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func fromRight(v r3.Vec) r2.Vec { return r2.Vec{X: v.X, Y: v.Z} }

// The outline of two balls that overlap is as long as two circles less what each hides of
// the other: an arc of twice acos(d/2r) a ball, by hand. Of one inside another nothing is
// seen, and of equal ones a single outline.
func TestSilhouette(t *testing.T) {
	const r = 100.0
	one := func(x, radius float64) Body { return newBody(Head, false, ball(r3.Vec{X: x, Z: 500}, radius)) }
	for _, c := range []struct {
		name   string
		bodies []Body
		length float64
	}{
		{"apart", []Body{one(0, r), one(300, r)}, 4 * math.Pi * r},
		{"overlapping", []Body{one(0, r), one(120, r)}, 4*math.Pi*r - 2*2*math.Acos(0.6)*r},
		{"inside", []Body{one(0, r), one(20, r/2)}, 2 * math.Pi * r},
		{"alike", []Body{one(0, r), one(0, r)}, 2 * math.Pi * r},
	} {
		length := 0.0
		for _, line := range Silhouette(c.bodies, fromRight, 0.1) {
			for i := 1; i < len(line); i++ {
				length += r2.Norm(r2.Sub(line[i], line[i-1]))
			}
			for _, p := range line {
				for _, b := range c.bodies {
					at := b.Balls()[0]
					if in := at.Radius - r2.Norm(r2.Sub(p, fromRight(at.Centre))); in > silhouetteStep {
						t.Errorf("%s: %v lies %.1f mm inside", c.name, p, in)
					}
				}
			}
		}
		if math.Abs(length-c.length) > 4*silhouetteStep {
			t.Errorf("%s: %.1f mm long, want %.1f", c.name, length, c.length)
		}
	}
}
