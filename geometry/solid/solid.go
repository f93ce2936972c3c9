package solid

import "gonum.org/v1/gonum/spatial/r3"

// Solid is what every body can say of itself, in its own frame. It is a Prism or
// a Turned.
type Solid interface {
	// Volume returns the volume, mm³, holes taken off.
	Volume() float64
	// Centroid returns the middle of the volume.
	Centroid() r3.Vec
	// Inertia returns the moments of inertia per unit density about the
	// centroid, along the own axes, mm⁵.
	Inertia() Tensor
	// Hull returns the convex hull. Ask once and keep it: it is made anew.
	Hull() Convex
	// Pieces returns convex bodies that together cover this one: the hull alone
	// where it is convex. Holes and the inside of tubes count as filled, and a
	// hollow arc as the chords of arcs of which none is deeper than Sagitta.
	Pieces() []Convex
	// Shell returns the boundary as faces and edges, of a body that is valid.
	Shell() *Shell
	// Validate returns an *Error that tells the first feature with which no such
	// body can be made.
	Validate() error

	bulk() bulk
	mirrored() Solid
	box() (low, high r3.Vec)
}

// Weigh returns volume, mm³, and centroid, sooner than one after the other.
func Weigh(s Solid) (volume float64, centroid r3.Vec) {
	m := s.bulk()
	return m.volume, m.centroid()
}

// Sagitta is by how much, mm, Pieces may fill a hollow arc.
const Sagitta = 0.05

// Mirrored returns the mirror image of s in its own x-z plane: its y turned to
// -y. See Placement.Mirrored.
func Mirrored(s Solid) Solid { return s.mirrored() }

// Bounds returns the corners of the smallest upright box round s at p, exact for
// arcs and oblique ends.
func Bounds(s Solid, p Placement) (low, high r3.Vec) { return Extent(s.Hull(), p) }

// Extent returns the corners of the smallest upright box round c at p.
func Extent(c Convex, p Placement) (low, high r3.Vec) {
	reach := func(d r3.Vec) r3.Vec { return p.Point(c.Support(p.own(d))) }
	low = r3.Vec{X: reach(r3.Vec{X: -1}).X, Y: reach(r3.Vec{Y: -1}).Y, Z: reach(r3.Vec{Z: -1}).Z}
	high = r3.Vec{X: reach(r3.Vec{X: 1}).X, Y: reach(r3.Vec{Y: 1}).Y, Z: reach(r3.Vec{Z: 1}).Z}
	return low, high
}
