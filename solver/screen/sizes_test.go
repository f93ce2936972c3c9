package screen

import (
	"math"
	"testing"

	"armwright/geometry/solid"
	"armwright/solver/require"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r3"
)

// The outside dimensions against the box round every part, left ones too, in every
// axis position, at every angle, with seat, handle and foot plate at either end.
func TestSizesHoldEveryPartInEveryPose(t *testing.T) {
	for _, name := range stations {
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			g := &f.Geometry
			s, sc := sceneOf(t, &f)
			a := sc.Station.Assembly
			low, high := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
			top := map[float64]bool{} // flexions with the greatest height
			pose := a.Reference
			for axis := range g.Pivots.Axes {
				for _, theta := range s.Angles {
					for end := range 2 {
						pose.Axis, pose.Flexion = axis, [2]float64{theta, theta}
						pose.Seat, pose.Handle = end*(g.Seat.Positions-1), end*(g.Handle.Positions-1)
						if g.FootPlate != nil {
							pose.Foot = end * (g.FootPlate.Positions - 1)
						}
						places := a.At(pose, nil)
						for i := range a.Parts {
							l, h := solid.Bounds(a.Parts[i].Solid, a.Place(i, places))
							low = r3.Vec{X: min(low.X, l.X), Y: min(low.Y, l.Y), Z: min(low.Z, l.Z)}
							if h.Z > high.Z+1e-9 {
								clear(top)
							}
							if h.Z > high.Z-1e-9 {
								top[theta] = true
							}
							high = r3.Vec{X: max(high.X, h.X), Y: max(high.Y, h.Y), Z: max(high.Z, h.Z)}
						}
					}
				}
			}
			out := &require.Rows{Card: &s.Card}
			s.sizes(sc, out, new(Afresh))
			for _, c := range []struct {
				id   string
				want float64
			}{{"footprint-length", high.X - low.X}, {"footprint-width", high.Y - low.Y}, {"height", high.Z}} {
				w := s.of(out.List, c.id)
				if len(w) != 1 || math.Abs(w[0].Value-c.want) > 1e-6 {
					t.Errorf("%s: %v, by every part %.6f mm", c.id, w, c.want)
				}
			}
			if w := s.of(out.List, "height"); !w[0].HasAngle || !top[w[0].Angle] {
				t.Errorf("height at %g, by every part at %v", w[0].Angle, top)
			}
			// What is followed in differences is what was found whole.
			known := &inSearch{}
			s.sizes(sc, &require.Rows{Card: &s.Card}, known)
			known.Workshop().looked(sc, known)
			known.near = true
			near := &require.Rows{Card: &s.Card}
			s.sizes(sc, near, known)
			for i, w := range near.List {
				if math.Abs(w.Value-out.List[i].Value) > 1e-9 || w.Kind != out.List[i].Kind {
					t.Errorf("%s: %.6f mm followed, else %.6f", s.Kinds[w.Kind].ID, w.Value, out.List[i].Value)
				}
			}
			if low.Z < -1e-6 {
				t.Errorf("something reaches %.3f mm into the floor", -low.Z)
			}
		})
	}
}
