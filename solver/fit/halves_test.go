package fit

import (
	"math"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// On the measured curve of women the four-bar linkage at least halves what the
// best single lever leaves, as an optimised four-bar did against a two-bar on
// such curves (J Med Devices 2007;1(1):3, abstract, S: better, no figures). The
// frame delivers it, its dead points lie outside the motion, and the
// transmission angle stays above 40 degrees.
func TestLinkageHalvesTheLeversError(t *testing.T) {
	r := solve(t, solvertest.WomensLinkage(t))
	d := &r.Resistance
	t.Logf("lever %.2f %%, linkage %.2f %% (worst load %.2f %%), least transmission angle %.1f deg, %+v",
		100*d.Linkage.LeverRMS, 100*d.Middle.RMS, 100*math.Max(d.Light.RMS, d.Heavy.RMS), d.Linkage.LeastTransmission/specs.Degree, *r.Frame.Geometry.Linkage)
	if d.Middle.RMS > d.Linkage.LeverRMS/2 {
		t.Errorf("linkage %.4f, lever %.4f", d.Middle.RMS, d.Linkage.LeverRMS)
	}
	if d.Linkage.LeastTransmission < 40*specs.Degree-1e-3 {
		t.Errorf("transmission angle %.2f deg", d.Linkage.LeastTransmission/specs.Degree)
	}
	v := r.Frame.Geometry.Linkage
	if err := drive.Train(v).Clear(d.Angles[0]-5*specs.Degree, d.Angles[len(d.Angles)-1]+5*specs.Degree); err != nil {
		t.Error(err)
	}
	// Virtual work: the torque over the range is the fall of the plates.
	work := 0.0
	for i := 1; i < len(d.Angles); i++ {
		work += (d.Angles[i] - d.Angles[i-1]) * (d.Middle.Delivered[i] - d.Gravity[i] + d.Middle.Delivered[i-1] - d.Gravity[i-1]) / 2
	}
	height := func(theta float64) float64 {
		p, err := drive.Train(v).At(theta)
		if err != nil {
			t.Fatal(err)
		}
		return p.Plates.Y
	}
	lift := 20 * 9.80665 * (height(d.Angles[len(d.Angles)-1]) - height(d.Angles[0]))
	if math.Abs(work-lift) > 2e-3*lift {
		t.Errorf("work %.0f N·mm, lift of the plates %.0f", work, lift)
	}
}
