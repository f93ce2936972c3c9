// Package sheettest holds a drawing that uses everything a sheet can hold, for
// the tests of the layout and of the renderers.
package sheettest

import (
	"math"

	"armwright/export/sheet"
	"armwright/specs/angle"

	"gonum.org/v1/gonum/spatial/r2"
)

func at(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

func outline(role sheet.Role, points ...r2.Vec) sheet.Polyline {
	p := sheet.Polyline{Role: role, Closed: true}
	for _, q := range points {
		p.Vertices = append(p.Vertices, sheet.Vertex{Vec: q})
	}
	return p
}

func line(role sheet.Role, x0, y0, x1, y1 float64) sheet.Line {
	return sheet.Line{Role: role, A: at(x0, y0), B: at(x1, y1)}
}

// Bracket is an A3 sheet of a bearing bracket: a base plate 120 x 80 x 12 with
// one corner cut and one rounded, and an upright of 12 mm with a bore, in
// front, side and plan view, a detail and an axonometric view.
func Bracket() *sheet.Sheet {
	return &sheet.Sheet{
		Size: sheet.A3,
		TitleBlock: sheet.TitleBlock{
			Owner: "Example Workshop", Number: "EX-0001", Revision: "A", Date: "2025-01-31",
			Sheet: 1, Sheets: 2, Language: "en", Title: "Bearing bracket", Supplementary: "Example of every entity",
			Department: "Drawing", Reference: "J. Doe", Approver: "A. Checker", Creator: "A. Drafter",
			DocumentType: "Part drawing",
		},
		Tolerance: "ISO 2768-m",
		Views:     []sheet.View{front(), side(), plan(), axonometric()},
		Tables: []sheet.Table{{
			Title:   "Parts",
			Columns: []sheet.Column{{Header: "Item", Align: sheet.Middle}, {Header: "Qty", Align: sheet.Middle}, {Header: "Part", Align: sheet.Left}, {Header: "Mass kg", Align: sheet.Right}},
			Rows: [][]string{
				{"1", "1", "Base plate 120 x 80 x 12, S235", "0.86"},
				{"2", "1", "Upright plate 12, S235", "0.42"},
			},
		}},
		Notes: []string{
			"Weld 1 to 2 all round, a = 4 mm.",
			"Remove burrs; break sharp edges 0.5 mm. Edges that touch a user have a radius of at least 2.5 mm.",
		},
	}
}

// front looks along +y: x to the right, z up.
func front() sheet.View {
	v := sheet.View{Title: "Front view", Position: sheet.Front}
	v.Entities = []sheet.Entity{
		outline(sheet.Visible, at(0, 0), at(120, 0), at(120, 12), at(0, 12)),
		sheet.Polyline{Role: sheet.Visible, Vertices: []sheet.Vertex{
			{Vec: at(90, 12)}, {Vec: at(90, 60), Bulge: 1}, {Vec: at(30, 60)}, {Vec: at(30, 12)},
		}},
		sheet.Circle{Role: sheet.Visible, Centre: at(60, 60), Radius: 12.5},
		sheet.CentreMark{Centre: at(60, 60), Radius: 30},
		line(sheet.Visible, 100, 0, 100, 12),
		line(sheet.Visible, 10, 0, 10, 12),
	}
	for _, x := range [...]float64{20, 107} {
		v.Entities = append(v.Entities, line(sheet.Hidden, x-5.5, 0, x-5.5, 12), line(sheet.Hidden, x+5.5, 0, x+5.5, 12),
			sheet.CentreLine{A: at(x, 0), B: at(x, 12)})
	}
	chain := []r2.Vec{at(0, 0), at(20, 0), at(107, 0), at(120, 0)}
	for i, to := range chain[1:] {
		v.Entities = append(v.Entities, sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Below, A: chain[i], B: to})
	}
	return sheet.View{Title: v.Title, Position: v.Position, Entities: append(v.Entities,
		sheet.Dimension{Kind: sheet.Horizontal, A: at(0, 0), B: at(120, 0)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(0, 0), B: at(30, 12)},
		sheet.Dimension{Kind: sheet.Vertical, A: at(0, 0), B: at(0, 12)},
		sheet.Dimension{Kind: sheet.Vertical, A: at(0, 0), B: at(30, 60), Tolerance: sheet.Tolerance{Plus: 0.1, Minus: 0.1}},
		sheet.Dimension{Kind: sheet.Vertical, A: at(0, 0), B: at(60, 90), Reference: true},
		sheet.Dimension{Kind: sheet.Diameter, A: at(60, 60), B: at(60+12.5*math.Sqrt2/2, 60+12.5*math.Sqrt2/2), Suffix: " H7"},
		sheet.Dimension{Kind: sheet.Radius, A: at(60, 60), B: at(60-30*math.Sqrt2/2, 60+30*math.Sqrt2/2)},
	)}
}

