package stock

import (
	"math"
	"testing"
)

// 24 teeth beside 36 at 151 mm: sin α = (91.67 − 61.12)/302.5, so that 168.4° are
// wrapped, 11.2 teeth. Equal wheels mesh with half their teeth.
func TestMeshing(t *testing.T) {
	if n := belt().Meshing(36, 24, 151.23); n != 11 {
		t.Errorf("%d teeth in mesh", n)
	}
	if a, b := belt().Meshing(24, 36, 151.23), belt().Meshing(36, 24, 151.23); a != b {
		t.Errorf("%d and %d teeth, by the order of the wheels", a, b)
	}
	if n := belt().Meshing(40, 40, 200); n != 20 {
		t.Errorf("%d of 40 teeth in mesh", n)
	}
}

// Hand calculation: 30 mm of belt with 11 teeth in mesh carry 5.888 x 30 x 11 =
// 1943 N by the teeth and 2640 N by the cords; 20 mm carry 1295 N.
func TestDriveStrength(t *testing.T) {
	for _, c := range []struct {
		pull, width, factor float64
		basis               string
	}{
		{800, 20, 1295.36 / 800, "teeth in mesh"},
		{1000, 30, 1943.04 / 1000, "teeth in mesh"},
		{1e5, 85, 85 * 5.888 * 11 / 1e5, "teeth in mesh"}, // too much for any: the widest
	} {
		s := belt().Strength(c.pull, 11)
		if s.Width != c.width || math.Abs(s.Factor-c.factor) > 1e-9 || s.Basis != c.basis {
			t.Errorf("%g N: %+v, want %g mm with %.4f", c.pull, s, c.width, c.factor)
		}
	}
	if a, b := belt().Strength(900, 12), belt().Strength(900, 40); a != (DriveStrength{a.Pull, a.Width, 12, b.Factor, a.Wanted, b.Basis}) {
		t.Errorf("more than twelve teeth carry more: %+v, %+v", a, b)
	}
	chain, err := TransmissionOf("chain")
	if err != nil {
		t.Fatal(err)
	}
	if s := chain.Strength(1500, 9); s.Factor != 12 || s.Width != 0 {
		t.Errorf("chain %+v", s)
	}
}

// Number 40 has the pitch of 08B, so that wheels are of one size, and breaks at 13.9 kN;
// belts are the same everywhere.
func TestChainOfARegion(t *testing.T) {
	chain, err := TransmissionOf("chain")
	if err != nil {
		t.Fatal(err)
	}
	us := chain.In("us")
	if us.Pitch != chain.Pitch || us.WheelDiameter(17) != chain.WheelDiameter(17) || us.Title != "roller chain 40, ASME B29.1" {
		t.Errorf("in us %+v", us)
	}
	if got := us.Strength(1000, 8); math.Abs(got.Factor-13.90) > 0.01 || got.Wanted != 7 {
		t.Errorf("1 kN: %+v", got)
	}
	if math.Abs(us.Teethed-7.23) > 0.01 || math.Abs(us.Mass-0.61) > 0.001 {
		t.Errorf("teeth %.3f mm wide, %.3f kg/m", us.Teethed, us.Mass)
	}
	if iso := chain.In("iso"); iso.Title != "roller chain 08B" || iso.Strength(1000, 8).Factor != 18 {
		t.Errorf("in iso %+v", iso)
	}
	if b := belt(); b.In("us").Title != b.Title {
		t.Errorf("belt in us %+v", b.In("us"))
	}
}
