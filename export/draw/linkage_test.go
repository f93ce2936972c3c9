package draw

import (
	"math"
	"testing"

	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/specs"
	"armwright/testdata"

	"gonum.org/v1/gonum/spatial/r2"
)

// The bars keep their lengths over the range, and by virtual work the ratio is
// how much the plates turn for a turn of the elbow.
func TestBarsKeepTheirLengths(t *testing.T) {
	r := stationtest.Result(t, "linkage-study")
	m, v := newMachine(r), r.Frame.Geometry.Linkage
	const h = 1e-5
	for i, theta := range r.Resistance.Angles {
		p := m.pose(theta)
		want := [...]float64{v.Input, v.Coupler, v.Output, v.Radius}
		ends := [4][2]r2.Vec{{{}, p.Pin}, {p.Pin, p.Joint}, {p.Shaft, p.Joint}, {p.Shaft, p.Plates}}
		for k, b := range partlist.Bars(m.values) {
			if got := r2.Norm(r2.Sub(ends[k][1], ends[k][0])); math.Abs(got-want[k]) > 1e-9 || b.Length != want[k] {
				t.Errorf("%s is %v at %v and %v long, want %v", b.Title, got, theta, b.Length, want[k])
			}
		}
		if got := r2.Norm(p.Shaft); math.Abs(got-v.Ground) > 1e-9 {
			t.Errorf("ground is %v, want %v", got, v.Ground)
		}
		turn := math.Remainder(m.pose(theta+h).Lever-m.pose(theta-h).Lever, 2*math.Pi) / (2 * h)
		if math.Abs(turn-r.Resistance.Linkage.Ratio[i]) > 1e-6 {
			t.Errorf("plates turn %v for a turn of the elbow at %v, ratio %v", turn, theta, r.Resistance.Linkage.Ratio[i])
		}
	}
}

// Every length of the linkage is a dimension of its sheet.
func TestLinkageSheetHasItsLengths(t *testing.T) {
	r := stationtest.Result(t, "linkage-study")
	d, err := plain(t, "linkage-study")[0].sheet.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	v := r.Frame.Geometry.Linkage
	sin, cos := math.Sincos(v.Direction)
	for what, want := range map[string]float64{"input": v.Input, "coupler": v.Coupler, "output": v.Output, "plates": v.Radius,
		"shaft forward": math.Abs(v.Ground * cos), "shaft up": math.Abs(v.Ground * sin)} {
		found := want < 1e-6
		for _, q := range d.Dimensions {
			found = found || math.Abs(q.Value-want) < 1e-9
		}
		if !found {
			t.Errorf("no dimension shows %s, %v", what, want)
		}
	}
}

// The arm's sheet shows an eccentric weight at its radius and angle.
func TestArmSheetShowsTheEccentricWeight(t *testing.T) {
	testdata.Long(t)
	r := altered(t, "arm-pad-station", func(f *specs.Frame) {
		f.Geometry.Eccentric = &specs.Eccentric{Mass: 12, Radius: 230, Phase: 20 * specs.Degree}
	})
	set, err := sheets(r, holds(t, r))
	if err != nil {
		t.Fatal(err)
	}
	for k := range set {
		s := &set[k].sheet
		if err := check(s); err != nil {
			t.Errorf("%s: %v", set[k].slug, err)
		}
		if set[k].slug != "arm" {
			continue
		}
		d, err := s.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, q := range d.Dimensions {
			found = found || q.Dimension.Kind == sheet.Aligned && math.Abs(q.Value-230) < 1e-6
		}
		if !found {
			t.Error("no dimension shows the radius of 230 mm")
		}
	}
}
