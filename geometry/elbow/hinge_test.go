package elbow

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

const deg = math.Pi / 180

// modelAxis is the flexion axis of a public musculoskeletal arm model (S:
// Holzbaur, Murray & Delp 2005, as distributed), lateral, in the arm frame.
var modelAxis = r3.Vec{X: .04940001, Y: .03660001, Z: .99810825}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tol)
	}
}

func nearVec(t *testing.T, what string, got, want r3.Vec, tol float64) {
	t.Helper()
	near(t, what+" X", got.X, want.X, tol)
	near(t, what+" Y", got.Y, want.Y, tol)
	near(t, what+" Z", got.Z, want.Z, tol)
}

// Checks A1-A8: the model axis (S) and angles derived from it (D).
func TestModelAxis(t *testing.T) {
	a := modelAxis
	near(t, "A1 norm", r3.Norm(a), 1, 1e-6)
	near(t, "A2 angle to Z", math.Acos(a.Z)/deg, 3.5248, 1e-3)
	near(t, "A2 valgus tilt", math.Asin(a.Y)/deg, 2.0975, 1e-3)
	near(t, "A2 internal rotation", math.Atan2(a.X, a.Z)/deg, 2.8335, 1e-3)

	upper := r3.Vec{X: .0061, Y: -.2904, Z: -.0123}
	near(t, "A3 tilt from the plane across the arm",
		math.Asin(math.Abs(r3.Cos(upper, a)))/deg, 4.459, .01)

	down := r3.Vec{Y: -1}
	nearVec(t, "A4 forearm at 90", Rotate(down, a, 90*deg), r3.Vec{X: .99630, Y: -.00134, Z: -.08593}, 1e-4)
	nearVec(t, "A5 forearm at 130", Rotate(down, a, 130*deg), r3.Vec{X: .76163, Y: .64059, Z: -.09785}, 1e-4)
	wrist := r3.Vec{X: .0184, Y: -.253503, Z: .044999}
	nearVec(t, "A6 wrist at 90", Rotate(wrist, a, 90*deg), r3.Vec{X: .2565, Y: .0175, Z: .0233}, 2e-4)

	rotation := r3.Vec{X: -.01716099, Y: .99266564, Z: -.11966796} // (S) pronation axis, same model
	near(t, "A8 pronation axis to flexion axis", math.Acos(r3.Cos(rotation, a))/deg, 94.82, .02)
}

// Checks B1-B4, B6, B7: closed form of the oblique hinge (D), the last two
// fitted to measured change with flexion (S: Van Roy et al. 2005).
func TestAbduction(t *testing.T) {
	tests := []struct {
		check               string
		tilt, valgus, theta float64
		want, tol           float64
	}{
		{"B1", 6, 6, 0, 12.00, .01},
		{"B1", 6, 6, 90, 5.967, .01},
		{"B1", 6, 6, 180, 0, .01},
		{"B2", 6, 6, 30, 11.19, .01},
		{"B2", 6, 6, 60, 8.97, .01},
		{"B2", 6, 6, 120, 2.98, .01},
		{"B2", 6, 6, 140, 1.39, .01},
		{"B6", 7.59, 4.01, 0, 11.60, .05},
		{"B6", 7.59, 4.01, 140, -1.8, .05},
		{"B7", 10.36, 6.34, 0, 16.70, .1},
		{"B7", 10.36, 6.34, 140, -1.6, .1},
		{"2d table", 8.35, 8.35, 60, 12.45, .01},
		{"2d table", 4.46, 8.14, 120, 5.89, .01},
	}
	for _, tt := range tests {
		h := Hinge{Tilt: tt.tilt * deg, Valgus: tt.valgus * deg}
		near(t, fmt.Sprintf("%s A(%v) at %v/%v", tt.check, tt.theta, tt.tilt, tt.valgus),
			h.Abduction(tt.theta*deg)/deg, tt.want, tt.tol)
	}

	h := FromCarrying(12*deg, .5)
	nearVec(t, "B3 forearm at 90", h.Forearm(90*deg), r3.Vec{X: .9945, Y: .0109, Z: .1040}, 1e-4)
	for theta, want := range map[float64]float64{0: 12, 30: 32.26, 60: 61.08, 90: 90.63, 120: 120.36, 140: 140.23} {
		near(t, fmt.Sprintf("B4 long-axis angle at %v", theta), h.LongAxisAngle(theta*deg)/deg, want, .01)
	}
	for theta, want := range map[float64]float64{0: 72.6, 90: 36.3, 140: 8.5} {
		near(t, fmt.Sprintf("B10 lateral offset at %v", theta), 349*h.AbductionSine(theta*deg), want, .1)
	}
}

