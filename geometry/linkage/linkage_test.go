package linkage

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

const deg = math.Pi / 180

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tol)
	}
}

// level is the axis of a right arm without toe and cant.
var level = r3.Vec{Y: -1}

// Checks D3 and D4 of biomechanics.md (D from S: de Leva 1996): the moment of a
// horizontal forearm with hand.
func TestForearmMoment(t *testing.T) {
	tests := []struct {
		name               string
		mass, arm, want, e float64
	}{
		{"man", 1.628, 181.5, 2898, 5},
		{"woman", 1.201, 178.8, 2106, 5},
	}
	for _, tt := range tests {
		w := Weight{Mass: tt.mass, Axis: level, Arm: r3.Vec{X: tt.arm}}
		near(t, tt.name, w.Torque(0), -tt.want, tt.e)
	}
}

// The moment against its definition, for any axis, arm and angle, and a power
// balance: torque times turn is the work of gravity, -m g dz.
func TestWeightProperties(t *testing.T) {
	vec := func(t *rapid.T, name string, most float64) r3.Vec {
		f := rapid.Float64Range(-most, most)
		return r3.Vec{X: f.Draw(t, name+" x"), Y: f.Draw(t, name+" y"), Z: f.Draw(t, name+" z")}
	}
	rapid.Check(t, func(t *rapid.T) {
		w := Weight{
			Mass:  rapid.Float64Range(.1, 50).Draw(t, "mass"),
			Pivot: vec(t, "pivot", 900),
			Axis:  r3.Add(level, vec(t, "axis", .5)),
			Arm:   vec(t, "arm", 400),
		}
		theta := rapid.Float64Range(-1, 3).Draw(t, "theta")
		force := r3.Vec{Z: -w.Mass * G}
		turned := func(theta float64) r3.Vec { return r3.Rotate(w.Arm, theta, w.Axis) }
		want := r3.Dot(r3.Unit(w.Axis), r3.Cross(turned(theta), force))
		if d := w.Torque(theta) - want; math.Abs(d) > 1e-6 {
			t.Fatalf("torque off by %v", d)
		}
		const e = 1e-4
		work := -w.Mass * G * (turned(theta+e).Z - turned(theta-e).Z)
		if d := w.Torque(theta) - work/(2*e); math.Abs(d) > 1e-2 {
			t.Fatalf("torque and work differ by %v", d)
		}
		if value, at := w.Moment().Peak(); math.Abs(w.Torque(at)-value) > 1e-6 || w.Torque(theta) > value+1e-6 {
			t.Fatalf("peak %v at %v", value, at)
		}
	})
}

// Closed form m g R cos against the weight in space: on a level axis they
// agree but for the sign, and cant costs its cosine.
func TestLever(t *testing.T) {
	l := Lever{Mass: 20, Radius: 300, Phase: -70 * deg}
	w := l.On(r3.Vec{Z: 900}, level)
	for theta := 0.0; theta < 140; theta += 10 {
		near(t, "level", w.Torque(theta*deg), -20*G*300*math.Cos((theta-70)*deg), 1e-6)
	}
	canted := l.On(r3.Vec{}, r3.Vec{Y: -math.Cos(10 * deg), Z: math.Sin(10 * deg)})
	near(t, "canted 10 degrees", canted.Torque(30*deg), w.Torque(30*deg)*math.Cos(10*deg), 1e-6)
	toed := l.On(r3.Vec{}, r3.Vec{X: -math.Sin(10 * deg), Y: -math.Cos(10 * deg)})
	near(t, "toed 10 degrees", toed.Torque(30*deg), w.Torque(30*deg), 1e-6)
	back := Lever{Mass: 20, Radius: 300, Phase: 110 * deg}.On(r3.Vec{Z: 900}, level).Moment()
	near(t, "with its opposite", back.Add(w.Moment()).At(1), 0, 1e-9)
}

// A textbook example (M: Norton, Design of Machinery, position analysis by the
// vector loop): ground 100, input 40, coupler 120, output 80, input at 40
// degrees: output 57.33 or -98.01, coupler 20.30 or -60.98 degrees.
func TestFourBarExample(t *testing.T) {
	f := FourBar{Ground: 100, Input: 40, Coupler: 120, Output: 80}
	p, err := f.At(40 * deg)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "open output", p.Output/deg, 57.33, .01)
	near(t, "open coupler", p.Coupler/deg, 20.30, .01)
	f.Crossed = true
	if p, err = f.At(40 * deg); err != nil {
		t.Fatal(err)
	}
	near(t, "crossed output", p.Output/deg, -98.01, .01)
	near(t, "crossed coupler", p.Coupler/deg, -60.98, .01)
}

// A parallelogram turns its output with its input.
func TestParallelogram(t *testing.T) {
	f := FourBar{Ground: 200, Input: 90, Coupler: 200, Output: 90}
	for a := 10.0; a < 180; a += 10 {
		p, err := f.At(a * deg)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "output", p.Output/deg, a, 1e-9)
		near(t, "ratio", p.Ratio, 1, 1e-9)
		near(t, "transmission", math.Sin(p.Transmission), math.Sin(a*deg), 1e-9)
	}
	dead, err := f.DeadPoints()
	if err != nil || len(dead) != 2 || dead[0] != 0 || dead[1] != math.Pi {
		t.Errorf("dead points %v, %v", dead, err)
	}
}

