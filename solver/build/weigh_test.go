package build

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	"armwright/solver/solvertest"
)

// The work of the empty arm's moment from one angle to another is what the parts that
// move with it have risen, weight times height, part by part: the principle of work,
// with no derivative in it. The moment is integrated by Simpson's rule.
func TestWorkOfTheEmptyArm(t *testing.T) {
	for _, name := range stations[:3] { // the other states an arm of its own
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			s := builderFor(t, &f.Asked)
			g := &f.Geometry
			d, err := s.Evaluate(g)
			if err != nil {
				t.Fatal(err)
			}
			before := d.HeavyTension
			st, err := s.Complete(g, &d)
			if err != nil {
				t.Fatal(err)
			}
			a, n := st.Assembly, len(g.Pivots.Axes)
			if n%2 == 0 {
				t.Skip("no axis position in the middle")
			}
			dead := 0.0
			height := func(theta float64) float64 {
				pose := st.Middle()
				pose.Axis, pose.Flexion[0] = n/2, theta
				groups, sum := a.At(pose, nil), 0.0
				dead = 0
				for i := range a.Parts {
					p := &a.Parts[i]
					switch {
					case p.Side == assembly.Left || p.Is(assembly.Load):
					case p.Is(assembly.Rises):
						dead += p.Mass
					case p.Is(assembly.Turns):
						sum += p.Mass * groups[p.Group].Point(p.Centre).Z
					}
				}
				return sum
			}
			last := (len(s.Angles) - 1) / 2 * 2
			step := s.Angles[1] - s.Angles[0]
			work, torque := d.Gravity[0]+d.Gravity[last], 0.0
			for i := 1; i < last; i++ {
				work += float64(2+2*(i%2)) * d.Gravity[i]
			}
			work *= step / 3
			for i := range d.Gravity {
				torque = math.Max(torque, math.Abs(d.Light.Delivered[i]))
			}
			want := balance.G * (height(s.Angles[last]) - height(s.Angles[0]))
			if g.Cam != nil { // the cable is drawn in by the cam's moment arm: closed by the profile, not by the unit
				drawn := d.Profile.TakeUp(s.Angles[0], s.Angles[last])
				want += balance.G * dead * s.StackShare() * drawn
				if got := d.HeavyTension - before; dead < 1 || math.Abs(got-balance.G*dead*s.StackShare()) > 1e-9 {
					t.Errorf("the cable carries %.2f N more for %.2f kg that rise with the load", got, dead)
				}
			}
			// A frame's file holds mass and centre of the arm with the handle in its
			// middle position, to a gram and a tenth of a millimetre.
			if within := 2e-3 * torque * (s.Angles[last] - s.Angles[0]); math.Abs(work-want) > within {
				t.Errorf("work %.1f N·mm, risen %.1f, may differ by %.1f", work, want, within)
			}
		})
	}
}
