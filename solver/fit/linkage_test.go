package fit

import (
	"errors"
	"math"
	"testing"

	"armwright/geometry/linkage"
	"armwright/geometry/station"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// linked is the example with a linkage on its first geometry, not solved for
// people, and its drive.
func linked(t testing.TB) (*program, *specs.Geometry, drive) {
	return designed(t, example(t, "reclined-linkage"))
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
	within := s.asked.Resistance.LeverRadius
	if v := g.Linkage.Radius; v < within.From-1e-3 || v > within.To+1e-3 {
		t.Errorf("plates at %.1f mm", v)
	}
	for _, theta := range s.angles {
		p, err := Train(g.Linkage).At(theta)
		if err != nil {
			t.Fatal(err)
		}
		along := r2.Unit(r2.Sub(p.Joint, p.Pin))
		if off := math.Abs(r2.Cross(along, r2.Sub(p.Shaft, p.Pin))); off < station.ShaftClear(s.asked.Stock.Shaft, s.asked.Stock.CamPlate)-0.01 {
			t.Errorf("coupler %.1f mm from the shaft at %.0f deg", off, theta/deg)
		}
	}
}

// What the station delivers is the rise of everything that moves: arm, bars,
// sleeve and plates, each with its weight, as the layout places them. The layout
// takes the axis level, so the axes here are.
func TestLinkageTorqueIsTheRiseOfItsParts(t *testing.T) {
	s, g, _ := linked(t)
	for i := range g.Pivots.Axes {
		g.Pivots.Axes[i] = specs.Axis{}
	}
	d, err := s.drive(g)
	if err != nil {
		t.Fatal(err)
	}
	l := s.layout(g)
	plates := s.asked.Resistance.Load.Heavy
	height := func(theta float64) float64 { // N·mm
		_, moment, at := l.Swinging(theta - s.angles[0])
		return linkage.G * (moment.Z + plates*at.Z)
	}
	const h = 1e-5
	for k, theta := range s.angles {
		rise := (height(theta+h) - height(theta-h)) / (2 * h)
		if diff := d.Heavy.Delivered[k] - rise; math.Abs(diff) > 1e-4*d.Heavy.Delivered[k] {
			t.Errorf("at %.0f deg %.1f N·mm, by rise %.1f", theta/deg, d.Heavy.Delivered[k], rise)
		}
	}
}

// The stance used for tipping is the structure's centre at every angle, both
// arms moving.
func TestLinkageStance(t *testing.T) {
	s, g, d := linked(t)
	l := s.layout(g)
	st := l.Build()
	stand := s.stance(&scene{layout: l, built: st, drive: d})
	for k, theta := range s.angles {
		mass, c := l.Moved(st, theta-s.angles[0], 0).Centre()
		got := r3.Scale(1/stand.mass[2], stand.moment[2][bothArms][k])
		if math.Abs(mass-stand.mass[2]) > 1e-9 || r3.Norm(r3.Sub(got, c)) > 1e-6 {
			t.Errorf("at %.0f deg %.3f kg at %v, want %.3f kg at %v", theta/deg, stand.mass[2], got, mass, c)
		}
	}
}

// The plates are where the hazards' disc turns: its gap to the floor is that of
// the rim's lowest point, worked out by hand for a level axis. The disc is taken
// at eight diameters, so the lowest point may be missed by 1 - cos 11.25 deg of
// its radius.
func TestLinkageGapToFloor(t *testing.T) {
	s, g, d := linked(t)
	g.Pivots.Axes = []specs.Axis{{}}
	l := s.layout(g)
	want := math.Inf(1)
	for _, theta := range s.angles {
		p, err := Train(g.Linkage).At(theta)
		if err != nil {
			t.Fatal(err)
		}
		want = math.Min(want, g.Pivots.Height+p.Plates.Y-plateRim)
	}
	want -= plateThickness(l.PlatesEachArm) / 2 // the rim is taken round
	for _, p := range s.hazards(g, l, l.Build(), d).Pairs {
		if p.Moving == plateName && p.Fixed == floorName {
			if p.Gap < want-1e-6 || p.Gap > want+plateRim*(1-math.Cos(11.25*deg)) {
				t.Errorf("gap %.2f mm, want %.2f", p.Gap, want)
			}
			return
		}
	}
	t.Error("no gap between plates and floor")
}

// A frame whose bars do not reach is refused with the reason.
func TestOpenLinkageIsRefused(t *testing.T) {
	s, g, _ := linked(t)
	v := *g.Linkage
	v.Coupler = 20
	g.Linkage = &v
	var e *linkage.Error
	if _, err := s.drive(g); !errors.As(err, &e) || e.Kind != linkage.Open {
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
