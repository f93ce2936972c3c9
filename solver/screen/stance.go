package screen

import (
	"armwright/geometry/assembly"
	"armwright/solver/drive"
	"armwright/solver/seat"

	"gonum.org/v1/gonum/spatial/r3"
)

var wayNames = [waysOfUse]string{"both arms", "right arm alone"}

// The loads of tipping: none at all, and those of the brief.
const (
	noLoad = iota
	lightLoad
	middleLoad
	heavyLoad
	loads
)

var loadNames = [loads]string{"no load", "light load", "middle load", "heavy load"}

// stance is mass (kg) and moment of mass (kg·mm) of the empty station by load,
// way of use and angle, and how far the load is up.
type stance struct {
	mass   [loads]float64
	moment [loads][waysOfUse][]r3.Vec
	lift   [waysOfUse][]float64 // mm, of the stack
}

// stance works out the empty station at all loads, ways of use and angles. A
// shared stack goes up by the cable's take-up with both arms and half of it with
// one, since the arms' cables are the two ends of one cable under a floating
// sheave; of a pair each goes up by its own arm's take-up.
func (s *Screen) stance(sc *Scene) *stance {
	out := new(stance)
	n := len(s.Angles)
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
	a := sc.Station.Assembly
	if a == nil {
		return s.unbuilt(sc, out)
	}
	// Of each group what is always there, and apart from it what the user chooses.
	fixed, chosen := make([]assembly.Weight, len(a.Groups)), make([]assembly.Weight, len(a.Groups))
	var all, free, rising float64
	for i := range a.Parts {
		p := &a.Parts[i]
		all += p.Mass
		of := fixed
		if p.Is(assembly.Load) && !p.Is(assembly.Rises) {
			of = chosen
			free += p.Mass
		}
		of[p.Group].Add(p.Mass, p.Centre)
		if p.Is(assembly.Rises) && !p.Is(assembly.Load) {
			rising += p.Mass
		}
	}
	for i := range a.Flexible {
		f := &a.Flexible[i]
		all += f.Mass
		fixed[0].Add(f.Mass, f.Centre)
	}
	moves := turning(a)
	// An axis that lies beside the pads' plane moves its bracket even in the middle
	// position.
	places := a.At(a.Reference, nil)
	var still r3.Vec
	for g := range a.Groups {
		if !moves[g] {
			still = r3.Add(still, r3.Add(fixed[g].Moved(places[g]).Moment, chosen[g].Moved(places[g]).Moment))
		}
	}
	load := s.Asked.Resistance.Load
	kg := [loads]float64{0, load.Light, load.Middle, load.Heavy}
	for i := range kg {
		out.mass[i] = all
		if free > 0 {
			out.mass[i] += 2*kg[i] - free
		}
	}
	for k, theta := range s.Angles {
		for w := range waysOfUse {
			pose := a.Reference
			pose.Flexion[0] = theta
			if w == bothArms {
				pose.Flexion[1] = theta
			}
			places = a.At(pose, places)
			sum, more := still, r3.Vec{}
			for g := range a.Groups {
				if moves[g] {
					sum = r3.Add(sum, fixed[g].Moved(places[g]).Moment)
					if chosen[g].Mass > 0 {
						more = r3.Add(more, chosen[g].Moved(places[g]).Moment)
					}
				}
			}
			for i := range kg {
				c := sum
				if free > 0 {
					c = r3.Add(c, r3.Scale(2*kg[i]/free, more))
				} else if sc.Station.Values.HasStack() {
					// A pair's stacks both go up with both arms.
					stacks := 1.0
					if w == bothArms {
						stacks = 2 * s.StackShare()
					}
					share := stacks * kg[i]
					if kg[i] > 0 {
						share += rising * stacks / (2 * s.StackShare())
					}
					c.Z += share * out.lift[w][k]
				}
				out.moment[i][w][k] = c
			}
		}
	}
	return out
}

// unbuilt fills in a station of which nothing can be built: it stands nowhere.
func (s *Screen) unbuilt(sc *Scene, out *stance) *stance {
	for i := range out.moment {
		out.mass[i] = 1
		for w := range out.moment[i] {
			for k := range out.moment[i][w] {
				out.moment[i][w][k] = r3.Vec{X: sc.stand.Front + 1e3, Z: 1}
			}
		}
	}
	return out
}

// turning tells the groups that go with an arm's flexion.
func turning(a *assembly.Assembly) []bool {
	out := make([]bool, len(a.Groups))
	for g := range a.Groups {
		if p := a.Groups[g].Parent; p >= 0 && out[p] {
			out[g] = true
			continue
		}
		switch a.Groups[g].Motion.(type) {
		case nil, *assembly.Steps, *assembly.Positions, *assembly.Lift:
		default:
			out[g] = true
		}
	}
	return out
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

// carry is the centre of mass of a person by way of use and angle, in slices that may be
// used again: only the forearms move.
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
