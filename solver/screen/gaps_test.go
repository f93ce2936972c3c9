package screen

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/assembly/lawtest"
	"armwright/solver/build"
	"armwright/solver/solvertest"
)

// Where parts come as near as limits ask about, the gaps told of grip, weights and arm
// are no larger than those between the parts themselves, in every axis and handle
// position and at every angle. The arm's square tube is taken round: its corners reach
// (√2 - 1) of its half beyond that.
func TestGapsAreThoseOfParts(t *testing.T) {
	type pairOf struct{ moving, fixed string }
	movers := map[string]string{ // by item
		"grip-rubber": build.GripName, "grip-bar": build.GripName, "grip-plug": build.GripName,
		"counter-weight": build.CounterName, "plates": "plates", "arm-tube": build.TubeName,
	}
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			g := &f.Geometry
			s, sc := sceneOf(t, &f)
			a := sc.Station.Assembly
			space := lawtest.NewSpace(a)
			still := standing(a)
			least := map[pairOf]float64{}
			pose := a.Reference
			for axis := range g.Pivots.Axes {
				for _, theta := range s.Angles {
					for _, handle := range []int{0, g.Handle.Positions - 1} {
						pose.Axis, pose.Handle, pose.Flexion = axis, handle, [2]float64{theta, theta}
						space.Move(pose)
						for i := range a.Parts {
							moving, ok := movers[a.Parts[i].Item]
							if !ok || a.Parts[i].Side != assembly.Right {
								continue
							}
							for j := range a.Parts {
								if still[a.Parts[j].Group] {
									k := pairOf{moving, a.Parts[j].Title}
									gap, ok := least[k]
									if d := space.Distance(i, j).Distance; !ok || d < gap {
										least[k] = d
									}
								}
							}
						}
					}
				}
			}
			seen := 0
			for _, p := range s.Hazards(sc).Pairs {
				gap, ok := least[pairOf{p.Moving, p.Fixed}]
				if !ok {
					continue
				}
				seen++
				slack := 1e-6
				if p.Moving == build.TubeName {
					slack += (math.Sqrt2 - 1) * s.Arm.H / 2
				}
				if gap < 70 && p.Gap > gap+slack {
					t.Errorf("%s to %s: told %.2f mm, between the parts %.2f", p.Moving, p.Fixed, p.Gap, gap)
				}
				delete(least, pairOf{p.Moving, p.Fixed})
			}
			if len(least) > 0 || seen < 40 {
				t.Errorf("%d pairs, not told of: %v", seen, least)
			}
		})
	}
}
