package fit

import (
	"context"
	"math"
	"testing"

	"armwright/solver/solvertest"
	"armwright/specs/aims"
	"armwright/testdata"
)

// Terms add up to the objective, and a station that is to be light is lighter than one
// that is to be short.
func TestMinimise(t *testing.T) {
	testdata.Long(t)
	least := func(text string) (mass float64, list []Term) {
		b := solvertest.Brief(t, "reclined-levers")
		b.Minimise = text
		b.People.Sample = 100
		r, err := Solve(context.Background(), b, &Options{Starts: 1, Terse: true})
		if err != nil {
			t.Fatal(err)
		}
		var shares float64
		for _, term := range r.Search.Objective {
			shares += term.Share
		}
		if math.Abs(shares-1) > 1e-9 {
			t.Errorf("%s: shares sum to %g", text, shares)
		}
		return massOf(r.Station.Assembly), r.Search.Objective
	}
	short, byLength := least("length")
	light, byMass := least("mass")
	if light >= short {
		t.Errorf("least mass %.2f kg, least length %.2f kg", light, short)
	}
	if byLength[0].Value >= byMass[0].Value {
		t.Errorf("least length %.3f, least mass %.3f long", byLength[0].Value, byMass[0].Value)
	}
	if w := byMass[0].Weight; w != unnamed {
		t.Errorf("length counts %g where only mass is named", w)
	}
	if math.Abs(byMass[2].Value*massUnit-light) > 1e-9 || byMass[2].Name != "mass" {
		t.Errorf("mass told %.3f of %g kg, weighed %.2f", byMass[2].Value, massUnit, light)
	}
}

// What a brief that says nothing asks for is told as such.
func TestDefaultAims(t *testing.T) {
	f := solvertest.Frame(t, "reclined-levers")
	s, err := NewProgram(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	if want := (terms{ofLength: 1, ofWidth: 1, ofMisalignment: 1, ofPosture: 1}); s.weights != want {
		t.Errorf("weights %v, want %v", s.weights, want)
	}
	s.Aim([]aims.Aim{{Term: "width", Weight: 3}})
	if s.lengthWorth() != 0 || s.weights[ofWidth] != 3 {
		t.Errorf("length is worth %g, width counts %g", s.lengthWorth(), s.weights[ofWidth])
	}
}
