package cam

import (
	"math"

	"armwright/geometry/contour"
	"gonum.org/v1/gonum/spatial/r2"
)

// keyedBore returns the contour of a bore with a keyway plumb above the axis:
// counter-clockwise, the flanks of the keyway parallel, its floor depth past the
// bore's top.
func keyedBore(bore, width, depth float64) contour.Path {
	r, half, floor := bore/2, width/2, bore/2+depth
	side := math.Sqrt(r*r - half*half)
	// From the keyway's left foot round to its right: the circle less the keyway.
	turn := 2*math.Pi - 2*math.Asin(half/r)
	bulge := math.Tan(turn / 2 / 4) // in two halves
	return contour.Path{Closed: true, Vertices: []contour.Vertex{
		{X: -half, Y: side, Bulge: bulge}, {X: 0, Y: -r, Bulge: bulge},
		{X: half, Y: side}, {X: half, Y: floor}, {X: -half, Y: floor},
	}}
}

// Clamp is a split hub that a screw across its slot closes on a shaft, cut from
// plate and bolted to the side of a cam. Lengths mm.
type Clamp struct {
	Bore, BoltCircle, BoltHole float64
	Bolts                      int
	Wall                       float64 // least material round bore and holes
	Slot                       float64 // width of the slot
	Screw, Head                float64 // hole of the screw across the slot, and room for its head, diameters
	Ear                        float64 // thickness of an ear under the head
}

// ClampHub is a split hub, shaft axis at the origin, slot along +x, in the plane
// of the plate.
type ClampHub struct {
	Outline contour.Path // with slot and bore: one loop, counter-clockwise
	Holes   []Hole       // named "bolt"
	ScrewX  float64      // of the screw's axis, which runs along y through both ears
	Half    float64      // of the ears: from the slot's middle to the head's seat
	Hinge   float64      // from the axis to the middle of the ring opposite the slot
}

// Hub returns the split hub. The bolts stand where those of a cam's bolt circle
// do; the ears begin where the screw's head clears the round part.
func (c Clamp) Hub() ClampHub {
	r := (c.BoltCircle+c.BoltHole)/2 + c.Wall
	half := c.Slot/2 + c.Ear
	root := math.Sqrt(r*r - half*half)
	screw := root + c.Head/2
	end := screw + math.Max(c.Head/2, c.Screw/2+c.Wall)
	out := ClampHub{Holes: boltHoles(c.Bolts, c.BoltCircle, c.BoltHole), ScrewX: screw, Half: half, Hinge: (r + c.Bore/2) / 2}

	s, b := c.Slot/2, c.Bore/2
	mouth := math.Sqrt(b*b - s*s)
	outer := math.Tan((2*math.Pi - 2*math.Asin(half/r)) / 2 / 4)
	inner := -math.Tan((2*math.Pi - 2*math.Asin(s/b)) / 2 / 4)
	out.Outline = contour.Path{Closed: true, Vertices: []contour.Vertex{
		{X: end, Y: s}, {X: end, Y: half},
		{X: root, Y: half, Bulge: outer}, {X: -r, Y: 0, Bulge: outer},
		{X: root, Y: -half}, {X: end, Y: -half}, {X: end, Y: -s},
		{X: mouth, Y: -s, Bulge: inner}, {X: -b, Y: 0, Bulge: inner}, {X: mouth, Y: s},
	}}
	return out
}

// Leverage is how much more than the screw's force presses the hub on the shaft:
// the hub closes about the ring opposite the slot.
func (h ClampHub) Leverage() float64 { return (h.ScrewX + h.Hinge) / h.Hinge }

// Holding returns the torque, N·mm, that a clamped hub holds by friction when its
// screw pulls with force N: the hub bears on two lines, across the slot's plane
// (the least of the textbook's three cases of contact), mu F d.
func (h ClampHub) Holding(force, friction, bore float64) float64 {
	return friction * force * h.Leverage() * bore
}

// boltHoles returns n holes on a circle, none of them plumb above the axis when n
// is even.
func boltHoles(n int, circle, hole float64) []Hole {
	var out []Hole
	for i := range n {
		at := r2.Scale(circle/2, normal(math.Pi/2+2*math.Pi*(float64(i)+.5)/float64(n)))
		out = append(out, Hole{Name: "bolt", Centre: at, Diameter: hole})
	}
	return out
}
