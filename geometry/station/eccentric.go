package station

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// eccentric adds it on its bar, as the counterweight on its own.
func (b *builder) eccentric() {
	e := &b.v.Eccentric
	if e.Mass <= 0 {
		return
	}
	b.weightOnShaft("eccentric", "Eccentric weight", b.planes.Eccentric, e.Mass, e.Radius, e.Phase-b.armAbove())
}

// armAbove is how far the arm stands above forward horizontal at flexion 0.
func (b *builder) armAbove() float64 {
	forward := b.forwardPlane(0)
	return math.Atan2(r3.Dot(b.down, forward.Y), r3.Dot(b.down, forward.X))
}
