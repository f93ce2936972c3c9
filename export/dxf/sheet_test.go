//go:build !js

package dxf_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"armwright/export/dxf"
	"armwright/export/dxf/dxftest"
	"armwright/export/sheet"
	"armwright/export/sheet/sheettest"

	"gonum.org/v1/gonum/spatial/r2"
)

func bracket(t testing.TB) *sheet.Drawing {
	t.Helper()
	d, err := sheettest.Bracket().Flatten()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// The sheet that uses everything passes our audit and all readers, in both
// versions.
func TestSheetIsSound(t *testing.T) {
	for _, v := range versions {
		t.Run(string(v), func(t *testing.T) {
			var b bytes.Buffer
			if err := (dxf.Renderer{Version: v}).Render(&b, bracket(t)); err != nil {
				t.Fatal(err)
			}
			dxftest.Sound(t, b.Bytes())
		})
	}
}

// Every dimension measures the part at its real size, whatever the scale of
// its view, and says what the sheet says. The sizes are those of the bracket.
func TestSheetDimensions(t *testing.T) {
	d := bracket(t)
	for _, v := range versions {
		var b bytes.Buffer
		if err := (dxf.Renderer{Version: v}).Render(&b, d); err != nil {
			t.Fatal(err)
		}
		back, err := dxf.Read(&b)
		if err != nil {
			t.Fatal(err)
		}
		var dims []dxf.Dimension
		for _, e := range back.Entities {
			if dim, ok := e.(dxf.Dimension); ok {
				dims = append(dims, dim)
			}
		}
		if len(dims) != len(d.Dimensions) {
			t.Fatalf("%s: %d dimensions, want %d", v, len(dims), len(d.Dimensions))
		}
		seen := map[string]float64{}
		for i, dim := range dims {
			want := d.Dimensions[i]
			// Half a step of the file in two coordinates of two points, enlarged
			// by the scale.
			tolerance := 2e-4 / want.Scale.Factor()
			if math.Abs(dim.Measurement-want.Value) > tolerance {
				t.Errorf("%s: %q measures %v, want %v", v, dim.Text, dim.Measurement, want.Value)
			}
			if strings.ReplaceAll(dim.Text, "⌀", "Ø") != want.Text {
				t.Errorf("%s: says %q, want %q", v, dim.Text, want.Text)
			}
			seen[dim.Text] = dim.Measurement
		}
		for text, want := range map[string]float64{"120": 120, "⌀25 H7": 25, "R30": 30, "2x ⌀11": 11, "60 ±0.1": 60, "45°": math.Pi / 4} {
			if got, ok := seen[text]; !ok || math.Abs(got-want) > 1e-3 {
				t.Errorf("%s: %q measures %v, want %v", v, text, got, want)
			}
		}
	}
}

// Each role has its layer with the line width of group 0.5 in hundredths
// (check 35: wide 50, narrow 25) and the pattern of its line type.
func TestSheetLayers(t *testing.T) {
	want := map[string]dxf.Layer{
		"VISIBLE":   {Linetype: "CONTINUOUS", Lineweight: 50},
		"HIDDEN":    {Linetype: "DASHED", Lineweight: 25},
		"CENTRE":    {Linetype: "CHAIN", Lineweight: 25},
		"PHANTOM":   {Linetype: "CHAIN2", Lineweight: 25},
		"DIMENSION": {Linetype: "CONTINUOUS", Lineweight: 25},
		"BORDER":    {Linetype: "CONTINUOUS", Lineweight: 70},
		"TEXT":      {Linetype: "CONTINUOUS", Lineweight: 35},
	}
	doc := dxf.Sheet(bracket(t))
	found := 0
	for _, l := range doc.Layers {
		w, ok := want[l.Name]
		if !ok {
			continue
		}
		found++
		if l.Linetype != w.Linetype || l.Lineweight != w.Lineweight {
			t.Errorf("layer %s is %+v, want %+v", l.Name, l, w)
		}
	}
	if found != len(want) {
		t.Errorf("%d of %d layers", found, len(want))
	}
	for _, l := range doc.Linetypes {
		if l.Name == "CHAIN" && (len(l.Pattern) != 4 || l.Pattern[0] != 6 || l.Pattern[1] != -0.75) {
			t.Errorf("chain is %v, want 6, -0.75 ... (standards 7.4 for width 0.25)", l.Pattern)
		}
	}
	// Nothing leaves the trimmed sheet, and the frame of ISO 5457 is there.
	lo, hi, _ := doc.Bounds()
	if lo.X < 0 || lo.Y < 0 || hi.X > 420 || hi.Y > 297 || hi.X < 410 || lo.X > 20 {
		t.Errorf("drawn from %v to %v on 420 x 297", lo, hi)
	}
}

// The solids of a filled ring cover its area, and those of a wavy hollow
// shape too.
func TestSheetFills(t *testing.T) {
	circle := func(r float64) []sheet.Vertex {
		return []sheet.Vertex{{Vec: r2.Vec{X: r}, Bulge: 1}, {Vec: r2.Vec{X: -r}, Bulge: 1}}
	}
	polygon := func(xy ...float64) (out []sheet.Vertex) {
		for i := 0; i < len(xy); i += 2 {
			out = append(out, sheet.Vertex{Vec: r2.Vec{X: xy[i], Y: xy[i+1]}})
		}
		return out
	}
	tests := []struct {
		name  string
		loops [][]sheet.Vertex
		area  float64
		tol   float64
	}{
		{"arrowhead", [][]sheet.Vertex{polygon(0, 0, 2.5, 0.4, 2.5, -0.4)}, 1, 1e-12},
		{"L", [][]sheet.Vertex{polygon(0, 0, 4, 0, 4, 1, 1, 1, 1, 5, 0, 5)}, 8, 1e-12},
		{"M", [][]sheet.Vertex{polygon(0, 0, 1, 0, 1, 3, 2, 2, 3, 3, 3, 0, 4, 0, 4, 5, 2, 3, 0, 5)}, 11, 1e-12},
		// Chords within ChordError lose less than that times the perimeter.
		{"ring", [][]sheet.Vertex{circle(10), circle(6)}, math.Pi * 64, sheet.ChordError * 2 * math.Pi * 16},
	}
	for _, tt := range tests {
		d := dxf.Sheet(&sheet.Drawing{Primitives: []sheet.Primitive{sheet.Fill{Role: sheet.Hatching, Loops: tt.loops}}})
		var sum float64
		for _, e := range d.Entities {
			c := e.(dxf.Solid).Corners
			var area float64
			for i, p := range c {
				q := c[(i+1)%len(c)]
				area += (p.X*q.Y - q.X*p.Y) / 2
			}
			sum += math.Abs(area)
		}
		if math.Abs(sum-tt.area) > tt.tol {
			t.Errorf("%s: solids cover %v, want %v", tt.name, sum, tt.area)
		}
	}
}

// Every text of a sheet is fitted: it is as wide as the layout made room for, in whatever
// font a program sets it, and starts where the layout has it start.
func TestTextsAreFitted(t *testing.T) {
	d := bracket(t)
	labels := map[string][]sheet.Label{}
	for p := range d.All() {
		if l, ok := p.(sheet.Label); ok {
			labels[strings.ReplaceAll(l.Value, "Ø", "⌀")] = append(labels[strings.ReplaceAll(l.Value, "Ø", "⌀")], l)
		}
	}
	var all []dxf.Text
	take := func(list []dxf.Entity) {
		for _, e := range list {
			if v, ok := e.(dxf.Text); ok {
				all = append(all, v)
			}
		}
	}
	doc := dxf.Sheet(d)
	take(doc.Entities)
	for _, e := range doc.Entities {
		if dim, ok := e.(dxf.Dimension); ok {
			take(dim.Picture)
		}
	}
	if len(all) < 40 {
		t.Fatalf("%d texts", len(all))
	}
	for _, v := range all {
		found := false
		for _, l := range labels[strings.ReplaceAll(v.Value, "Ø", "⌀")] {
			share := [3]float64{0, 0.5, 1}[l.H] // of the width before the anchor
			at := r2.Vec{X: v.At.X + share*(v.End.X-v.At.X), Y: v.At.Y + share*(v.End.Y-v.At.Y)}
			wide := math.Hypot(v.End.X-v.At.X, v.End.Y-v.At.Y)
			found = found || r2.Norm(r2.Sub(at, l.At)) < 1e-9 && math.Abs(wide-sheet.TextWidth(l.Value, l.Height)) < 1e-9
		}
		if v.H != dxf.Fit || !found {
			t.Errorf("%q at %v to %v is not as the layout has it", v.Value, v.At, v.End)
		}
	}
}

// Release 12 has no escapes; what a plain character says as well is written so on sheets.
func TestPlainCharacters(t *testing.T) {
	s := sheet.Sheet{Size: sheet.A4, Notes: []string{"8 N/mm², 2 × 3 – 4·5 m³ Ø7 30° ±1"}}
	d, err := s.Flatten()
	if err != nil {
		t.Fatal(err)
	}
	for v, want := range map[dxf.Version]string{
		dxf.AC1009: "8 N/mm2, 2 x 3 - 4.5 m3 %%c7 30%%d %%p1",
		dxf.AC1015: `8 N/mm\U+00B2, 2 \U+00D7 3 \U+2013 4\U+00B75 m\U+00B3 %%c7 30%%d %%p1`,
	} {
		var b bytes.Buffer
		if err := (dxf.Renderer{Version: v}).Render(&b, d); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(b.String(), want) {
			t.Errorf("%s: no %q", v, want)
		}
	}
}
