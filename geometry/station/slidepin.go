package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Pull pins of seat, foot plate and chest pad, mm and kg (own choices).
const (
	seatPin  = 10.0
	pinEdge  = 12.0 // of a hole's middle from the tube's end
	knobWide = 30.0
	knobLong = 25.0
	pinMass  = 0.15
)

// pinHole is a hole for a pull pin through a tube, at a height along its own z.
func pinHole(z float64) solid.Bore {
	return solid.Bore{At: r3.Vec{Z: z}, Dir: r3.Vec{X: 1}, Diameter: seatPin + 0.2}
}

// slidePin is one through two tubes that slide in each other: it goes in toward -y from
// its knob.
type slidePin struct {
	id, title    string
	group        int
	tip          r3.Vec // of the shank, where y is largest
	long         float64
	outer, inner assembly.Both // tubes
	outerAt      r3.Vec        // in the wall of the outer tube, and in the inner one
	innerAt      r3.Vec
}

// slidePin adds one, or a pair.
func (b *builder) slidePin(add adder, p slidePin) {
	pin := add(assembly.Part{
		ID: p.id, Title: p.title, Group: p.group,
		Stock: assembly.Stock{Form: assembly.Bought, Name: "pin 10 with knob", Size: [3]float64{seatPin, knobWide}, Length: p.long + knobLong},
		Solid: solid.Turned{Outline: []r2.Vec{{X: seatPin / 2}, {X: seatPin / 2, Y: p.long}, {X: knobWide / 2, Y: p.long}, {X: knobWide / 2, Y: p.long + knobLong}}},
		Place: solid.Along(p.tip, r3.Add(p.tip, r3.Vec{Y: -1}), r3.Vec{Z: 1}), Mass: pinMass, Traits: assembly.Adjusts | assembly.Fastener,
	})
	hole := assembly.Detail{Diameter: seatPin, Class: "H11/h9"}
	b.join(assembly.Fit, pin, p.outer, p.outerAt, hole)
	b.join(assembly.Fit, pin, p.inner, p.innerAt, hole)
}
