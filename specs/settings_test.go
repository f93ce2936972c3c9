package specs

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// Toe is seen from above and cant from the front; the vector is of unit length
// and gives both back.
func TestAxisVector(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Axis{Toe: rapid.Float64Range(-0.78, 0.78).Draw(t, "toe"), Cant: rapid.Float64Range(-0.78, 0.78).Draw(t, "cant")}
		v := a.Vector()
		if math.Abs(r3.Norm(v)-1) > 1e-12 || v.Y >= 0 {
			t.Fatalf("%+v gives %v", a, v)
		}
		if toe, cant := math.Atan(v.X/v.Y), math.Atan(-v.Z/v.Y); math.Abs(toe-a.Toe) > 1e-12 || math.Abs(cant-a.Cant) > 1e-12 {
			t.Fatalf("%+v is seen at %g and %g", a, toe, cant)
		}
		if b := AxisOf(r3.Scale(3, v)); math.Abs(b.Toe-a.Toe) > 1e-12 || math.Abs(b.Cant-a.Cant) > 1e-12 {
			t.Fatalf("%+v comes back as %+v", a, b)
		}
	})
}

// The mean of two axes halves the angle between them; the sum of unit vectors.
func TestMeanAxis(t *testing.T) {
	p := Pivots{Height: 800, Spacing: 420, Axes: []Axis{{Toe: 0.1, Cant: 0.05}, {Toe: 0.3, Cant: 0.2}}}
	m, a, b := p.MeanAxis(), p.Axes[0].Vector(), p.Axes[1].Vector()
	if math.Abs(r3.Dot(m, a)-r3.Dot(m, b)) > 1e-12 || math.Abs(r3.Dot(m, r3.Cross(a, b))) > 1e-12 {
		t.Errorf("%v does not halve %v and %v", m, a, b)
	}
	if got, want := p.Right(), (r3.Vec{Y: -210, Z: 800}); got != want {
		t.Errorf("right pivot at %v", got)
	}
}

func TestPositions(t *testing.T) {
	seat, foot := &Seat{Lowest: 400, Pitch: 20, Positions: 6}, &FootPlate{Lowest: 50, Pitch: 25, Positions: 3}
	handle := Handle{Least: 250, Pitch: 10, Positions: 8}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"lowest seat", seat.Top(0), 400}, {"fourth seat", seat.Top(3), 460}, {"third foot plate", foot.Height(2), 100},
		{"least radius", handle.Radius(0), 250}, {"greatest radius", handle.Greatest(), 320},
	} {
		if c.got != c.want {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
}
