package specs_test

import (
	"fmt"
	"testing"

	"armwright/specs"
)

func TestFigure(t *testing.T) {
	for _, c := range []struct {
		x     float64
		unit  string
		units specs.Units
		want  string
	}{
		{12.34, "mm", specs.Metric, "12.3 mm"}, {-0.04, "mm", specs.Metric, "-0.04 mm"}, {0.0001, "deg", specs.Metric, "0.0001 deg"},
		{0, "mm", specs.Metric, "0.0 mm"}, {-0.00001, "mm", specs.Metric, "0.0000 mm"}, {6, "", specs.Metric, "6.00"},
		{0.667, "%", specs.Metric, "0.67 %"}, {2000, "mm", specs.Metric, "2000.0 mm"}, {80, "kg", specs.Metric, "80.00 kg"},
		// NIST Handbook 44 (2023), appendix C: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg; NIST SP 811 (2008),
		// B.8: 1 lbf = 4.448 222 N, 1 lbf·ft = 1.355 818 N·m, 1 lb/ft = 1.488 164 kg/m, 1 ksi = 6.894 757 MPa.
		{25.4, "mm", specs.InchPound, "1.00 in"}, {0.0254, "mm", specs.InchPound, "0.001 in"}, {-2.54, "mm", specs.InchPound, "-0.10 in"},
		{45.359237, "kg", specs.InchPound, "100.0 lb"}, {4448.222, "N", specs.InchPound, "1000.0 lbf"},
		{1355.818, "N·m", specs.InchPound, "1000.0 lbf·ft"}, {1355.818, "N m", specs.InchPound, "1000.0 lbf·ft"},
		{1355.818, "J", specs.InchPound, "1000.0 ft·lbf"}, {148.8164, "kg/m", specs.InchPound, "100.00 lb/ft"},
		{689.4757, "N/mm²", specs.InchPound, "100.0 ksi"},
		{12.34, "deg", specs.InchPound, "12.3 deg"}, {6, "", specs.InchPound, "6.00"}, {0.667, "%", specs.InchPound, "0.67 %"},
	} {
		if got := c.units.Figure(c.x, c.unit); got != c.want {
			t.Errorf("%s %v %q is %q, want %q", c.units, c.x, c.unit, got, c.want)
		}
	}
}

func TestSize(t *testing.T) {
	for _, c := range []struct {
		x     float64
		unit  string
		units specs.Units
		want  string
	}{
		{25, "mm", specs.Metric, "25 mm"}, {47.625, "mm", specs.Metric, "47.6 mm"}, {150, "kg", specs.Metric, "150 kg"}, {200, "N", specs.Metric, "200 N"},
		{25.4, "mm", specs.InchPound, "1 in"}, {47.625, "mm", specs.InchPound, "1.875 in"}, {150, "kg", specs.InchPound, "331 lb"}, {200, "N", specs.InchPound, "45 lbf"},
		{0, "mm", specs.InchPound, "0 in"},
	} {
		if got := c.units.Size(c.x, c.unit); got != c.want {
			t.Errorf("%s %v %q is %q, want %q", c.units, c.x, c.unit, got, c.want)
		}
	}
}

// Who dimensions in inches reads pounds, with or without millimetres beside.
func TestReads(t *testing.T) {
	for text, want := range map[string]specs.Units{"mm": specs.Metric, "in": specs.InchPound, "in-mm": specs.InchPound} {
		if got := (specs.Drawing{Units: text}).Reads(); got != want {
			t.Errorf("sheets in %s are read in %s, want %s", text, got, want)
		}
	}
}

func ExampleUnits_Figure() {
	fmt.Println(specs.Metric.Figure(12.34, "mm"))
	fmt.Println(specs.InchPound.Figure(12.34, "mm"))
	fmt.Println(specs.Metric.Figure(-0.004, "mm")) // never rounded to nothing
	// Output:
	// 12.3 mm
	// 0.49 in
	// -0.004 mm
}
