package viewer

import (
	"fmt"

	"armwright/export/words"
	"armwright/geometry/assembly"
	"armwright/geometry/elbow"
	"armwright/geometry/person"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"

	"gonum.org/v1/gonum/spatial/r3"
)

// Person is a boundary person seated in the settings that are best for them. Bodies
// are hulls of balls; what is paired and moves is told of the right side.
type Person struct {
	Label    string   `json:"label"`
	Woman    bool     `json:"woman"`
	Stature  float64  `json:"stature"`  // mm
	Settings [5]int   `json:"settings"` // as in Scene.Settings
	Still    [][]Ball `json:"still"`    // trunk, legs and upper arms, both sides
	Moves    [][]Orb  `json:"moves"`    // right forearm and hand
	Hand     Orb      `json:"hand"`     // middle of the right hand; its radius is 0
	Fits     bool     `json:"fits"`
	Away     []string `json:"away,omitempty"` // what turns the person away
}

// Ball is x, y, z and radius, mm.
type Ball [4]float64

// Orb is a ball whose place at a flexion is Still + Sin·sin + Cos·cos.
type Orb struct {
	Still  [3]float64 `json:"still"`
	Sin    [3]float64 `json:"sin"`
	Cos    [3]float64 `json:"cos"`
	Radius float64    `json:"radius"`
}

// people seats the boundary persons.
func (s *Scene) people(j *judge.Judge, r *judge.Result) {
	s.People = []Person{}
	m := drive.NewMachine(&r.Frame.Geometry)
	for i := range r.People.Boundary {
		b := &r.People.Boundary[i]
		s.People = append(s.People, NewPerson(j, m, b, b.TurnedBy))
	}
}

// NewPerson is a placed person, with what turns the person away. The judge must be of the
// brief and the machine of the geometry that the person was placed on.
func NewPerson(j *judge.Judge, m drive.Machine, b *seat.Person, away []string) Person {
	sizes, pose, set := j.Figure(m, b)
	p := Person{Label: b.Person.Label, Woman: b.Person.Sex == people.Woman, Stature: rounded(b.Person.Stature), Fits: b.Fits, Away: away}
	for k := range p.Settings {
		p.Settings[k] = assembly.Setting(k).Of(&set)
	}
	bodies := sizes.Bodies(&pose)
	for k := range bodies {
		var hull []Ball
		for _, q := range bodies[k].Balls() {
			hull = append(hull, Ball{rounded(q.Centre.X), rounded(q.Centre.Y), rounded(q.Centre.Z), rounded(q.Radius)})
		}
		p.Still = append(p.Still, hull)
	}
	p.Moves = moving(&sizes, &pose.Arms[0])
	p.Hand = orb(pose.Arms[0].Path, 0)
	return p
}

// Shortfalls tells what turns a person away, in figures of a reader's units.
func Shortfalls(short []judge.Shortfall, units specs.Units) []string {
	out := []string{}
	for _, f := range short {
		figure := func(x float64) string { return units.Figure(words.Outside(x, f.Unit), words.Symbol(f.Unit)) }
		out = append(out, fmt.Sprintf("%s %s, past its limit by %s", f.ID, figure(f.Value), figure(-f.Margin)))
	}
	return out
}

// moving are forearm and hand. Their balls move as sums of a still place, the sine and
// the cosine of the flexion: three flexions tell them all.
func moving(s *person.Sizes, a *person.Arm) [][]Orb {
	var at [3][2]person.Body
	for k, f := range [3][2]float64{{0, 1}, {1, 0}, {0, -1}} {
		at[k][0], at[k][1] = s.Forearm(a, false, f[0], f[1])
	}
	out := make([][]Orb, 2)
	for i := range out {
		for n, q := range at[0][i].Balls() {
			bent, back := at[1][i].Balls()[n].Centre, at[2][i].Balls()[n].Centre
			still := r3.Scale(0.5, r3.Add(q.Centre, back))
			out[i] = append(out[i], orb(elbow.Path{Still: still, Sin: r3.Sub(bent, still), Cos: r3.Sub(q.Centre, still)}, q.Radius))
		}
	}
	return out
}

func orb(p elbow.Path, radius float64) Orb {
	return Orb{vec(p.Still), vec(p.Sin), vec(p.Cos), rounded(radius)}
}
