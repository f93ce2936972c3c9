package station

import (
	"armwright/geometry/linkage"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// lever adds the lever on its hub at the end of the arm's shaft, with sleeve and
// plates. The shaft ends in the lever's outer face, so that plates may cover it.
func (b *builder) lever() {
	v := b.v
	if v.Drive != values.LeverDrive {
		return
	}
	thick, plane, angle := v.BarThick, b.planes.Lever, v.First+v.Lever.Phase
	bar := linkage.Bar{Length: v.Lever.Radius, A: hubEye(v), B: sleeveEye()}
	b.need("lever-length", eyesApart(bar))
	bar = atLeast(bar)
	inner := plane - thick/2
	collar := b.collar("lever-collar", b.armShaft, b.arms[0], b.inPlane(inner-values.CollarLong, r2.Vec{}, 0), values.CollarLong)
	lever := b.bar("lever", "Lever", bar, b.arms[0], plane, r2.Vec{}, angle)
	b.onShaft(lever, collar, b.armShaft, inner, r2.Vec{})
	eye := b.inPlane(inner, r2.Vec{}, angle)
	eye.Origin = eye.Point(r3.Vec{X: bar.Length})
	b.sleeve(lever, b.arms[0], eye, &v.Lever.Plates)
}
