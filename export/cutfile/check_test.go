package cutfile_test

import (
	"slices"
	"testing"

	"armwright/export/cutfile"
	"armwright/export/dxf"
)

func at(layer string) dxf.Attr { return dxf.Attr{Layer: layer} }

func loop(vs ...dxf.Vertex) dxf.Polyline {
	return dxf.Polyline{Attr: at(dxf.CutLayer), Closed: true, Vertices: vs}
}

func corner(x, y float64) dxf.Vertex { return dxf.Vertex{Point: dxf.Point{X: x, Y: y}} }

func rectangle(x, y, w, h float64) dxf.Polyline {
	return loop(corner(x, y), corner(x+w, y), corner(x+w, y+h), corner(x, y+h))
}

func hole(x, y, r float64) dxf.Circle {
	return dxf.Circle{Attr: at(dxf.CutLayer), Centre: dxf.Point{X: x, Y: y}, Radius: r}
}

// plate is a 100 x 60 plate with a hole, a slot and an etched mark.
func plate() *dxf.Document {
	d := dxf.New()
	d.Layers = []dxf.Layer{{Name: dxf.CutLayer, Color: dxf.Red}, {Name: dxf.EtchLayer, Color: dxf.Blue}}
	slot := loop(dxf.Vertex{Point: dxf.Point{X: 50, Y: 20}}, dxf.Vertex{Point: dxf.Point{X: 80, Y: 20}, Bulge: 1},
		dxf.Vertex{Point: dxf.Point{X: 80, Y: 30}}, dxf.Vertex{Point: dxf.Point{X: 50, Y: 30}, Bulge: 1})
	d.Add(rectangle(0, 0, 100, 60), hole(20, 30, 6), slot, dxf.Line{Attr: at(dxf.EtchLayer), B: dxf.Point{X: 5}})
	return d
}

func TestCheck(t *testing.T) {
	tests := []struct {
		name    string
		edit    func(*dxf.Document)
		want    []cutfile.Code
		warning bool
	}{
		{name: "sound", edit: func(*dxf.Document) {}},
		{name: "inches", edit: func(d *dxf.Document) { d.Units = dxf.Inches }, want: []cutfile.Code{cutfile.Units}},
		{name: "empty", edit: func(d *dxf.Document) { d.Entities = nil }, want: []cutfile.Code{cutfile.Nothing}},
		{name: "on layer 0", edit: func(d *dxf.Document) { d.Add(dxf.Circle{Centre: dxf.Point{X: 200}, Radius: 5}) }, want: []cutfile.Code{cutfile.Layers}},
		{name: "text", edit: func(d *dxf.Document) { d.Add(dxf.Text{Attr: at(dxf.EtchLayer), Height: 5, Value: "A"}) }, want: []cutfile.Code{cutfile.Kind}},
		{name: "loose line", edit: func(d *dxf.Document) { d.Add(dxf.Line{Attr: at(dxf.CutLayer), B: dxf.Point{X: 5}}) }, want: []cutfile.Code{cutfile.Open}},
		{name: "open polyline", edit: func(d *dxf.Document) {
			p := rectangle(200, 0, 10, 10)
			p.Closed = false
			d.Add(p)
		}, want: []cutfile.Code{cutfile.Open}},
		{name: "bow tie", edit: func(d *dxf.Document) {
			d.Add(loop(corner(200, 0), corner(210, 10), corner(210, 0), corner(200, 10)))
		}, want: []cutfile.Code{cutfile.Loop}},
		{name: "repeated first vertex", edit: func(d *dxf.Document) {
			d.Add(loop(corner(200, 0), corner(210, 0), corner(210, 10), corner(200, 0)))
		}, want: []cutfile.Code{cutfile.Loop}},
		{name: "hole twice", edit: func(d *dxf.Document) { d.Add(hole(20, 30, 6)) }, want: []cutfile.Code{cutfile.Duplicate}},
		{name: "outline twice, other start and sense", edit: func(d *dxf.Document) {
			d.Add(loop(corner(100, 60), corner(100, 0), corner(0, 0), corner(0, 60)))
		}, want: []cutfile.Code{cutfile.Duplicate}},
		{name: "hole over the edge", edit: func(d *dxf.Document) { d.Add(hole(100, 50, 5)) }, want: []cutfile.Code{cutfile.Crossing}},
		{name: "edge shared with a second part", edit: func(d *dxf.Document) { d.Add(rectangle(100, 10, 20, 20)) }, want: []cutfile.Code{cutfile.Crossing}},
		{name: "hole touching the edge", edit: func(d *dxf.Document) { d.Add(hole(95, 50, 5)) }, want: []cutfile.Code{cutfile.Crossing}},
		{name: "bridge of 1.9", edit: func(d *dxf.Document) { d.Add(hole(93.1, 50, 5)) }, want: []cutfile.Code{cutfile.Bridge}},
		{name: "bridge of 2", edit: func(d *dxf.Document) { d.Add(hole(93, 50, 5)) }},
		{name: "bridge of 1.5 between holes", edit: func(d *dxf.Document) { d.Add(hole(20, 43, 5.5)) }, want: []cutfile.Code{cutfile.Bridge}},
		{name: "slit", edit: func(d *dxf.Document) { d.Add(rectangle(200, 0, 50, 0.8)) }, want: []cutfile.Code{cutfile.Feature}},
		{name: "slanted slit", edit: func(d *dxf.Document) {
			d.Add(loop(corner(200, 0), corner(230, 30), corner(229.5, 30.5), corner(199.5, 0.5)))
		}, want: []cutfile.Code{cutfile.Feature}},
		{name: "hole below the thickness", edit: func(d *dxf.Document) { d.Add(hole(40, 50, 3.5)) }, want: []cutfile.Code{cutfile.Hole}, warning: true},
		{name: "hole below half the thickness", edit: func(d *dxf.Document) { d.Add(hole(40, 50, 1.9)) }, want: []cutfile.Code{cutfile.Hole}},
		{name: "larger than any bed", edit: func(d *dxf.Document) { d.Add(hole(4e8, 0, 3e8)) }, want: []cutfile.Code{cutfile.Size}},
		{name: "small part beside the plate", edit: func(d *dxf.Document) { d.Add(hole(200, 50, 1.9)) }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := plate()
			tt.edit(d)
			var got []cutfile.Code
			for _, f := range cutfile.Check(d, cutfile.Rules{Thickness: 8}) {
				got = append(got, f.Code)
				if f.Warning != tt.warning {
					t.Errorf("%v: warning %v, want %v", f, f.Warning, tt.warning)
				}
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}
