package cam

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// A right-angle corner of radius 50: by hand the sheave's centre lies 50 from
// both lines and the tangent points 50 from the corner.
func TestCornerByHand(t *testing.T) {
	s, ok := Corner("a", r3.Vec{X: 100}, r3.Vec{X: 1}, r3.Vec{Z: 1}, 50)
	want := Sheave{Name: "a", Axis: r3.Vec{Y: -1}, Radius: 50, Turn: math.Pi / 2, In: r3.Vec{X: 50}, Out: r3.Vec{X: 100, Z: 50}, Centre: r3.Vec{X: 50, Z: 50}}
	if !ok || r3.Norm(r3.Sub(s.Centre, want.Centre))+r3.Norm(r3.Sub(s.In, want.In))+r3.Norm(r3.Sub(s.Out, want.Out))+r3.Norm(r3.Sub(s.Axis, want.Axis)) > 1e-9 || math.Abs(s.Turn-want.Turn) > 1e-12 {
		t.Errorf("%+v", s)
	}
	if _, ok := Corner("a", r3.Vec{}, r3.Vec{X: 1}, r3.Vec{X: 1}, 50); ok {
		t.Error("a straight cable has a corner")
	}
	r := Return("b", r3.Vec{Z: 900}, r3.Vec{Z: 1}, r3.Vec{Y: 1}, 60)
	if r.Out != (r3.Vec{Y: 120, Z: 900}) || r.Centre != (r3.Vec{Y: 60, Z: 900}) || math.Abs(r.Fleet(r3.Vec{Z: 1})) > 1e-12 {
		t.Errorf("%+v", r)
	}
}

func TestCornerProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := func(name string) r3.Vec {
			c := rapid.Float64Range(-1, 1)
			v := r3.Vec{X: c.Draw(t, name+"x"), Y: c.Draw(t, name+"y"), Z: c.Draw(t, name+"z")}
			if r3.Norm(v) < 0.1 {
				t.Skip()
			}
			return r3.Unit(v)
		}
		in, out := unit("in"), unit("out")
		s, ok := Corner("s", r3.Vec{X: 10, Y: -20, Z: 30}, in, out, 48)
		if !ok || s.Turn > 3 {
			t.Skip()
		}
		for _, v := range []float64{
			r3.Norm(r3.Sub(s.In, s.Centre)) - 48, r3.Norm(r3.Sub(s.Out, s.Centre)) - 48,
			r3.Dot(r3.Sub(s.In, s.Centre), in) / 48, r3.Dot(r3.Sub(s.Out, s.Centre), out) / 48,
			s.Fleet(in), s.Fleet(out), r3.Dot(r3.Sub(s.In, s.Centre), s.Axis),
		} {
			if math.Abs(v) > 1e-6 {
				t.Fatalf("%g of %+v", v, s)
			}
		}
		// Right-handed about the axis: the cable moves on as the sheave turns.
		if r3.Dot(r3.Cross(s.Axis, r3.Sub(s.In, s.Centre)), in) <= 0 {
			t.Fatal("the sheave turns the wrong way")
		}
	})
}

// Check 15 of standards.md 10 (D; the sizes for 180, 90 and 60 degrees of wrap also
// in a rigging table, S): load on the axle over the tension, by wrap.
func TestSheaveLoad(t *testing.T) {
	for _, c := range []struct{ wrap, want float64 }{{60, 1}, {90, 1.4142}, {120, 1.7321}, {180, 2}} {
		if got := (Sheave{Turn: c.wrap * deg}).Load(1); math.Abs(got-c.want) > 5e-5 {
			t.Errorf("%g degrees: %.5f, want %.4f", c.wrap, got, c.want)
		}
	}
	// The same from the two lines that meet in a corner.
	in, out := r3.Unit(r3.Vec{X: 1, Y: 2}), r3.Unit(r3.Vec{Y: -1, Z: 3})
	s, ok := Corner("", r3.Vec{}, in, out, 40)
	if !ok {
		t.Fatal("no corner")
	}
	if got, want := s.Load(250), 250*r3.Norm(r3.Sub(out, in)); math.Abs(got-want) > 1e-9 {
		t.Errorf("load %.6f N, the lines pull with %.6f", got, want)
	}
}
