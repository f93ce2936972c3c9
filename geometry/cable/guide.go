package cable

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// LeadPoints is how many points Lead returns.
const LeadPoints = 9

// Lead is the right arm's cable from where it leaves the cam, a place of the cam's
// plane, round the guide sheave to where it hangs plumb, in an axis position; machine
// frame, mm. Other than Path it follows the arm. There are LeadPoints of them, those
// round the sheave evenly apart.
func (r *Route) Lead(position int, contact r2.Vec) []r3.Vec {
	from := onCam(&r.planes[position], contact)
	turn, leave := r.Tangent(position, from)
	hang := r.At(position)
	turn = math.Max(0, turn)
	out := append(make([]r3.Vec, 0, LeadPoints), from, leave)
	level := r3.Vec{X: from.X - hang.X, Y: from.Y - hang.Y}
	if n := r3.Norm(level); n > 0 {
		level = r3.Scale(1/n, level)
	}
	// Round the sheave's centre, from the angle of leaving to the far side, where the
	// plumb line is.
	const steps = LeadPoints - 2
	for i := range steps {
		s, c := math.Sincos(math.Pi - turn + turn*float64(i+1)/steps)
		out = append(out, r3.Add(hang, r3.Add(r3.Scale(r.radius*(1+c), level), r3.Vec{Z: r.radius * s})))
	}
	return out
}

// Corners is the right arm's cable as a line of corners, at each of which a sheave turns
// it: from where it leaves the cam, a place of the cam's plane, to its end, in an axis
// position and with the stack lifted, mm. Machine frame. Not ok where it misses the guide
// sheave.
func (r *Route) Corners(position int, contact r2.Vec, lift float64) (line []r3.Vec, ok bool) {
	from := onCam(&r.planes[position], contact)
	turn, leave := r.Tangent(position, from)
	if !(turn > 0) {
		return nil, false
	}
	in := r3.Unit(r3.Sub(leave, from))
	line = []r3.Vec{from, r3.Add(leave, r3.Scale(r.radius*math.Tan(turn/2), in))}
	up := r3.Vec{Z: lift}
	for i := range r.Sheaves[1:] {
		s := &r.Sheaves[1+i]
		run := r3.Cross(s.Axis, r3.Sub(s.In, s.Centre)) // as long as the radius
		corner := r3.Add(s.In, r3.Scale(math.Tan(s.Turn/2), run))
		if s.Floating {
			corner = r3.Add(corner, up)
		}
		line = append(line, corner)
	}
	return append(line, r3.Add(r.End, up)), true
}

// Radius is that of every sheave, to the cable's centre.
func (r *Route) Radius() float64 { return r.radius }
