package dxf_test

import (
	"math"

	"armwright/export/dxf"
)

const deg = math.Pi / 180

func at(layer string) dxf.Attr { return dxf.Attr{Layer: layer} }

func dashed() dxf.Linetype {
	return dxf.Linetype{Name: "DASHED", Description: "Dashed __ __", Pattern: []float64{3, -0.75}}
}

// picture is the least that shows a dimension: a line, an arrowhead, a text.
func picture(a, b dxf.Point, text string) []dxf.Entity {
	l := at("DIMENSION")
	return []dxf.Entity{
		dxf.Line{Attr: l, A: a, B: b},
		dxf.Solid{Attr: l, Corners: []dxf.Point{a, {X: a.X + 2.5, Y: a.Y + 0.4}, {X: a.X + 2.5, Y: a.Y - 0.4}}},
		dxf.Text{Attr: l, At: dxf.Point{X: (a.X + b.X) / 2, Y: (a.Y+b.Y)/2 + 2}, Height: 3.5, Value: text,
			H: dxf.Center, V: dxf.Middle},
	}
}

func dimension(kind dxf.DimKind, text string, d dxf.Dimension) dxf.Dimension {
	d.Attr, d.Kind, d.Style, d.Text = at("DIMENSION"), kind, "SCALE_1_5", text
	d.Picture = picture(d.First, d.Line, text)
	d.TextAt = dxf.Point{X: (d.First.X + d.Line.X) / 2, Y: (d.First.Y+d.Line.Y)/2 + 2}
	d.Measurement = d.Measure(5)
	return d
}

// everything holds every kind of entity, table record and dimension.
func everything() *dxf.Document {
	d := dxf.New()
	d.Comments = []string{"Preliminary geometry. Structural sign-off rests with a licensed engineer."}
	d.Linetypes = []dxf.Linetype{dashed(),
		{Name: "CHAIN", Description: "Chain", Pattern: []float64{6, -0.75, 0.125, -0.75}},
		{Name: "CHAIN2", Description: "Chain with two dots", Pattern: []float64{6, -0.75, 0, -0.75, 0, -0.75}}}
	d.Layers = []dxf.Layer{
		{Name: "VISIBLE", Color: dxf.White, Lineweight: 50},
		{Name: "HIDDEN", Color: dxf.Grey, Linetype: "DASHED", Lineweight: 25},
		{Name: "CENTRE", Color: dxf.Red, Linetype: "CHAIN", Lineweight: 25},
		{Name: "PHANTOM", Color: dxf.Magenta, Linetype: "CHAIN2", Lineweight: 25},
		{Name: "DIMENSION", Color: dxf.Blue, Lineweight: 25},
	}
	d.TextStyles = []dxf.TextStyle{{Name: "NARROW", Font: "txt", Width: 0.8}}
	d.DimStyles = []dxf.DimStyle{{Name: "SCALE_1_5", LinearFactor: 5, TextHeight: 3.5, ArrowSize: 2.5,
		Offset: 1, Extension: 2, Decimals: 1, TextStyle: "NARROW"}}
	d.Blocks = []dxf.Block{
		{Name: "MARK", Base: dxf.Point{X: 1, Y: 1}, Entities: []dxf.Entity{
			dxf.Circle{Attr: at("CENTRE"), Centre: dxf.Point{X: 1, Y: 1}, Radius: 2},
			dxf.Polyline{Vertices: []dxf.Vertex{{Bulge: -0.5}, {Point: dxf.Point{X: 2}}, {Point: dxf.Point{X: 2, Y: 2}}}}}},
		{Name: "PAIR", Entities: []dxf.Entity{
			dxf.Insert{Block: "MARK"}, dxf.Insert{Block: "mark", At: dxf.Point{X: 10}, Scale: 2}}},
	}
	d.Add(
		dxf.Line{Attr: at("HIDDEN"), A: dxf.Point{X: -10, Y: 0}, B: dxf.Point{X: 100, Y: 0.5}},
		dxf.Circle{Attr: dxf.Attr{Layer: "VISIBLE", Color: dxf.Red, Linetype: "CHAIN", Lineweight: 35},
			Centre: dxf.Point{X: 50, Y: 40}, Radius: 12.5},
		dxf.Arc{Attr: at("PHANTOM"), Centre: dxf.Point{X: 20, Y: 20}, Radius: 5, Start: 350 * deg, End: 100 * deg},
		dxf.Polyline{Attr: at("VISIBLE"), Closed: true, Vertices: []dxf.Vertex{
			{Point: dxf.Point{X: 0, Y: 0}}, {Point: dxf.Point{X: 40, Y: 0}, Bulge: 1},
			{Point: dxf.Point{X: 40, Y: 20}}, {Point: dxf.Point{X: 0, Y: 20}, Bulge: -0.25}}},
		dxf.Polyline{Vertices: []dxf.Vertex{{Point: dxf.Point{X: 1, Y: 2}}, {Point: dxf.Point{X: 3, Y: 4}}}},
		dxf.Text{Attr: at("DIMENSION"), At: dxf.Point{X: 5, Y: 50}, Height: 3.5, Value: "⌀20 ±0,1 at 30° – naïve Ø 50%% ^ \\U+00 😀",
			Rotation: 90 * deg, H: dxf.Right, V: dxf.Top, Style: "NARROW"},
		dxf.Text{At: dxf.Point{X: 5, Y: 60}, Height: 5, Value: "plain"},
		dxf.Solid{Attr: at("VISIBLE"), Corners: []dxf.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 4}, {X: 0, Y: 4}}},
		dxf.Insert{Attr: at("VISIBLE"), Block: "PAIR", At: dxf.Point{X: 70, Y: 70}, Rotation: 30 * deg},
		dimension(dxf.Rotated, "500", dxf.Dimension{First: dxf.Point{X: 0, Y: 0}, Second: dxf.Point{X: 100, Y: 30}, Line: dxf.Point{X: 100, Y: -10}}),
		dimension(dxf.Rotated, "150", dxf.Dimension{First: dxf.Point{X: 0, Y: 0}, Second: dxf.Point{X: 100, Y: 30}, Line: dxf.Point{X: 110, Y: 30}, Angle: 90 * deg}),
		dimension(dxf.Aligned, "250", dxf.Dimension{First: dxf.Point{X: 0, Y: 0}, Second: dxf.Point{X: 30, Y: 40}, Line: dxf.Point{X: 22, Y: 46}}),
		dimension(dxf.Radius, "R62.5", dxf.Dimension{Line: dxf.Point{X: 50, Y: 40}, First: dxf.Point{X: 57.5, Y: 50}}),
		dimension(dxf.Diameter, "⌀125", dxf.Dimension{Line: dxf.Point{X: 42.5, Y: 30}, First: dxf.Point{X: 57.5, Y: 50}}),
		dimension(dxf.Angular, "45°", dxf.Dimension{Vertex: dxf.Point{X: 0, Y: 0}, First: dxf.Point{X: 30, Y: 0}, Second: dxf.Point{X: 20, Y: 20}, Line: dxf.Point{X: 23, Y: 9}}),
		dimension(dxf.Ordinate, "200", dxf.Dimension{Line: dxf.Point{X: 0, Y: 0}, First: dxf.Point{X: 40, Y: 20}, Second: dxf.Point{X: 40, Y: 60}, XOrdinate: true}),
		dimension(dxf.Ordinate, "100", dxf.Dimension{Line: dxf.Point{X: 0, Y: 0}, First: dxf.Point{X: 40, Y: 20}, Second: dxf.Point{X: 90, Y: 20}}),
	)
	return d
}
