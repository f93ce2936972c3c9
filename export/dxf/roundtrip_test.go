package dxf_test

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"armwright/export/dxf"

	"pgregory.net/rapid"
)

// Generators draw numbers from the grid the format quantises to, so that a
// round trip must return them to the last bit.

func length() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		return float64(rapid.IntRange(-50_000_000, 50_000_000).Draw(t, "length")) / 1e4
	})
}

func size() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		return float64(rapid.IntRange(1, 50_000_000).Draw(t, "size")) / 1e4
	})
}

func angle() *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		return float64(rapid.IntRange(0, 359_999_999).Draw(t, "angle")) / 1e6 * math.Pi / 180
	})
}

func point() *rapid.Generator[dxf.Point] {
	return rapid.Custom(func(t *rapid.T) dxf.Point {
		return dxf.Point{X: length().Draw(t, "x"), Y: length().Draw(t, "y")}
	})
}

func attr() *rapid.Generator[dxf.Attr] {
	return rapid.Custom(func(t *rapid.T) dxf.Attr {
		return dxf.Attr{
			Layer:      rapid.SampledFrom([]string{"", "A", "B"}).Draw(t, "layer"),
			Linetype:   rapid.SampledFrom([]string{"", "DASHED", "Continuous"}).Draw(t, "linetype"),
			Color:      dxf.ACI(rapid.IntRange(0, 255).Draw(t, "color")),
			Lineweight: rapid.SampledFrom(append(dxf.Lineweights(), 0)).Draw(t, "weight"),
		}
	})
}

// value draws a printable text that fits into one group.
func value() *rapid.Generator[string] {
	return rapid.StringOfN(rapid.RuneFrom([]rune("aZ09 %cdp\\U+^0041⌀°±Øé–漢😀'\"{}~")), 1, 18, -1).
		Filter(func(s string) bool { return strings.TrimSpace(s) != "" })
}

func vertex() *rapid.Generator[dxf.Vertex] {
	return rapid.Custom(func(t *rapid.T) dxf.Vertex {
		b := rapid.IntRange(-3_000_000, 3_000_000).Draw(t, "bulge")
		if rapid.Bool().Draw(t, "straight") {
			b = 0
		}
		return dxf.Vertex{Point: point().Draw(t, "at"), Bulge: float64(b) / 1e6}
	})
}

func entity() *rapid.Generator[dxf.Entity] {
	return rapid.Custom(func(t *rapid.T) dxf.Entity {
		a := attr().Draw(t, "attr")
		p := func(name string) dxf.Point { return point().Draw(t, name) }
		switch rapid.IntRange(0, 6).Draw(t, "kind") {
		case 0:
			return dxf.Line{Attr: a, A: p("a"), B: p("b")}
		case 1:
			return dxf.Circle{Attr: a, Centre: p("c"), Radius: size().Draw(t, "r")}
		case 2:
			return dxf.Arc{Attr: a, Centre: p("c"), Radius: size().Draw(t, "r"),
				Start: angle().Draw(t, "start"), End: angle().Draw(t, "end")}
		case 3:
			return dxf.Polyline{Attr: a, Closed: rapid.Bool().Draw(t, "closed"),
				Vertices: rapid.SliceOfN(vertex(), 2, 9).Draw(t, "vertices")}
		case 4:
			if rapid.Bool().Draw(t, "fitted") {
				ends := rapid.SliceOfNDistinct(point(), 2, 2, rapid.ID).Draw(t, "ends")
				return dxf.Text{Attr: a, At: ends[0], End: ends[1], H: dxf.Fit, Height: size().Draw(t, "height"), Value: value().Draw(t, "value")}
			}
			return dxf.Text{Attr: a, At: p("at"), Height: size().Draw(t, "height"), Value: value().Draw(t, "value"),
				Rotation: angle().Draw(t, "rotation"), H: dxf.HAlign(rapid.IntRange(0, 2).Draw(t, "h")),
				V: dxf.VAlign(rapid.IntRange(0, 3).Draw(t, "v")), Style: rapid.SampledFrom([]string{"", "SLIM"}).Draw(t, "style")}
		case 5:
			c := rapid.SliceOfNDistinct(point(), 3, 4, rapid.ID).Draw(t, "corners")
			return dxf.Solid{Attr: a, Corners: c}
		}
		return dxf.Insert{Attr: a, Block: "PART", At: p("at"),
			Scale: float64(rapid.IntRange(1, 9000).Draw(t, "scale")) / 1e3, Rotation: angle().Draw(t, "rotation")}
	})
}

func dimensions() *rapid.Generator[dxf.Entity] {
	return rapid.Custom(func(t *rapid.T) dxf.Entity {
		kinds := []dxf.DimKind{dxf.Rotated, dxf.Aligned, dxf.Diameter, dxf.Radius, dxf.Angular, dxf.Ordinate}
		d := dxf.Dimension{Attr: attr().Draw(t, "attr"), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
			Style: "FIVE", Text: value().Draw(t, "text"), TextAt: point().Draw(t, "text at"),
			Line: point().Draw(t, "line"), First: point().Draw(t, "first"),
			Picture: []dxf.Entity{dxf.Line{A: point().Draw(t, "a"), B: point().Draw(t, "b")}}}
		if d.Kind != dxf.Radius && d.Kind != dxf.Diameter {
			d.Second = point().Draw(t, "second")
		}
		switch d.Kind {
		case dxf.Rotated:
			d.Angle = angle().Draw(t, "angle")
		case dxf.Angular:
			d.Vertex = point().Draw(t, "vertex")
		case dxf.Ordinate:
			d.XOrdinate = rapid.Bool().Draw(t, "x")
		}
		decimals := 1e4
		if d.Kind == dxf.Angular {
			decimals = 1e6
		}
		d.Measurement = math.Round(d.Measure(5)*decimals) / decimals
		return d
	})
}

