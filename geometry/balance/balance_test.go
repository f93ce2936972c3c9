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
	c := r3.Vec{X: 188.889, Z: 572.222} // of both
	e := Edges(feet, 180, c)
	near(t, "rear tilt", e[3].Tilt/deg, 45.8224, 1e-4)
	near(t, "front tilt", e[1].Tilt/deg, 35.6952, 1e-4)
	// So near to the front edge it has 10 degrees left: z tan 10 deg = 100.898.
	near(t, "front tilt, shifted", Edges(feet, 180, r3.Vec{X: 600 - 100.898, Z: c.Z})[1].Tilt/deg, 10, 1e-4)

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
	// [23] D: the 10 degree boundary is 105.796 mm from an edge, 600 mm up.
	near(t, "boundary", LeastTilt(Edges(sq, 10, r3.Vec{X: 300 - 105.796, Z: 600})).Tilt/deg, 10, 1e-4)
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
		near(t, "seat alone", s.SeatForce(math.Sin(theta), math.Cos(theta), sd, cd), r.Seat, 1e-9)
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

// Loads from outside against the textbook cases of pushes: [16] to [18] of
// reference/standards.md with the push a load (S data), and [19]'s push of
// 806.3246 N at 0.9 m (D): at that push the zero moment point is on the edge.
func TestOverturn(t *testing.T) {
	const front = 1
	box := func(half float64) []r2.Vec {
		return []r2.Vec{{X: -half, Y: -half}, {X: half, Y: -half}, {X: half, Y: half}, {X: -half, Y: half}}
	}
	for _, v := range []struct {
		name                       string
		half, weight, push, height float64
	}{
		{"[16] block of 250 lb", 16, 250, 250 * 16 / 66.0, 66},
		{"[17] chest of 200 N", 0.5, 200, 50, 2},
		{"[18] crate of 2 kg", 0.25, 2 * 9.8, 24.5, 0.2},
	} {
		c := r3.Vec{Z: v.height / 2}
		tip := func(share float64) float64 {
			return Overturn(box(v.half), v.weight/G, c, Load{At: r3.Vec{Z: v.height}, Force: r3.Vec{X: share * v.push}})[front].Inside
		}
		near(t, v.name, tip(1), 0, 1e-9)
		if tip(0.99) <= 0 || tip(1.01) >= 0 {
			t.Errorf("%s: inside %g under 0.99 of the push that tips it, %g under 1.01", v.name, tip(0.99), tip(1.01))
		}
	}
	feet := []r2.Vec{{X: -400, Y: -300}, {X: 600, Y: -300}, {X: 600, Y: 300}, {X: -400, Y: 300}}
	base := r3.Vec{X: 300, Z: 350}
	user := Weight(100, r3.Vec{X: 100, Z: 750})
	e := Overturn(feet, 80, base, user)
	near(t, "[19] front tilt with the user as a load", e[front].Tilt/deg, 35.6952, 1e-4)
	e = Overturn(feet, 80, base, user, Load{At: r3.Vec{Z: 900}, Force: r3.Vec{X: 806.3246}})
	near(t, "[19] push that tips", e[front].Inside, 0, 1e-4)

	// A bench with a weight beyond its edge, by moments: 50 kg 200 mm inside
	// hold 40 kg 250 mm outside exactly.
	e = Overturn(box(200), 50, r3.Vec{Z: 300}, Weight(40, r3.Vec{X: 450, Z: 400}))
	near(t, "seat edge", e[front].Inside, 0, 1e-9)
	// 40 kg on the middle of it: 90 kg, (50·300 + 40·400)/90 = 344.444 mm high and 200 mm
	// inside, rise by √(344.444² + 200²) − 344.444 = 53.8544 mm before they fall.
	e = Overturn(box(200), 50, r3.Vec{Z: 300}, Weight(40, r3.Vec{Z: 400}))
	near(t, "energy", e[front].Energy, 90*G*53.8544, 0.1)

	// Anchors 400 mm from the edge, tilted to 10 degrees at h = 600 and d = 50:
	// F = m g (600 tan 10 − 50)/400.
	pull := Edge{Inside: 50}.AnchorPull(100, 600, math.Tan(10*deg), 400)
	near(t, "anchors", pull, 100*G*(105.796-50)/400, 1e-2)
	near(t, "no anchors needed", Edge{Inside: 106}.AnchorPull(100, 600, math.Tan(10*deg), 400), 0, 0)
}

// The reclined person: the three equations of equilibrium, and of the upper
// body about the hip.
func TestReclinedEquilibrium(t *testing.T) {
	s := Reclined{
		Seated: Seated{Weight: 800, CentreX: 120, Slope: 95 * deg, UpperArm: 280, Support: 100, Reach: 325, SeatTop: 150},
		Back:   40 * deg, HipX: 300, HipZ: -60, BackArm: 330, UpperWeight: 480, UpperX: 120,
	}
	// Without load the back carries the trunk's moment about the hip,
	// 480·180/330, and the seat the rest.
	r := s.At(20 * deg)
	near(t, "unloaded back", r.Back, 480*180/330.0, 1e-9)
	near(t, "unloaded seat", r.Seat, 800-480*180/330.0*math.Sin(40*deg), 1e-9)
	s.Load = 150
	for _, theta := range []float64{5 * deg, 60 * deg, 130 * deg} {
		r := s.At(theta)
		sin, cos := math.Sincos(theta - s.Slope)
		sd, cd := math.Sincos(s.Slope)
		sb, cb := math.Sincos(s.Back)
		type f struct{ x, z, fx, fz float64 }
		arm := []f{
			{s.Reach * cos, s.Reach * sin, s.Load * sin, -s.Load * cos},
			{-s.Support * cd, s.Support * sd, r.Pad * sd, r.Pad * cd},
		}
		back := f{s.HipX - s.BackArm*sb, s.HipZ + s.BackArm*cb, r.Back * cb, r.Back * sb}
		all := append(arm, back, f{s.CentreX, 0, 0, -s.Weight}, f{r.SeatX, -s.SeatTop, r.Friction, r.Seat})
		var fx, fz, m, hip float64
		for _, v := range all {
			fx, fz, m = fx+v.fx, fz+v.fz, m+v.x*v.fz-v.z*v.fx
		}
		for _, v := range append(arm, back, f{s.UpperX, 0, 0, -s.UpperWeight}) {
			hip += (v.x-s.HipX)*v.fz - (v.z-s.HipZ)*v.fx
		}
		near(t, "horizontal", fx, 0, 1e-9)
		near(t, "vertical", fz, 0, 1e-9)
		near(t, "moment", m, 0, 1e-6)
		near(t, "hip", hip, 0, 1e-6)
	}
}

// Tilt against brute force: a body is tipped degree by degree about its edge
// until its centre stands above it.
func TestTiltBruteForce(t *testing.T) {
	feet := []r2.Vec{{X: -350, Y: -250}, {X: 420, Y: -250}, {X: 420, Y: 250}, {X: -350, Y: 250}}
	c := r3.Vec{X: 60, Y: -20, Z: 510}
	for i, inside := range []float64{230, 360, 270, 410} {
		least := 0.0
		for q := 0.0; q < math.Pi/2; q += 1e-5 {
			if inside*math.Cos(q)-c.Z*math.Sin(q) <= 0 {
				least = q
				break
			}
		}
		near(t, "edge", Edges(feet, 100, c)[i].Tilt, least, 2e-5)
	}
}
