package cam

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Sheave is one sheave of a cable's route in space. The cable comes in at In,
// turns about the sheave's centre and leaves at Out; both lie in the sheave's
// plane, at Radius from the centre, which is to the cable's centre line.
type Sheave struct {
	Name         string
	Centre, Axis r3.Vec // axis of unit length; the cable turns right-handed about it
	Radius       float64
	In, Out      r3.Vec
	Turn         float64 // angle the cable wraps, rad
}

// Corner returns the sheave that leads a cable round a corner: the two lines that
// meet there, in unit directions of travel in and out, are its tangents. False
// if they do not turn, or turn right back.
func Corner(name string, corner, in, out r3.Vec, radius float64) (Sheave, bool) {
	across := r3.Cross(in, out)
	sin := r3.Norm(across)
	const parallel = 1e-9
	if sin < parallel {
		return Sheave{}, false
	}
	turn := math.Atan2(sin, r3.Dot(in, out))
	reach := radius * math.Tan(turn/2)
	s := Sheave{Name: name, Axis: r3.Scale(1/sin, across), Radius: radius, Turn: turn}
	s.In = r3.Sub(corner, r3.Scale(reach, in))
	s.Out = r3.Add(corner, r3.Scale(reach, out))
	s.Centre = r3.Add(s.In, r3.Scale(radius, r3.Cross(s.Axis, in)))
	return s, true
}

// Return returns the sheave that sends a cable right back: it comes in at a
// point in a unit direction and leaves in the opposite one, aside from there by
// twice the radius.
func Return(name string, at, in, aside r3.Vec, radius float64) Sheave {
	to := r3.Unit(r3.Sub(aside, r3.Scale(r3.Dot(aside, in), in)))
	return Sheave{
		Name: name, Axis: r3.Cross(in, to), Radius: radius, Turn: math.Pi,
		In: at, Centre: r3.Add(at, r3.Scale(radius, to)), Out: r3.Add(at, r3.Scale(2*radius, to)),
	}
}

// Fleet returns the angle of a cable line to the sheave's plane, rad, for the
// line's unit direction.
func (s Sheave) Fleet(direction r3.Vec) float64 {
	return math.Asin(math.Min(1, math.Abs(r3.Dot(direction, s.Axis))))
}

// Load returns the force, N, of a cable under tension, N, on the sheave's axle: 2 T
// sin(turn/2).
func (s Sheave) Load(tension float64) float64 { return 2 * tension * math.Sin(s.Turn/2) }
