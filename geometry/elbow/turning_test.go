package elbow

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
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

// drawn is a turning arm from numbers in -1..1: elbow 20 mm about the machine axis,
// which leans 18 degrees at most.
func drawn(carrying, share float64, at [5]float64, most float64) Turning {
	h := FromCarrying((13+9*carrying)*deg, .55+.25*share)
	elbow := r3.Vec{X: 20 * at[0], Y: 20 * at[1], Z: 20 * at[2]}
	axis := r3.Vec{X: at[3] / 3, Y: at[4] / 3, Z: 1}
	return turningOf(h, 325, elbow, axis, most*deg)
}

// A turn never makes the distance larger than it is for the still arm, none of it is
// that of the still arm.
func TestTurningOnlyHelps(t *testing.T) {
	_, sin, cos := angles(5)
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.Float64Range(-1, 1)
		carrying, share := unit.Draw(t, "carrying"), unit.Draw(t, "share")
		at := [5]float64{unit.Draw(t, "x"), unit.Draw(t, "y"), unit.Draw(t, "z"), unit.Draw(t, "ax"), unit.Draw(t, "ay")}
		for _, most := range []float64{0, 2, 5, 10} {
			u := drawn(carrying, share, at, most)
			points := u.Path.Seen(nil, u.Pivot, u.Axis, sin, cos)
			s, d, _ := u.Mismatch(points, nil, sin, cos)
			if _, still := Mismatch(points); d.Max > still.Max || most == 0 && d != still {
				t.Fatalf("with %g deg %v, the still arm %v", most, d, still)
			}
			if got := MismatchAt(u.Nearest(nil, s, sin, cos), s); math.Abs(got.Max-d.Max) > 1e-9 {
				t.Fatalf("at the best setting %v, told %v", got, d)
			}
			at, got, _ := u.Hold(nil, s.Radius, s.Axial-30, s.Axial+25, sin, cos)
			if told := MismatchAt(u.Nearest(nil, at, sin, cos), at); at.Radius != s.Radius || math.Abs(told.Max-got.Max) > 1e-9 {
				t.Fatalf("held at %+v %v, told %v", at, told, got)
			}
		}
	})
}

// The steps of Mismatch end beside the best setting now and then: where the setting for
// less of a turn, or another place along the axis, is better by more than a hundredth
// of a millimetre. So does Hold, by more than its place is narrowed down to. Counted
// over seeded draws.
func TestTurningEndsAtTheBest(t *testing.T) {
	_, sin, cos := angles(5)
	random := rand.New(rand.NewPCG(1, 2))
	const draws = 1000
	var settings, holds struct {
		missed int
		by     float64
	}
	for range draws {
		unit := func() float64 { return 2*random.Float64() - 1 }
		carrying, share, at := unit(), unit(), [5]float64{unit(), unit(), unit(), unit(), unit()}
		less := math.Inf(1)
		for _, most := range []float64{0, 2, 5, 10} {
			u := drawn(carrying, share, at, most)
			s, d, _ := u.Mismatch(u.Path.Seen(nil, u.Pivot, u.Axis, sin, cos), nil, sin, cos)
			_, along, _ := u.Hold(nil, s.Radius, s.Axial-30, s.Axial+25, sin, cos)
			if by := d.Max - min(less, along.Max); by > 1e-2 {
				settings.missed, settings.by = settings.missed+1, max(settings.by, by)
			}
			if by := along.Max - d.Max; by > held {
				holds.missed, holds.by = holds.missed+1, max(holds.by, by)
			}
			less = d.Max
		}
	}
	if settings.missed > 2 || settings.by > 0.05 {
		t.Errorf("%d of %d settings miss the best, by up to %.3f mm", settings.missed, 4*draws, settings.by)
	}
	if holds.missed > 1 || holds.by > 0.05 {
		t.Errorf("%d of %d holds miss the best, by up to %.3f mm", holds.missed, 4*draws, holds.by)
	}
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
