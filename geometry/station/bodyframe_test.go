package station

import (
	"fmt"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/person"
	"armwright/geometry/person/persontest"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r3"
)

func flexions(v *values.Station) []float64 {
	var out []float64
	for theta := v.First; theta < v.Last+1e-9; theta += 5 * degree {
		out = append(out, theta)
	}
	return out
}

// surroundings are those of an example, with what is added to it.
func surroundings(t testing.TB, v values.Station, more ...assembly.Part) (*person.Surroundings, *assembly.Assembly) {
	t.Helper()
	a, _, err := Build(v)
	if err != nil {
		t.Fatal(err)
	}
	a.Parts = append(a.Parts, more...)
	var s person.Surroundings
	s.Reset(a, Contacts(), flexions(&v))
	return &s, a
}

var legs = [...]person.Segment{person.Pelvis, person.Thigh, person.Shank, person.Foot}

// Posts stand beside the legs and nothing lies across the lap: hips, thighs, knees,
// shanks and feet of every boundary person of an example pass, and the arms go
// through their motion clear of them.
func TestFrameLeavesRoomForLegs(t *testing.T) {
	reclined := examples()["levers"]
	reclined.Base.Front = 900 // past the feet
	for _, c := range []struct {
		persons string
		values  values.Station
	}{{"arm-pad", examples()["arm pad"]}, {"reclined", reclined}} {
		s, a := surroundings(t, c.values)
		st := persontest.Read(t, c.persons)
		for i := range st.Persons {
			who := &st.Persons[i]
			pose := who.Pose()
			g := s.Gaps(&who.Sizes, &pose, who.Positions(), 40)
			for _, segment := range legs {
				if n := g.Of[segment]; n.Gap < 0 {
					t.Errorf("%s, %s: %v %.1f in %s", c.persons, who.Label, segment, -n.Gap, a.Parts[n.Part].ID)
				}
			}
		}
	}
}

// The old shape's crossbar at its height stood in the thighs: 49 of 50, and 45 in the
// middle woman's; a man with a long trunk sits so low that his knees pass under it.
func TestCrossbarInTheThighsIsTold(t *testing.T) {
	st := persontest.Read(t, "arm-pad")
	old := &st.Old
	at := r3.Vec{X: old.X, Z: old.Z}
	bar := assembly.Part{ID: "crossbar", Item: "crossbar", Solid: prism(solid.Rect(old.Side, old.Side, 0), -old.Half, old.Half),
		Place: solid.Along(at, r3.Add(at, r3.Vec{Y: 1}), r3.Vec{Z: 1})}
	s, a := surroundings(t, examples()["arm pad"], bar)
	hit := 0
	for i := range st.Persons {
		who := &st.Persons[i]
		pose := who.Pose()
		n := s.Gaps(&who.Sizes, &pose, who.Positions(), 40).Of[person.Thigh]
		if n.Gap < 0 && a.Parts[n.Part].ID == "crossbar" {
			hit++
		}
		if i == 0 && (n.Gap > -35 || n.Gap < -55) {
			t.Errorf("%s: crossbar %.1f in the thighs", who.Label, -n.Gap)
		}
	}
	if hit < 49 {
		t.Errorf("crossbar in the thighs of %d", hit)
	}
}

// The example's seat once ended 60 ahead of the pivots, in the calves of short
// persons: 30 of 50 by independent bodies, whose shanks had one thickness.
func TestSeatInTheCalvesIsTold(t *testing.T) {
	st := persontest.Read(t, "arm-pad")
	hits := func(front, depth float64) int {
		v := examples()["arm pad"]
		v.Seat.Front, v.Seat.Depth = front, depth
		s, a := surroundings(t, v)
		n := 0
		for i := range st.Persons {
			who := &st.Persons[i]
			pose := who.Pose()
			near := s.Gaps(&who.Sizes, &pose, who.Positions(), 40).Of[person.Shank]
			if near.Gap < 0 && (a.Parts[near.Part].Item == "seat-foam" || a.Parts[near.Part].Item == "seat-board") {
				n++
			}
		}
		return n
	}
	if n := hits(st.Seat.Front, st.Seat.Depth); n < 20 || n > 40 {
		t.Errorf("seat in the calves of %d of 50, want about 30", n)
	}
	if n := hits(-10, 330); n > 0 {
		t.Errorf("a seat 70 shorter in the calves of %d", n)
	}
}

// A contact that names no part would excuse nothing, and tell of hands in their grips.
func TestContactsNameItems(t *testing.T) {
	known := map[string]bool{}
	for _, v := range examples() {
		a, _, err := Build(v)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Parts {
			known[a.Parts[i].Item] = true
		}
	}
	for _, c := range Contacts() {
		if !known[c.Item] {
			t.Errorf("%v on %s, which no example has", c.Segment, c.Item)
		}
	}
}

func BenchmarkBodyFrame(b *testing.B) {
	for _, c := range []struct{ example, persons string }{{"arm pad", "arm-pad"}, {"levers", "reclined"}} {
		v := examples()[c.example]
		s, a := surroundings(b, v)
		st := persontest.Read(b, c.persons)
		b.Run(c.example+"/reset", func(b *testing.B) {
			angles, contacts := flexions(&v), Contacts()
			for b.Loop() {
				s.Reset(a, contacts, angles)
			}
		})
		for _, reach := range []float64{60, 15} {
			b.Run(fmt.Sprintf("%s/within %.0f", c.example, reach), func(b *testing.B) {
				for i := 0; b.Loop(); i++ {
					who := &st.Persons[i%len(st.Persons)]
					pose := who.Pose()
					s.Gaps(&who.Sizes, &pose, who.Positions(), reach)
				}
			})
		}
	}
}
