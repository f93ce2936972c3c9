package screen

import (
	"math"

	"armwright/solver/drive"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r3"
)

// extent is a box that holds a path.
type extent struct{ low, high r3.Vec }

// extentOf holds the places of a list, which has at least one.
func extentOf(list []r3.Vec) extent {
	e := extent{list[0], list[0]}
	for _, v := range list[1:] {
		e.low = r3.Vec{X: min(e.low.X, v.X), Y: min(e.low.Y, v.Y), Z: min(e.low.Z, v.Z)}
		e.high = r3.Vec{X: max(e.high.X, v.X), Y: max(e.high.Y, v.Y), Z: max(e.high.Z, v.Z)}
	}
	return e
}

// swayed is extentOf of what carry gives, by way of use: the forearm's points run
// on circles, whose boxes are closed forms.
func (s *Screen) swayed(p *seat.Person, m drive.Machine) (out [waysOfUse]extent) {
	arm, _ := p.Pose.Turned(m.Axes[p.Axis], seat.HumeralTurn)
	path := p.Body.Hinge.Path(p.Body.Forearm)
	first := seat.MassCentre(p.Person, p.Body, p.Pose, arm, s.Angles[0])
	share := forearmShare(p)
	middle := r3.Scale(share, arm.To(r3.Sub(path.Still, path.At(s.Sin[0], s.Cos[0]))))
	a, b := arm.To(path.Sin), arm.To(path.Cos)
	half := r3.Scale(share, r3.Vec{X: math.Hypot(a.X, b.X), Y: math.Hypot(a.Y, b.Y), Z: math.Hypot(a.Z, b.Z)})
	for w, hands := range [waysOfUse]float64{bothArms: 2, rightAlone: 1} {
		c, h := r3.Add(first, r3.Scale(hands, middle)), r3.Scale(hands, half)
		if w == bothArms {
			c.Y, h.Y = first.Y, 0
		}
		out[w] = extent{r3.Sub(c, h), r3.Add(c, h)}
	}
	return out
}

// least is a bound on the least ratio that judge finds for a user of the mass kg,
// over every side, load and way of use: it is no greater than any.
func (t *tipping) least(kg float64, user *[waysOfUse]extent) float64 {
	base, half := t.base, t.base.Half
	least := math.Inf(1)
	for i, empty := range t.stand().mass {
		if i == middleLoad { // see judge
			continue
		}
		mass := empty + kg
		for w := range user {
			here := &t.extents[i][w]
			low, high := r3.Add(here.low, r3.Scale(kg, user[w].low)), r3.Add(here.high, r3.Scale(kg, user[w].high))
			inside := min(base.Front*mass-high.X, low.X-base.Rear*mass, half*mass-max(-low.Y, high.Y))
			up := high.Z
			if inside < 0 {
				up = low.Z
			}
			least = min(least, inside/up)
		}
	}
	return least
}
