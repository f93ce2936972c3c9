package sheettest

import (
	"fmt"
	"math"

	"armwright/export/sheet"
)

// Cam is an A3 sheet of an egg-shaped plate with a ring of holes, a chart that
// is not to scale, and a polar table of 72 rows: much that has to keep clear
// of much.
func Cam() *sheet.Sheet {
	const steps, ring, holes = 72, 50.0, 8
	radius := func(a float64) float64 { return 90 + 25*math.Sin(a) + 5*math.Cos(3*a) }
	plate := sheet.View{Title: "Cam"}
	rim := sheet.Polyline{Role: sheet.Visible, Closed: true}
	table := sheet.Table{Title: "Outline", Columns: []sheet.Column{
		{Header: "angle deg", Align: sheet.Right}, {Header: "radius mm", Align: sheet.Right}, {Header: "x mm", Align: sheet.Right},
	}}
	for i := range steps {
		a := 2 * math.Pi * float64(i) / steps
		r := radius(a)
		rim.Vertices = append(rim.Vertices, sheet.Vertex{Vec: at(r*math.Cos(a), r*math.Sin(a)), Bulge: math.Tan(math.Pi / (2 * steps))})
		table.Rows = append(table.Rows, []string{fmt.Sprint(i * 360 / steps), fmt.Sprintf("%.2f", r), fmt.Sprintf("%.2f", math.Round(100*r*math.Cos(a))/100+0)})
	}
	plate.Entities = []sheet.Entity{
		rim,
		sheet.Circle{Role: sheet.Visible, Radius: 12.5},
		sheet.CentreMark{Radius: 110},
		sheet.Circle{Role: sheet.Centre, Radius: ring},
		sheet.Dimension{Kind: sheet.Diameter, B: at(12.5, 0), Suffix: " H7"},
		sheet.Dimension{Kind: sheet.Radius, B: at(-ring*math.Cos(0.3), ring*math.Sin(0.3))},
		sheet.Dimension{Kind: sheet.Angular, A: at(ring, 0), B: at(ring*math.Sqrt2/2, ring*math.Sqrt2/2)},
		sheet.Dimension{Kind: sheet.Vertical, A: at(0, -radius(-math.Pi/2)), B: at(0, radius(math.Pi/2))},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(-radius(math.Pi), 0), B: at(radius(0), 0)},
	}
	for i := range holes {
		a := 2 * math.Pi * float64(i) / holes
		c := at(ring*math.Cos(a), ring*math.Sin(a))
		plate.Entities = append(plate.Entities,
			sheet.Circle{Role: sheet.Visible, Centre: c, Radius: 4.5},
			sheet.CentreMark{Centre: c, Radius: 4.5},
			sheet.Leader{At: c, Note: fmt.Sprintf("hole %d", i+1)})
		if i < 3 {
			plate.Entities = append(plate.Entities,
				sheet.Dimension{Kind: sheet.OrdinateX, B: c, Side: sheet.Above},
				sheet.Dimension{Kind: sheet.OrdinateY, B: c, Side: sheet.Rightward})
		}
	}
	return &sheet.Sheet{
		Size:   sheet.A3,
		Views:  []sheet.View{plate, chart()},
		Tables: []sheet.Table{table},
		Notes:  []string{"Groove for a cable of 4 mm: radius 2.2 mm, depth 6 mm."},
		TitleBlock: sheet.TitleBlock{
			Owner: "Example Workshop", Number: "EX-0003", Date: "2025-01-31", Sheet: 3, Sheets: 3, Title: "Cam",
			Approver: "A. Checker", Creator: "A. Drafter", DocumentType: "Part drawing",
		},
	}
}

// chart is a curve on a grid of 100 x 50 mm.
func chart() sheet.View {
	v := sheet.View{Title: "Torque at the arm", NotToScale: true}
	text := func(x, y float64, s string, h sheet.HAlign, up sheet.VAlign) sheet.Text {
		return sheet.Text{Role: sheet.Lettering, At: at(x, y), Value: s, Height: 2.5, H: h, V: up}
	}
	for i := range 6 {
		x, y := float64(i)*20, float64(i)*10
		v.Entities = append(v.Entities,
			line(sheet.Thin, x, 0, x, 50), text(x, -2, fmt.Sprint(i*25), sheet.Middle, sheet.CapTop),
			line(sheet.Thin, 0, y, 100, y), text(-2, y, fmt.Sprint(i*10), sheet.Right, sheet.HalfHeight))
	}
	turned := text(-9, 25, "torque, N m", sheet.Middle, sheet.Baseline)
	turned.Rotation = math.Pi / 2
	curve := sheet.Polyline{Role: sheet.Visible}
	for i := range 51 {
		x := float64(i) * 2
		curve.Vertices = append(curve.Vertices, sheet.Vertex{Vec: at(x, 25+20*math.Sin(x/40))})
	}
	v.Entities = append(v.Entities, turned, text(50, -8, "elbow angle, deg", sheet.Middle, sheet.CapTop), curve)
	return v
}
