//go:build !js

package serve_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs/people"
	"armwright/testdata"
)

// Who of a table fits is who coverage counts, and the one asked for is seated where that
// person was placed; rows that cannot be used are told with their place.
func TestPersonsOfATable(t *testing.T) {
	const crew = "label,sex,stature_mm,mass_kg,carrying_angle_deg\nAda,woman,1640,66,13\nOle,man,1960,105,9\nBot,robot,1700,70,10\nIda,woman,1480,48,15\n"
	f := solvertest.Frame(t, "arm-pad-station").Quantised()
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	var opened struct{ Brief, Station string }
	s.ask("/open", map[string]any{"name": "frame.yaml", "text": string(testdata.Frame("arm-pad-station"))}, &opened)

	table, err := people.NewReader("crew.csv", strings.NewReader(crew), drive.Population(f.People), uint64(f.People.Seed))
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	var seats []int
	_, err = judge.Cover(f, judge.Persons{
		All: func(yield func(people.Person) bool) {
			for p, err := range table.All() {
				if err == nil && !yield(p) {
					return
				}
			}
		},
		Each: func(p *seat.Person, short []judge.Shortfall) {
			want = append(want, fmt.Sprint(p.Person.Label, " ", p.Fits, " ", len(short)))
			seats = append(seats, p.Seat)
		},
	})
	if err != nil {
		t.Fatal(err)
	}

	var got struct {
		Rows []struct {
			Label string
			Fits  bool
			Away  []string
		}
		Faults []struct{ Message string }
		Person struct {
			Label    string
			Settings [5]int
			Away     []string
		}
	}
	ask := map[string]any{"brief": opened.Brief, "station": opened.Station, "changes": map[string]string{}, "name": "crew.csv", "text": crew, "row": 1}
	s.ask("/persons", ask, &got)
	var told []string
	for _, r := range got.Rows {
		told = append(told, fmt.Sprint(r.Label, " ", r.Fits, " ", len(r.Away)))
	}
	if !slices.Equal(told, want) || len(want) != 3 {
		t.Errorf("told %q, counted %q", told, want)
	}
	if got.Person.Label != "Ole" || got.Person.Settings[1] != seats[1] || !slices.Equal(got.Person.Away, got.Rows[1].Away) {
		t.Errorf("seated: %+v, seat %d", got.Person, seats[1])
	}
	if len(got.Faults) != 1 || !strings.Contains(got.Faults[0].Message, `crew.csv:4:2: sex "robot"`) {
		t.Errorf("faults %q", got.Faults)
	}

	var refused struct {
		Trouble *struct{ Problems []struct{ Message string } }
	}
	ask["text"] = "label,sex\nAda,woman\n"
	s.ask("/persons", ask, &refused)
	if refused.Trouble == nil || !strings.Contains(refused.Trouble.Problems[0].Message, "crew.csv:1:") {
		t.Errorf("a table without sizes: %+v", refused.Trouble)
	}
}
