package viewer

import (
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
)

// Group is a set of parts that move as one, of the right side or the middle.
type Group struct {
	ID     string `json:"id"`
	Parent int    `json:"parent"` // -1 for none
	Motion Motion `json:"motion"`
}

// Motion is one of: nothing; a turn with the flexion; steps or places by a setting; a
// share of the lift; places over the flexion, evenly from its first to its last.
type Motion struct {
	Turn    *Turn       `json:"turn,omitempty"`
	Setting string      `json:"setting,omitempty"` // axis, seat, handle, foot, chest
	Step    *[3]float64 `json:"step,omitempty"`
	Places  []Place     `json:"places,omitempty"`
	Lift    float64     `json:"lift,omitempty"`
	Course  []Place     `json:"course,omitempty"`
}

// Turn is a turn about a line by Ratio times the flexion past From.
type Turn struct {
	Point [3]float64 `json:"point"`
	Axis  [3]float64 `json:"axis"` // unit vector
	From  float64    `json:"from"` // rad
	Ratio float64    `json:"ratio"`
}

// Place is a placement: own x, y and z axes, then the origin.
type Place [12]float64

func placeOf(p solid.Placement) Place {
	return Place{fine(p.X.X), fine(p.X.Y), fine(p.X.Z), fine(p.Y.X), fine(p.Y.Y), fine(p.Y.Z), fine(p.Z.X), fine(p.Z.Y), fine(p.Z.Z),
		rounded(p.Origin.X), rounded(p.Origin.Y), rounded(p.Origin.Z)}
}

// settings are the names of what is set by hand.
func settings() [5]string { return [5]string{"axis", "seat", "handle", "foot", "chest"} }

// courseSteps is how finely a motion that is no turn is told: a linkage of 130
// degrees in steps of 3, between which its places are mixed.
const courseSteps = 43

// groups are those of an assembly without the left ones, with the new index of each.
func groups(a *assembly.Assembly, first, last float64) (out []Group, index []int) {
	index = make([]int, len(a.Groups))
	for i := range a.Groups {
		g := &a.Groups[i]
		if index[i] = -1; g.Side == assembly.Left {
			continue
		}
		index[i] = len(out)
		v := Group{ID: g.ID, Parent: -1}
		if g.Parent >= 0 {
			v.Parent = index[g.Parent]
		}
		switch m := g.Motion.(type) {
		case nil:
		case *assembly.Turn:
			v.Motion.Turn = &Turn{vec(m.Point), unit(m.Axis), fine(m.From), fine(m.Ratio)}
		case *assembly.Steps:
			step := vec(m.Step)
			v.Motion.Setting, v.Motion.Step = settings()[m.Setting], &step
		case *assembly.Positions:
			v.Motion.Setting = settings()[m.Setting]
			for _, p := range m.Places {
				v.Motion.Places = append(v.Motion.Places, placeOf(p))
			}
		case *assembly.Lift:
			v.Motion.Lift = m.Share
		default:
			pose := a.Reference
			for k := range courseSteps + 1 {
				theta := first + (last-first)*float64(k)/courseSteps
				pose.Flexion = [2]float64{theta, theta}
				v.Motion.Course = append(v.Motion.Course, placeOf(m.Displacement(&pose, 0)))
			}
		}
		out = append(out, v)
	}
	return out, index
}