// side looks along +x: the front of the part is on the right.
func side() sheet.View {
	return sheet.View{Title: "View from the left", Position: sheet.FromLeft, Entities: []sheet.Entity{
		outline(sheet.Visible, at(0, 0), at(80, 0), at(80, 12), at(0, 12)),
		outline(sheet.Visible, at(0, 12), at(12, 12), at(12, 90), at(0, 90)),
		line(sheet.Hidden, 0, 47.5, 12, 47.5), line(sheet.Hidden, 0, 72.5, 12, 72.5),
		sheet.CentreLine{A: at(0, 60), B: at(12, 60)},
		line(sheet.Hidden, 39.5, 0, 39.5, 12), line(sheet.Hidden, 50.5, 0, 50.5, 12),
		sheet.CentreLine{A: at(45, 0), B: at(45, 12)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(0, 12), B: at(12, 12), Side: sheet.Above},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(0, 0), B: at(80, 0)},
		sheet.Leader{At: at(12, 12), Note: "weld all round"},
	}}
}

// plan looks down: x to the right, y up, the front of the part at the bottom.
func plan() sheet.View {
	const bulge = 0.414213562373095 // quarter circle
	return sheet.View{Title: "Plan", Position: sheet.FromAbove, Entities: []sheet.Entity{
		sheet.Polyline{Role: sheet.Visible, Closed: true, Vertices: []sheet.Vertex{
			{Vec: at(10, 0)}, {Vec: at(100, 0)}, {Vec: at(120, 20)}, {Vec: at(120, 80)}, {Vec: at(0, 80)}, {Vec: at(0, 10), Bulge: bulge},
		}},
		outline(sheet.Visible, at(30, 68), at(90, 68), at(90, 80), at(30, 80)),
		line(sheet.Hidden, 47.5, 68, 47.5, 80), line(sheet.Hidden, 72.5, 68, 72.5, 80),
		sheet.CentreLine{A: at(60, 68), B: at(60, 80)},
		sheet.Circle{Role: sheet.Visible, Centre: at(20, 35), Radius: 5.5},
		sheet.Circle{Role: sheet.Visible, Centre: at(107, 35), Radius: 5.5},
		sheet.CentreMark{Centre: at(20, 35), Radius: 5.5},
		sheet.CentreMark{Centre: at(107, 35), Radius: 5.5},
		sheet.Dimension{Kind: sheet.Diameter, A: at(20, 35), B: at(25.5, 35), Prefix: "2x "},
		sheet.Dimension{Kind: sheet.Radius, A: at(10, 10), B: at(10-10*math.Sqrt2/2, 10-10*math.Sqrt2/2)},
		sheet.Dimension{Kind: sheet.Angular, Vertex: at(100, 0), A: at(120, 0), B: at(120, 20)},
		sheet.Dimension{Kind: sheet.Aligned, A: at(120, 20), B: at(100, 0), Offset: 18},
		sheet.Dimension{Kind: sheet.OrdinateY, A: at(0, 0), B: at(0, 0), Side: sheet.Leftward},
		sheet.Dimension{Kind: sheet.OrdinateY, A: at(0, 0), B: at(14.5, 35), Side: sheet.Leftward},
		sheet.Dimension{Kind: sheet.OrdinateY, A: at(0, 0), B: at(30, 68), Side: sheet.Leftward},
		sheet.Dimension{Kind: sheet.OrdinateY, A: at(0, 0), B: at(0, 80), Side: sheet.Leftward},
		sheet.Dimension{Kind: sheet.Vertical, A: at(120, 20), B: at(120, 80), Side: sheet.Rightward},
	}}
}

