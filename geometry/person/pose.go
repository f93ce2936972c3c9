package person

import (
	"math"

	"armwright/geometry/elbow"

	"gonum.org/v1/gonum/spatial/r3"
)

// Pose is how one person sits.
type Pose struct {
	Hip    r3.Vec  // midway between the hip joint centres; y is 0
	Lean   float64 // trunk from vertical, forward positive
	Behind float64 // of the chest's middle plane behind the line from hip to shoulder: reaching forward brings the shoulders ahead
	Seat   float64 // height of the loaded seat
	Ground float64 // height of what the feet stand on: 0 for the floor
	Feet   Feet
	Arms   [2]Arm // right, left
}

// Arm is one arm in the machine frame.
type Arm struct {
	Shoulder, Elbow r3.Vec
	Path            elbow.Path // of the grip's centre
	Grip            r3.Vec     // unit vector along the handle
}

// Mirrored returns the arm's counterpart on the other side.
func (a Arm) Mirrored() Arm {
	m := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	return Arm{m(a.Shoulder), m(a.Elbow), elbow.Path{Still: m(a.Path.Still), Sin: m(a.Path.Sin), Cos: m(a.Path.Cos)}, m(a.Grip)}
}

// Feet is where a seated person puts the feet.
type Feet int8

// The places.
const (
	Ahead Feet = iota // as far forward as brings the soles of long legs to the ground, up to FeetForward
	Under             // under the knees
	Back              // as far back as FeetBack
	feet
)

// Shank angles from upright, the feet ahead of the knees positive, that a seated
// person takes without effort (judgement).
const (
	FeetForward = 30 * math.Pi / 180
	FeetBack    = -10 * math.Pi / 180
)

// Leg is the right leg of a seated person.
type Leg struct {
	Hip, Knee, Ankle r3.Vec
	Shank            float64 // angle from upright, foot ahead of the knee positive
	Hang             float64 // of the shoe's sole above the ground, mm; 0 where it stands
}

// Leg puts the right leg on seat and ground. The thigh lies on the seat with its
// underside level. A sole that does not reach the ground hangs; where leg and shoe are
// longer than the seat is high, feet that are Ahead go forward, and what that leaves,
// or all of it for the other places, lifts the knee.
func (s *Sizes) Leg(p *Pose) Leg {
	r, shank := s.kneeRadius(), s.shank()
	l := Leg{Hip: r3.Vec{X: p.Hip.X, Y: -s.ThighHalf(), Z: p.Seat + s.ThighClearance/2}}
	l.Knee = r3.Vec{Y: l.Hip.Y, Z: p.Seat + r}
	drop := l.Knee.Z - p.Ground - ankleHeight - s.Shoe // knee to ankle that brings the sole to the ground
	switch {
	case p.Feet == Back:
		l.Shank = FeetBack
	case p.Feet == Ahead && drop < shank:
		l.Shank = min(FeetForward, math.Acos(max(0, drop/shank)))
	}
	sin, cos := math.Sincos(l.Shank)
	if short := drop - shank*cos; short > 0 {
		l.Hang = short
	} else {
		l.Knee.Z -= short
	}
	rise := l.Knee.Z - l.Hip.Z
	thigh := s.thigh()
	l.Knee.X = l.Hip.X + math.Sqrt(max(0, thigh*thigh-rise*rise))
	l.Ankle = r3.Add(l.Knee, r3.Vec{X: shank * sin, Z: -shank * cos})
	return l
}
