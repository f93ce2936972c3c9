package draw

import (
	"math"
	"slices"

	"armwright/export/sheet"
	"armwright/solver/screen"

	"gonum.org/v1/gonum/spatial/r2"
)

// baseSheet is sheet 06: the base from above with its feet, and the centres of
// mass of all cases within them.
func (d *drafter) baseSheet() sheet.Sheet {
	s := d.sheet(medium, "Base and feet", "Detail drawing")
	var base []prism
	for _, m := range d.r.Structure.Members {
		if m.A.Z == m.B.Z && m.A.Z == d.layout.Side/2 {
			base = append(base, member(m))
		}
	}
	b := d.geo.Base
	v := sheet.View{Title: "Base from above", Position: sheet.Front, Entities: drawn(base, fromAbove())}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	w := b.Width / 2
	feet := []r2.Vec{at(b.Rear, -w), at(b.Front, -w), at(b.Front, w), at(b.Rear, w)}
	datum := r2.Vec{}
	add(sheet.CentreLine{A: at(b.Rear, 0), B: at(b.Front, 0)}, sheet.CentreMark{Radius: 12},
		sheet.Dimension{Kind: sheet.Horizontal, A: feet[0], B: feet[1]},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: feet[0], B: feet[3]})
	xs := []float64{b.Rear, b.SeatPost, 0, b.PadPost, b.Front}
	if b.TowerTall > 0 {
		xs = append(xs, b.Tower)
	}
	add(sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: feet[1], B: at(b.Front, d.layout.Side-w)})
	for i, x := range xs {
		if slices.ContainsFunc(xs[:i], func(y float64) bool { return math.Abs(x-y) < sameSize }) {
			continue
		}
		add(sheet.Dimension{Kind: sheet.OrdinateX, Side: sheet.Above, A: datum, B: at(x, w)})
	}
	d.balloons(shown{base, fromAbove(), &v})
	cases := d.envelope(&v)
	s.Views = []sheet.View{v}
	s.Tables = []sheet.Table{cases}
	s.Notes = []string{
		"Ordinates count from the pivots: x = 0. Cross members stand under the posts of the same x.",
		"The feet are the corners of the base. The closed line within them holds the centres of mass of all cases: empty and with every person, all loads and angles, both arms and one. The spot is the case with the least tilt; a case tips when the base leans by its tilt over the edge named.",
		"Weld all joints of tubes all round; general tolerance of welded parts ISO 13920-B. Level the feet; edges that users touch are rounded to " + d.measure(2.5) + " at least.",
	}
	if b := d.r.Balance; b.Anchored {
		s.Notes = append(s.Notes, "Bolt the feet to the floor: balance rests on the anchors. One of two along an edge is pulled with up to "+
			d.reads().Size(math.Ceil(b.AnchorPull/10)*10, "N")+", no load factor, when the base leans by the limit of its tilt.")
	}
	return s
}

// envelope draws the hull of the centres of mass and lists the cases with the least tilt.
func (d *drafter) envelope(v *sheet.View) sheet.Table {
	t := sheet.Table{Title: "Centres of mass, the least tilts", Columns: columns("<Case", "<Person", ">"+d.reads().Symbol("kg"), ">x", ">y", ">z", ">Tilt °", "<Over the")}
	const listed = 8
	cases := d.r.Stability
	if hull := d.r.Balance.Envelope; len(hull) > 2 {
		line := sheet.Polyline{Role: sheet.Visible, Closed: true}
		for _, p := range hull {
			line.Vertices = append(line.Vertices, sheet.Vertex{Vec: p})
		}
		v.Entities = append(v.Entities, line)
	}
	for _, i := range leastTilts(cases, listed) {
		c := cases[i]
		t.Rows = append(t.Rows, []string{c.Case, c.Person, d.reads().Whole(c.Mass, "kg"),
			d.length(c.X), d.length(c.Y), d.length(c.Z), degrees(c.Tilt, 1), c.Edge})
	}
	if len(cases) > 0 {
		p := at(d.r.Least.X, d.r.Least.Y)
		const r = 4
		v.Entities = append(v.Entities,
			sheet.Hatch{Solid: true, Loops: [][]sheet.Vertex{{{Vec: r2.Add(p, at(r, 0)), Bulge: 1}, {Vec: r2.Sub(p, at(r, 0)), Bulge: 1}}}},
			sheet.Leader{At: p, Note: "least tilt " + degrees(d.r.Least.Tilt, 1) + "°", Dot: true})
	}
	return t
}

// leastTilts returns the indices of the n cases with the least tilt, one for
// each kind of case, in rising order.
func leastTilts(cases []screen.StabilityCase, n int) []int {
	var out []int
	taken := map[string]bool{}
	for len(out) < n {
		best := -1
		for i, c := range cases {
			if !taken[c.Case] && (best < 0 || c.Tilt < cases[best].Tilt) {
				best = i
			}
		}
		if best < 0 || math.IsNaN(cases[best].Tilt) {
			break
		}
		taken[cases[best].Case] = true
		out = append(out, best)
	}
	return out
}