// axonometric is the isometric projection, x to the lower right, y to the
// upper right, z up.
func axonometric() sheet.View {
	c, s := math.Cos(math.Pi/6), 0.5
	iso := func(x, y, z float64) r2.Vec { return at((x+y)*c, (y-x)*s+z) }
	v := sheet.View{Title: "Axonometric view"}
	path := func(points ...r2.Vec) {
		p := outline(sheet.Visible, points...)
		p.Closed = false
		v.Entities = append(v.Entities, p)
	}
	// flat and upright circles in the planes of the base and of the upright.
	flat := func(x, y, z, r, from, to float64) sheet.Polyline {
		return ellipse(iso(x, y, z), at(r*c, -r*s), at(r*c, r*s), from, to)
	}
	upright := func(x, y, z, r, from, to float64) sheet.Polyline {
		return ellipse(iso(x, y, z), at(r*c, -r*s), at(0, r), from, to)
	}
	path(iso(18, 80, 12), iso(0, 80, 12), iso(0, 10, 12))
	path(iso(10, 0, 12), iso(100, 0, 12), iso(120, 20, 12), iso(120, 80, 12), iso(90, 80, 12), iso(90, 68, 12))
	nearest := 10 * (1 - math.Sqrt2/2)
	path(iso(nearest, nearest, 12), iso(nearest, nearest, 0))
	path(iso(10, 0, 0), iso(100, 0, 0), iso(120, 20, 0), iso(120, 80, 0), iso(120, 80, 12))
	path(iso(100, 0, 0), iso(100, 0, 12))
	path(iso(120, 20, 0), iso(120, 20, 12))
	dome := upright(60, 68, 60, 30, 0, math.Pi)
	dome.Vertices = append(dome.Vertices, sheet.Vertex{Vec: iso(30, 68, 12)}, sheet.Vertex{Vec: iso(90, 68, 12)})
	dome.Closed = true
	v.Entities = append(v.Entities, dome,
		flat(10, 10, 12, 10, math.Pi, 1.5*math.Pi), flat(10, 10, 0, 10, 1.25*math.Pi, 1.5*math.Pi),
		upright(60, 80, 60, 30, 0, 0.75*math.Pi), upright(60, 68, 60, 12.5, 0, 2*math.Pi),
		flat(20, 35, 12, 5.5, 0, 2*math.Pi), flat(107, 35, 12, 5.5, 0, 2*math.Pi))
	tangent := 30 * math.Sqrt2 / 2
	path(iso(60-tangent, 68, 60+tangent), iso(60-tangent, 80, 60+tangent))
	path(iso(90, 80, 12), iso(90, 80, 60))
	v.Entities = append(v.Entities,
		sheet.Balloon{At: iso(50, 20, 12), Item: "1"},
		sheet.Balloon{At: iso(80, 68, 40), Item: "2"},
	)
	return v
}

// Strip is a second sheet, in inches and third angle: a flat bar with hatched
// section, tolerances and a table that needs breaking.
func Strip() *sheet.Sheet {
	s := &sheet.Sheet{
		Size: sheet.A4,
		TitleBlock: sheet.TitleBlock{
			Owner: "Example Workshop", Number: "EX-0002", Date: "2025-01-31", Sheet: 2, Sheets: 2, Title: "Hole strip",
			Approver: "A. Checker", Creator: "A. Drafter", DocumentType: "Part drawing",
		},
		Projection: sheet.ThirdAngle,
		Units:      sheet.InchesDual,
		Tolerance:  "ISO 2768-m",
		TextHeight: 2.5,
	}
	bar := sheet.View{Title: "Strip", Position: sheet.Front, Entities: []sheet.Entity{
		outline(sheet.Cut, at(0, 0), at(508, 0), at(508, 60), at(0, 60)),
		sheet.Dimension{Kind: sheet.Horizontal, A: at(0, 0), B: at(508, 0)},
		sheet.Dimension{Kind: sheet.Vertical, A: at(0, 0), B: at(0, 60)},
	}}
	t := sheet.Table{Title: "Holes", Columns: []sheet.Column{{Header: "No", Align: sheet.Right}, {Header: "x", Align: sheet.Right}, {Header: "y", Align: sheet.Right}}}
	for i := range 60 {
		x := 20 + 8*float64(i)
		if i%6 == 0 {
			bar.Entities = append(bar.Entities, sheet.Circle{Role: sheet.Cut, Centre: at(x, 30), Radius: 4},
				sheet.Dimension{Kind: sheet.OrdinateX, A: at(0, 0), B: at(x, 30), Side: sheet.Above})
		}
		t.Rows = append(t.Rows, []string{sheet.Millimetres.Length(float64(i+1), 0), sheet.Inches.Length(x, 0), sheet.Inches.Length(30, 0)})
	}
	section := sheet.View{Title: "Section A-A", Position: sheet.FromLeft, Entities: []sheet.Entity{
		outline(sheet.Visible, at(0, 0), at(10, 0), at(10, 60), at(0, 60)),
		sheet.Hatch{Loops: [][]sheet.Vertex{outline(sheet.Visible, at(0, 0), at(10, 0), at(10, 60), at(0, 60)).Vertices}, Spacing: 2},
	}}
	s.Views = []sheet.View{bar, section}
	s.Tables = []sheet.Table{t}
	return s
}

// ellipse is a part of the ellipse with a pair of conjugate half-diameters, in
// chords of a degree: what a circle looks like in a parallel projection.
func ellipse(centre, major, minor r2.Vec, from, to float64) sheet.Polyline {
	n := int(math.Ceil((to - from) / angle.Degree))
	p := sheet.Polyline{Role: sheet.Visible}
	for i := range n + 1 {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		p.Vertices = append(p.Vertices, sheet.Vertex{Vec: r2.Add(centre, r2.Add(r2.Scale(cos, major), r2.Scale(sin, minor)))})
	}
	return p
}
