package posture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Rest is the surface the upper arm lies on: the arm pad, or the stop pad of
// the reclined posture. Slope is below horizontal, Offset from the pivot axis
// to the face.
type Rest struct {
	Slope, Offset float64
	Near, Far     float64 // from the pivot along the pad, towards the shoulder
	Width         float64 // of one pad, centred on the pivot
}

// normal points from the pad's face to the arm.
func (r Rest) normal() r3.Vec {
	s, c := math.Sincos(r.Slope)
	return r3.Vec{X: s, Z: c}
}

// upper points along the pad from the pivot towards the shoulder.
func (r Rest) upper() r3.Vec {
	s, c := math.Sincos(r.Slope)
	return r3.Vec{X: -c, Z: s}
}

// FarEdge is the place of the pad's upper edge, relative to the pivot.
func (r Rest) FarEdge() r3.Vec {
	return r3.Sub(r3.Scale(r.Far, r.upper()), r3.Scale(r.Offset, r.normal()))
}

// Pose is one person in one setting of the station, right side.
type Pose struct {
	Elbow, Shoulder, Hip r3.Vec
	Proximal             r3.Vec  // unit vector from elbow to shoulder
	Lean                 float64 // trunk from vertical, forward positive
	Abduction            float64 // sideways angle of the upper arm, elbow outward positive
	ArmSlope             float64 // upper arm below horizontal
	Reach                float64 // what the chain from seat to pivot leaves open along the arm or trunk, mm; 0 when it closes
}

// minLeanCosine keeps the hip's derivative with respect to lean finite: at
// less than one degree of lean the hip's place is that of one degree (off by
// less than 9 mm for any trunk, and only fore and aft).
var minLeanCosine = math.Cos(math.Pi / 180)

// abduct returns the sideways angle that brings the elbow from the shoulder's
// half breadth to the pivot's. A spacing out of reach saturates at 80 degrees
// so that a search has a finite, rising value to walk down from.
func abduct(half, shoulder, arm float64) float64 {
	const most = 0.985 // sin 80 deg
	return math.Asin(math.Max(-most, math.Min(most, (half-shoulder)/arm)))
}

// armOnPad lays the upper arm on the pad with the elbow at the pivot.
func armOnPad(b Body, pivot r3.Vec, rest Rest) Pose {
	var p Pose
	p.Abduction = abduct(-pivot.Y, b.ShoulderHalf, b.UpperArm)
	sa, ca := math.Sincos(p.Abduction)
	p.Proximal = r3.Add(r3.Scale(ca, rest.upper()), r3.Vec{Y: sa})
	p.ArmSlope = rest.Slope
	p.Elbow = r3.Add(pivot, r3.Scale(b.ArmHalf-rest.Offset, rest.normal()))
	p.Shoulder = r3.Add(p.Elbow, r3.Scale(b.UpperArm, p.Proximal))
	return p
}

// LeanOnPad places a body as PlaceOnPad does on the seat that brings its trunk to a
// lean.
func LeanOnPad(b Body, pivot r3.Vec, rest Rest, lean float64) Pose {
	p := armOnPad(b, pivot, rest)
	p.Lean = lean
	s, c := math.Sincos(lean)
	p.Hip = r3.Vec{X: p.Shoulder.X - b.Trunk*s, Z: p.Shoulder.Z - b.Trunk*c}
	return p
}

// PlaceOnPad places a body in the arm-pad posture: the upper arm lies on the
// pad with the elbow at the pivot, abduction follows from shoulder breadth and
// pivot spacing, and the lean of the trunk from the seat's height. pivot is
// the right pivot.
func PlaceOnPad(b Body, pivot r3.Vec, rest Rest, seat float64) Pose {
	p := armOnPad(b, pivot, rest)

	// The trunk closes the chain from seat to shoulder.
	cosine := (p.Shoulder.Z - seat - b.Hip) / b.Trunk
	used := math.Min(cosine, minLeanCosine)
	used = math.Max(used, 0)
	p.Lean = math.Acos(math.Min(1, math.Max(0, cosine)))
	if cosine > 1 {
		p.Reach = (cosine - 1) * b.Trunk
	}
	p.Hip = r3.Vec{
		X: p.Shoulder.X - b.Trunk*math.Sqrt(1-used*used),
		Z: seat + b.Hip,
	}
	return p
}

// Recline is the back pad, fixed to the frame: its angle from upright, and the
// point in the middle plane through which its face passes.
type Recline struct{ Angle, Foot, Height float64 }

