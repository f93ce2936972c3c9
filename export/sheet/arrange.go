package sheet

import (
	"gonum.org/v1/gonum/spatial/r2"
)

// Distances on the paper in mm.
const (
	frameGap = 5.0  // from anything to the frame
	blockGap = 6.0  // between tables, notes and views
	viewGap  = 10.0 // between aligned views
	denseGap = 9.0  // between views that stand close
)

// offsets gives the places of the aligned views on the front view's paper:
// first angle puts what is seen from above below, from the left on the right;
// third angle the other way round.
func offsets(p Projection, views map[Position]laidView) map[Position]r2.Vec {
	front := views[Front].extent
	out := map[Position]r2.Vec{}
	for pos, v := range views {
		below := front.Min.Y - viewGap - v.extent.Max.Y
		above := front.Max.Y + viewGap - v.extent.Min.Y
		right := front.Max.X + viewGap - v.extent.Min.X
		before := front.Min.X - viewGap - v.extent.Max.X
		first := p == FirstAngle
		switch {
		case pos == Front:
			out[pos] = r2.Vec{}
		case (pos == FromAbove) == first && (pos == FromAbove || pos == FromBelow):
			out[pos] = r2.Vec{Y: below}
		case pos == FromAbove || pos == FromBelow:
			out[pos] = r2.Vec{Y: above}
		case (pos == FromLeft) == first:
			out[pos] = r2.Vec{X: right}
		default:
			out[pos] = r2.Vec{X: before}
		}
	}
	return out
}
