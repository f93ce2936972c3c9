package cam

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// The rest of a circle closes with the radii wanted.
func TestCloseCircle(t *testing.T) {
	s := sectorsOver(60*deg, 300*deg, sectorTurn, 80)
	chord := r2.Scale(80, r2.Sub(normal(300*deg), normal(60*deg)))
	if !closeBy(s, chord, 36) {
		t.Fatal("a circle does not close")
	}
	for _, x := range s {
		near(t, "radius", x.radius, 80, 1e-9)
	}
}

// A chord against the direction of travel cannot be bridged convexly by less
// than half a turn.
func TestCloseImpossible(t *testing.T) {
	s := sectorsOver(0, 90*deg, sectorTurn, 80)
	if closeBy(s, r2.Vec{X: 50, Y: -50}, 36) {
		t.Error("a backward chord is bridged")
	}
}

// For chords that can be bridged: the sectors lead along the chord, none is too
// narrow, and the multipliers prove the radii nearest (Karush-Kuhn-Tucker): the
// change of each free radius, times its width, is one linear function of its
// displacement, and no bound pushes the wrong way.
func TestCloseOptimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.Float64Range(-3, 3).Draw(t, "from")
		turn := rapid.Float64Range(30, 300).Draw(t, "turn") * deg
		s := sectorsOver(from, from+turn, sectorTurn, rapid.Float64Range(36, 120).Draw(t, "wanted"))
		var chord r2.Vec
		for i := range s {
			chord = r2.Add(chord, r2.Scale(rapid.Float64Range(40, 150).Draw(t, "radius"), s[i].move()))
		}
		if !closeBy(s, chord, 36) {
			t.Fatal("not bridged")
		}
		var end r2.Vec
		var free []sector
		for _, x := range s {
			end = r2.Add(end, r2.Scale(x.radius, x.move()))
			if x.radius < 36 {
				t.Fatalf("radius %v", x.radius)
			}
			if x.radius > 36 {
				free = append(free, x)
			}
		}
		if gap := r2.Norm(r2.Sub(end, chord)); gap > 1e-7 {
			t.Fatalf("gap %v", gap)
		}
		if len(free) < 2 {
			return
		}
		// The multipliers from two free sectors must serve all others.
		force := func(x sector) float64 { return (x.radius - x.wanted) * (x.to - x.from) }
		a, b := free[0], free[len(free)-1]
		det := r2.Cross(a.move(), b.move())
		if math.Abs(det) < 1e-3 {
			return
		}
		lambda := r2.Vec{
			X: (force(a)*b.move().Y - force(b)*a.move().Y) / det,
			Y: (force(b)*a.move().X - force(a)*b.move().X) / det,
		}
		for _, x := range s {
			push := r2.Dot(lambda, x.move()) - force(x)
			if x.radius > 36 && math.Abs(push) > 1e-5 || push > 1e-5 {
				t.Fatalf("sector at %v is pushed by %v", x.from, push)
			}
		}
	})
}
