package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

// profile returns the profile of a shape, made once.
func (b *builder) profile(s shape, make func() *solid.Profile) *solid.Profile {
	p, _ := b.blank(s, make)
	return p
}

// blank returns the profile of a shape with the size of the rectangle round it.
func (b *builder) blank(s shape, make func() *solid.Profile) (*solid.Profile, r2.Vec) {
	// Most are asked for in the order in which they were when the station before was
	// built, and many have not changed.
	n := b.asked
	b.asked++
	if n == len(b.before) {
		b.before = append(b.before, kept{})
	}
	before := &b.before[n]
	if before.profile != nil && before.shape == s {
		return before.profile, before.size
	}
	m, ok := b.shapes[s]
	if !ok {
		m.profile = make()
		box := m.profile.Bounds()
		m.size = r2.Sub(box.Max, box.Min)
		if b.shapes == nil {
			b.shapes = map[shape]made{}
		}
		b.shapes[s] = m
	}
	*before = kept{s, m}
	return m.profile, m.size
}

// forget has the shape that is asked for next made anew.
func (b *builder) forget(s shape) {
	delete(b.shapes, s)
	if b.asked < len(b.before) {
		b.before[b.asked] = kept{}
	}
}

// rect is a rectangle, w along own x, h along own y.
func (b *builder) rect(w, h, corner float64) *solid.Profile {
	return b.profile(shape{rectShape, [16]float64{w, h, corner}}, func() *solid.Profile { return solid.Rect(w, h, corner) })
}

// section is that of a tube: Width along own x, Height along own y.
func (b *builder) section(s *Section) *solid.Profile {
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
func tubeStock(s *Section, length float64) assembly.Stock {
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

// knobPin is a pull pin along z: from its tip to its knob.
func knobPin(d, long float64) solid.Turned {
	return solid.Turned{Outline: []r2.Vec{{X: d / 2}, {X: d / 2, Y: long}, {X: knobWide / 2, Y: long}, {X: knobWide / 2, Y: long + knobLong}}}
}
