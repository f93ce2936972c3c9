package judge

import (
	"math"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs/people"
)

// Persons of a kind are drawn as a census would find them: all of the kind, about as
// many as asked for, women and men in the shares of a plain draw.
func TestAmong(t *testing.T) {
	who := solvertest.Brief(t, "arm-pad-station").People
	who.Sample = 2000
	short := func(p *people.Person) bool { return p.Stature < 1650 }
	n, women := 0, 0
	for p := range Among(who, short).All {
		if !short(&p) {
			t.Fatalf("stature %g", p.Stature)
		}
		n++
		if p.Sex == people.Woman {
			women++
		}
	}
	all, allWomen := 0, 0
	for p := range drive.Population(who).Draw(100_000, 99) {
		if short(&p) {
			all++
			if p.Sex == people.Woman {
				allWomen++
			}
		}
	}
	got, want := float64(women)/float64(n), float64(allWomen)/float64(all)
	if n < 1800 || n > 2200 || math.Abs(got-want) > 0.03 { // three standard errors of a share near 0.9 of 2000
		t.Errorf("%d persons, %.3f of them women; a plain draw has %.3f", n, got, want)
	}
}

// Counting a crowd alone gives what a check counts.
func TestCoverCountsAsCheckDoes(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 200
	whole, err := CheckPeople(f, Random(f.People))
	if err != nil {
		t.Fatal(err)
	}
	c, err := Cover(f, Random(f.People))
	if err != nil {
		t.Fatal(err)
	}
	if c.All != whole.People.Crowd.All || c.Sexes != whole.People.Crowd.Sexes {
		t.Errorf("%+v, a check has %+v", c.All, whole.People.Crowd.All)
	}
}
