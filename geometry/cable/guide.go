package cable

import (
	"math"

	"armwright/geometry/cam"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// LeadPoints is how many points Lead returns.
const LeadPoints = 1 + 2*leadArc

// leadArc is how many of them lie on each sheave.
const leadArc = 8

// Lead is the right arm's cable from where it leaves the cam, a place of the cam's
// plane, round the guide sheave and the next one, in an axis position; machine frame, mm.
// Other than Path it follows the arm and the axis. There are LeadPoints of them, those
// round a sheave evenly apart.
func (r *Route) Lead(position int, contact r2.Vec) []r3.Vec {
	at := &r.spans[position]
	from := onCam(&at.plane, contact)
	guide := at.guide
	guide.In = touch(&guide, from, 1)
	out := append(make([]r3.Vec, 0, LeadPoints), from)
	for _, s := range [2]*cam.Sheave{&guide, &at.next} {
		turn := math.Max(0, turnOf(s, s.In, s.Out))
		for i := range leadArc {
			out = append(out, around(s, turn*float64(i)/(leadArc-1)))
		}
	}
	return out
}

// Corners is the right arm's cable as a line of corners, at each of which a sheave turns
// it: from where it leaves the cam, a place of the cam's plane, to its end, in an axis
// position and with the stack lifted, mm. Machine frame. Not ok where it misses the guide
// sheave.
func (r *Route) Corners(position int, contact r2.Vec, lift float64) (line []r3.Vec, ok bool) {
	at := &r.spans[position]
	from := onCam(&at.plane, contact)
	guide := at.guide
	guide.In = touch(&guide, from, 1)
	guide.Turn = turnOf(&guide, guide.In, guide.Out)
	if !(guide.Turn > 0) {
		return nil, false
	}
	line = []r3.Vec{from, cornerOf(&guide)}
	up := r3.Vec{Z: lift}
	for i := range r.Sheaves[1:] {
		s := &r.Sheaves[1+i]
		corner := cornerOf(&s.Sheave)
		if i == 0 { // on its line to the sheave after it
			run := r3.Cross(s.Axis, r3.Sub(s.Out, s.Centre)) // as long as the radius
			corner = r3.Sub(s.Out, r3.Scale(math.Tan(turnOf(&at.next, at.next.In, s.Out)/2), run))
		}
		if s.Floating {
			corner = r3.Add(corner, up)
		}
		line = append(line, corner)
	}
	return append(line, r3.Add(r.End, up)), true
}

// cornerOf is where the cable would turn if the sheave were a point, on its line to the
// sheave.
func cornerOf(s *cam.Sheave) r3.Vec {
	run := r3.Cross(s.Axis, r3.Sub(s.In, s.Centre)) // as long as the radius
	return r3.Add(s.In, r3.Scale(math.Tan(s.Turn/2), run))
}

// Radius is that of every sheave, to the cable's centre.
func (r *Route) Radius() float64 { return r.radius }

// around is the place on a sheave a turn after where the cable meets it.
func around(s *cam.Sheave, turn float64) r3.Vec {
	sin, cos := math.Sincos(turn)
	arm := r3.Sub(s.In, s.Centre)
	return r3.Add(s.Centre, r3.Add(r3.Scale(cos, arm), r3.Scale(sin, r3.Cross(s.Axis, arm))))
}
