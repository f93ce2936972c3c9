package judge

import (
	"armwright/specs/people"
)

// FewestTold is the least number of persons who fit that what a band tells rests on.
const FewestTold = 5

// Told are the positions that stature, sex and arm length tell a person, who need know
// nothing else: those that the persons who fit in the same bands take.
type Told struct{ Seat, Handle, Axis Usual }

// Told looks a person up. There is nothing to tell where too few in a band fit.
func (c *Crowd) Told(p *people.Person) (t Told, ok bool) {
	found := 0
	for i := range c.Bands {
		if b := &c.Bands[i]; p.Stature >= b.From && p.Stature < b.To && b.Seat.N >= FewestTold && b.Axis[p.Sex].N >= FewestTold {
			t.Seat, t.Axis = b.Seat, b.Axis[p.Sex]
			found++
		}
	}
	for _, a := range c.Arms {
		if p.AxisToGrip >= a.From && p.AxisToGrip < a.To && a.Handle.N >= FewestTold {
			t.Handle = a.Handle
			found++
		}
	}
	return t, found == 2
}
