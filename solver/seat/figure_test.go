package seat

import (
	"math"
	"testing"

	"armwright/geometry/person"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r3"
)

// The figures of an example's boundary persons sit where they were placed: on the
// seat, upper arms on the pad or back against the back pad, hands on the handle's
// circle, soles no lower than the floor; and as thick as they were measured.
func TestFiguresSitWhereTheyWerePlaced(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		f := solvertest.Frame(t, name)
		s, m := placerFor(t, &f.Asked), drive.NewMachine(&f.Geometry)
		var p Sitter
		for i := range s.Persons {
			p.Take(s, i)
			out, scratch := require.Rows{Card: &s.Card, Quiet: true}, require.Rows{Card: &s.Card, Quiet: true}
			who := s.Best(m, &p, &out, &scratch)
			sizes, pose, positions := s.Figure(m, &who)
			if positions.Seat != who.Seat || positions.Axis != who.Axis {
				t.Fatalf("%s: positions %+v", who.Person.Label, positions)
			}
			bodies := sizes.Bodies(&pose)
			near := func(what string, got, want, within float64) {
				t.Helper()
				if math.Abs(got-want) > within {
					t.Errorf("%s, %s: %s %.1f, want %.1f", name, who.Person.Label, what, got, want)
				}
			}
			for j := range bodies {
				b := &bodies[j]
				low, high := b.Bounds()
				switch b.Segment {
				case person.Thigh:
					near("top of the thigh over the seat", high.Z-who.SeatTop, who.Person.ThighClearance, 1e-6)
				case person.Foot:
					if low.Z < -1e-6 {
						t.Errorf("%s, %s: foot %.1f under the floor", name, who.Person.Label, -low.Z)
					}
				case person.UpperArm:
					if who.Pose.Lean < 0 || b.Left {
						break
					}
					sin, cos := math.Sincos(m.Rest.Slope)
					normal := r3.Vec{X: sin, Z: cos}
					biceps := b.Balls()[2] // the shoulder's may be thicker, and lies past the pad
					under := r3.Dot(r3.Sub(biceps.Centre, m.Pivot), normal) - biceps.Radius
					near("underside of the upper arm from the pivot, to the pad", -under, m.Rest.Offset, 1e-6)
				case person.Pelvis:
					if who.Pose.Lean >= 0 {
						break
					}
					sin, cos := math.Sincos(m.Back.Angle)
					back := r3.Vec{X: -cos, Z: -sin}
					rear := r3.Dot(r3.Sub(b.Support(back), r3.Vec{X: m.Back.Foot, Z: f.Geometry.Seat.Lowest}), back)
					near("buttocks into the back pad", rear, 0, 1e-6)
				}
			}
			axis, h := m.Axes[who.Axis], f.Geometry.Handle
			for _, theta := range s.Angles {
				sin, cos := math.Sincos(theta)
				d := r3.Sub(pose.Arms[0].Path.At(sin, cos), m.Pivot)
				radius := r3.Norm(r3.Sub(d, r3.Scale(r3.Dot(d, axis), axis)))
				near("hand's radius on the handle's", radius, h.Least+float64(who.Handle)*h.Pitch, 20)
			}
		}
	}
}
