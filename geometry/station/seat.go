package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sizes of the seat, mm (own choices).
const (
	seatPlate   = 8.0  // carriage plate under the board
	seatOverlap = 80.0 // of the post in its sleeve at the highest position
	seatStart   = 5.0  // of the lowest post above the sleeve's foot
	seatUnder   = 6.0  // from the sleeve to the lowest carriage plate
	pinBelow    = 30.0 // of the pin below the sleeve's end
	sleeveLeast = 60.0
)

// seat adds the seat: a sleeve on a cross member, a drilled post in it with a carriage
// plate, a pull pin, and the cushion.
func (b *builder) seat() {
	v, s, m := b.v, &b.v.Seat, &b.v.Member
	if s.Positions < 1 {
		return
	}
	x := v.Base.SeatPost
	travel := float64(s.Positions-1) * s.Pitch
	under := s.Lowest - padThick // of the board
	sleeve := under - seatPlate - seatUnder - b.baseTop
	b.need("seat-overlap", sleeve-seatStart-travel-seatOverlap)
	b.need("seat-on-post", min(s.Front-x, x-(s.Front-s.Depth))-2*seatEdge-s.Post.Height/2)
	b.need("seat-post-slides", min(m.Width-2*m.Wall-s.Post.Width, m.Height-2*m.Wall-s.Post.Height)-1)
	if sleeve < sleeveLeast {
		sleeve = sleeveLeast
		under = b.baseTop + sleeve + seatUnder + seatPlate
	}
	group := b.Group("seat", b.frame, &assembly.Steps{Setting: assembly.Seat, Step: r3.Vec{Z: s.Pitch}})

	at := func(z float64) r3.Vec { return r3.Vec{X: x, Z: z} }
	place := func(z float64) solid.Placement { return solid.Along(at(z), at(z+1), r3.Vec{X: 1}) }
	pinAt := sleeve - pinBelow // above the sleeve's foot
	d := assembly.NewDetents(s.Pitch, s.Positions, seatPin)
	b.need("seat-detents", pinAt-pinEdge-d.Outer(d.Every-1))
	tube := prism(b.section(m), 0, sleeve)
	for i := range d.Every {
		if z := pinAt - d.Outer(i); z > pinEdge {
			tube.Bores = append(tube.Bores, pinHole(z))
		}
	}
	outer := b.Add(assembly.Part{
		ID: "seat-sleeve", Title: "Seat sleeve", Stock: tubeStock(m, sleeve), Group: b.frame,
		Solid: tube, Place: place(b.baseTop), Density: steelDensity,
	})
	b.Join(assembly.Weld, outer, b.crossSeat.part, at(b.baseTop), b.tubeWeld(m))

	long := under - seatPlate - b.baseTop - seatStart
	inner := prism(b.section(&s.Post), 0, long)
	for _, below := range d.Inner() {
		if z := pinAt - seatStart - below; z > pinEdge && z < long-pinEdge {
			inner.Bores = append(inner.Bores, pinHole(z))
		}
	}
	post := b.Add(assembly.Part{
		ID: "seat-post", Title: "Seat post", Stock: tubeStock(&s.Post, long), Group: group,
		Solid: inner, Place: place(b.baseTop + seatStart), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.Join(assembly.Slide, post, outer, at(b.baseTop+pinAt), assembly.Detail{Diameter: seatPin, Pitch: s.Pitch, Steps: s.Positions, Thread: 16})

	// The pin stays with the sleeve, in the hole of it that serves the position.
	held := b.frame
	if motion := d.PinMotion(assembly.Seat, r3.Vec{Z: -1}); motion != nil {
		held = b.Group("seat-pin", b.frame, motion)
	}
	tip := m.Width/2 + 8
	height := b.baseTop + pinAt
	b.slidePin(b.one, slidePin{
		id: "seat-pin", title: "Pull pin of the seat", group: held, tip: r3.Vec{X: x, Y: tip, Z: height}, long: 2 * tip,
		outer: assembly.One(outer), outerAt: r3.Vec{X: x, Y: -m.Width/2 + m.Wall/2, Z: height}, inner: assembly.One(post), innerAt: at(height),
	})

	// The carriage plate lies under the board as far as it can, centred on the post.
	half := max(seatEdge+s.Post.Height/2, min(s.Front-x, x-(s.Front-s.Depth))-seatEdge)
	half = min(half, 130)
	wide := min(200, max(s.Post.Width+20, s.Width-2*seatEdge))
	carriage := b.Add(assembly.Part{
		ID: "seat-carriage", Title: "Seat carriage plate", Stock: b.plateStock(2*half, wide, seatPlate), Group: group,
		Solid: prism(b.fourHoles(2*half, wide, 9, 2*half-40, wide-40), 0, seatPlate), Place: solid.Shift(at(under - seatPlate)), Density: steelDensity, Traits: assembly.Adjusts,
	})
	b.Join(assembly.Weld, post, carriage, at(under-seatPlate), b.tubeWeld(&s.Post))
	face := solid.Shift(r3.Vec{X: s.Front - s.Depth/2, Z: under + padThick})
	board := b.upholstered("seat", "Seat", s.Depth, s.Width, face, group, assembly.Adjusts, b.one)
	b.Join(assembly.Bolts, carriage, board[0], at(under), assembly.Detail{Thread: 8, Count: 4, Length: 25, Pattern: [2]float64{2*half - 40, wide - 40}})
}