// At is the x of the pad's face at a height.
func (r Recline) At(z float64) float64 {
	return r.Foot - (z-r.Height)*math.Tan(r.Angle)
}

// PlaceReclined places a body in the reclined posture: the buttocks and the trunk
// lie along the back pad, further back the higher the seat is, and the upper arm
// hangs from the shoulder to the pivot. The chain seat, trunk, arm does not close
// exactly at a given seat height: what is left along the arm moves the elbow
// off the pivot. The stop pad behind the upper arm is set to the arm's
// thickness by its own screw and does not.
func PlaceReclined(b Body, pivot r3.Vec, back Recline, seat float64) Pose {
	var p Pose
	p.Lean = -back.Angle
	s, c := math.Sincos(back.Angle)
	p.Hip = r3.Vec{X: back.At(seat) + (b.Behind-b.Hip*s)/c, Z: seat + b.Hip}
	p.Shoulder = r3.Add(p.Hip, r3.Vec{X: -b.Trunk * s, Y: -b.ShoulderHalf, Z: b.Trunk * c})

	p.Abduction = abduct(-pivot.Y, b.ShoulderHalf, b.UpperArm)
	sa, ca := math.Sincos(p.Abduction)
	dx, dz := p.Shoulder.X-pivot.X, p.Shoulder.Z-pivot.Z
	p.ArmSlope = math.Atan2(dz, -dx)
	at := Rest{Slope: p.ArmSlope}
	p.Proximal = r3.Add(r3.Scale(ca, at.upper()), r3.Vec{Y: sa})
	along := math.Hypot(dx, dz) - b.UpperArm*ca
	p.Elbow = r3.Add(pivot, r3.Scale(along, at.upper()))
	p.Reach = along
	return p
}

// ClosingSeat is the seat height at which a reclined body's upper arm reaches from
// its shoulder to the pivot, the shoulder above it. Where no height does, it is the
// one that brings the shoulder nearest.
func ClosingSeat(b Body, pivot r3.Vec, back Recline) float64 {
	from := PlaceReclined(b, pivot, back, back.Height)
	arm := b.UpperArm * math.Cos(from.Abduction)
	dx, dz := from.Shoulder.X-pivot.X, from.Shoulder.Z-pivot.Z
	// With the seat the shoulder moves up the pad's slope; off is its line's
	// distance from the pivot, along how far it still is from the foot of that.
	s, c := math.Sincos(back.Angle)
	off, along := dx*c+dz*s, dz*c-dx*s
	return back.Height + c*(math.Sqrt(math.Max(0, arm*arm-off*off))-along)
}

// Arm is the arm frame in the machine frame: X anterior, Y proximal, Z lateral,
// humerus turned.
type Arm struct{ X, Y, Z r3.Vec }

// Turned returns the arm frame with the humerus turned about its own length so
// that the elbow axis comes as near as it can to the machine axis, the turn
// held within ±most. The turn is measured from the position in which the
// lateral direction lies in the plane of the upper arm and the machine's y
// axis; positive raises the outer end of the elbow axis.
func (p Pose) Turned(machine r3.Vec, most float64) (Arm, float64) {
	x := r3.Unit(r3.Cross(p.Proximal, r3.Vec{Y: -1}))
	z := r3.Cross(x, p.Proximal)
	turn := math.Atan2(r3.Dot(machine, x), r3.Dot(machine, z))
	turn = math.Max(-most, math.Min(most, turn))
	s, c := math.Sincos(turn)
	return Arm{
		X: r3.Sub(r3.Scale(c, x), r3.Scale(s, z)),
		Y: p.Proximal,
		Z: r3.Add(r3.Scale(c, z), r3.Scale(s, x)),
	}, turn
}

// To turns a vector of the arm frame into the machine frame.
func (a Arm) To(v r3.Vec) r3.Vec {
	return r3.Add(r3.Add(r3.Scale(v.X, a.X), r3.Scale(v.Y, a.Y)), r3.Scale(v.Z, a.Z))
}

// Hand returns the grip centre at flexion theta.
func (p Pose) Hand(b Body, a Arm, theta float64) r3.Vec {
	return r3.Add(p.Elbow, r3.Scale(b.Forearm, a.To(b.Hinge.Forearm(theta))))
}

// AxisOffset is the distance of the elbow centre from the machine axis.
func (p Pose) AxisOffset(pivot, machine r3.Vec) float64 {
	return r3.Norm(r3.Cross(r3.Sub(p.Elbow, pivot), machine))
}
