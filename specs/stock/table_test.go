package stock

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the tables, then read the diff against their sources")

// Every figure of stock stands a second time in testdata/tables.txt, in the order of
// the printed tables, so that one that changes by a slip is seen. A figure that is
// changed on purpose is compared with its source there.
func TestTables(t *testing.T) {
	var b strings.Builder
	head := func(title string) { fmt.Fprintf(&b, "\n# %s\n", title) }
	head("tubes: height, width, wall mm; kg/m")
	for _, s := range members() {
		fmt.Fprintf(&b, "%s %.2f %.2f %.3f %.2f\n", s.Name, s.H, s.B, s.T, s.Mass)
	}
	head("steels: yield, tensile N/mm2, weld factor")
	for _, s := range steels() {
		fmt.Fprintf(&b, "%s %.1f %.1f %.2f\n", s.Name, s.Yield, s.Tensile, s.WeldFactor)
	}
	head("cables: diameter mm, breaking N, kg/m, tread ratios")
	for _, c := range cables() {
		fmt.Fprintf(&b, "%s %.4f %.0f %.4f %g %g %s\n", c.Name, c.Diameter, c.Breaking, c.Mass, c.CriticalRatio, c.DesirableRatio, c.Mark)
	}
	head("rope strength left over a bend: tread ratio, share")
	for _, ratio := range []float64{0, .5, 1, 2, 4, 6, 8, 10, 15, 20, 30, 40, 41} {
		fmt.Fprintf(&b, "%g %.3f\n", ratio, BendStrength(ratio))
	}
	head("bearings: bore mm, C, C0 N, height, foot length and width, bolt spacing, hole mm")
	for _, v := range bearings() {
		fmt.Fprintf(&b, "%s %g %g %g %g %g %g %g %g\n", v.Name, v.Bore, v.Dynamic, v.Static, v.Height, v.Length, v.Width, v.BoltSpacing, v.BoltHole)
	}
	head("flange housings: long, across, spacing, hole, thread, foot, centre, body, ring, outer, inner mm, kg")
	for _, v := range bearings() {
		u := v.Flange()
		fmt.Fprintf(&b, "%s %s %g %g %g %g %g %g %g %g %g %g %g %g\n", v.Name, u.Name, u.Long, u.Across, u.Spacing, u.Hole, u.Thread, u.Foot, u.Centre, u.Body, u.Ring, u.Outer, u.Inner, u.Mass)
	}
	head("tubes that slide in and on one")
	for _, name := range MemberNames() {
		s, err := Member(name)
		if err != nil {
			t.Fatal(err)
		}
		within, _ := Within(s)
		around, _ := Around(s)
		fmt.Fprintf(&b, "%s in it %s, on it %s\n", name, within.Name, around.Name)
	}
	fmt.Fprintf(&b, "\n# steel: E, G N/mm2, kg/mm3\n%g %g %g\n", float64(YoungsModulus), float64(ShearModulus), float64(SteelDensity))
	head("keys of DIN 6885-1: greatest shaft, width, height, shaft depth, hub depth mm")
	for _, k := range keys() {
		fmt.Fprintf(&b, "%g %g %g %g %g\n", k.upTo, k.width, k.height, k.shaft, k.hub)
	}
	s := ClampScrew()
	fmt.Fprintf(&b, "\n# clamp screw: thread, hole, flats mm, stress mm2, preload N\n%g %g %g %g %.0f\n", s.Thread, s.Hole, s.Across, s.Stress, s.Preload)
	head("wheels: teeth, least pitch mm, even, kg/m")
	for _, v := range transmissions() {
		fmt.Fprintf(&b, "%s %g %v %g %v\n", v.Name, v.Pitch, v.Even, v.Mass, v.Teeth)
	}
	fmt.Fprintf(&b, "belt widths %v\nplates %v\n", BeltWidths(), PlateThicknesses())
	for _, region := range []string{"iso", "us"} {
		p := StackPlate(region)
		fmt.Fprintf(&b, "stack plate %s %s %.4f %g %g %.4f %g %g\n", region, p.Title, p.Mass, p.Length, p.Width, p.Thickness, p.GuideHole, p.SelectorHole)
	}
	for _, c := range []struct {
		title   string
		classes string
		of      func(string, float64) (float64, error)
		unit    float64
		bounds  []float64
	}{
		{"ISO 2768-1 table 1, lengths, mm", "fmcv", LinearTolerance, 1, []float64{0.5, 3, 6, 30, 120, 400, 1000, 2000, 4000}},
		{"ISO 2768-1 table 3, angles by the shorter leg, minutes", "fmcv", AngularTolerance, math.Pi / 180 / 60, []float64{0, 10, 50, 120, 400}},
		{"ISO 13920 table 1, lengths of weldments, mm", "ABCD", WeldedTolerance, 1, []float64{2, 30, 120, 400, 1000, 2000, 4000, 8000}},
		{"ISO 13920 table 2, angles of weldments by the shorter leg, minutes", "ABCD", WeldedAngle, math.Pi / 180 / 60, []float64{0, 400, 1000}},
	} {
		head(c.title + ": at each bound and just above it")
		for _, class := range strings.Split(c.classes, "") {
			b.WriteString(class)
			for _, size := range c.bounds {
				for _, x := range []float64{size, size * 1.0001} {
					v, err := c.of(class, x)
					var none *ToleranceError
					if errors.As(err, &none) {
						b.WriteString(" -")
					} else {
						fmt.Fprintf(&b, " %.4g", v/c.unit)
					}
				}
			}
			b.WriteByte('\n')
		}
	}
	const path = "testdata/tables.txt"
	got := strings.TrimPrefix(b.String(), "\n")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	then, now := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range max(len(then), len(now)) {
		if i >= len(then) || i >= len(now) || then[i] != now[i] {
			t.Fatalf("line %d is another; run with -update and read the diff against the sources", i+1)
		}
	}
}
