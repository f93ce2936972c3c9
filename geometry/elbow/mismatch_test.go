package elbow

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// seen is a point as an axis through pivot sees it, of which nothing need be a
// unit vector.
func seen(point, pivot, axis r3.Vec) AxisPoint {
	d := r3.Sub(point, pivot)
	axial := r3.Dot(d, r3.Unit(axis))
	return AxisPoint{Radial: r3.Norm(r3.Cross(r3.Unit(axis), d)), Axial: axial}
}

// path returns the hand's places over 5 to 130 degrees seen from an axis
// through the elbow.
func path(h Hinge, length float64, axis r3.Vec) []AxisPoint {
	var ps []AxisPoint
	for theta := 5.0; theta <= 130; theta++ {
		ps = append(ps, seen(r3.Scale(length, h.Forearm(theta*deg)), r3.Vec{}, axis))
	}
	return ps
}

// The figures that justify toe and cant (D): equal split, 325 mm, 5-130
// degrees, straight common axis. They count the axial part; the radius changes
// too, which adds a little to the distance.
func TestCommonAxis(t *testing.T) {
	straight := r3.Vec{Z: 1}
	tests := []struct{ alpha, axial float64 }{{12, 27.7}, {21, 47.7}}
	for _, tt := range tests {
		ps := path(FromCarrying(tt.alpha*deg, .5), 325, straight)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range ps {
			lo, hi = math.Min(lo, p.Axial), math.Max(hi, p.Axial)
		}
		near(t, fmt.Sprintf("axial part at %v", tt.alpha), (hi-lo)/2, tt.axial, .05)
		_, d := Mismatch(ps)
		if d.Max < (hi-lo)/2 || d.Max > 1.05*(hi-lo)/2 {
			t.Errorf("largest distance at %v deg is %v, axial part %v", tt.alpha, d.Max, (hi-lo)/2)
		}
	}

	// One degree of carrying angle away from the axis costs 2.33 mm.
	fitted := FromCarrying(12*deg, .5).Axis()
	ps := path(FromCarrying(13*deg, .5), 325, fitted)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		lo, hi = math.Min(lo, p.Axial), math.Max(hi, p.Axial)
	}
	near(t, "axial part of one degree", (hi-lo)/2, 2.33, .03)
}

// On its own axis the hand stays on the handle whatever the split.
func TestMismatchOnAxis(t *testing.T) {
	for _, share := range []float64{0, .3, .5, 1} {
		h := FromCarrying(15*deg, share)
		s, d := Mismatch(path(h, 325, h.Axis()))
		near(t, "mismatch", d.Max, 0, 1e-9)
		near(t, "radius", s.Radius, 325*math.Cos(h.Valgus), 1e-9)
		near(t, "axial", s.Axial, 325*math.Sin(h.Valgus), 1e-9)
	}
}

