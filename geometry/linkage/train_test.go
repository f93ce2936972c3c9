package linkage

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// A parallelogram below the arm repeats the arm's turn on the output shaft, so
// its weights resist like those of levers, m g R cos of the angle, and the
// coupler's like a weight at the input pin.
func TestParallelogramTrain(t *testing.T) {
	train := Train{
		Bars:      FourBar{Ground: 200, Input: 90, Coupler: 200, Output: 90},
		Direction: -90 * deg, InputPhase: 120 * deg, Radius: 300, Phase: -60 * deg,
	}
	w := Weights{Pin: 1.5, Joint: 2, Plates: 20}
	for a := 0.0; a <= 50; a += 10 {
		p, err := train.At(a * deg)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "shaft", r2.Norm(r2.Sub(p.Shaft, r2.Vec{Y: -200})), 0, 1e-9)
		near(t, "plates", p.Lever, (a+60)*deg, 1e-9)
		bar := math.Cos((a + 30) * deg)
		near(t, "torque", p.Resistance(w, r2.Vec{Y: 1}), G*(3.5*90*bar+20*300*math.Cos((a+60)*deg)), 1e-6)
		near(t, "inertia", p.Inertia(w), 3.5*90*90+20*300*300, 1e-6)
	}
}

// Torque times turn is the work of lifting, and the moves are the slopes of the
// places, for any train that closes.
func TestTrainProperties(t *testing.T) {
	length := rapid.Float64Range(40, 300)
	angle := rapid.Float64Range(-3, 3)
	rapid.Check(t, func(t *rapid.T) {
		train := Train{
			Bars: FourBar{
				Ground: length.Draw(t, "ground"), Input: length.Draw(t, "input"),
				Coupler: length.Draw(t, "coupler"), Output: length.Draw(t, "output"),
				Crossed: rapid.Bool().Draw(t, "crossed"),
			},
			Direction: angle.Draw(t, "direction"), InputPhase: angle.Draw(t, "input phase"),
			Radius: length.Draw(t, "radius"), Phase: angle.Draw(t, "phase"),
		}
		flexion := angle.Draw(t, "flexion")
		const e = 1e-5
		p, err := train.At(flexion)
		low, err1 := train.At(flexion - e)
		high, err2 := train.At(flexion + e)
		if err != nil || err1 != nil || err2 != nil || p.Transmission < .2 {
			return
		}
		for _, c := range []struct {
			what            string
			move, low, high r2.Vec
		}{{"pin", p.PinMove, low.Pin, high.Pin}, {"joint", p.JointMove, low.Joint, high.Joint}, {"plates", p.PlatesMove, low.Plates, high.Plates}} {
			if d := r2.Norm(r2.Sub(c.move, r2.Scale(1/(2*e), r2.Sub(c.high, c.low)))); d > 1e-3*(1+r2.Norm(c.move)) {
				t.Fatalf("move of %s off by %v", c.what, d)
			}
		}
		w := Weights{Pin: 1, Joint: 2, Plates: 30}
		up := r2.Vec{X: .1, Y: .9}
		height := func(p Pose) float64 {
			return r2.Dot(up, r2.Add(p.Pin, r2.Add(r2.Scale(2, p.Joint), r2.Scale(30, p.Plates))))
		}
		work := G * (height(high) - height(low)) / (2 * e)
		if d := p.Resistance(w, up) - work; math.Abs(d) > 1e-3*(1e4+math.Abs(work)) {
			t.Fatalf("torque off by %v of %v", d, work)
		}
	})
}

