package stock

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g ± %.2g", what, got, want, tolerance)
	}
}

func member(t *testing.T, name string) Section {
	t.Helper()
	s, err := Member(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Printed tables of EN 10219 sections, S: kg/m, cm², cm⁴, cm³, to their last
// digit (0.5 %). 80x40x3 and 80x80x3 are D.
func TestColdFormedTables(t *testing.T) {
	for name, w := range map[string][10]float64{
		// mass, A, Ix, Wx, Wpx, Iy, Wy, Wpy, It
		"40x40x3": {3.30, 4.21, 9.32, 4.66, 5.72, 9.32, 4.66, 5.72, 15.8},
		"50x50x2": {2.93, 3.74, 14.1, 5.66, 6.66, 14.1, 5.66, 6.66, 22.6},
		"50x50x3": {4.245, 5.408, 19.467, 7.787, 9.388, 19.467, 7.787, 9.388, 32.135},
		"50x50x4": {5.45, 6.95, 23.7, 9.49, 11.7, 23.7, 9.49, 11.7, 40.4},
		"60x60x3": {5.19, 6.61, 35.1, 11.7, 14.0, 35.1, 11.7, 14.0, 57.1},
		"60x60x4": {6.71, 8.55, 43.6, 14.5, 17.6, 43.6, 14.5, 17.6, 72.6},
		"50x30x3": {3.30, 4.21, 12.83, 5.13, 6.57, 5.70, 3.80, 4.58, 13.53},
		"60x40x3": {4.25, 5.41, 25.379, 8.46, 10.53, 13.440, 6.72, 7.94, 29.284},
		"80x40x3": {5.19, 6.61, 52.251, 13.06, 16.54, 17.556, 8.78, 10.16, 43.88},
		"80x80x3": {7.07, 9.01, 87.84, 21.96, 25.78, 87.84, 21.96, 25.78, 139.9},
	} {
		s := member(t, name)
		got := [...]float64{s.Mass, s.Area / 1e2, s.Ix / 1e4, s.Wx / 1e3, s.Wpx / 1e3, s.Iy / 1e4, s.Wy / 1e3, s.Wpy / 1e3, s.It / 1e4}
		for k, g := range got {
			near(t, name, g, w[k], 0.005*w[k])
		}
	}
}

// Hot-finished section with other corners, S: the same formula.
func TestHotFinishedTable(t *testing.T) {
	s := hollow(50, 50, 3.2, 1.5*3.2, 3.2)
	for k, got := range [...]float64{s.Mass, s.Area / 1e2, s.Ix / 1e4, s.Wx / 1e3, s.Wpx / 1e3, s.It / 1e4} {
		want := [...]float64{4.62, 5.88, 21.2, 8.49, 10.2, 33.8}[k]
		near(t, "50x50x3.2 hot-finished", got, want, 0.005*want)
	}
}

// American tables: 2x2x1/8 M and D, 2x2x0.120 D, 2x1x1/8 S (in, lb/ft).
func TestInchTables(t *testing.T) {
	const in2, in3, in4 = inch * inch, inch * inch * inch, inch * inch * inch * inch
	const poundsPerFoot = 1.488164 // kg/m
	for name, w := range map[string][4]float64{
		"2x2x0.125in": {0.8395, 0.4860, 0.4860, 3.053},
		"2x2x0.120in": {0.8653, 0.4984, 0.4984, 2.945},
		"2x1x0.125in": {0.608, 0.280, 0.280, 2.20},
	} {
		s := member(t, name)
		near(t, name+" A", s.Area/in2, w[0], 0.005*w[0])
		near(t, name+" I", s.Ix/in4, w[1], 0.005*w[1])
		near(t, name+" S", s.Wx/in3, w[2], 0.005*w[2])
		near(t, name+" lb/ft", s.Mass/poundsPerFoot, w[3], 0.005*w[3])
	}
	s := member(t, "2x1x0.125in")
	near(t, "2x1x0.125in Iy", s.Iy/in4, 0.092, 0.001)
}

func TestEveryMember(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range MemberNames() {
		if seen[name] {
			t.Errorf("%s is listed twice", name)
		}
		seen[name] = true
		s := member(t, name)
		// Thin-walled estimates along the middle line, without corners
		// (handbook), bound the closed formulas from above.
		b, h := s.B-s.T, s.H-s.T
		if line := 2 * s.T * (b + h); !(s.Area < line && s.Area > 0.8*line) {
			t.Errorf("%s: area %.1f, middle line %.1f", name, s.Area, line)
		}
		if bredt := 2 * s.T * b * b * h * h / (b + h); math.Abs(s.It-bredt) > 0.12*bredt {
			t.Errorf("%s: It %.0f, Bredt %.0f", name, s.It, bredt)
		}
		if !(s.Iy <= s.Ix && s.Wx < s.Wpx && s.Wy < s.Wpy && s.Wpx < 1.4*s.Wx && s.H >= s.B) {
			t.Errorf("%s: axes or moduli out of order: %+v", name, s)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(20, 100).Draw(t, "b")
		k := rapid.Float64Range(1.1, 3).Draw(t, "scale")
		one, scaled := hollow(b, 1.5*b, 2, 4, 2), hollow(k*b, k*1.5*b, k*2, k*4, k*2)
		if math.Abs(scaled.Ix/one.Ix/math.Pow(k, 4)-1) > 1e-9 || math.Abs(scaled.Wpx/one.Wpx/math.Pow(k, 3)-1) > 1e-9 {
			t.Error("properties do not scale with size")
		}
	})
}

func TestCables(t *testing.T) {
	c, err := Cable("7x19-4")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "7x19-4 breaking load, N", c.Breaking, 11200, 0) // S
	// Treads of 72 and 96 mm (D, from 18 and 24 diameters), the cable on them.
	near(t, "its radius at 18", c.LeastRadius(c.CriticalRatio), (72+4)/2, 1e-9)
	near(t, "its radius at 24", c.LeastRadius(c.DesirableRatio), (96+4)/2, 1e-9)
	near(t, "tread ratio of a centre line of 48", c.TreadRatio(48), 23, 1e-9) // (96 - 4)/4
	least, greatest := c.GrooveRadius()
	near(t, "groove radius", least, 2.12, 1e-9)
	near(t, "groove radius", greatest, 2.2, 1e-9)
	near(t, "groove depth", c.GrooveDepth(), 6, 1e-9)

	const g = 9.80665
	near(t, "factor, 100 kg", c.Breaking/(100*g), 11.42, 0.01)
	near(t, "factor, 200 kg", c.Breaking/(200*g), 5.71, 0.01)

	// Rope table of an oil-field standard, S: kN at 1770 N/mm².
	for d, want := range map[float64]float64{6: 21.2, 7: 28.8, 10: 58.8, 16: 150} {
		near(t, "6x7 fibre core, kN", RopeStrength(0.332, d, 1770)/kilonewton, want, 0.1+0.003*want)
	}
	inchCable, err := Cable("7x19-1/8in")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "1/8 in, kN", inchCable.Breaking/kilonewton, 8.90, 0.01) // S
	for _, name := range CableNames() {
		c, err := Cable(name)
		if err != nil {
			t.Fatal(err)
		}
		// A rope's breaking load over its circle's area: grades 1570-2160
		// with fill and spinning losses leave 700-1500 N/mm².
		if s := c.Breaking / (math.Pi / 4 * c.Diameter * c.Diameter); s < 700 || s > 1500 {
			t.Errorf("%s: %.0f N/mm² of its circle", name, s)
		}
	}
}

