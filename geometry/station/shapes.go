package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
)

// profile returns the profile of a shape, made once.
func (b *builder) profile(s shape, make func() *solid.Profile) *solid.Profile {
	p, _ := b.shapes.Blank(s, make)
	return p
}

// rect is a rectangle, w along own x, h along own y.
func (b *builder) rect(w, h, corner float64) *solid.Profile {
	return b.profile(shape{rectShape, [16]float64{w, h, corner}}, func() *solid.Profile { return solid.Rect(w, h, corner) })
}

// section is that of a tube: Width along own x, Height along own y.
func (b *builder) section(s *values.Section) *solid.Profile {
	return b.profile(shape{tubeShape, [16]float64{s.Width, s.Height, s.Wall, s.Corner}}, func() *solid.Profile {
		return solid.RectTube(s.Width, s.Height, s.Wall, s.Corner)
	})
}

func (b *builder) disc(d float64) *solid.Profile {
	return b.profile(shape{discShape, [16]float64{d}}, func() *solid.Profile { return solid.Disc(d) })
}

func (b *builder) pipe(d, wall float64) *solid.Profile {
	return b.profile(shape{pipeShape, [16]float64{d, wall}}, func() *solid.Profile { return solid.Pipe(d, wall) })
}

// prism carries a profile between two heights.
func prism(p *solid.Profile, from, to float64) solid.Prism {
	return solid.Prism{Profile: p, From: solid.Flat(from), To: solid.Flat(to)}
}

// tubeStock is a tube of a long-point length.
func tubeStock(s *values.Section, length float64) assembly.Stock {
	return assembly.Stock{Form: assembly.Tube, Name: s.Name, Grade: s.Grade, Size: [3]float64{s.Height, s.Width, s.Wall}, Length: length}
}

// plateStock is a plate cut from a thickness.
func (b *builder) plateStock(long, wide, thick float64) assembly.Stock {
	return assembly.Stock{Form: assembly.Plate, Grade: b.v.Member.Grade, Size: [3]float64{long, wide, thick}}
}

// circle is a round hole of a diameter.
func circle(x, y, diameter float64) contour.Path {
	return contour.Circle(r2.Vec{X: x, Y: y}, diameter/2)
}

// plateWithHole is a rectangle with a round hole in its middle.
func (b *builder) plateWithHole(w, h, hole float64) *solid.Profile {
	return b.profile(shape{plateShape, [16]float64{w, h, hole}}, func() *solid.Profile {
		return solid.NewProfile(contour.Rectangle(w, h, 0), circle(0, 0, hole))
	})
}

// fourHoles is a plate with four round holes, dx and dy apart.
func (b *builder) fourHoles(w, h, d, dx, dy float64) *solid.Profile {
	return b.profile(shape{fourShape, [16]float64{w, h, d, dx, dy}}, func() *solid.Profile {
		return solid.NewProfile(contour.Rectangle(w, h, 0), circle(-dx/2, -dy/2, d), circle(dx/2, -dy/2, d), circle(dx/2, dy/2, d), circle(-dx/2, dy/2, d))
	})
}
