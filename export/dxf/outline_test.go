package dxf_test

import (
	"bytes"
	"math"
	"testing"

	"armwright/export/dxf"
	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// A cut file keeps its outline to the last digit of the format: the area of
// what is read back is that of a half disc and a rectangle.
func TestOutlineSurvivesTheFile(t *testing.T) {
	p := contour.Path{Closed: true, Vertices: []contour.Vertex{
		{X: 0, Y: 0}, {X: 30, Y: 0, Bulge: 1}, {X: 30, Y: 20}, {X: 0, Y: 20}}}
	want := 30*20 + math.Pi*100/2
	for _, v := range versions {
		d := dxf.New()
		d.Layers = []dxf.Layer{{Name: dxf.CutLayer}}
		d.Add(dxf.Outline(at(dxf.CutLayer), p))
		back, err := dxf.Read(bytes.NewReader(encode(t, d, v)))
		if err != nil {
			t.Fatal(err)
		}
		got := back.On("cut")[0].(dxf.Polyline).Path()
		if math.Abs(got.Area()-want) > 1e-9 {
			t.Errorf("%s: area %v, want %v", v, got.Area(), want)
		}
		if b := got.Bounds(); r2.Norm(r2.Sub(b.Max, r2.Vec{X: 40, Y: 20})) > 1e-9 {
			t.Errorf("%s: box up to %v, want 40, 20", v, b.Max)
		}
	}
}