// Rope makers' tables, S.
func TestBend(t *testing.T) {
	near(t, "strength at 20", BendStrength(20), .91, 1e-12)
	near(t, "strength at 25", BendStrength(25), .92, 1e-12)
	near(t, "strength beyond", BendStrength(100), .95, 0)
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(-1, 60).Draw(t, "a"), rapid.Float64Range(-1, 60).Draw(t, "b")
		if a < b && BendStrength(a) > BendStrength(b) {
			t.Error("a larger sheave is worse")
		}
	})
	if got := BendStrength(math.NaN()); got != 0 {
		t.Errorf("BendStrength(NaN) = %g", got)
	}
}

func TestBearings(t *testing.T) {
	for _, name := range BearingNames() {
		b, err := Bearing(name)
		if err != nil {
			t.Fatal(err)
		}
		// Bore: last two digits times five, S; of an inch bore sixteenths, M.
		digits := float64(name[len(name)-1]-'0') + 10*float64(name[len(name)-2]-'0')
		size := 5 * digits
		if strings.Contains(name, "-") {
			size = digits / 16 * 25.4
		}
		near(t, name+" bore", b.Bore, size, 1e-12)
	}
	near(t, "L10, million turns", BearingUnit{Dynamic: 12800}.Life(2000), 262.144, 1e-9) // D
	near(t, "static factor", BearingUnit{Static: 7850}.StaticFactor(-1570), 5, 1e-9)
	near(t, "static factor unloaded", BearingUnit{Static: 7850}.StaticFactor(0), 7850, 0)
}

