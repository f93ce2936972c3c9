package judge

import (
	"errors"
	"math"
	"strings"
	"testing"

	"armwright/solver/require"
	"armwright/solver/solvertest"
)

// A value that is no finite number misses, whatever the sense of the requirement and
// whatever its limit, in the search's rows as in those that are told; and it governs.
func TestNoNumberMeetsNothing(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	card := require.NewCard(&f.Asked, &require.Card{})
	for _, k := range card.Kinds {
		for _, value := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			for _, reduced := range []bool{false, true} {
				rows := &require.Rows{Card: &card}
				if reduced {
					rows.Govern(&card)
				}
				rows.Add(k.ID, -1, card.LimitOf(k.ID)) // just met
				w := rows.Add(k.ID, -1, value)
				if k.Meets(w.Margin) || math.IsNaN(w.Margin) || math.IsInf(w.Margin, 0) {
					t.Errorf("%s, %g: margin %g", k.ID, value, w.Margin)
				}
				if least := governing(&card, rows)[card.KindOf(k.ID)]; least == nil || k.Meets(least.Margin) {
					t.Errorf("%s, %g: another row governs", k.ID, value)
				}
			}
		}
	}
}

// No result leaves the judge with a number that is none, wherever it stands.
func TestResultsAreFinite(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	r, err := CheckPeople(f, Persons{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what  string
		spoil func(*Result)
	}{
		{"torque-match", func(r *Result) { r.Requirements[len(r.Requirements)/2].Value = math.NaN() }},
		{"Delivered", func(r *Result) { r.Resistance.Middle.Delivered[3] = math.Inf(1) }},
		{"Parts", func(r *Result) { r.Station.Assembly.Parts[0].Mass = math.NaN() }},
		{"Least", func(r *Result) { r.Least.Tilt = math.Inf(-1) }},
		{"Boundary", func(r *Result) { r.People.Boundary[2].Person.Stature = math.NaN() }},
	} {
		again, err := CheckPeople(f, Persons{})
		if err != nil {
			t.Fatal(err)
		}
		c.spoil(again)
		var bad *NotFiniteError
		if err := finite(again); !errors.As(err, &bad) || bad.Hint() == "" {
			t.Errorf("%s: %v", c.what, err)
		} else if c.what != "torque-match" && !strings.Contains(bad.What, c.what) {
			t.Errorf("%s is told as %s", c.what, bad.What)
		}
	}
	if err := finite(r); err != nil {
		t.Error(err)
	}
}
