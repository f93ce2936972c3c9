//go:build !js

package dxf_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"armwright/export/dxf"
	"armwright/export/dxf/dxftest"
)

// Chords of 4 degrees shorten an arc by a factor sinc(2°) = 1 − 2.0e-4.
const chordLoss = 1e-3

// Checks 40 and 41 (E): every kind of entity, record and dimension, in both
// versions, read by programs that are not ours.
func TestReadersAcceptEverything(t *testing.T) {
	for _, v := range versions {
		t.Run(string(v), func(t *testing.T) { dxftest.Sound(t, encode(t, everything(), v)) })
	}
}

func TestReadersAcceptEmpty(t *testing.T) {
	for _, v := range versions {
		t.Run(string(v), func(t *testing.T) {
			data := encode(t, dxf.New(), v)
			a := dxftest.Ezdxf(t, data)
			if len(a.Errors)+len(a.Fixes) != 0 {
				t.Errorf("errors %q, fixes %q", a.Errors, a.Fixes)
			}
		})
	}
}

// Dimensions as ezdxf reads them: kind, measurement, linear factor, block.
func TestReadersSeeDimensions(t *testing.T) {
	want := []struct {
		kind        int
		text        string
		measurement float64
	}{
		{0, "500", 500}, {0, "150", 150}, {1, "250", 250}, {4, "R62.5", 62.5}, {3, "%%c125", 125},
		{5, "45%%d", math.Pi / 4}, {6, "200", 200}, {6, "100", 100},
	}
	for _, v := range versions {
		t.Run(string(v), func(t *testing.T) {
			a := dxftest.Ezdxf(t, encode(t, everything(), v))
			if len(a.Dimensions) != len(want) {
				t.Fatalf("%d dimensions, want %d", len(a.Dimensions), len(want))
			}
			for i, d := range a.Dimensions {
				w := want[i]
				if d.Type != w.kind || d.Text != w.text || d.StyleFactor != 5 || d.Picture != 3 ||
					!strings.HasPrefix(d.Block, "*D") {
					t.Errorf("dimension %d: %+v, want %+v", i, d, w)
				}
				if v == dxf.AC1015 && (d.Measurement == nil || math.Abs(*d.Measurement-w.measurement) > 1e-6) {
					t.Errorf("dimension %d: measurement %v, want %v", i, d.Measurement, w.measurement)
				}
			}
			if v == dxf.AC1015 && a.Units != int(dxf.Millimetres) {
				t.Errorf("units %d", a.Units)
			}
		})
	}
}

// Check 38 (E): two half circles make a circle of radius 5, length 31.4159;
// OGR says 31.4095.
func TestReadersSeeBulges(t *testing.T) {
	d := dxf.New()
	d.Add(dxf.Polyline{Closed: true, Vertices: []dxf.Vertex{{Bulge: 1}, {Point: dxf.Point{X: 10}, Bulge: 1}}})
	for _, v := range versions {
		t.Run(string(v), func(t *testing.T) {
			f := dxftest.OGR(t, encode(t, d, v))
			if len(f) != 1 {
				t.Fatalf("%d features, want 1", len(f))
			}
			if got := f[0].Length(); math.Abs(got-10*math.Pi) > 10*math.Pi*chordLoss {
				t.Errorf("length %v, want %v", got, 10*math.Pi)
			}
			for _, p := range f[0].Line {
				if r := math.Hypot(p[0]-5, p[1]); math.Abs(r-5) > 1e-4 {
					t.Fatalf("point %v lies %v from the centre, want 5", p, r)
				}
			}
		})
	}
}

// Check 39 (E): the least file of release 12 reads everywhere, in our reader
// too.
func TestLeastFile(t *testing.T) {
	data := []byte("0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n0.0\n20\n0.0\n11\n5.0\n21\n6.0\n0\nENDSEC\n0\nEOF\n")
	d, err := dxf.Read(strings.NewReader(string(data)))
	if err != nil {
		t.Fatal(err)
	}
	if want := (dxf.Line{B: dxf.Point{X: 5, Y: 6}}); len(d.Entities) != 1 || d.Entities[0] != dxf.Entity(want) {
		t.Errorf("got %v, want %v", d.Entities, want)
	}
	t.Run("ezdxf", func(t *testing.T) {
		if a := dxftest.Ezdxf(t, data); len(a.Errors)+len(a.Fixes) != 0 || a.Entities["LINE"] != 1 {
			t.Errorf("%+v", a)
		}
	})
	t.Run("ogr", func(t *testing.T) {
		if f := dxftest.OGR(t, data); len(f) != 1 || math.Abs(f[0].Length()-math.Hypot(5, 6)) > 1e-9 {
			t.Errorf("%+v", f)
		}
	})
	t.Run("dxf-parser", func(t *testing.T) {
		if p := dxftest.Parser(t, data); p.Entities["LINE"] != 1 {
			t.Errorf("%+v", p)
		}
	})
}

// Check 40 (E): five entities on two layers, units 4.
func TestSkeleton(t *testing.T) {
	d := dxf.New()
	d.Layers = []dxf.Layer{{Name: "CUT", Color: dxf.Red}}
	d.Add(
		dxf.Line{Attr: at("CUT"), B: dxf.Point{X: 10}},
		dxf.Circle{Attr: at("CUT"), Radius: 10},
		dxf.Polyline{Attr: at("CUT"), Closed: true, Vertices: []dxf.Vertex{{}, {Point: dxf.Point{X: 5}}, {Point: dxf.Point{X: 5, Y: 5}}}},
		dxf.Arc{Attr: at("CUT"), Radius: 5, End: math.Pi / 2},
		dxf.Text{Attr: at("CUT"), Height: 3.5, Value: "A"},
	)
	data := encode(t, d, dxf.AC1015)
	dxftest.Sound(t, data)
	if a := dxftest.Ezdxf(t, data); a.Units != 4 {
		t.Errorf("units %d, want 4", a.Units)
	}
	f := dxftest.OGR(t, data)
	if len(f) != 5 {
		t.Errorf("OGR sees %d features, want 5", len(f))
	}
	for _, g := range f {
		if g.SubClasses == "AcDbEntity:AcDbCircle" && math.Abs(g.Length()-20*math.Pi) > 20*math.Pi*chordLoss {
			t.Errorf("circle of length %v, want %v", g.Length(), 20*math.Pi)
		}
	}
	p := dxftest.Parser(t, data)
	if len(p.Entities) != 5 || !slices.Equal(p.Layers, []string{"0", "CUT"}) || p.Units != 4 || !slices.Equal(p.Polylines, []int{3}) {
		t.Errorf("dxf-parser sees %+v", p)
	}
}

// Texts as OGR reads them: %%c, %%d and %%p come back as their signs.
func TestReadersSeeSigns(t *testing.T) {
	d := dxf.New()
	d.Add(dxf.Text{Height: 3.5, Value: "⌀20 ±0.1 at 30°"})
	for _, f := range dxftest.OGR(t, encode(t, d, dxf.AC1015)) {
		if f.Text != "⌀20 ±0.1 at 30°" {
			t.Errorf("OGR reads %q", f.Text)
		}
	}
}
