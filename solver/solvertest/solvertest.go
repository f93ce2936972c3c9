// Package solvertest hands the examples and their stations to the tests of the
// solver's packages.
package solvertest

import (
	"math"
	"testing"

	"armwright/specs"
	"armwright/testdata"
)

// Brief is an example's brief.
func Brief(t testing.TB, name string) specs.Brief {
	t.Helper()
	data, err := specs.Examples.ReadFile("examples/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	b, err := specs.ParseBrief(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Frame is a station that is kept for tests.
func Frame(t testing.TB, name string) specs.Frame {
	t.Helper()
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Hostile is a brief that no cam on the arm's shaft can follow: it drops to a
// third in the middle of the range.
func Hostile(t testing.TB) specs.Brief {
	b := Brief(t, "cam-study")
	b.Resistance.Curve = specs.CurveTable
	b.Resistance.CurveTable = "5 deg 100, 25 deg 96, 45 deg 70, 67.5 deg 33, 90 deg 70, 110 deg 96, 130 deg 100"
	b.Resistance.Loaded = specs.Range{From: 5 * specs.Degree, To: 130 * specs.Degree}
	b.Resistance.GreatestArm = 130
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
	return b
}

// WomensLinkage is a linkage study on the measured curve of women.
func WomensLinkage(t testing.TB) specs.Brief {
	b := Brief(t, "cam-study")
	b.Resistance.Drive = "linkage"
	b.Resistance.Curve = "women-measured"
	b.Resistance.Loaded = specs.Range{From: 5 * specs.Degree, To: 130 * specs.Degree}
	b.Limits.TorqueMatch = 0.05
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
	return b
}

// Divided is the loaded range of what is asked in n angles: flexion, sine, cosine and strength,
// peak 1.
func Divided(t testing.TB, a *specs.Asked, n int) (angles, sin, cos, shape []float64) {
	t.Helper()
	curve, err := a.Resistance.StrengthCurve()
	if err != nil {
		t.Fatal(err)
	}
	r := a.Resistance.Loaded
	for i := range n {
		theta := r.From + (r.To-r.From)*float64(i)/float64(n-1)
		s, c := math.Sincos(theta)
		angles, sin, cos = append(angles, theta), append(sin, s), append(cos, c)
		shape = append(shape, curve.At(theta))
	}
	return angles, sin, cos, shape
}
