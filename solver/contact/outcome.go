package contact

import (
	"math"
	"sync"

	"armwright/geometry/balance"
	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r2"
)

// Outcome is how a person is held over the loaded range while lifting what strength and
// the heaviest load allow.
type Outcome struct {
	Part   float64    // of that load that can be held at every angle, at most Reserve
	At     int        // index of the angle at which least can
	Disc   [2]float64 // greatest compression of the lowest disc, N: with the longest and the shortest lever arm of its muscles
	DiscAt int        // index of its angle
}

// load is on both hands together at an angle, N.
func load(s *seat.Placer, p *seat.Person, level float64, k int) float64 {
	return 2 * min(p.Person.ElbowStrength(), level) * s.Shape[k] / p.Body.Forearm
}

// Forces go smoothly with the angle: of every heldStride one and the last are looked at
// for whether a load can be held, of every discStride one for the lowest disc.
const heldStride, discStride = 2, 4

// likeness is what tells persons apart in the side view: of many boundary persons only
// the carrying angle differs.
type likeness struct {
	who               people.Person // without name and carrying angle
	pose              posture.Pose
	seat, chest, foot float64
}

// All works out the outcomes of persons.
func All(s *seat.Placer, m drive.Machine, sat []seat.Person, level float64) []Outcome {
	out := make([]Outcome, len(sat))
	first := map[likeness]int{}
	var own []int
	as := make([]int, len(sat))
	for i := range sat {
		p := &sat[i]
		k := likeness{p.Person, p.Pose, p.SeatTop, p.ChestGap, p.FootGap}
		k.who.Label, k.who.CarryingAngle = "", 0
		if at, ok := first[k]; ok {
			as[i] = at
			continue
		}
		first[k], as[i] = i, i
		own = append(own, i)
	}
	const abreast = 2
	var group sync.WaitGroup
	for lane := range abreast {
		group.Go(func() {
			for n := lane; n < len(own); n += abreast {
				out[own[n]] = of(s, m, &sat[own[n]], level)
			}
		})
	}
	group.Wait()
	for i := range out {
		out[i] = out[as[i]]
	}
	return out
}

// of works out the outcome of a placed person; level is the greatest torque of the
// heaviest load over strength's peak, one arm, N·mm.
func of(s *seat.Placer, m drive.Machine, p *seat.Person, level float64) Outcome {
	sitting := Sit(s, m, p)
	out := Outcome{Part: Reserve}
	if _, _, ok := sitting.Hold(0, s.Angles[0]); !ok {
		return Outcome{} // not even sitting there can be
	}
	for k, theta := range s.Angles {
		if k%heldStride != 0 && k != len(s.Angles)-1 {
			continue
		}
		f := load(s, p, level, k)
		if part := sitting.held(f, theta, out.Part); part < out.Part {
			out.Part, out.At = part, k
		}
	}
	for k := 0; k < len(s.Angles); k += discStride {
		f, theta := load(s, p, level, k), s.Angles[k]
		if st, b, ok := sitting.Hold(min(1, out.Part)*f, theta); ok {
			if least, most := st.Disc(&b); most > out.Disc[1] {
				out.Disc, out.DiscAt = [2]float64{least, most}, k
			}
		}
	}
	return out
}

// Curve is what holds a person by angle. Forces N, places mm.
type Curve struct {
	Person   string
	Why      string // this person
	Weight   float64
	Load     []float64 // on both hands together
	Pad      []float64 // both arm pads, normal to them
	Back     []float64 // normal to the back pad; nil without one
	Chest    []float64 // normal to the chest pad; nil without one
	Seat     []float64
	Feet     []float64
	Share    []float64 // of body weight on the seat
	SeatX    []float64 // where the seat's reaction acts, machine frame; where it bears nothing, its middle
	Friction []float64 // level force that seat and feet hold, forward on the person positive
	Shoulder []float64 // moment of the shoulders' muscles, both, that lifts the arms positive, N·mm
	Disc     [2][]float64
}

// Curves are those of the person with the least seat load, the heaviest and the
// strongest. Where less than the load can be held, it is of what can.
func Curves(s *seat.Placer, m drive.Machine, sat []seat.Person, level float64) []Curve {
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
	var out []Curve
	taken := map[int]bool{}
	for _, v := range []struct {
		who int
		why string
	}{{light, "least seat load"}, {s.Heavy, "heaviest"}, {strong, "strongest"}} {
		if !taken[v.who] {
			taken[v.who] = true
			out = append(out, curve(s, m, &sat[v.who], level, v.why))
		}
	}
	return out
}

func curve(s *seat.Placer, m drive.Machine, p *seat.Person, level float64, why string) Curve {
	c := Curve{Person: p.Person.Label, Why: why, Weight: p.Person.Mass * balance.G}
	sitting := Sit(s, m, p)
	t := m.Geometry.Seat
	for k, theta := range s.Angles {
		f := load(s, p, level, k)
		f *= sitting.held(f, theta, 1)
		st, b, _ := sitting.Hold(f, theta)
		var push [surfaces]float64
		var drag, moment float64
		for i, at := range st.Contacts {
			on := surfaceOf(b.Patches[at.Patch].Name)
			push[on] += st.Push[i]
			if on == onSeat || on == onFloor {
				drag += st.Hold[i] * at.Tangent.X
			}
			if on == onSeat {
				moment += st.Push[i] * at.At.X
			}
		}
		c.Load, c.Pad, c.Seat, c.Feet = append(c.Load, f), append(c.Pad, push[onPad]), append(c.Seat, push[onSeat]), append(c.Feet, push[onFloor])
		if m.Geometry.Back != nil {
			c.Back = append(c.Back, push[onBack])
		}
		if m.Geometry.ChestPad != nil {
			c.Chest = append(c.Chest, push[onChest])
		}
		x := t.Front - t.Depth/2
		if push[onSeat] > leastPush {
			x = moment / push[onSeat]
		}
		c.Share, c.SeatX, c.Friction = append(c.Share, push[onSeat]/c.Weight), append(c.SeatX, x), append(c.Friction, drag)
		var least, most, lifts float64
		if len(st.Moments) > 0 {
			least, most = st.Disc(&b)
			lifts = st.Moments[upperArms]
		}
		c.Shoulder = append(c.Shoulder, lifts)
		c.Disc[0], c.Disc[1] = append(c.Disc[0], least), append(c.Disc[1], most)
	}
	return c
}

// leastPush is below which a surface counts as bearing nothing, N.
const leastPush = 0.5

// The surfaces that a person touches.
const (
	onPad = iota
	onChest
	onBack
	onSeat
	onFloor
	surfaces
)

var surfaceNames = [surfaces]string{"arm pad", "chest pad", "back pad", "seat", "feet"}

func surfaceOf(name string) int {
	for i, n := range surfaceNames {
		if n == name {
			return i
		}
	}
	panic("contact: no surface " + name)
}

// chestFace is where a person's chest lies on its pad, nil where it does not.
func chestFace(m drive.Machine, p *seat.Person) *face {
	at, ok := seat.ChestFace(m.Geometry.ChestPad, p)
	if !ok {
		return nil
	}
	c := m.Geometry.ChestPad
	// A chest is round: it lies on the middle of the pad.
	return &face{middle: r2.Vec{X: at.X, Y: at.Z}, lean: c.Lean, half: math.Min(chestHalf, c.Length/2)}
}
