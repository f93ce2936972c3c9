package station

import (
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// forwardPlane is the frame of the drive in a plane across the axis: own x forward,
// y up, z outward, as linkages and levers count; reference pose.
func (b *builder) forwardPlane(outward float64) solid.Placement {
	forward := r3.Unit(r3.Sub(r3.Vec{X: 1}, r3.Scale(b.axis.X, b.axis)))
	return solid.Placement{Origin: r3.Add(b.pivot, r3.Scale(outward, b.axis)), X: forward, Y: r3.Cross(b.axis, forward), Z: b.axis}
}

// inPlane is the frame of a body at a place of forwardPlane, its own x turned by an
// angle from forward.
func (b *builder) inPlane(outward float64, at r2.Vec, angle float64) solid.Placement {
	p := solid.Turn(r3.Vec{}, r3.Vec{Z: 1}, angle)
	p.Origin = r3.Vec{X: at.X, Y: at.Y}
	return b.forwardPlane(outward).Then(p)
}

// atAxis is the place (down, normal, outward) from the pivot in the frame of the
// swivelling side, machine frame, reference pose.
func (b *builder) atAxis(down, normal, outward float64) r3.Vec {
	return b.swivelPlane.Point(r3.Vec{X: down, Y: normal, Z: outward})
}

// atArm is the place along the arm, across it towards more flexion, and outward.
func (b *builder) atArm(along, across, outward float64) r3.Vec {
	return b.armPlane.Point(r3.Vec{X: along, Y: across, Z: outward})
}

// onRest is the frame of a body square to the rest plane, its origin a distance up
// the pad and above the plane through the pivot: own x down the pad, y to the
// left, z out of the pad.
func (b *builder) onRest(up, above float64) solid.Placement {
	at := r3.Add(b.pivot, r3.Add(r3.Scale(up, b.up), r3.Scale(above, b.normal)))
	return solid.Placement{Origin: at, X: r3.Scale(-1, b.up), Y: r3.Vec{Y: 1}, Z: b.normal}
}

// across is the frame of a body whose profile lies across the axis, in (down,
// normal), its own z outward along the axis.
func (b *builder) across(outward float64) solid.Placement {
	p := b.swivelPlane
	p.Origin = b.atAxis(0, 0, outward)
	return p
}

// acrossArm is across turned with the arm: own x along the arm.
func (b *builder) acrossArm(outward float64) solid.Placement {
	p := b.armPlane
	p.Origin = b.atArm(0, 0, outward)
	return p
}
