package drive

import (
	"errors"
	"math"
	"testing"

	"armwright/geometry/linkage"
	"armwright/solver/solvertest"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// linked is the example with a linkage, and its drive.
func linked(t testing.TB) (*Designer, *specs.Geometry, State) {
	return designed(t, solvertest.Brief(t, "reclined-linkage"), "reclined-linkage")
}

// On the station as on the bench the linkage at least halves what the best
// single lever leaves on the women's measured curve; plates within the brief's
// range, the coupler clear of the output shaft.
func TestStationLinkage(t *testing.T) {
	s, g, d := linked(t)
	t.Logf("lever %.2f %%, linkage %.2f %%, %+v", 100*d.Linkage.LeverRMS, 100*d.Middle.RMS, *g.Linkage)
	if d.Middle.RMS > d.Linkage.LeverRMS/2 {
		t.Errorf("linkage %.4f, lever %.4f", d.Middle.RMS, d.Linkage.LeverRMS)
	}
	within := s.Asked.Resistance.LeverRadius
	if v := g.Linkage.Radius; v < within.From-1e-3 || v > within.To+1e-3 {
		t.Errorf("plates at %.1f mm", v)
	}
	for _, theta := range s.Angles {
		p, err := Train(g.Linkage).At(theta)
		if err != nil {
			t.Fatal(err)
		}
		along := r2.Unit(r2.Sub(p.Joint, p.Pin))
		if off := math.Abs(r2.Cross(along, r2.Sub(p.Shaft, p.Pin))); off < ShaftClear(s.Asked.Stock.Shaft, s.Asked.Stock.CamPlate)-0.01 {
			t.Errorf("coupler %.1f mm from the shaft at %.0f deg", off, theta/specs.Degree)
		}
	}
}

// A frame whose bars do not reach is refused with the reason.
func TestOpenLinkageIsRefused(t *testing.T) {
	s, g, _ := linked(t)
	v := *g.Linkage
	v.Coupler = 20
	g.Linkage = &v
	var e *linkage.Error
	if _, err := s.Evaluate(g); !errors.As(err, &e) || e.Kind != linkage.Open {
		t.Errorf("got %v", err)
	}
}

// Beginning where it is best, the search stays there.
func TestRefineStays(t *testing.T) {
	s, g, _ := linked(t)
	v, err := s.refineBars(g)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(v.Input-g.Linkage.Input) > 0.1 || math.Abs(v.Coupler-g.Linkage.Coupler) > 0.1 || math.Abs(v.Radius-g.Linkage.Radius) > 0.1 {
		t.Errorf("%+v, from %+v", *v, *g.Linkage)
	}
}

func BenchmarkLinkageLengths(b *testing.B) {
	s, g, _ := linked(b)
	for b.Loop() {
		if _, err := s.solveBars(g, barSeed); err != nil {
			b.Fatal(err)
		}
	}
}
