package judge

import (
	"math"
	"strings"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs/stock"
)

// The crossbar is a cantilever of half the pivots' spacing with one pad's force at its
// end, by the handbook: F L²/3EI of deflection to its length, F L/W bending, and the
// pad's lever twists the closed section (Bredt). The pads' force is that of the moment
// of the upper arm about the shoulder, N (U - a) = F (U cos θ + R).
func TestCrossbarByHandbook(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	r, err := CheckPeople(f, Persons{})
	if err != nil {
		t.Fatal(err)
	}
	strength := r.Resistance.Strength
	level := r.Resistance.Heavy.Target[3] / strength[3]
	lever := (r.Layout.Rest.Near + r.Layout.Rest.Far) / 2
	one := 0.0 // force of one pad, N
	for i := range r.People.Boundary {
		p := &r.People.Boundary[i]
		for k, theta := range r.Resistance.Angles {
			hands := 2 * math.Min(p.Person.ElbowStrength(), level) * strength[k] / p.Body.Forearm
			pads := hands * (p.Body.UpperArm*math.Cos(theta) + p.Body.Forearm) / (p.Body.UpperArm - lever)
			one = math.Max(one, pads/2)
		}
	}
	sec, err := stock.Member(f.Stock.Member)
	if err != nil {
		t.Fatal(err)
	}
	steel, err := stock.SteelGrade(f.Stock.Steel)
	if err != nil {
		t.Fatal(err)
	}
	long := f.Geometry.Pivots.Spacing / 2
	bent := one * long / sec.Wx
	twisted := one * lever / (2 * (sec.B - sec.T) * (sec.H - sec.T) * sec.T)
	want := map[string]float64{
		"crossbar at the post": 2.5 * math.Sqrt(bent*bent+3*twisted*twisted) / steel.Yield,
		"crossbar, each half":  one * long * long / (3 * 210000 * sec.Ix),
	}
	found := 0
	for _, c := range r.Strength.Checks {
		for part, v := range want {
			if strings.HasPrefix(c.Part, part) {
				found++
				if math.Abs(c.Value-v) > 1e-6*v {
					t.Errorf("%s: %.6f, by the handbook %.6f", c.Part, c.Value, v)
				}
			}
		}
	}
	if found != len(want) {
		t.Errorf("%d of %d checks are there", found, len(want))
	}
}
