package posture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// trunkAxes returns the unit vectors along the trunk (towards the head) and
// across it (forwards).
func (p Pose) trunkAxes() (along, forward r3.Vec) {
	s, c := math.Sincos(p.Lean)
	return r3.Vec{X: s, Z: c}, r3.Vec{X: c, Z: -s}
}

// ChestGap is the gap between the chest and the inner corner of the arm pad's
// upper edge, across the trunk. The chest's section is an ellipse of the
// chest's breadth and depth whose middle plane lies Protraction behind the
// line from hip to shoulder: pads that stand apart let the chest in between.
func (p Pose) ChestGap(b Body, pivot r3.Vec, rest Rest) float64 {
	_, forward := p.trunkAxes()
	edge := r3.Add(pivot, rest.FarEdge())
	ahead := r3.Dot(r3.Sub(edge, p.Shoulder), forward)
	y := (-pivot.Y - rest.Width/2) / (b.ChestBreadth / 2)
	// Smooth positive part of 1 - y², so that a pad wider apart than the
	// chest gains a little and never meets a kink; 0.02 blurs by 1/7 of the
	// chest's half depth at the very side.
	q := 1 - y*y
	q = (q + math.Sqrt(q*q+0.02*0.02)) / 2
	return ahead - (b.ChestDepth/2*math.Sqrt(q) - Protraction)
}

// ChestAt is x of the front of the chest in the middle plane, at a height.
func (p Pose) ChestAt(b Body, z float64) float64 {
	_, forward := p.trunkAxes()
	front := r3.Add(p.Shoulder, r3.Scale(b.ChestDepth/2-Protraction, forward))
	return front.X + (z-front.Z)*math.Tan(p.Lean)
}

// BellyGap is the horizontal gap between the front of the abdomen and the rear
// face, at x, of the post that carries the pads.
func (p Pose) BellyGap(b Body, x float64) float64 {
	along, forward := p.trunkAxes()
	front := r3.Add(p.Hip, r3.Add(r3.Scale(b.BellyHeight, along), r3.Scale(b.BellyFront, forward)))
	return x - front.X
}

// Thigh is the thigh of one side as a capsule along the seat, from the hip
// joint to the knee.
type Thigh struct {
	Hip            r3.Vec // end of the capsule's line
	Length, Radius float64
}

// Thigh returns the right thigh.
func (p Pose) Thigh(b Body) Thigh {
	r := b.ThighDepth / 2
	// The hip joint is taken at mid thigh; the capsule ends at the knee's front.
	return Thigh{
		Hip:    r3.Vec{X: p.Hip.X, Y: -b.ThighHalf, Z: p.Hip.Z - b.Hip + r},
		Length: math.Max(0, b.Knee-r),
		Radius: r,
	}
}

// Distance2 is the square of a point's distance from the thigh's line.
func (t Thigh) Distance2(at r3.Vec) float64 {
	x := at.X - t.Hip.X
	x -= max(0, min(t.Length, x))
	y, z := at.Y-t.Hip.Y, at.Z-t.Hip.Z
	return x*x + y*y + z*z
}

// Gap is the gap between the thigh and a hand, as a ball of radius HandDepth
// round the grip centre, whose square of distance from the thigh's line is d2.
func (t Thigh) Gap(d2 float64) float64 { return math.Sqrt(d2) - t.Radius - HandDepth }

// KneeGap is the gap between the hand at a place and the thigh of its side.
func (p Pose) KneeGap(b Body, hand r3.Vec) float64 {
	t := p.Thigh(b)
	return t.Gap(t.Distance2(hand))
}

// PadRoom is how far the pad reaches past the side of the upper arm that lies on it, at
// the end of the pad where it is least; negative where the arm reaches past the pad. The
// arm leaves the pad's middle line by its abduction, and is taken as wide as it is thick.
func (p Pose) PadRoom(b Body, pivot r3.Vec, rest Rest) float64 {
	return rest.Width/2 - b.ArmHalf - p.aside(pivot, rest)
}

// PadCover is the share of the upper arm's width that lies over its pad, there.
func (p Pose) PadCover(b Body, pivot r3.Vec, rest Rest) float64 {
	aside, half := p.aside(pivot, rest), rest.Width/2
	return max(0, min(half, aside+b.ArmHalf)-max(-half, aside-b.ArmHalf)) / (2 * b.ArmHalf)
}

// aside is how far the upper arm's own line lies beside the pad's, at the end of the pad
// where that is more.
func (p Pose) aside(pivot r3.Vec, rest Rest) float64 {
	elbow := r3.Dot(r3.Sub(p.Elbow, pivot), rest.upper())
	return max(math.Abs(rest.Near-elbow), math.Abs(rest.Far-elbow)) * math.Abs(math.Tan(p.Abduction))
}
