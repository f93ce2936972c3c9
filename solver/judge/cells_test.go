package judge

import (
	"reflect"
	"testing"

	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// Two women of 1.62 m with 13 degrees who fit, one beside them who misses b most, a man
// beyond both ranges: each is counted once, by the requirement missed by most in units
// that matter (a by 3 of 3, b by 2 of 1).
func TestCells(t *testing.T) {
	j := &Judge{}
	j.Card = require.Card{Kinds: []require.Kind{{ID: "a", Scale: 3}, {ID: "b", Scale: 1}}}
	own := []require.Row{{Kind: 0, Margin: -3}, {Kind: 1, Margin: -2}, {Kind: 1, Margin: 4}}
	most := j.most(own, 0b11)
	if most != 1 || j.most(own, 0b01) != 0 || j.most(own, 0) >= 0 {
		t.Fatalf("missed by most: %d, %d, %d", most, j.most(own, 0b01), j.most(own, 0))
	}
	var c cells
	woman := seat.Person{Person: people.Person{Sex: people.Woman, Stature: 1620, CarryingAngle: 13 * specs.Degree}}
	man := seat.Person{Person: people.Person{Sex: people.Man, Stature: 2400, CarryingAngle: -1 * specs.Degree}}
	c.add(&woman, -1)
	c.add(&woman, -1)
	c.add(&woman, most)
	c.add(&man, 0)
	want := []Cell{
		{Sex: people.Woman, Stature: 1600, Carrying: 3 * CellCarrying, N: 3, Fits: 2, Away: []Count{{"b", 1}}},
		{Sex: people.Man, Stature: 2150, N: 1, Away: []Count{{"a", 1}}},
	}
	if got := c.list(j.Kinds); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
}
