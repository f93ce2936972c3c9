package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for the base, mm and kg.
const (
	footCore  = 10.2 // drill for its thread M12, and what of the stud is told within it
	footMass  = 0.12
	torchRoom = 60.0 // between two tubes that are both welded all round, judgement
)

// base adds the two rails with their cross members, feet and caps. The rails lie
// under the posts, so that the width of the base follows from the pivots.
func (b *builder) base() {
	v := b.v
	m := &v.Member
	foot := b.atAxis(0, -b.carry, b.planes.Bearings)
	b.postY = foot.Y
	rear, front := v.Base.Rear+capThick, v.Base.Front-capThick
	mid := b.floor + m.Height/2

	at := solid.Along(r3.Vec{X: rear, Y: b.postY, Z: mid}, r3.Vec{X: front, Y: b.postY, Z: mid}, r3.Vec{Z: 1})
	hole := func(x float64) solid.Bore {
		return solid.Bore{At: r3.Vec{Y: -m.Height / 2, Z: x - rear}, Dir: r3.Vec{Y: 1}, Diameter: 14, Depth: m.Wall + 1}
	}
	tube := prism(b.section(m), 0, front-rear)
	footX := [2]float64{rear + footIn, front - footIn}
	tube.Bores = []solid.Bore{hole(footX[0]), hole(footX[1])}
	b.rails = b.Pair(assembly.Part{
		ID: "rail", Title: "Base rail", Group: b.frame, Stock: tubeStock(m, front-rear),
		Solid: tube, Place: at, Density: steelDensity,
	})
	for i, id := range [2]string{"rear", "front"} {
		x := footX[i]
		seat := b.Pair(assembly.Part{
			ID: "foot-seat-" + id, Item: "foot-seat", Title: "Foot seat", Group: b.frame, Stock: b.plateStock(50, 50, footSeat),
			Solid:   prism(b.plateWithHole(50, 50, footCore), 0, footSeat), // tapped M12
			Place:   solid.Shift(r3.Vec{X: x, Y: b.postY, Z: b.floor - footSeat}),
			Density: steelDensity,
		})
		stud := footRise + m.Wall + 12
		leg := b.Pair(assembly.Part{
			ID: "foot-" + id, Item: "foot", Title: "Levelling foot", Group: b.frame,
			Stock:  assembly.Stock{Form: assembly.Bought, Name: "M12, plate 50", Grade: "steel, rubber sole", Size: [3]float64{50, footDisc, 12}},
			Solid:  solid.Turned{Outline: []r2.Vec{{X: 25}, {X: 25, Y: footDisc}, {X: 6, Y: footDisc}, {X: 6, Y: footDisc + footNut}, {X: footCore / 2, Y: footDisc + footNut}, {X: footCore / 2, Y: stud}}},
			Place:  solid.Shift(r3.Vec{X: x, Y: b.postY}),
			Mass:   footMass,
			Traits: assembly.Ground,
		})
		b.JoinPair(assembly.Weld, seat, b.rails, r3.Vec{X: x, Y: b.postY, Z: b.floor}, assembly.Detail{Throat: tubeWeld, Run: 200})
		b.JoinPair(assembly.Fit, leg, seat, r3.Vec{X: x, Y: b.postY, Z: b.floor - footSeat}, assembly.Detail{Diameter: 12, Thread: 12, Class: "6H/6g"})
		b.JoinPair(assembly.Passage, leg, b.rails, r3.Vec{X: x, Y: b.postY, Z: b.floor + 1}, assembly.Detail{Diameter: 14})

		end := [2]float64{rear - capThick, front}[i]
		b.cap("rail-cap-"+id, "rail-cap", m, solid.Along(r3.Vec{X: end, Y: b.postY, Z: mid}, r3.Vec{X: end + 1, Y: b.postY, Z: mid}, r3.Vec{Z: 1}), b.rails, b.frame)
	}

	// Where two cross members would leave no room for a torch between them, the one
	// that something stands on serves for both.
	half := m.Width / 2
	apart := func(x float64, others ...crossMember) bool {
		for _, o := range others {
			if o.part >= 0 && math.Abs(o.x-x) < m.Width+torchRoom {
				return false
			}
		}
		return true
	}
	none := crossMember{part: -1}
	b.crossTower, b.crossBack = none, none
	b.crossSeat = b.cross("cross-seat", "Cross member, seat", v.Base.SeatPost)
	if v.HasTower() {
		if math.Abs(v.Base.Tower-v.Base.SeatPost) < 1 {
			b.crossTower = b.crossSeat
		} else {
			b.crossTower = b.cross("cross-tower", "Cross member, tower", v.Base.Tower)
			b.need("cross-members-apart", math.Abs(v.Base.Tower-v.Base.SeatPost)-m.Width-torchRoom)
		}
	}
	if v.HasBack() {
		x := newBackStrut(v, b.baseTop).foot.X
		b.crossBack = b.cross("cross-back", "Cross member, back pad", x)
		b.need("back-strut-apart", math.Abs(x-v.Base.SeatPost)-m.Width-torchRoom)
		b.need("back-strut-on-base", min(x-half-rear, front-half-x))
	}
	either := func(id, title string, x float64) crossMember {
		if b.crossBack.part >= 0 && !apart(x, b.crossBack) {
			return b.crossBack
		}
		if apart(x, b.crossSeat, b.crossTower) {
			return b.cross(id, title, x)
		}
		if b.crossTower.part >= 0 && math.Abs(b.crossTower.x-x) < math.Abs(b.crossSeat.x-x) {
			return b.crossTower
		}
		return b.crossSeat
	}
	b.crossRear = either("cross-rear", "Cross member, rear", rear+half)
	b.crossFront = either("cross-front", "Cross member, front", front-half)
	b.need("seat-post-on-base", min(v.Base.SeatPost-half-rear, front-half-v.Base.SeatPost))
}

// cross adds a tube between the rails' inner faces.
func (b *builder) cross(id, title string, x float64) crossMember {
	m := &b.v.Member
	y := -b.postY - m.Width/2
	mid := b.floor + m.Height/2
	part := b.Add(assembly.Part{
		ID: id, Title: title, Group: b.frame, Stock: tubeStock(m, 2*y),
		Solid:   prism(b.section(m), 0, 2*y),
		Place:   solid.Along(r3.Vec{X: x, Y: -y, Z: mid}, r3.Vec{X: x, Y: y, Z: mid}, r3.Vec{Z: 1}),
		Density: steelDensity,
	})
	b.Join(assembly.Weld, part, b.rails[0], r3.Vec{X: x, Y: -y, Z: mid}, b.tubeWeld(m))
	b.Join(assembly.Weld, part, b.rails[1], r3.Vec{X: x, Y: y, Z: mid}, b.tubeWeld(m))
	return crossMember{part, x}
}
