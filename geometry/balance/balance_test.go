package balance

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

func near(t *testing.T, name string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol || math.IsNaN(got) {
		t.Errorf("%s = %.7g, want %.7g ± %g", name, got, want, tol)
	}
}

const deg = math.Pi / 180

// Worked cases of reference/standards.md section 10, numbers in brackets.
func TestTilt(t *testing.T) {
	// [19] D: base 80 kg (0.30, z 0.35) and user 100 kg (0.10, z 0.75), feet
	// x -0.40..0.60.
	feet := []r2.Vec{{X: -400, Y: -300}, {X: 600, Y: -300}, {X: 600, Y: 300}, {X: -400, Y: 300}}
	c := r3.Vec{X: (80*300 + 100*100) / 180.0, Z: (80*350 + 100*750) / 180.0}
	near(t, "x", c.X, 188.889, 1e-3)
	near(t, "z", c.Z, 572.222, 1e-3)
	e := Edges(feet, 180, c)
	near(t, "rear tilt", e[3].Tilt/deg, 45.8224, 1e-4)
	near(t, "front tilt", e[1].Tilt/deg, 35.6952, 1e-4)
	near(t, "push to tip", PushToTip(180*G, e[1].Inside, 900), 806.3246, 1e-4)
	near(t, "shift at 10 deg", c.Z*math.Tan(10*deg), 100.898, 1e-3)

	// [20] D: equilateral feet of side 1, centre of mass over the centroid at 0.5.
	tri := []r2.Vec{{}, {X: 1}, {X: 0.5, Y: math.Sqrt(3) / 2}}
	for _, e := range Edges(tri, 1, r3.Vec{X: 0.5, Y: math.Sqrt(3) / 6, Z: 0.5}) {
		near(t, "equilateral", e.Tilt/deg, 30, 1e-9)
	}
	// [21] D: m 10, d 0.3, h 0.4.
	sq := []r2.Vec{{X: -1000, Y: -1000}, {X: 300, Y: -1000}, {X: 300, Y: 1000}, {X: -1000, Y: 1000}}
	near(t, "energy", LeastTilt(Edges(sq, 10, r3.Vec{Z: 400})).Energy, 9806.65, 1e-6)
	// [22] outside the polygon: negative margin, never NaN.
	out := LeastTilt(Edges(sq, 10, r3.Vec{X: 400, Z: 400}))
	if !(out.Tilt < 0) || out.Energy != 0 {
		t.Errorf("outside: %+v", out)
	}
	// [23] D: the 10 degree boundary.
	near(t, "boundary", math.Atan2(105.796, 600)/deg, 10, 1e-4)
	// [16] S: 250 lb, width 32 in, pushed at 66 in.
	near(t, "block", PushToTip(250, 16, 66), 60.606, 1e-3)
	// [17] S: 200 N, half base 0.5, arm 2 tips at 50 N.
	near(t, "chest", PushToTip(200, 0.5, 2), 50, 1e-9)
	// [18] S: 2 kg, g 9.8, half base 0.25 at 0.2 m topples at 24.5 N.
	near(t, "crate", PushToTip(2*9.8, 0.25, 0.2), 24.5, 1e-9)
}

// The reactions must satisfy the three equations of equilibrium, and with no
// load the seat carries the whole person.
func TestSeatedEquilibrium(t *testing.T) {
	s := Seated{Weight: 800, CentreX: -200, Slope: 35 * deg, UpperArm: 280, Support: 100, Reach: 325, SeatTop: 380}
	r := s.At(20 * deg)
	near(t, "unloaded seat", r.Seat, 800, 1e-9)
	near(t, "unloaded place", r.SeatX, -200, 1e-9)
	s.Load = 150
	for _, theta := range []float64{5 * deg, 60 * deg, 130 * deg} {
		r := s.At(theta)
		sin, cos := math.Sincos(theta - s.Slope)
		sd, cd := math.Sincos(s.Slope)
		near(t, "vertical", r.Seat+r.Pad*cd-s.Weight-s.Load*cos, 0, 1e-9)
		near(t, "horizontal", r.Friction+r.Pad*sd+s.Load*sin, 0, 1e-9)
		type f struct{ x, z, fx, fz float64 }
		m := 0.0
		for _, v := range []f{
			{s.Reach * cos, s.Reach * sin, s.Load * sin, -s.Load * cos},
			{-s.Support * cd, s.Support * sd, r.Pad * sd, r.Pad * cd},
			{s.CentreX, 0, 0, -s.Weight},
			{r.SeatX, -s.SeatTop, r.Friction, r.Seat},
		} {
			m += v.x*v.fz - v.z*v.fx
		}
		near(t, "moment", m, 0, 1e-6)
	}
	// A passive shoulder: the moment of pad, elbow load and flexors about it vanishes.
	r = s.At(60 * deg)
	near(t, "shoulder", r.Pad*(s.UpperArm-s.Support)-s.Load*(s.UpperArm*math.Cos(60*deg)+s.Reach), 0, 1e-9)
}