// Smallest circles known from plane geometry.
func TestMismatchCircles(t *testing.T) {
	tests := []struct {
		name   string
		points []AxisPoint
		want   Setting
		max    float64
		rms    float64 // by hand, the distances' root mean square; -1 unchecked
		worst  int
	}{
		{"one point", []AxisPoint{{300, 20}}, Setting{300, 20}, 0, 0, 0},
		{"one point twice", []AxisPoint{{300, 20}, {300, 20}}, Setting{300, 20}, 0, 0, 0},
		{"diameter", []AxisPoint{{300, 0}, {304, 10}, {300, 20}}, Setting{300, 10}, 10, math.Sqrt(72), 0},
		{"obtuse triangle", []AxisPoint{{0, 0}, {3, 1}, {6, 0}}, Setting{3, 0}, 3, math.Sqrt(19.0 / 3), 0},
		{"right triangle", []AxisPoint{{0, 0}, {6, 0}, {0, 8}}, Setting{3, 4}, 5, 5, 0},
		{"equilateral", []AxisPoint{{0, 0}, {2, 0}, {1, math.Sqrt(3)}}, Setting{1, 1 / math.Sqrt(3)}, 2 / math.Sqrt(3), 2 / math.Sqrt(3), -1},
		{"square", []AxisPoint{{0, 0}, {2, 0}, {2, 2}, {0, 2}, {1, 1}}, Setting{1, 1}, math.Sqrt2, math.Sqrt(8.0 / 5), -1},
		{"in line", []AxisPoint{{0, 0}, {1, 1}, {2, 2}, {5, 5}}, Setting{2.5, 2.5}, 2.5 * math.Sqrt2, math.Sqrt(2 * (6.25 + 2.25 + 0.25 + 6.25) / 4), -1},
	}
	for _, tt := range tests {
		s, d := Mismatch(tt.points)
		near(t, tt.name+" radius", s.Radius, tt.want.Radius, 1e-9)
		near(t, tt.name+" axial", s.Axial, tt.want.Axial, 1e-9)
		near(t, tt.name+" max", d.Max, tt.max, 1e-9)
		if tt.rms >= 0 {
			near(t, tt.name+" rms", d.RMS, tt.rms, 1e-9)
		}
		if tt.worst >= 0 && d.Worst != tt.worst {
			t.Errorf("%s worst = %d, want %d", tt.name, d.Worst, tt.worst)
		}
	}
	if s, d := Mismatch(nil); s != (Setting{}) || d != (Deviation{}) {
		t.Errorf("no points give %v, %v", s, d)
	}
}

// No other circle through two or three of the points is smaller and holds all:
// the definition, by enumeration.
func TestMismatchIsSmallest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) AxisPoint {
			return AxisPoint{
				Radial: rapid.Float64Range(280, 350).Draw(t, "radial"),
				Axial:  rapid.Float64Range(-60, 60).Draw(t, "axial"),
			}
		}), 1, 14).Draw(t, "points")
		_, d := Mismatch(ps)
		best := math.Inf(1)
		try := func(c AxisPoint) {
			if m := MismatchAt(ps, Setting{c.Radial, c.Axial}).Max; m < best {
				best = m
			}
		}
		for i, a := range ps {
			try(a)
			for j, b := range ps[:i] {
				try(through2(a, b).centre)
				for _, c := range ps[:j] {
					if s, ok := through3(a, b, c); ok {
						try(s.centre)
					}
				}
			}
		}
		if math.Abs(d.Max-best) > 1e-7 { // 2e-8 was drawn, of three points nearly on a line
			t.Fatalf("largest distance %v, least possible %v", d.Max, best)
		}
	})
}

func TestMismatchAllocatesNothing(t *testing.T) {
	ps := path(FromCarrying(21*deg, .5), 325, r3.Vec{Z: 1})
	if n := testing.AllocsPerRun(20, func() { Mismatch(ps) }); n != 0 {
		t.Errorf("Mismatch allocates %v times", n)
	}
}

func BenchmarkMismatch(b *testing.B) {
	all := path(FromCarrying(21*deg, .5), 325, r3.Vec{X: .02, Y: .05, Z: 1})
	var ps []AxisPoint
	for i := 0; i < len(all); i += 5 {
		ps = append(ps, all[i])
	}
	b.ReportAllocs()
	for b.Loop() {
		Mismatch(ps)
	}
}

func ExampleMismatch() {
	hinge := FromCarrying(12*math.Pi/180, .5)
	// One common axis, z, with no toe and no cant.
	var hand []AxisPoint
	for flexion := 5; flexion <= 130; flexion += 5 {
		place := r3.Scale(325, hinge.Forearm(float64(flexion)*math.Pi/180))
		hand = append(hand, AxisPoint{Radial: math.Hypot(place.X, place.Y), Axial: place.Z})
	}
	setting, d := Mismatch(hand)
	fmt.Printf("radius %.1f axial %.1f: off by %.1f at most\n", setting.Radius, setting.Axial, d.Max)
	// Output:
	// radius 321.4 axial 39.8: off by 27.9 at most
}
