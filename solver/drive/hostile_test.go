package drive

import (
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs"
)

// A cam cannot follow a deep dip: the result names where it departs and by how
// much, and what the bend radius has to do with it.
func TestHostileTargetIsTold(t *testing.T) {
	b := solvertest.Hostile(t)
	s := designerFor(t, &b.Asked)
	g := s.BenchRig()
	made, err := s.Design(g, nil, NewMachine(g).Rest.Slope)
	if err != nil {
		t.Fatal(err)
	}
	list := s.Departures(g, &made)
	if len(list) == 0 {
		t.Fatal("no departures are told")
	}
	peak := made.Middle.peak(made.Strength)
	dip, most := false, 0.0
	for _, d := range list {
		t.Logf("%.0f to %.0f deg, most at %.0f: %+.1f %%, %+v", d.From/specs.Degree, d.To/specs.Degree, d.Worst/specs.Degree, 100*d.By, d.Cause)
		h, _, _ := made.Profile.Law.At(d.Worst)
		delivered := g.Cam.Ratio*h*made.Tension + s.gravity(g, g.Pivots.MeanAxis())(d.Worst)
		curve, _ := b.Resistance.StrengthCurve()
		if by := delivered/peak - curve.At(d.Worst); math.Abs(by-d.By) > 1e-9 {
			t.Errorf("at %.0f deg %.4f is told, %.4f is so", d.Worst/specs.Degree, d.By, by)
		}
		if d.From > d.Worst || d.To < d.Worst {
			t.Errorf("%.1f to %.1f deg, worst at %.1f", d.From/specs.Degree, d.To/specs.Degree, d.Worst/specs.Degree)
		}
		most = math.Max(most, math.Abs(d.By))
		dip = dip || d.From < 67.5*specs.Degree && d.To > 67.5*specs.Degree && d.By > 0.05
	}
	if math.Abs(most-made.Middle.MaxError) > 1e-12 {
		t.Errorf("%.4f at most is told, the torque misses the curve by %.4f", most, made.Middle.MaxError)
	}
	if !dip {
		t.Error("the dip that the cam cannot follow is not told")
	}
}
