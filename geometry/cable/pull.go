package cable

import (
	"math"

	"armwright/geometry/cam"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Pull is the right arm's cable on its cam at one flexion.
type Pull struct {
	Arm     float64 // moment arm about the cam's axis, mm
	Fleet   float64 // angle of the free cable to the cam's plane, rad
	Contact r2.Vec  // where it leaves the cam, in its plane from its axis
}

// Pull follows the cable in an axis position: it leaves the cam where, seen in the cam's
// plane, it is a tangent of it, for the sheave that is set for the position and has
// swivelled toward that place. The errors are those of cam.Profile's Led.
func (r *Route) Pull(p *cam.Profile, position int, theta float64) (Pull, error) {
	plane := &r.planes[position]
	in := plane.Inverse()
	s, err := p.At(theta)
	if err != nil {
		return Pull{}, err
	}
	contact := s.Contact
	// The leaving point follows the contact by the sheave's radius times the little that
	// the line turns, so that what is left falls tenfold each time.
	const rounds, near = 12, 1e-6 // mm
	for range rounds {
		from := onCam(plane, contact)
		_, leave := r.Tangent(position, from)
		q := in.Point(leave)
		led, err := p.Led(theta, r2.Vec{X: q.X, Y: q.Y})
		if err != nil {
			return Pull{}, err
		}
		moved := r2.Norm(r2.Sub(led.Contact, contact))
		contact = led.Contact
		if moved < near {
			line := r3.Sub(leave, from)
			fleet := math.Asin(min(1, math.Abs(r3.Dot(line, plane.Z))/r3.Norm(line)))
			return Pull{Arm: led.Arm * math.Cos(fleet), Fleet: fleet, Contact: contact}, nil
		}
	}
	return Pull{}, &cam.Error{Kind: cam.Reach, Theta: theta, What: "place of the cable on the cam (mm)", Value: r2.Norm(contact), Hint: "no cable leads from the cam to the guide sheave in this axis position"}
}