// A bar's area and centre against its outline: the area by the path, the centre
// by the polygon that stands for it.
func TestBarAreas(t *testing.T) {
	for _, b := range []Bar{
		{Length: 220, A: Eye{Radius: 33}, B: Eye{Radius: 20}},
		{Length: 60, A: Eye{Radius: 20}, B: Eye{Radius: 40}},
		{Length: 400, A: Eye{Radius: 20}, B: Eye{Radius: 20}},
	} {
		outline := b.Outline()
		if err := outline.Validate(); err != nil {
			t.Fatal(err)
		}
		atA, atB := b.Areas()
		near(t, "area", atA+atB, outline.Area(), 1e-6)
		near(t, "length", outline.Bounds().Max.X-outline.Bounds().Min.X, b.Length+b.A.Radius+b.B.Radius, 1e-9)
		var moment float64
		points := outline.Points(1e-5)
		for i, p := range points {
			q := points[(i+1)%len(points)]
			moment += r2.Cross(p, q) * (p.X + q.X) / 6
		}
		near(t, "moment about A", atB*b.Length, moment, 1e-4*outline.Area())
		bored := b
		bored.A.Bore, bored.B.Bore = 30, 12
		a, c := bored.Areas()
		near(t, "bore at A", atA-a, math.Pi*225, 1e-6)
		near(t, "bore at B", atB-c, math.Pi*36, 1e-6)
	}
	// A stadium, by hand: 2 r L + pi r².
	a, c := Bar{Length: 100, A: Eye{Radius: 10}, B: Eye{Radius: 10}}.Areas()
	near(t, "stadium", a+c, 2000+100*math.Pi, 1e-9)
	near(t, "evenly shared", a, c, 1e-9)
}

// A point's distance from a bar against that from its outline.
func TestBarDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := func(name string) float64 { return rapid.Float64Range(5, 60).Draw(t, name) }
		b := Bar{Length: rapid.Float64Range(70, 500).Draw(t, "length"), A: Eye{Radius: radius("A")}, B: Eye{Radius: radius("B")}}
		q := r2.Vec{X: rapid.Float64Range(-200, 700).Draw(t, "x"), Y: rapid.Float64Range(-200, 200).Draw(t, "y")}
		outline := b.Outline()
		want, _ := outline.Distance(q)
		if outline.Contains(q) {
			want = -want
		}
		if got := b.Distance(q); math.Abs(got-want) > 1e-6 {
			t.Fatalf("%v from %v is %v, want %v", q, b, got, want)
		}
	})
}

// Turning weights ahead shifts their moment; of values that are a harmonic it is
// the nearest.
func TestHarmonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-100, 100)
		h := Harmonic{Cos: f.Draw(t, "cos"), Sin: f.Draw(t, "sin")}
		ahead, at := rapid.Float64Range(-3, 3).Draw(t, "ahead"), rapid.Float64Range(-3, 3).Draw(t, "at")
		if d := h.Ahead(ahead).At(at) - h.At(at+ahead); math.Abs(d) > 1e-9 {
			t.Fatalf("off by %v", d)
		}
		var angles, values []float64
		for a := 0.1; a < 2.2; a += 0.3 {
			angles, values = append(angles, a), append(values, h.At(a))
		}
		if g := NearestHarmonic(angles, values); math.Abs(g.Cos-h.Cos) > 1e-8 || math.Abs(g.Sin-h.Sin) > 1e-8 {
			t.Fatalf("nearest is %v, want %v", g, h)
		}
	})
}

// A parallelogram's bars are in line at input angles of 0 and 180 degrees. With a phase
// of 30 degrees that is at flexions of -30 and 150.
func TestTrainClear(t *testing.T) {
	train := Train{Bars: FourBar{Ground: 200, Input: 100, Coupler: 200, Output: 100}, InputPhase: 30 * deg}
	for _, c := range []struct {
		from, to float64
		clear    bool
	}{{-29, 149, true}, {-31, 20, false}, {100, 151, false}, {5, 130, true}, {-10, 10, true}, {151, 329, true}, {20, 40, true}} {
		if err := train.Clear(c.from*deg, c.to*deg); (err == nil) != c.clear {
			t.Errorf("%g to %g degrees: %v", c.from, c.to, err)
		}
	}
}

// Between two bores of 30 and 12 mm, 100 mm apart, 79 mm of plate are left.
func TestWeb(t *testing.T) {
	near(t, "web", Bar{Length: 100, A: Eye{Radius: 33, Bore: 30}, B: Eye{Radius: 20, Bore: 12}}.Web(), 79, 1e-12)
}
