package screen

import (
	"armwright/geometry/balance"
	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// SeatedCurve is what pads, seat and back carry while a person lifts the
// heaviest load that strength allows, by angle. Forces N, places mm.
type SeatedCurve struct {
	Person   string
	Why      string // this person
	Weight   float64
	Load     []float64 // on both hands together
	Pad      []float64 // both pads, normal to them
	Back     []float64 // normal to the back pad; nil without one
	Seat     []float64
	Share    []float64 // of body weight on the seat
	SeatX    []float64 // where the seat's reaction acts, machine frame
	Friction []float64 // the seat must hold, forward on the person positive
}

// SeatedCurves works out the curves of the person with the least seat load, the
// heaviest and the strongest.
func (s *Screen) SeatedCurves(g *specs.Geometry, sat []seat.Person, level float64) []SeatedCurve {
	if len(sat) == 0 {
		return nil
	}
	light, strong := 0, 0
	for i := range sat {
		if sat[i].SeatLoad < sat[light].SeatLoad {
			light = i
		}
		if sat[i].Person.ElbowStrength() > sat[strong].Person.ElbowStrength() {
			strong = i
		}
	}
	var out []SeatedCurve
	taken := map[int]bool{}
	for _, v := range []struct {
		who int
		why string
	}{{light, "least seat load"}, {s.Heavy, "heaviest"}, {strong, "strongest"}} {
		if !taken[v.who] {
			taken[v.who] = true
			c := s.seatedCurve(g, &sat[v.who], level)
			c.Why = v.why
			out = append(out, c)
		}
	}
	return out
}

func (s *Screen) seatedCurve(g *specs.Geometry, p *seat.Person, level float64) SeatedCurve {
	b := p.Body
	c := SeatedCurve{Person: p.Person.Label, Weight: p.Person.Mass * balance.G}
	peak := min(p.Person.ElbowStrength(), level)
	eq := balance.Seated{
		Weight: c.Weight, Slope: p.Pose.ArmSlope, UpperArm: b.UpperArm,
		Support: (g.Pad.Near + g.Pad.Far) / 2, Reach: b.Forearm, SeatTop: g.Pivots.Height - p.SeatTop,
	}
	centre := s.carried(p, drive.NewMachine(g))[bothArms]
	for k, theta := range s.Angles {
		eq.Load = 2 * peak * s.Shape[k] / b.Forearm
		eq.CentreX = centre[k].X
		r := eq.At(theta)
		if g.Back != nil {
			r = seat.LeaningBack(eq, p.Person, b, p.Pose, drive.NewMachine(g), centre[k].X).At(theta)
			c.Back = append(c.Back, r.Back)
		}
		c.Load = append(c.Load, eq.Load)
		c.Pad = append(c.Pad, r.Pad)
		c.Seat = append(c.Seat, r.Seat)
		c.Share = append(c.Share, r.Share(c.Weight))
		c.SeatX = append(c.SeatX, r.SeatX)
		c.Friction = append(c.Friction, r.Friction)
	}
	return c
}

// headAlong is how far the head's centre of mass lies from the hip joint along
// the trunk: the vertex stands the seated height above the seat.
func headAlong(p people.Person, b posture.Body) float64 {
	head := people.Segments(p.Sex).Head
	return p.SittingHeight - b.Hip - head.Centre*head.Length*p.Stature
}
