package seat

import (
	"math"
	"slices"
	"testing"

	"armwright/geometry/elbow"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/solvertest"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// mirrored is the left side's counterpart of a right-side point or polar vector.
func mirrored(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }

// The setting that best finds is as good as the best of every setting there
// is, tried one by one.
func TestBracketingMissesNothing(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		f := solvertest.Frame(t, name)
		s := placerFor(t, &f.Asked)
		d, err := s.Evaluate(&f.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		m := drive.NewMachine(&f.Geometry)
		p := Sitter{Level: d.Level}
		own, scratch := &require.Rows{Card: &s.Card}, &require.Rows{Card: &s.Card}
		for _, person := range slices.Collect(drive.Population(f.People).Draw(200, 5)) {
			s.Receive(&p, -1, person, Body(person, f.People, f.Posture.GripRotation))
			own.List = own.List[:0]
			s.Best(m, &p, own, scratch)
			found, top := own.Least(), math.Inf(-1)
			for seat := range f.Geometry.Seat.Positions {
				for axis := range m.Axes {
					for handle := range f.Geometry.Handle.Positions {
						scratch.List = scratch.List[:0]
						s.Place(m, &p, Setting{seat, axis, handle}, scratch)
						top = math.Max(top, scratch.Least())
					}
				}
			}
			// Persons beyond every seat may be left on the nearest end.
			if found < top-1e-6 && top >= require.Meets {
				t.Errorf("%s: %s found %g, there is %g", name, person.Label, found, top)
			}
		}
	}
}

// The left side is the mirror image of the right: mirroring elbow, arm, axis
// and pivot in the x-z plane leaves the hand's path as seen from the axis, and
// with it the mismatch, as it was.
func TestMirror(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s := placerFor(t, &f.Asked)
	m := drive.NewMachine(&f.Geometry)
	rapid.Check(t, func(rt *rapid.T) {
		var p Sitter
		p.Take(s, rapid.IntRange(0, len(s.Persons)-1).Draw(rt, "person"))
		axis := rapid.IntRange(0, len(m.Axes)-1).Draw(rt, "axis")
		at := s.Sit(m, &p, rapid.IntRange(0, f.Geometry.Seat.Positions-1).Draw(rt, "seat"), &require.Rows{Card: &s.Card})
		var w Swing
		s.SwingOn(m, &p, &at, &p.Limbs[0], axis, &w, &require.Rows{Card: &s.Card})
		s.Follow(m, &w)
		left := elbow.Path{Still: mirrored(w.course.Path.Still), Sin: mirrored(w.course.Path.Sin), Cos: mirrored(w.course.Path.Cos)}
		points := left.Seen(nil, mirrored(m.Pivot), mirrored(m.Axes[axis]), s.Sin, s.Cos)
		for i, q := range points {
			if math.Abs(q.Radial-w.Points[i].Radial) > 1e-9 || math.Abs(q.Axial-w.Points[i].Axial) > 1e-9 {
				rt.Fatalf("left %v, right %v", q, w.Points[i])
			}
		}
		// And the circle of the left hand from the left elbow, worked out anew.
		elbowLeft := mirrored(at.pose.Elbow)
		for i, theta := range s.Angles {
			f := p.Limbs[0].Hinge.Forearm(theta)
			hand := r3.Add(elbowLeft, r3.Scale(p.Body.Forearm, mirrored(w.arm.To(f))))
			if d := r3.Norm(r3.Sub(hand, left.At(s.Sin[i], s.Cos[i]))); d > 1e-9 {
				rt.Fatalf("left hand off by %g mm", d)
			}
		}
	})
}

// Placing allocates nothing.
func TestPlacingAllocatesNothing(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	s := placerFor(t, &f.Asked)
	d, err := s.Evaluate(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	m := drive.NewMachine(&f.Geometry)
	p := Sitter{Level: d.Level}
	own, scratch := &require.Rows{Card: &s.Card}, &require.Rows{Card: &s.Card}
	person := drive.Population(f.People).Median(people.Man)
	got := testing.AllocsPerRun(100, func() {
		s.Receive(&p, -1, person, Body(person, f.People, f.Posture.GripRotation))
		own.List = own.List[:0]
		s.Best(m, &p, own, scratch)
		s.CommonAxis(&p)
	})
	if got != 0 {
		t.Errorf("%g allocations a person", got)
	}
}
