package dxf_test

import (
	"math"
	"testing"

	"armwright/export/dxf"

	"pgregory.net/rapid"
)

// Check 37 (D; E with an independent bulge-to-arc).
func TestBulge(t *testing.T) {
	for _, tt := range []struct{ sweep, bulge float64 }{{180, 1}, {90, 0.41421356}, {30, 0.13165250}, {-90, -0.41421356}} {
		if _, _, _, got := dxf.ArcFromBulge(dxf.Point{}, dxf.Point{X: 10}, tt.bulge); math.Abs(got-tt.sweep*deg) > 4e-8 {
			t.Errorf("bulge %v sweeps %v degrees, want %v", tt.bulge, got/deg, tt.sweep)
		}
	}
	for _, tt := range []struct {
		bulge, radius, included float64
		centre                  dxf.Point
	}{
		{0.5, 6.25, 106.26020, dxf.Point{X: 5, Y: 3.75}},
		{0.41421356, 7.0710678, 90, dxf.Point{X: 5, Y: 5}},
		{-0.5, 6.25, -106.26020, dxf.Point{X: 5, Y: -3.75}},
	} {
		c, r, _, sweep := dxf.ArcFromBulge(dxf.Point{}, dxf.Point{X: 10}, tt.bulge)
		// The check gives radius and centre to 8 digits, the angle to 5 decimals.
		if math.Abs(r-tt.radius) > 1e-7 || math.Abs(sweep/deg-tt.included) > 5e-6 ||
			math.Hypot(c.X-tt.centre.X, c.Y-tt.centre.Y) > 1e-7 {
			t.Errorf("bulge %v: centre %v, radius %v, sweep %v, want %+v", tt.bulge, c, r, sweep/deg, tt)
		}
	}
}

func TestArcFromBulgeEndsAtB(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := point().Draw(t, "a"), point().Draw(t, "b")
		chord := math.Hypot(b.X-a.X, b.Y-a.Y)
		k := rapid.Float64Range(0.01, 20).Draw(t, "bulge")
		if rapid.Bool().Draw(t, "clockwise") {
			k = -k
		}
		if chord < 1 {
			t.Skip("points too close to tell a direction")
		}
		c, r, start, sweep := dxf.ArcFromBulge(a, b, k)
		end := dxf.Point{X: c.X + r*math.Cos(start+sweep), Y: c.Y + r*math.Sin(start+sweep)}
		if math.Hypot(end.X-b.X, end.Y-b.Y) > 1e-9*(r+chord) {
			t.Fatalf("arc ends at %v, want %v", end, b)
		}
	})
}

// The box of a half disc over the x axis reaches one radius up.
func TestBounds(t *testing.T) {
	d := dxf.New()
	d.Add(dxf.Polyline{Vertices: []dxf.Vertex{{Point: dxf.Point{X: 10}, Bulge: 1}, {}}})
	d.Add(dxf.Arc{Centre: dxf.Point{X: 20}, Radius: 2, Start: 350 * deg, End: 10 * deg})
	lo, hi, ok := d.Bounds()
	if !ok || math.Hypot(lo.X, lo.Y+2*math.Sin(10*deg)) > 1e-9 || math.Hypot(hi.X-22, hi.Y-5) > 1e-9 {
		t.Errorf("box from %v to %v", lo, hi)
	}
	d = &dxf.Document{Blocks: []dxf.Block{{Name: "B", Base: dxf.Point{X: 1}, Entities: []dxf.Entity{
		dxf.Line{A: dxf.Point{X: 1}, B: dxf.Point{X: 3, Y: 1}}}}}}
	d.Add(dxf.Insert{Block: "b", At: dxf.Point{X: 10, Y: 10}, Scale: 2, Rotation: 90 * deg})
	lo, hi, _ = d.Bounds()
	if math.Hypot(lo.X-8, lo.Y-10) > 1e-9 || math.Hypot(hi.X-10, hi.Y-14) > 1e-9 {
		t.Errorf("insert from %v to %v, want 8,10 to 10,14", lo, hi)
	}
	if _, _, ok := dxf.New().Bounds(); ok {
		t.Error("an empty drawing has a box")
	}
}
