package fit

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"armwright/solver/nlp"
	"armwright/specs"
)

// womanly is a linkage study on the measured curve of women.
func womanly(t testing.TB) specs.Brief {
	b := example(t, "cam-study")
	b.Resistance.Drive = "linkage"
	b.Resistance.Curve = "women-measured"
	b.Resistance.Loaded = specs.Range{From: 5 * deg, To: 130 * deg}
	b.Limits.TorqueMatch = 0.05
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
	return b
}

// On the measured curve of women the four-bar linkage at least halves what the
// best single lever leaves, as an optimised four-bar did against a two-bar on
// such curves (J Med Devices 2007;1(1):3, abstract, S: better, no figures). The
// frame delivers it, its dead points lie outside the motion, and the
// transmission angle stays above 40 degrees.
func TestLinkageHalvesTheLeversError(t *testing.T) {
	r := solve(t, womanly(t))
	d := &r.Resistance
	t.Logf("lever %.2f %%, linkage %.2f %% (worst load %.2f %%), least transmission angle %.1f deg, %+v",
		100*d.Linkage.LeverRMS, 100*d.Middle.RMS, 100*math.Max(d.Light.RMS, d.Heavy.RMS), d.Linkage.LeastTransmission/deg, *r.Frame.Geometry.Linkage)
	if d.Middle.RMS > d.Linkage.LeverRMS/2 {
		t.Errorf("linkage %.4f, lever %.4f", d.Middle.RMS, d.Linkage.LeverRMS)
	}
	if d.Linkage.LeastTransmission < leastPass-1e-3 {
		t.Errorf("transmission angle %.2f deg", d.Linkage.LeastTransmission/deg)
	}
	v := r.Frame.Geometry.Linkage
	if err := Train(v).Clear(d.Angles[0]-barsPastEnds, d.Angles[len(d.Angles)-1]+barsPastEnds); err != nil {
		t.Error(err)
	}
	// Virtual work: the torque over the range is the fall of the plates.
	work := 0.0
	for i := 1; i < len(d.Angles); i++ {
		work += (d.Angles[i] - d.Angles[i-1]) * (d.Middle.Delivered[i] - d.Gravity[i] + d.Middle.Delivered[i-1] - d.Gravity[i-1]) / 2
	}
	height := func(theta float64) float64 {
		p, err := Train(v).At(theta)
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

// Twenty random starts end at the same linkage, and at the same lever.
func TestTwentyStartsAgree(t *testing.T) {
	b := womanly(t)
	s, err := newProgram(&b.Asked)
	if err != nil {
		t.Fatal(err)
	}
	g := s.benchRig()
	var first *specs.Linkage
	for seed := range uint64(20) {
		v, err := s.solveBars(g, seed)
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = v
		}
		for _, c := range [][2]float64{{v.Input, first.Input}, {v.Coupler, first.Coupler}, {v.Output, first.Output}, {v.Radius, first.Radius}} {
			if math.Abs(c[0]-c[1]) > 0.05 {
				t.Errorf("seed %d: %+v, first %+v", seed, *v, *first)
				break
			}
		}
		if v.Assembly != first.Assembly {
			t.Errorf("seed %d: %s, first %s", seed, v.Assembly, first.Assembly)
		}
	}
	// The lever, its radius and phase searched by the optimiser.
	gravity := s.gravityMoments(g)
	level := s.wantedLevel() * b.Resistance.Load.Middle / b.Resistance.Load.Heavy
	p := nlp.Problem{
		N: 2, Lower: []float64{50, -2 * math.Pi}, Upper: []float64{1500, 2 * math.Pi}, Scale: []float64{100, 1},
		Func: func(x []float64) float64 {
			sum := 0.0
			for i, theta := range s.angles {
				v := 9.80665*b.Resistance.Load.Middle*x[0]*math.Cos(theta+x[1]) + gravity[i]
				sum += sq(v/level - s.shape[i])
			}
			return sum / float64(len(s.angles))
		},
	}
	random := rand.New(rand.NewPCG(7, 7))
	for range 20 {
		r, err := nlp.Minimize(context.Background(), p, []float64{50 + 800*random.Float64(), math.Pi * (2*random.Float64() - 1)}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if rms := math.Sqrt(r.F); math.Abs(rms-s.bestLever(g)) > 1e-4 {
			t.Errorf("from a random start %.6f, by least squares %.6f", rms, s.bestLever(g))
		}
	}
}