// EN 1993-1-8, values D; S275 and S355 there with the greater tensile
// strengths of EN 1993-1-1.
func TestWelds(t *testing.T) {
	s, err := SteelGrade("S235")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "S235", s.WeldStrength(), 207.85, 0.01)
	near(t, "S275", Steel{Tensile: 430, WeldFactor: .85}.WeldStrength(), 233.66, 0.01)
	near(t, "S355", Steel{Tensile: 510, WeldFactor: .90}.WeldStrength(), 261.73, 0.01)
	near(t, "S355", Steel{Tensile: 490, WeldFactor: .90}.WeldStrength(), 251.47, 0.01)
	for _, name := range SteelNames() {
		if s, err := SteelGrade(name); err != nil || s.Yield >= s.Tensile {
			t.Errorf("%s: %+v, %v", name, s, err)
		}
	}
}

// ISO 2768-1 (table S).
// ISO 13920 tables 1 and 2 as workshops' handbooks print them; class B is that
// of the reference page.
func TestWeldedTolerances(t *testing.T) {
	for _, c := range []struct {
		class string
		size  float64
		want  float64
	}{
		{"B", 30, 1}, {"B", 30.1, 2}, {"B", 400, 2}, {"B", 1000, 3}, {"B", 1200, 4}, {"B", 2001, 6}, {"A", 500, 2}, {"C", 500, 6}, {"D", 120, 4},
	} {
		if got, err := WeldedTolerance(c.class, c.size); err != nil || got != c.want {
			t.Errorf("%s %g: %g, %v; want %g", c.class, c.size, got, err, c.want)
		}
	}
	for _, c := range []struct {
		class   string
		leg     float64
		minutes float64
	}{{"B", 300, 45}, {"B", 500, 30}, {"A", 1500, 10}, {"D", 400, 90}} {
		if got, err := WeldedAngle(c.class, c.leg); err != nil || math.Abs(got-c.minutes/60*math.Pi/180) > 1e-15 {
			t.Errorf("%s %g: %g rad, %v; want %g minutes", c.class, c.leg, got, err, c.minutes)
		}
	}
	var none *ToleranceError
	for _, size := range []float64{1, 9000} {
		if _, err := WeldedTolerance("B", size); !errors.As(err, &none) {
			t.Errorf("%g mm: %v", size, err)
		}
	}
}

func TestGeneralTolerances(t *testing.T) {
	for _, c := range []struct {
		class      string
		size, want float64
	}{
		{"m", 35, .3}, {"m", 130, .5}, {"m", 30, .2}, {"m", 30.01, .3}, {"m", 400, .5}, {"m", 2000, 1.2},
		{"m", 0.5, .1}, {"m", 4000, 2}, {"c", 5, .3}, {"f", 2500, 0}, {"v", 2, 0}, {"m", 0.4, 0}, {"m", 4001, 0}, {"x", 10, 0},
	} {
		got, err := LinearTolerance(c.class, c.size)
		var none *ToleranceError
		if got != c.want || (c.want == 0) != errors.As(err, &none) {
			t.Errorf("%s %g: ±%g, %v, want ±%g", c.class, c.size, got, err, c.want)
		}
	}
	const minute = math.Pi / 180 / 60
	for _, c := range []struct {
		class        string
		leg, minutes float64
	}{{"m", 50, 30}, {"c", 60, 30}, {"m", 10, 60}, {"v", 1000, 20}} {
		got, err := AngularTolerance(c.class, c.leg)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "angle, rad", got, c.minutes*minute, 1e-12)
	}
}

