package judge

import (
	"math"
	"testing"

	"armwright/solver/contact"
	"armwright/solver/drive"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r2"
)

// Whoever is told to be held is held by contacts that push, within friction, with the
// seat's reaction on the seat, and all forces and moments cancel; worked out here from
// the contacts alone.
func TestStatesToldCanExist(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		f := solvertest.Frame(t, name)
		s, err := New(&f.Asked)
		if err != nil {
			t.Fatal(err)
		}
		r, err := s.Check(f, Persons{})
		if err != nil {
			t.Fatal(err)
		}
		q, ok := r.Requirement("contact")
		if !ok || !q.Met {
			t.Errorf("%s: contact %+v", name, q)
		}
		m := drive.NewMachine(&r.Frame.Geometry)
		front, rear := f.Geometry.Seat.Front, f.Geometry.Seat.Front-f.Geometry.Seat.Depth
		for i := 0; i < len(r.People.Boundary); i += 7 {
			p := &r.People.Boundary[i]
			sitting := contact.Sit(&s.Placer, m, p)
			for k := 0; k < len(s.Angles); k += 5 {
				load := 2 * p.Person.ElbowStrength() * s.Shape[k] / p.Body.Forearm
				st, body, ok := sitting.Hold(load, s.Angles[k])
				if !ok {
					continue // stronger than the station's load
				}
				var force r2.Vec
				turn := 0.0
				add := func(at, f r2.Vec) {
					force = r2.Add(force, f)
					turn += r2.Cross(at, f)
				}
				for _, g := range body.Segments {
					for _, v := range g.Forces {
						add(v.At, v.Force)
					}
				}
				for j, c := range st.Contacts {
					if st.Push[j] < 0 || math.Abs(st.Hold[j]) > contact.Friction*st.Push[j]+1e-6 {
						t.Errorf("%s, %s: push %.3f, hold %.3f", name, p.Person.Label, st.Push[j], st.Hold[j])
					}
					if on := body.Patches[c.Patch].Name; on == "seat" && (c.At.X < rear || c.At.X > front) {
						t.Errorf("%s, %s: seat's reaction at %.1f, seat from %.1f to %.1f", name, p.Person.Label, c.At.X, rear, front)
					}
					add(c.At, r2.Add(r2.Scale(st.Push[j], c.Normal), r2.Scale(st.Hold[j], c.Tangent)))
				}
				// What is above the lowest disc presses along the trunk on it, and is turned about
				// it by what the back holds at 50 to 75 mm.
				disc, shoulder := body.Segments[1].Joint, body.Segments[2].Joint
				along := r2.Unit(r2.Sub(shoulder, disc))
				press, about := 0.0, 0.0
				above := func(at, f r2.Vec) {
					press -= r2.Dot(f, along)
					about += r2.Cross(r2.Sub(at, disc), f)
				}
				for _, g := range body.Segments[1:4] {
					for _, v := range g.Forces {
						above(v.At, v.Force)
					}
				}
				for j, c := range st.Contacts {
					if c.Segment >= 1 && c.Segment <= 3 {
						above(c.At, r2.Add(r2.Scale(st.Push[j], c.Normal), r2.Scale(st.Hold[j], c.Tangent)))
					}
				}
				least, most := st.Disc(&body)
				if math.Abs(most-math.Max(0, press+math.Abs(about)/50)) > 1e-3 || math.Abs(least-math.Max(0, press+math.Abs(about)/75)) > 1e-3 {
					t.Errorf("%s, %s: disc %.2f to %.2f N, by vectors %.2f and %.2f N mm", name, p.Person.Label, least, most, press, about)
				}
				if r2.Norm(force) > 1e-3 || math.Abs(turn) > 1 {
					t.Errorf("%s, %s: %.5f N and %.3f N mm are left over", name, p.Person.Label, r2.Norm(force), turn)
				}
			}
		}
		for _, c := range r.Seated {
			for k := range c.Seat {
				if c.SeatX[k] < rear || c.SeatX[k] > front || min(c.Seat[k], c.Pad[k], c.Feet[k]) < 0 {
					t.Errorf("%s, %s: seat %.1f N at %.1f", name, c.Person, c.Seat[k], c.SeatX[k])
				}
			}
		}
	}
}

// Without a pad before the chest an arm-pad station cannot hold most persons.
func TestNothingBeforeTheChest(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.Geometry.ChestPad = nil
	r, err := CheckPeople(f, Persons{})
	if err != nil {
		t.Fatal(err)
	}
	if q, _ := r.Requirement("contact"); q.Met || q.Value > 0.5 || q.Case.Words != "nothing before the chest" {
		t.Errorf("%+v", q)
	}
}
