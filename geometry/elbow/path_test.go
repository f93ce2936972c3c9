package elbow

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// The path is the forearm's closed form at every angle, and seen from an axis
// each of its points has the distance and the place along it that it should.
func TestPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Hinge{
			Tilt:   rapid.Float64Range(-0.2, 0.4).Draw(t, "tilt"),
			Valgus: rapid.Float64Range(-0.2, 0.4).Draw(t, "valgus"),
		}
		length := rapid.Float64Range(200, 450).Draw(t, "length")
		turn := rapid.Float64Range(-1, 1)
		axis := r3.Unit(r3.Vec{X: turn.Draw(t, "x"), Y: turn.Draw(t, "y"), Z: 1.5})
		pivot := r3.Vec{X: 30 * turn.Draw(t, "px"), Y: 30 * turn.Draw(t, "py"), Z: 30 * turn.Draw(t, "pz")}
		p := h.Path(length)
		var sin, cos []float64
		for theta := -0.1; theta < 2.6; theta += 0.3 {
			s, c := math.Sincos(theta)
			sin, cos = append(sin, s), append(cos, c)
		}
		all := p.Seen(nil, pivot, axis, sin, cos)
		for i, theta := 0, -0.1; theta < 2.6; i, theta = i+1, theta+0.3 {
			want := r3.Scale(length, h.Forearm(theta))
			if d := r3.Norm(r3.Sub(p.At(sin[i], cos[i]), want)); d > 1e-10 {
				t.Fatalf("off by %g mm at %g rad", d, theta)
			}
			if q := seen(want, pivot, axis); math.Abs(all[i].Radial-q.Radial) > 1e-9 || math.Abs(all[i].Axial-q.Axial) > 1e-9 {
				t.Fatalf("seen %v, want %v", all[i], q)
			}
		}
	})
}

func BenchmarkSeen(b *testing.B) {
	sin, cos := make([]float64, 140), make([]float64, 140)
	for i := range sin {
		sin[i], cos[i] = math.Sincos(float64(i) / 60)
	}
	p := FromCarrying(0.2, 0.5).Path(325)
	axis := r3.Unit(r3.Vec{X: 0.1, Y: 0.1, Z: 1})
	points := make([]AxisPoint, 0, 140)
	for b.Loop() {
		points = p.Seen(points[:0], r3.Vec{X: 3}, axis, sin, cos)
		Mismatch(points)
	}
}

// Three vectors stand for a path in whatever frame they are given.
func TestPathAtInAnyFrame(t *testing.T) {
	p := Path{Still: r3.Vec{X: 1, Y: 2, Z: 3}, Sin: r3.Vec{X: 10, Y: 20, Z: 30}, Cos: r3.Vec{X: 100, Y: 200, Z: 300}}
	got, want := p.At(0.6, 0.8), r3.Vec{X: 87, Y: 174, Z: 261} // 1 + 6 + 80, and so on
	if r3.Norm(r3.Sub(got, want)) > 1e-12 {
		t.Errorf("%v, want %v", got, want)
	}
}