func TestBeltRatios(t *testing.T) {
	all := belt().Ratios(1, 2)
	if all[0].Ratio != 1 || all[len(all)-1].Ratio != 2 {
		t.Errorf("ratios run from %g to %g", all[0].Ratio, all[len(all)-1].Ratio)
	}
	for i, d := range all {
		near(t, "ratio", d.Ratio, float64(d.ArmTeeth)/float64(d.DrivenTeeth), 0)
		if i > 0 && d.Ratio <= all[i-1].Ratio {
			t.Errorf("ratio %g after %g", d.Ratio, all[i-1].Ratio)
		}
	}
	// 1.5 is 36/24, 48/32 and more: the smallest pair stands for it.
	if d := belt().Ratios(1.5, 1.5); len(d) != 1 || d[0].ArmTeeth != 36 || d[0].DrivenTeeth != 24 {
		t.Errorf("ratio 1.5: %v", d)
	}
	if d := belt().Ratios(9, 10); d != nil {
		t.Errorf("unattainable ratios: %v", d)
	}
	near(t, "pitch diameter of 40 teeth", PitchDiameter(40), 101.86, 0.005)
}

func TestStackPlate(t *testing.T) {
	p := StackPlate("iso")
	volume := (p.Length*p.Width-math.Pi/4*2*22*22-23*23)*p.Thickness - math.Pi/4*10*10*(50-11.5)
	near(t, "mass, kg", volume*7.85e-6, 5, 1e-9)
	n, height := p.Stack(100)
	if n != 20 {
		t.Errorf("%d plates for 100 kg", n)
	}
	near(t, "height", height, 20*p.Thickness, 1e-9)
	if n, _ := p.Stack(51); n != 11 {
		t.Errorf("%d plates for 51 kg", n)
	}
	if list := PlateThicknesses(); !slices.IsSorted(list) {
		t.Errorf("sizes do not rise: %v", list)
	}
}

// Ten pounds of steel, by the pound's definition; 176 lb are 18 plates.
func TestPoundPlate(t *testing.T) {
	p := StackPlate("us")
	near(t, "mass, kg", p.Mass, 4.5359237, 1e-12)
	volume := (304.8*101.6-math.Pi/4*2*22.225*22.225-22.225*22.225)*p.Thickness - math.Pi/4*9.525*9.525*(50.8-11.1125)
	near(t, "mass from the volume, kg", volume*7.85e-6, p.Mass, 1e-9)
	if n, _ := p.Stack(176 * 0.45359237); n != 18 || p.Title != "10 lb" {
		t.Errorf("%d plates of %s for 176 lb", n, p.Title)
	}
}

// Every square tube slides on or in another with running play, or with what liners
// take up; 40x40x3 in 50x50x4 leaves 2 mm.
func TestSliding(t *testing.T) {
	arm, err := Member("40x40x3")
	if err != nil {
		t.Fatal(err)
	}
	if s, ok := Around(arm); !ok || s.Name != "50x50x4" {
		t.Errorf("around 40x40x3: %s", s.Name)
	}
	for _, name := range MemberNames() {
		m, err := Member(name)
		if err != nil {
			t.Fatal(err)
		}
		if in, ok := Within(m); ok && (in.H > m.H-2*m.Full-1 || Inch(in.Name) != Inch(name)) {
			t.Errorf("%s does not slide in %s", in.Name, name)
		}
		if m.H >= 60 {
			if _, ok := Within(m); !ok {
				t.Errorf("nothing slides in %s", name)
			}
		}
	}
}

func TestUnknownNamesHint(t *testing.T) {
	var unknown *UnknownError
	_, err := Member("60x60x33")
	if !errors.As(err, &unknown) || unknown.Kind != "tube" || !strings.Contains(err.Error(), "60x60x3") {
		t.Errorf("tube: %v", err)
	}
	for what, err := range map[string]error{
		"cable":   second(Cable("string")),
		"bearing": second(Bearing("UC999")),
		"steel":   second(SteelGrade("")),
	} {
		if !errors.As(err, &unknown) || unknown.Kind != what {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }
