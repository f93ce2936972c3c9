package screen

import (
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r3"
)

// The ways of using the arms.
const (
	bothArms = iota
	rightAlone
	waysOfUse
)

var wayNames = [waysOfUse]string{"both arms", "right arm alone"}

var loadNames = [3]string{"light load", "middle load", "heavy load"}

// stance is mass (kg) and moment of mass (kg·mm) of the empty station by load,
// way of use and angle, and how far the load is up.
type stance struct {
	mass   [3]float64
	moment [3][waysOfUse][]r3.Vec
	lift   [waysOfUse][]float64 // mm, of the stack
	loads  [3]float64
}

// stance works out the empty station at all loads, ways of use and angles. A
// shared stack goes up by the cable's take-up with both arms and half of it with
// one, since the arms' cables are the two ends of one cable under a floating
// sheave; of a pair each goes up by its own arm's take-up.
func (s *Screen) stance(sc *Scene) *stance {
	l, st := &sc.layout, &sc.built
	load := s.Asked.Resistance.Load
	out := &stance{loads: [3]float64{load.Light, load.Middle, load.Heavy}}
	n := len(s.Angles)
	var still float64
	var rest r3.Vec
	add := func(m float64, c r3.Vec) { still, rest = still+m, r3.Add(rest, r3.Scale(m, c)) }
	for _, m := range st.Members {
		add(m.Mass(), r3.Scale(0.5, r3.Add(m.A, m.B)))
	}
	for _, u := range st.Lumps {
		if !swings(u.ID) {
			add(u.Mass, u.Centre)
		}
	}
	up := s.lifts(sc.drive)
	out.lift[bothArms] = up
	out.lift[rightAlone] = make([]float64, n)
	for k := range up {
		out.lift[rightAlone][k] = up[k] * s.StackShare()
	}
	for i := range out.moment {
		for w := range out.moment[i] {
			out.moment[i][w] = make([]r3.Vec, n)
		}
	}
	arm, atRest, platesAtRest := l.Swinging(0)
	for i, kg := range out.loads {
		plates := 0.0
		if l.PlatesEachArm > 0 {
			plates = kg
		}
		out.mass[i] = still + 2*(arm+plates)
		other := r3.Add(atRest, r3.Scale(plates, platesAtRest))
		for k, theta := range s.Angles {
			_, moved, place := l.Swinging(theta - s.Angles[0])
			right := r3.Add(moved, r3.Scale(plates, place))
			both := r3.Add(rest, r3.Add(right, station.Mirror(right)))
			one := r3.Add(rest, r3.Add(right, station.Mirror(other)))
			if l.StackMass > 0 {
				both.Z += 2 * s.StackShare() * kg * out.lift[bothArms][k]
				one.Z += kg * out.lift[rightAlone][k]
			}
			out.moment[i][bothArms][k], out.moment[i][rightAlone][k] = both, one
		}
	}
	return out
}

// swings tells the lumps that turn with an arm.
func swings(id string) bool {
	for _, what := range []string{"arm-", "counter-", "plates-", "eccentric-", "input-bar-", "coupler-", "output-bar-", "plate-lever-", "sleeve-"} {
		if len(id) > len(what) && id[:len(what)] == what {
			return true
		}
	}
	return false
}

// lifts is how far both arms have lifted the stack at each angle: the cable's
// take-up, by the trapezium rule on the moment arms, made to end where the
// cam's own take-up ends.
func (s *Screen) lifts(d drive.State) []float64 {
	up := make([]float64, len(s.Angles))
	if len(d.MomentArm) != len(s.Angles) {
		return up
	}
	for k := 1; k < len(up); k++ {
		up[k] = up[k-1] + (d.MomentArm[k-1]+d.MomentArm[k])/2*(s.Angles[k]-s.Angles[k-1])
	}
	if last := up[len(up)-1]; last > 0 {
		for k := range up {
			up[k] *= d.TakeUp / last
		}
	}
	return up
}

// carried is the centre of mass of a person by way of use and angle: only the
// forearms move.
func (s *Screen) carried(p *seat.Person, m drive.Machine) Carriage {
	var out Carriage
	s.carry(p, m, &out)
	return out
}

// carry is carried into slices that may be used again.
func (s *Screen) carry(p *seat.Person, m drive.Machine, out *Carriage) {
	arm, _ := p.Pose.Turned(m.Axes[p.Axis], seat.HumeralTurn)
	path := p.Body.Hinge.Path(p.Body.Forearm)
	first := seat.MassCentre(p.Person, p.Body, p.Pose, arm, s.Angles[0])
	share := forearmShare(p)
	for w := range out {
		if len(out[w]) != len(s.Angles) {
			out[w] = make([]r3.Vec, len(s.Angles))
		}
	}
	start := path.At(s.Sin[0], s.Cos[0])
	for k := range s.Angles {
		move := r3.Scale(share, arm.To(r3.Sub(path.At(s.Sin[k], s.Cos[k]), start)))
		out[rightAlone][k] = r3.Add(first, move)
		move.Y = 0
		out[bothArms][k] = r3.Add(first, r3.Scale(2, move))
	}
}

// forearmShare is what of one hand's move the person's centre of mass makes.
func forearmShare(p *seat.Person) float64 {
	kg, place := p.Person.ForearmHand()
	return kg / p.Person.Mass * place / p.Body.Forearm
}
