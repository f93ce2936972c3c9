package dxf_test

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"armwright/export/dxf"
)

var versions = []dxf.Version{dxf.AC1015, dxf.AC1009}

func encode(t testing.TB, d *dxf.Document, v dxf.Version) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, d, v); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestWriteIsDeterministicAndClean(t *testing.T) {
	for _, v := range versions {
		a, b := encode(t, everything(), v), encode(t, everything(), v)
		if !bytes.Equal(a, b) {
			t.Errorf("%s: two runs differ", v)
		}
		for i, c := range a {
			if c != '\n' && (c < ' ' || c > '~') {
				t.Fatalf("%s: byte %d is %#x", v, i, c)
			}
		}
		if strings.Contains(string(a), "-0.0000\n") {
			t.Errorf("%s: holds a negative zero", v)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	line := func(x float64) dxf.Entity { return dxf.Line{B: dxf.Point{X: x}} }
	square := []dxf.Vertex{{}, {Point: dxf.Point{X: 1}}, {Point: dxf.Point{X: 1, Y: 1}}}
	dim := dimension(dxf.Aligned, "5", dxf.Dimension{Second: dxf.Point{X: 1}})
	dim.Attr, dim.Style, dim.Measurement, dim.Picture = dxf.Attr{}, "", 1, []dxf.Entity{line(1)}
	with := func(f func(*dxf.Dimension)) dxf.Entity {
		d := dim
		f(&d)
		return d
	}
	tests := []struct {
		name string
		add  dxf.Entity
		want string
	}{
		{"NaN", line(math.NaN()), "not a finite number"},
		{"Inf", line(math.Inf(-1)), "not a finite number"},
		{"huge", line(1e12), "not a finite number"},
		{"no radius", dxf.Circle{}, "radius"},
		{"radius rounds to nothing", dxf.Circle{Radius: 1e-5}, "radius"},
		{"negative radius", dxf.Arc{Radius: -1, End: 1}, "radius"},
		{"NaN bulge", dxf.Polyline{Vertices: []dxf.Vertex{{Bulge: math.NaN()}, {}}}, "not a finite number"},
		{"one vertex", dxf.Polyline{Vertices: square[:1], Closed: true}, "needs two"},
		{"layer", dxf.Line{Attr: at("NOWHERE")}, `layer "NOWHERE" is not defined`},
		{"line type", dxf.Line{Attr: dxf.Attr{Linetype: "WAVY"}}, `line type "WAVY" is not defined`},
		{"colour", dxf.Line{Attr: dxf.Attr{Color: 256}}, "colour"},
		{"weight", dxf.Line{Attr: dxf.Attr{Lineweight: 26}}, "line weight"},
		{"text style", dxf.Text{Height: 1, Value: "a", Style: "FANCY"}, "text style"},
		{"empty text", dxf.Text{Height: 1}, "blank"},
		{"blank text", dxf.Text{Height: 1, Value: "  "}, "blank"},
		{"line break", dxf.Text{Height: 1, Value: "a\nb"}, "control character"},
		{"bad UTF-8", dxf.Text{Height: 1, Value: "a\xff"}, "UTF-8"},
		{"long text", dxf.Text{Height: 1, Value: strings.Repeat("ä", 40)}, "at most 255"},
		{"alignment", dxf.Text{Height: 1, Value: "a", H: 4}, "alignment"},
		{"fitted across", dxf.Text{Height: 1, Value: "a", H: dxf.Fit, V: dxf.Middle, End: dxf.Point{X: 1}}, "alignment"},
		{"fitted into nothing", dxf.Text{Height: 1, Value: "a", H: dxf.Fit}, "one point"},
		{"solid", dxf.Solid{Corners: make([]dxf.Point, 2)}, "corners"},
		{"block", dxf.Insert{Block: "NONE"}, `block "NONE" is not defined`},
		{"measurement", with(func(d *dxf.Dimension) { d.Measurement = 2 }), "measurement 2"},
		{"dimension text", with(func(d *dxf.Dimension) { d.Text = " " }), "without text"},
		{"picture", with(func(d *dxf.Dimension) { d.Picture = nil }), "without a picture"},
		{"nested", with(func(d *dxf.Dimension) { d.Picture = []dxf.Entity{dim} }), "holds a dimension"},
		{"dimension style", with(func(d *dxf.Dimension) { d.Style = "X" }), "dimension style"},
		{"dimension kind", with(func(d *dxf.Dimension) { d.Kind = 2 }), "not a dimension"},
	}
	for _, v := range versions {
		for _, tt := range tests {
			if tt.name == "weight" && v == dxf.AC1009 {
				continue // has no line weights
			}
			t.Run(string(v)+"/"+tt.name, func(t *testing.T) {
				d := dxf.New()
				d.Add(tt.add)
				var b bytes.Buffer
				err := dxf.Write(&b, d, v)
				var bad *dxf.InvalidError
				if !errors.As(err, &bad) || !strings.Contains(err.Error(), tt.want) {
					t.Fatalf("got %v, want an InvalidError with %q", err, tt.want)
				}
				if b.Len() != 0 {
					t.Errorf("wrote %d bytes of a bad document", b.Len())
				}
			})
		}
	}
	if err := dxf.Write(&bytes.Buffer{}, withEntity(dim), dxf.AC1015); err != nil {
		t.Errorf("the dimension the cases start from is refused: %v", err)
	}
}

func withEntity(e dxf.Entity) *dxf.Document {
	d := dxf.New()
	d.Add(e)
	return d
}

func TestWriteRefusesTables(t *testing.T) {
	tests := []struct {
		name string
		edit func(*dxf.Document)
		want string
	}{
		{"same layer twice", func(d *dxf.Document) { d.Layers = []dxf.Layer{{Name: "Cut"}, {Name: "CUT"}} }, "defined twice"},
		{"barred sign", func(d *dxf.Document) { d.Layers = []dxf.Layer{{Name: "A/B"}} }, "holds one of"},
		{"no name", func(d *dxf.Document) { d.Layers = []dxf.Layer{{}} }, "empty"},
		{"layer line type", func(d *dxf.Document) { d.Layers = []dxf.Layer{{Name: "A", Linetype: "B"}} }, "line type"},
		{"pattern", func(d *dxf.Document) { d.Linetypes = []dxf.Linetype{{Name: "A", Pattern: []float64{1}}} }, "pattern"},
		{"reserved line type", func(d *dxf.Document) { d.Linetypes = []dxf.Linetype{{Name: "BYLAYER"}, {Name: "continuous"}} }, "defined twice"},
		{"linear factor", func(d *dxf.Document) { d.DimStyles = []dxf.DimStyle{{Name: "A", LinearFactor: -1}} }, "linear factor"},
		{"decimals", func(d *dxf.Document) { d.DimStyles = []dxf.DimStyle{{Name: "A", Decimals: 9}} }, "decimals"},
		{"block in itself", func(d *dxf.Document) {
			d.Blocks = []dxf.Block{{Name: "A", Entities: []dxf.Entity{dxf.Insert{Block: "A"}}}}
		}, "not defined"},
		{"dimension in block", func(d *dxf.Document) {
			d.Blocks = []dxf.Block{{Name: "A", Entities: []dxf.Entity{dxf.Dimension{}}}}
		}, "dimensions in blocks"},
		{"anonymous block", func(d *dxf.Document) { d.Blocks = []dxf.Block{{Name: "*D1"}} }, "made by the writer"},
		{"units", func(d *dxf.Document) { d.Units = 17 }, "units"},
		{"comment", func(d *dxf.Document) { d.Comments = []string{"UNITS: MILES"} }, "taken for the units"},
	}
	for _, v := range versions {
		for _, tt := range tests {
			t.Run(string(v)+"/"+tt.name, func(t *testing.T) {
				d := dxf.New()
				tt.edit(d)
				err := dxf.Write(&bytes.Buffer{}, d, v)
				var bad *dxf.InvalidError
				if !errors.As(err, &bad) || !strings.Contains(err.Error(), tt.want) {
					t.Fatalf("got %v, want an InvalidError with %q", err, tt.want)
				}
			})
		}
	}
	d := dxf.New()
	d.Layers = []dxf.Layer{{Name: "Überzug"}}
	if err := dxf.Write(&bytes.Buffer{}, d, dxf.AC1015); err != nil {
		t.Error(err)
	}
	if err := dxf.Write(&bytes.Buffer{}, d, dxf.AC1009); err == nil {
		t.Error("release 12 took a layer name outside A-Z")
	}
	if err := dxf.Write(&bytes.Buffer{}, d, "AC1032"); err == nil {
		t.Error("took a version it cannot write")
	}
}
