package solid

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/solver/build"
	"armwright/solver/drive"

	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices: the thickness that stands for a chain or belt, mm, and the colour of what
// bends.
const loopThick = 8.0

var ropeColour = Colour{R: 0.30, G: 0.32, B: 0.35}

// Cables are the cables and loops of a station in a pose, as round ropes along their
// way: over the sheaves from where they leave the cam to the stack, and round their
// wheels. What lies on the cam, and a cable's ends on cam and stack, are left out. An
// error is of one that has no such way.
func Cables(s *build.Station, r *drive.Resistance, pose assembly.Pose) ([]Part, error) {
	var out []Part
	places := s.Assembly.At(pose, nil)
	for i := range s.Assembly.Flexible {
		f := &s.Assembly.Flexible[i]
		rope, ok := solid.Rope{}, false
		if f.Closed {
			rope, ok = loop(s.Assembly, places, f.Side)
		} else if s.Route != nil {
			rope, ok = hung(s, r, &pose, f)
		}
		if !ok {
			return nil, &Error{Part: f.ID, Defect: "it has no way over its sheaves or wheels", Hint: "leave the cables out"}
		}
		out = append(out, Part{ID: f.ID, Title: f.Title, Solid: rope, At: solid.World(), Colour: ropeColour})
	}
	return out, nil
}

// hung is the cable of one side.
func hung(s *build.Station, r *drive.Resistance, pose *assembly.Pose, f *assembly.Flexible) (solid.Rope, bool) {
	side, stack := 0, 0
	if f.Side == assembly.Left {
		side = 1
		if s.Values.Tower.Pair {
			stack = 1
		}
	}
	at, err := r.Profile.At(pose.Flexion[side])
	if err != nil {
		return solid.Rope{}, false
	}
	line, ok := s.Route.Corners(pose.Axis, at.Contact, pose.Lift[stack])
	if !ok {
		return solid.Rope{}, false
	}
	rope, ok := solid.Bent(f.Stock.Size[0], s.Route.Radius(), line)
	if ok && side == 1 {
		rope = rope.Mirrored()
	}
	return rope, ok
}

// loop is the chain or belt of one side, round the pitch circles of its wheels.
func loop(a *assembly.Assembly, places []solid.Placement, side assembly.Side) (solid.Rope, bool) {
	var at [2]solid.Placement
	var radius [2]float64
	for k, id := range [2]string{"wheel-arm-", "wheel-driven-"} {
		i, ok := a.Index(id + side.String())
		if !ok {
			return solid.Rope{}, false
		}
		at[k], radius[k] = a.Place(i, places), a.Parts[i].Stock.Size[0]/2
	}
	axis := at[0].Z
	// The wheels' middles are in one plane.
	level := r3.Dot(r3.Sub(at[1].Origin, at[0].Origin), axis)
	if math.Abs(level) > 1e-6 {
		return solid.Rope{}, false
	}
	return solid.Belt(loopThick, at[0].Origin, at[1].Origin, axis, radius[0], radius[1])
}
