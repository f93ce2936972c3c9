package screen

import (
	"armwright/geometry/posture"
	"armwright/specs/people"
)

// headAlong is how far the head's centre of mass lies from the hip joint along
// the trunk: the vertex stands the seated height above the seat.
func headAlong(p people.Person, b posture.Body) float64 {
	head := people.Segments(p.Sex).Head
	return p.SittingHeight - b.Hip - head.Centre*head.Length*p.Stature
}