// Bars keep their lengths, Freudenstein's equation holds (1955), and the ratio
// is the slope of the output.
func TestFourBarProperties(t *testing.T) {
	length := rapid.Float64Range(20, 300)
	rapid.Check(t, func(t *rapid.T) {
		f := FourBar{
			Ground: length.Draw(t, "ground"), Input: length.Draw(t, "input"),
			Coupler: length.Draw(t, "coupler"), Output: length.Draw(t, "output"),
			Crossed: rapid.Bool().Draw(t, "crossed"),
		}
		angle := rapid.Float64Range(-3, 3).Draw(t, "angle")
		p, err := f.At(angle)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Fatal(err)
			}
			// Open exactly where the triangle inequality says so.
			bridge := math.Sqrt(f.Ground*f.Ground + f.Input*f.Input - 2*f.Ground*f.Input*math.Cos(angle))
			if e.Kind == Open && bridge < f.Coupler+f.Output-1e-9 && bridge > math.Abs(f.Coupler-f.Output)+1e-9 {
				t.Fatalf("%v, but the bridge is %v", err, bridge)
			}
			return
		}
		if d := r2.Norm(r2.Sub(p.Joint, p.InputPin)) - f.Coupler; math.Abs(d) > 1e-8 {
			t.Fatalf("coupler off by %v", d)
		}
		k1, k2 := f.Ground/f.Input, f.Ground/f.Output
		k3 := (f.Input*f.Input - f.Coupler*f.Coupler + f.Output*f.Output + f.Ground*f.Ground) / (2 * f.Input * f.Output)
		if d := k1*math.Cos(p.Output) - k2*math.Cos(p.Input) + k3 - math.Cos(p.Input-p.Output); math.Abs(d) > 1e-9 {
			t.Fatalf("Freudenstein's equation off by %v", d)
		}
		const e = 1e-5
		up, err1 := f.At(angle + e)
		down, err2 := f.At(angle - e)
		if err1 != nil || err2 != nil || p.Transmission < .1 {
			return
		}
		if d := wrap(up.Output-down.Output)/(2*e) - p.Ratio; math.Abs(d) > 1e-4*(1+math.Abs(p.Ratio)) {
			t.Fatalf("ratio off by %v", d)
		}
	})
}

func TestDeadPoints(t *testing.T) {
	// A crank and rocker turns fully; the rocker turns back twice.
	f := FourBar{Ground: 200, Input: 50, Coupler: 150, Output: 120}
	dead, err := f.DeadPoints()
	if err != nil || len(dead) != 2 {
		t.Fatalf("dead points %v, %v", dead, err)
	}
	for _, a := range dead {
		p, err := f.At(a)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ratio at a dead point", p.Ratio, 0, 1e-6)
		var e *Error
		if err := f.Clear(a-.1, a+.1); !errors.As(err, &e) || e.Kind != Dead || math.Abs(e.Angle-a) > 1e-9 {
			t.Errorf("Clear across %v: %v", a, err)
		}
	}
	if err := f.Clear(dead[0]+.01, dead[1]-.01); err != nil {
		t.Errorf("between the dead points: %v", err)
	}
	if err := f.Clear(dead[1]+.01, dead[0]+2*math.Pi-.01); err != nil {
		t.Errorf("round the back: %v", err)
	}

	// Short coupler and output: the input is held within limits.
	g := FourBar{Ground: 200, Input: 100, Coupler: 90, Output: 100}
	dead, err = g.DeadPoints()
	if err != nil || len(dead) < 2 {
		t.Fatalf("dead points %v, %v", dead, err)
	}
	// Coupler and output in line, the input is held on either side of the line between the
	// pivots.
	near(t, "limit on the other side", dead[0], -dead[len(dead)-1], 1e-12)
	limit := dead[len(dead)-1]
	near(t, "bridge at the limit", math.Sqrt(200*200+100*100-2*200*100*math.Cos(limit)), 190, 1e-9)
	var e *Error
	if _, err := g.At(limit + .01); !errors.As(err, &e) || e.Kind != Open {
		t.Errorf("past the limit: %v", err)
	}
	if err := g.Clear(limit+.01, limit+.02); !errors.As(err, &e) || e.Kind != Open {
		t.Errorf("Clear past the limit: %v", err)
	}
	if _, err := (FourBar{Ground: 1, Input: 1, Coupler: 1}).At(0); !errors.As(err, &e) || e.Kind != Input {
		t.Errorf("no output: %v", err)
	}
}

func ExampleLever() {
	// 20 kg at 300 mm, hardest at 70 degrees of flexion.
	plates := Lever{Mass: 20, Radius: 300, Phase: -70 * math.Pi / 180}
	arm := plates.On(r3.Vec{Z: 900}, r3.Vec{Y: -1}) // a level axis, outward to the right
	for _, flexion := range []float64{10, 70, 130} {
		help := arm.Torque(flexion * math.Pi / 180)
		fmt.Printf("at %3.0f deg: %.1f N m\n", flexion, -help/1000)
	}
	// Output:
	// at  10 deg: 29.4 N m
	// at  70 deg: 58.8 N m
	// at 130 deg: 29.4 N m
}
