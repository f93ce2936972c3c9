package seat

import (
	"math"
	"testing"

	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/specs/people"
)

// Facts that the design card derives on the survey rows: at the same pivot
// spacing the median woman abducts about 6 degrees more than the median man,
// and tall people need the lower seat.
func TestMedianPersons(t *testing.T) {
	b := solvertest.Frame(t, "arm-pad-station")
	s, m := placerFor(t, &b.Asked), drive.NewMachine(&b.Geometry)
	pop := drive.Population(b.People)
	var abduction, seat [2]float64
	for _, sex := range []people.Sex{people.Woman, people.Man} {
		who := pop.Median(sex)
		p := Sitter{Index: -1, person: who, Body: Body(who, b.People, b.Posture.GripRotation)}
		pose := posture.PlaceOnPad(p.Body, m.Pivot, m.Rest, 400)
		abduction[sex] = pose.Abduction / specs.Degree
		seat[sex] = s.WantedSeat(m, &p)
	}
	if d := abduction[people.Woman] - abduction[people.Man]; math.Abs(d-6) > 1 {
		t.Errorf("the median woman abducts %.1f deg more, want about 6", d)
	}
	if seat[people.Woman] <= seat[people.Man] {
		t.Errorf("seat of the median woman %.0f, man %.0f: the taller needs the lower one", seat[people.Woman], seat[people.Man])
	}
}