// Checks B5 and B8 (D), and the closed form against the rotation formula of
// this package and of gonum.
func TestHingeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Hinge{
			Tilt:   rapid.Float64Range(.001, 15*deg).Draw(t, "tilt"),
			Valgus: rapid.Float64Range(-5*deg, 15*deg).Draw(t, "valgus"),
		}
		theta := rapid.Float64Range(0, 179*deg).Draw(t, "theta")
		f, a := h.Forearm(theta), h.Axis()
		if got := math.Asin(r3.Dot(f, a)); math.Abs(got-h.Valgus) > 1e-9 {
			t.Fatalf("B5: forearm lies %v from the plane across the hinge, want %v", got, h.Valgus)
		}
		if d := h.Abduction(theta) - h.Abduction(theta+deg); !(d > 0) {
			t.Fatalf("B8: abduction grows by %v over one degree", -d)
		}
		turned := Rotate(h.Forearm(0), a, theta)
		if d := r3.Norm(r3.Sub(turned, f)); d > 1e-12 {
			t.Fatalf("rotation and closed form differ by %v", d)
		}
		if d := r3.Norm(r3.Sub(turned, r3.Rotate(h.Forearm(0), theta, a))); d > 1e-12 {
			t.Fatalf("rotation and quaternion differ by %v", d)
		}
	})
}

// Check B9 (S): the means of Van Roy et al. 2005 split and add up again.
func TestFromCarrying(t *testing.T) {
	for _, alpha := range []float64{5, 11.6, 16.7, 22} {
		for _, share := range []float64{0, .35, .5, 1} {
			h := FromCarrying(alpha*deg, share)
			near(t, "carrying angle", h.Abduction(0)/deg, alpha, 1e-9)
			near(t, "share", h.Tilt/(alpha*deg), share, 1e-12)
		}
	}
	folded := FromCarrying(14*deg, .5).Forearm(180 * deg)
	nearVec(t, "equal split fully folded", folded, r3.Vec{Y: 1}, 1e-12)
}

// The figures of the rigid-body model (D): 14.0, 12.5, 10.1, 8.2, 7.9 degrees
// at full supination, half, neutral, half, full pronation. The figures bend, the
// rule does not: it meets the ends and departs by 1.3 degrees at worst.
func TestGripRule(t *testing.T) {
	for grip, want := range map[float64]float64{90: 14.0, 45: 12.5, 0: 10.1, -45: 8.2, -90: 7.9} {
		got, err := GripLinear.Carrying(14*deg, grip*deg)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("linear rule at %v", grip), got/deg, want, 1.35)
	}
	for _, grip := range []float64{-90, 0, 60, 90} {
		if got, err := GripNone.Carrying(.2, grip*deg); err != nil || got != .2 {
			t.Errorf("rule none at %v = %v, %v", grip, got, err)
		}
	}
	var rule *RuleError
	if _, err := GripRule("cubic").Carrying(.2, 0); err == nil {
		t.Error("an unknown rule gives no error")
	} else if e, ok := err.(*RuleError); !ok || e.Rule != "cubic" {
		t.Errorf("unknown rule gives %T, want %T", err, rule)
	}
}

func ExampleHinge_Abduction() {
	h := FromCarrying(12*math.Pi/180, .5)
	for _, flexion := range []float64{0, 90, 140} {
		a := h.Abduction(flexion * math.Pi / 180)
		fmt.Printf("at %3.0f deg the hand of a 349 mm forearm lies %4.1f mm out\n", flexion, 349*math.Sin(a))
	}
	// Output:
	// at   0 deg the hand of a 349 mm forearm lies 72.6 mm out
	// at  90 deg the hand of a 349 mm forearm lies 36.3 mm out
	// at 140 deg the hand of a 349 mm forearm lies  8.5 mm out
}
