package station

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A chain of 42 pitches of 12.7 mm goes round sprockets of 21 and 14 teeth at the
// centre distance that ISO 606's formula gives, 154.93 mm; the circles of the pitch
// diameters are a little longer than the chords of the links.
func TestLoopIsAsLongAsItsPitches(t *testing.T) {
	pitch := func(teeth float64) float64 { return 12.7 / math.Sin(math.Pi/teeth) }
	got := loopLength(154.93, pitch(21)/2, pitch(14)/2)
	if want := 42 * 12.7; got < want || got > 1.006*want {
		t.Errorf("%.2f mm, want %.2f", got, want)
	}
	// Equal wheels: two straights and a circle.
	if got, want := loopLength(200, 30, 30), 400+60*math.Pi; math.Abs(got-want) > 1e-9 {
		t.Errorf("%v, want %v", got, want)
	}
	path := loopPath(r2.Vec{}, r2.Vec{X: 100, Y: 120}, 43, 28)
	length := 0.0
	for i, q := range path {
		length += r2.Norm(r2.Sub(path[(i+1)%len(path)], q))
	}
	if want := loopLength(math.Hypot(100, 120), 43, 28); length > want || length < 0.995*want {
		t.Errorf("a path of %.2f mm, want a little less than %.2f", length, want)
	}
}

// The cam lies as drawn at flexion 0, x forward in its plane, and turns by the ratio.
func TestCamTurnsByTheRatio(t *testing.T) {
	for name, v := range withCable() {
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		i, ok := a.Index("cam-core-right")
		if !ok {
			t.Fatalf("%s: no cam", name)
		}
		axis := v.Axes[len(v.Axes)/2]
		forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(axis.X, axis)))
		up := r3.Cross(axis, forward)
		for _, theta := range []float64{0, 30 * degree, v.Last} {
			pose := a.Reference
			pose.Flexion = [2]float64{theta, theta}
			at := a.Place(i, a.At(pose, nil))
			s, c := math.Sincos(v.Ratio * theta)
			if want := r3.Add(r3.Scale(c, forward), r3.Scale(s, up)); r3.Norm(r3.Sub(at.X, want)) > 1e-9 {
				t.Errorf("%s at %.0f degrees: x along %v, want %v", name, theta/degree, at.X, want)
			}
			centre := r3.Vec{Y: -v.Spacing / 2, Z: v.Height}
			if v.Second != nil {
				centre = r3.Add(centre, r3.Add(r3.Scale(v.Second.X, forward), r3.Scale(v.Second.Y, up)))
			}
			if off := r3.Norm(r3.Cross(r3.Sub(at.Origin, centre), axis)); off > 1e-6 {
				t.Errorf("%s: the cam is %.3f off its shaft", name, off)
			}
		}
	}
}

// From outside nothing that turns shows past the guard, and none comes near it.
func TestGuardCoversWhatTurns(t *testing.T) {
	for name, v := range withCable() {
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		i, ok := a.Index("drive-guard-right")
		if !ok {
			t.Fatalf("%s: no guard", name)
		}
		guard := a.Parts[i].Solid.(solid.Prism)
		outline := guard.Profile.Outer()
		covered := 0
		for theta := v.First; theta <= v.Last; theta += 10 * degree {
			pose := a.Reference
			pose.Flexion = [2]float64{theta, theta}
			groups := a.At(pose, nil)
			over := a.Place(i, groups).Inverse()
			for k := range a.Parts {
				p := &a.Parts[k]
				if p.Side != assembly.Right || !p.Is(assembly.Guarded) {
					continue
				}
				covered++
				place := over.Then(a.Place(k, groups))
				for _, piece := range p.Solid.Pieces() {
					for n := range 48 {
						s, c := math.Sincos(2 * math.Pi * float64(n) / 48)
						d := r3.Vec{X: c, Y: s}
						own := r3.Vec{X: r3.Dot(place.X, d), Y: r3.Dot(place.Y, d), Z: r3.Dot(place.Z, d)}
						q := place.Point(piece.Support(own))
						if !outline.Contains(r2.Vec{X: q.X, Y: q.Y}) {
							t.Fatalf("%s: %s shows past the guard at %.0f degrees", name, p.ID, theta/degree)
						}
						if q.Z > -5 {
							t.Fatalf("%s: %s comes within %.1f of the guard", name, p.ID, -q.Z)
						}
					}
				}
			}
		}
		if covered == 0 {
			t.Errorf("%s: nothing is guarded", name)
		}
	}
}

// The arm's shaft does not run through the cam beside it.
func TestArmShaftEndsBeforeAGearedCam(t *testing.T) {
	for name, v := range withCable() {
		if p := v.Planes(); v.Geared() && p.ShaftEnd > p.Cam-v.CamWide/2 {
			t.Errorf("%s: the arm's shaft ends at %.1f, the cam begins at %.1f", name, p.ShaftEnd, p.Cam-v.CamWide/2)
		}
	}
}
