package elbow

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// angles returns sines and cosines of 5 to 130 degrees, some degrees apart.
func angles(step float64) (theta, sin, cos []float64) {
	for a := 5.0; a <= 130; a += step {
		s, c := math.Sincos(a * deg)
		theta, sin, cos = append(theta, a*deg), append(sin, s), append(cos, c)
	}
	return theta, sin, cos
}

// turningOf is an arm along y with its elbow at a place, on a machine axis through the origin.
func turningOf(h Hinge, length float64, elbow, axis r3.Vec, most float64) Turning {
	p := h.Path(length)
	p.Still = r3.Add(p.Still, elbow)
	return Turning{Path: p, Elbow: elbow, Proximal: r3.Vec{Y: 1}, Axis: r3.Unit(axis), Most: most}
}

// The largest distance that is left is the least there is by an independent
// optimiser over the handle's place and the turn at every flexion.
func TestTurningAgainstScipy(t *testing.T) {
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import scipy").Run(); err != nil {
		if os.Getenv("ARMWRIGHT_READERS") == "required" {
			t.Fatalf("scipy is required and absent: %v", err)
		}
		t.Skip("scipy is absent: install Debian's python3-scipy")
	}
	vec := func(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }
	theta, sin, cos := angles(12.5)
	var ours []float64
	var cases []map[string]any
	for _, alpha := range []float64{12, 21} {
		for _, most := range []float64{5, 10} {
			for _, axis := range []r3.Vec{{Z: 1}, {X: -.1, Y: .15, Z: 1}} {
				h := FromCarrying(alpha*deg, .64)
				u := turningOf(h, 325, r3.Vec{X: 4, Y: -6, Z: 3}, axis, most*deg)
				_, d, _ := u.Mismatch(u.Path.Seen(nil, u.Pivot, u.Axis, sin, cos), nil, sin, cos)
				ours = append(ours, d.Max)
				cases = append(cases, map[string]any{
					"axis": vec(u.Axis), "proximal": vec(u.Proximal), "pivot": vec(u.Pivot), "elbow": vec(u.Elbow), "most": u.Most,
					"hinge": vec(h.Axis()), "straight": vec(r3.Scale(325, h.Forearm(0))), "angles": theta,
				})
			}
		}
	}
	in, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/turning.py")
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Fields(string(out))
	if len(lines) != len(ours) {
		t.Fatalf("%d answers to %d cases", len(lines), len(ours))
	}
	for i, line := range lines {
		theirs, err := strconv.ParseFloat(line, 64)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(ours[i]-theirs) > .01 {
			t.Errorf("case %d: %.4f mm, scipy %.4f mm", i, ours[i], theirs)
		}
	}
}

// A turn never makes the distance larger, more of it less so but for a hundredth of a
// millimetre, and none of it is that of the still arm.
func TestTurningOnlyHelps(t *testing.T) {
	_, sin, cos := angles(5)
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Float64Range(-20, 20)
		h := FromCarrying(rapid.Float64Range(4, 22).Draw(t, "carrying")*deg, rapid.Float64Range(.3, .8).Draw(t, "share"))
		elbow := r3.Vec{X: small.Draw(t, "x"), Y: small.Draw(t, "y"), Z: small.Draw(t, "z")}
		axis := r3.Vec{X: small.Draw(t, "ax") / 60, Y: small.Draw(t, "ay") / 60, Z: 1}
		before := math.Inf(1)
		for _, most := range []float64{0, 2, 5, 10} {
			u := turningOf(h, 325, elbow, axis, most*deg)
			points := u.Path.Seen(nil, u.Pivot, u.Axis, sin, cos)
			s, d, _ := u.Mismatch(points, nil, sin, cos)
			if _, still := Mismatch(points); most == 0 && d != still {
				t.Fatalf("without a turn %v, want %v", d, still)
			}
			if d.Max > before+1e-2 {
				t.Fatalf("with %g deg %.6f mm, with less %.6f", most, d.Max, before)
			}
			if got := MismatchAt(u.Nearest(nil, s, sin, cos), s); math.Abs(got.Max-d.Max) > 1e-9 {
				t.Fatalf("at the best setting %v, told %v", got, d)
			}
			if at, held, _ := u.Hold(nil, s.Radius, s.Axial-30, s.Axial+25, sin, cos); held.Max < d.Max-1e-2 || held.Max > d.Max+.02 || at.Radius != s.Radius {
				t.Fatalf("at the best radius %+v leaves %v, the best setting %+v %v", at, held, s, d)
			}
			before = d.Max
		}
	})
}

// The nearest hand is nearer than at any turn of a fine grid.
func TestNearestOfAnArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := FromCarrying(rapid.Float64Range(4, 22).Draw(t, "carrying")*deg, .64)
		u := turningOf(h, 325, r3.Vec{X: 5, Y: -3}, r3.Vec{X: .1, Y: .2, Z: 1}, 12*deg)
		s := Setting{rapid.Float64Range(290, 350).Draw(t, "radius"), rapid.Float64Range(-40, 90).Draw(t, "axial")}
		sin, cos := math.Sincos(rapid.Float64Range(0, 2.4).Draw(t, "flexion"))
		a := u.arc(sin, cos)
		d2 := square(a.at(a.nearest(s, u.Most)), AxisPoint{s.Radius, s.Axial})
		for i := -60; i <= 60; i++ {
			turn := u.Most * float64(i) / 60
			hand := Rotate(r3.Sub(u.Path.At(sin, cos), u.Elbow), u.Proximal, turn)
			p := seen(r3.Add(u.Elbow, hand), u.Pivot, u.Axis)
			if g := square(p, AxisPoint{s.Radius, s.Axial}); g < d2-1e-6 {
				t.Fatalf("at %.3f rad %.4f mm, told %.4f", turn, math.Sqrt(g), math.Sqrt(d2))
			}
		}
	})
}

func TestTurningAllocatesNothing(t *testing.T) {
	_, sin, cos := angles(5)
	u := turningOf(FromCarrying(21*deg, .64), 325, r3.Vec{}, r3.Vec{Z: 1}, 5*deg)
	points := u.Path.Seen(nil, u.Pivot, u.Axis, sin, cos)
	near := make([]AxisPoint, 0, len(sin))
	if n := testing.AllocsPerRun(20, func() { u.Mismatch(points, near, sin, cos) }); n != 0 {
		t.Errorf("Mismatch allocates %v times", n)
	}
}

func BenchmarkTurning(b *testing.B) {
	_, sin, cos := angles(5)
	u := turningOf(FromCarrying(21*deg, .64), 325, r3.Vec{}, r3.Vec{X: .1, Y: .15, Z: 1}, 5*deg)
	points := u.Path.Seen(nil, u.Pivot, u.Axis, sin, cos)
	near := make([]AxisPoint, 0, len(sin))
	b.ReportAllocs()
	for b.Loop() {
		_, _, near = u.Mismatch(points, near, sin, cos)
	}
}
