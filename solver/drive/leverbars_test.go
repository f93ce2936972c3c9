package drive

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"armwright/solver/nlp"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// Twenty random starts end at the same linkage, and at the same lever.
func TestTwentyStartsAgree(t *testing.T) {
	b := solvertest.WomensLinkage(t)
	s := designerFor(t, &b.Asked)
	g := s.BenchRig()
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
	gravity := s.GravityMoments(g)
	level := s.wantedLevel() * b.Resistance.Load.Middle / b.Resistance.Load.Heavy
	p := nlp.Problem{
		N: 2, Lower: []float64{50, -2 * math.Pi}, Upper: []float64{1500, 2 * math.Pi}, Scale: []float64{100, 1},
		Func: func(x []float64) float64 {
			sum := 0.0
			for i, theta := range s.Angles {
				v := 9.80665*b.Resistance.Load.Middle*x[0]*math.Cos(theta+x[1]) + gravity[i]
				sum += sq(v/level - s.Shape[i])
			}
			return sum / float64(len(s.Angles))
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

// The thickest shaft and plate that stock lets be asked still give bars that can be
// cut, and a plate lever that is too short for its bores whatever its radius is told.
func TestThickBarsCanBeCut(t *testing.T) {
	b := solvertest.WomensLinkage(t)
	for _, c := range []struct{ shaft, plate float64 }{{60, 40}, {60, 12}, {12, 40}, {12, 4}} {
		b.Stock.Shaft, b.Stock.CamPlate = c.shaft, c.plate
		s := designerFor(t, &b.Asked)
		v, err := s.solveBars(s.BenchRig(), 0)
		if err != nil {
			t.Errorf("shaft %g, plate %g: %v", c.shaft, c.plate, err)
			continue
		}
		if err := NewTrainBars(Train(v), c.shaft, c.plate).Check(); err != nil {
			t.Errorf("shaft %g, plate %g: %v", c.shaft, c.plate, err)
		}
	}
	b.Stock.Shaft, b.Stock.CamPlate, b.Resistance.LeverRadius = 60, 40, specs.Range{From: 50, To: 60}
	s := designerFor(t, &b.Asked)
	var short *LinkageError
	if _, err := s.solveBars(s.BenchRig(), 0); !errors.As(err, &short) || !short.ShortLever || !Unmade(err) {
		t.Errorf("lever of 60 mm: %v", err)
	}
}