func document() *rapid.Generator[*dxf.Document] {
	return rapid.Custom(func(t *rapid.T) *dxf.Document {
		d := &dxf.Document{
			Units:      rapid.SampledFrom([]dxf.Units{dxf.Unitless, dxf.Millimetres}).Draw(t, "units"),
			Comments:   rapid.SliceOfN(rapid.StringMatching(`note[ -~°]{0,20}`), 0, 2).Draw(t, "comments"),
			Linetypes:  []dxf.Linetype{dashed()},
			Layers:     []dxf.Layer{{Name: "A", Color: dxf.Red, Linetype: "DASHED"}, {Name: "B", Color: dxf.Blue, Linetype: "Continuous"}},
			TextStyles: []dxf.TextStyle{{Name: "SLIM", Font: "txt", Width: 0.8}},
			DimStyles: []dxf.DimStyle{{Name: "FIVE", LinearFactor: 5, TextHeight: 3.5, ArrowSize: 2.5,
				Offset: 1, Extension: 2, TextStyle: "Standard"}},
			Blocks: []dxf.Block{{Name: "PART", Base: point().Draw(t, "base"), Entities: []dxf.Entity{
				dxf.Circle{Centre: point().Draw(t, "centre"), Radius: size().Draw(t, "radius")}}}},
		}
		if len(d.Comments) == 0 {
			d.Comments = nil
		}
		d.Entities = rapid.SliceOfN(rapid.OneOf(entity(), dimensions()), 1, 12).Draw(t, "entities")
		return d
	})
}

func TestRoundTrip(t *testing.T) {
	for _, v := range versions {
		t.Run(string(v), rapid.MakeCheck(func(t *rapid.T) {
			want := document().Draw(t, "document")
			var first, second bytes.Buffer
			if err := dxf.Write(&first, want, v); err != nil {
				t.Fatal(err)
			}
			if f := dxf.Audit(first.Bytes()); f != nil {
				t.Fatalf("audit: %v", f)
			}
			got, err := dxf.Read(bytes.NewReader(first.Bytes()))
			if err != nil {
				t.Fatal(err)
			}
			if err := dxf.Write(&second, got, v); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(first.Bytes(), second.Bytes()) {
				t.Fatal("written, read and written again, the bytes differ")
			}
			if v == dxf.AC1015 && !reflect.DeepEqual(got, want) {
				t.Fatalf("got\n%+v\nwant\n%+v", got, want)
			}
			if v == dxf.AC1009 {
				sameShapes(t, got, want)
			}
		}))
	}
}

// sameShapes compares what release 12 keeps of a document.
func sameShapes(t *rapid.T, got, want *dxf.Document) {
	if got.Units != want.Units || len(got.Entities) != len(want.Entities) {
		t.Fatalf("units %v, %d entities, want %v, %d", got.Units, len(got.Entities), want.Units, len(want.Entities))
	}
	for i, w := range want.Entities {
		switch g := got.Entities[i].(type) {
		case dxf.Polyline:
			w := w.(dxf.Polyline)
			if g.Closed != w.Closed || !reflect.DeepEqual(g.Vertices, w.Vertices) {
				t.Fatalf("entity %d: got %+v, want %+v", i, g, w)
			}
		case dxf.Dimension:
			w := w.(dxf.Dimension)
			if g.Text != w.Text || math.Abs(g.Measurement-w.Measurement) > 1e-4 {
				t.Fatalf("entity %d: got %+v, want %+v", i, g, w)
			}
		case dxf.Text:
			if w := w.(dxf.Text); g.Value != w.Value || g.At != w.At {
				t.Fatalf("entity %d: got %+v, want %+v", i, g, w)
			}
		}
	}
}

// Inches keep six decimals, and a thousandth of an inch survives.
func TestRoundTripInches(t *testing.T) {
	d := &dxf.Document{Units: dxf.Inches}
	d.Add(dxf.Line{A: dxf.Point{X: 0.000001}, B: dxf.Point{X: 1.234567}})
	for _, v := range versions {
		got, err := dxf.Read(bytes.NewReader(encode(t, d, v)))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, d) {
			t.Errorf("%s: got %+v, want %+v", v, got, d)
		}
	}
}

func ExampleRead() {
	d := dxf.New()
	d.Layers = []dxf.Layer{{Name: "CUT", Color: dxf.Red}}
	d.Add(dxf.Circle{Attr: dxf.Attr{Layer: "CUT"}, Centre: dxf.Point{X: 10, Y: 5}, Radius: 8.5})
	var file bytes.Buffer
	if err := dxf.Write(&file, d, dxf.AC1015); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("findings:", len(dxf.Audit(file.Bytes())))
	back, err := dxf.Read(&file)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range back.On("CUT") {
		fmt.Println("radius:", e.(dxf.Circle).Radius)
	}
	// Output:
	// findings: 0
	// radius: 8.5
}
