package assembly

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Every position has one hole in the outer tube that meets one in the inner, and no two
// holes of a tube are nearer than two pin diameters.
func TestDetents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pitch := rapid.Float64Range(2, 60).Draw(t, "pitch")
		n := rapid.IntRange(1, 40).Draw(t, "positions")
		const pin = 10.0
		d := NewDetents(pitch, n, pin)
		inner := d.Inner()
		for k := range n {
			at := d.Outer(d.Hole(k)) + float64(k)*pitch
			met := 0
			for _, z := range inner {
				if math.Abs(z-at) < 1e-9*(1+at) {
					met++
				}
			}
			if met != 1 {
				t.Fatalf("position %d: %d holes", k, met)
			}
		}
		for i := range inner {
			for j := range i {
				if math.Abs(inner[i]-inner[j]) < 2*pin-1e-9 {
					t.Fatalf("holes %.2f apart", inner[i]-inner[j])
				}
			}
		}
		for i := range d.Every {
			if i > 0 && d.Outer(i)-d.Outer(i-1) < 2*pin-1e-9 {
				t.Fatalf("outer holes %.2f apart", d.Outer(i)-d.Outer(i-1))
			}
		}
	})
}
