package solid

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// bent is a rope in three planes: a quarter about z, one about x, and half a turn.
func bent() Rope {
	return Rope{Diameter: 4, From: r3.Vec{Y: -100}, To: r3.Vec{X: -150, Y: 90, Z: -30}, Bends: []Bend{
		{Centre: r3.Vec{X: -40}, Axis: r3.Vec{Z: 1}, In: r3.Vec{}, Turn: math.Pi / 2},
		{Centre: r3.Vec{X: -100, Y: 40, Z: 50}, Axis: r3.Vec{Y: 1}, In: r3.Vec{X: -100, Y: 40}, Turn: math.Pi / 2},
		{Centre: r3.Vec{X: -150, Y: 65, Z: 80}, Axis: r3.Vec{X: -1}, In: r3.Vec{X: -150, Y: 40, Z: 80}, Turn: math.Pi},
	}}
}

func TestRope(t *testing.T) {
	open := bent()
	// Straight runs of 100, 60, 30 and 110 mm; arcs of 40, 50 and 25 mm.
	if want := 300 + math.Pi*(20+25+25); math.Abs(open.Length()-want) > 1e-9 {
		t.Errorf("length %v, want %v", open.Length(), want)
	}
	checkShell(t, open.Shell(), 0, 1e-9)
	if n := len(open.Shell().Faces); n != 2*7+2 {
		t.Errorf("%d faces, want 16", n)
	}
	mirrored := open.Mirrored()
	checkShell(t, mirrored.Shell(), 0, 1e-9)
	for i, v := range mirrored.Shell().Vertices {
		q := open.Shell().Vertices[i]
		// Own x is along an axis, which mirrors the other way: the vertices of a ring change places.
		twin := open.Shell().Vertices[i^1]
		if d := min(r3.Norm(r3.Sub(v, r3.Vec{X: q.X, Y: -q.Y, Z: q.Z})), r3.Norm(r3.Sub(v, r3.Vec{X: twin.X, Y: -twin.Y, Z: twin.Z}))); d > 1e-9 {
			t.Errorf("vertex %d at %v is no mirror image", i, v)
		}
	}
	frames := open.Frames(.5)
	for i, f := range frames {
		for _, x := range []float64{r3.Norm(f.X) - 1, r3.Norm(f.Z) - 1, r3.Dot(f.X, f.Z), r3.Norm(r3.Sub(f.Y, r3.Cross(f.Z, f.X)))} {
			if math.Abs(x) > 1e-9 {
				t.Fatalf("frame %d is %v", i, f)
			}
		}
	}
	if d := r3.Norm(r3.Sub(frames[len(frames)-1].Origin, open.To)); d > 1e-9 {
		t.Errorf("the frames end %v mm from the end", d)
	}
}

// A loop round wheels of 30 and 50 mm, 200 mm apart: the handbooks' length is
// 2 C cos a + pi (r1 + r2) + 2 a (r2 - r1) with sin a = (r2 - r1)/C.
func TestBelt(t *testing.T) {
	axis := r3.Unit(r3.Vec{X: 1, Y: -3, Z: .5})
	across := r3.Unit(r3.Cross(axis, r3.Vec{Z: 1}))
	a := r3.Vec{X: 10, Y: 20, Z: 30}
	b := r3.Add(a, r3.Scale(200, across))
	loop, ok := Belt(8, a, b, axis, 50, 30)
	if !ok {
		t.Fatal("no loop")
	}
	lean := math.Asin(20. / 200)
	if want := 400*math.Cos(lean) + math.Pi*80 + 2*lean*20; math.Abs(loop.Length()-want) > 1e-9 {
		t.Errorf("length %v, want %v", loop.Length(), want)
	}
	checkShell(t, loop.Shell(), 1, 1e-9)
	if n := len(loop.Shell().Faces); n != 2*5 { // the larger wheel is wrapped by more than half a turn
		t.Errorf("%d faces, want 10", n)
	}
	if _, ok := Belt(8, a, r3.Add(a, r3.Vec{X: 10}), axis, 50, 30); ok {
		t.Error("a loop round a wheel inside another")
	}
}

// Corners rounded to a radius give the line of bent() again, and none too tight.
func TestBent(t *testing.T) {
	got, ok := Bent(4, 30, []r3.Vec{{Y: -100}, {}, {X: -100}, {X: -100, Y: 60, Z: 80}})
	if !ok {
		t.Fatal("no way")
	}
	checkShell(t, got.Shell(), 0, 1e-9)
	// Two quarters of 30 mm instead of 4 times 30 mm of corner.
	if want := 300 - 4*30 + 30*math.Pi; math.Abs(got.Length()-want) > 1e-9 {
		t.Errorf("length %v, want %v", got.Length(), want)
	}
	for i, b := range got.Bends {
		if math.Abs(b.Turn-math.Pi/2) > 1e-12 || math.Abs(r3.Norm(r3.Sub(b.In, b.Centre))-30) > 1e-9 {
			t.Errorf("bend %d: %+v", i, b)
		}
	}
	// A point on a straight run changes nothing; one at which two bends touch is met.
	through, ok := Bent(4, 50, []r3.Vec{{Y: -100}, {Y: -70}, {}, {X: -100}, {X: -100, Y: 60, Z: 80}})
	if want := 300 - 4*50 + 50*math.Pi; !ok || len(through.Bends) != 2 || math.Abs(through.Length()-want) > 1e-9 {
		t.Errorf("%v, length %v, want %v", ok, through.Length(), want)
	}
	checkShell(t, through.Shell(), 0, 1e-9)
	for name, line := range map[string][]r3.Vec{
		"two bends on one run": {{Y: -100}, {}, {X: -99}, {X: -99, Y: 60, Z: 80}},
		"a short beginning":    {{Y: -49}, {}, {X: -100}},
		"a short end":          {{Y: -100}, {}, {X: -49}},
		"nothing to bend":      {{Y: -100}, {}, {Y: 100}},
		"a line of two":        {{Y: -100}, {}},
	} {
		if _, ok := Bent(4, 50, line); ok {
			t.Errorf("%s has a way", name)
		}
	}
}
