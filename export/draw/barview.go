package draw

import (
	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// barView is a bar, a tube or a turned part that others hide, lying along the view,
// its bores towards the viewer: its length, and the places of the bores from one end.
// With are parts that stay on it. None without the part.
func (d *drafter) barView(title, id string, with ...string) []sheet.View {
	p := d.part(id)
	if p == nil {
		return nil
	}
	parts := d.chosen(func(q *assembly.Part) bool {
		for _, w := range append(with, id) {
			if q.ID == w {
				return true
			}
		}
		return false
	})
	toward := p.Place.Y
	prism, _ := p.Solid.(solid.Prism)
	if len(prism.Bores) > 0 {
		toward = r3.Unit(p.Place.Vector(prism.Bores[0].Dir))
	}
	c := hidden.Camera{Right: p.Place.Z, Up: r3.Cross(toward, p.Place.Z), Toward: toward}
	low, high := span(p, r3.Vec{}, c.Right)
	under, over := span(p, r3.Vec{}, c.Up)
	c.Origin = r3.Add(r3.Scale(low, c.Right), r3.Scale((under+over)/2, c.Up))
	half := (over - under) / 2
	v, s := show(title, sheet.Free, d.bodies(parts, d.reference(), sheet.Visible, true), c)
	s.view = &v
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	add(sheet.CentreLine{B: at(high-low, 0)}, sheet.Dimension{Kind: sheet.Horizontal, A: at(0, -half), B: at(high-low, -half)})
	if holes := detents(p, c.Origin, c.Right); len(holes) > 0 {
		d.ordinates(&v, sheet.OrdinateX, sheet.Above, r2.Vec{Y: half}, append([]float64{0}, holes...), half)
	}
	d.balloons(s)
	return []sheet.View{v}
}
