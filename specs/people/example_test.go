package people_test

import (
	"fmt"
	"testing"

	"armwright/specs/people"
)

func ExamplePopulation_Boundary() {
	users := people.Population{
		Source: "civilian", Carrying: people.DefaultCarrying(), Age: 30, Women: 0.5,
	}
	for _, person := range users.Boundary(0.05, 0.95)[:4] {
		fmt.Printf("%-22s %4.0f mm %3.0f kg\n", person.Label, person.Stature, person.Mass)
	}
	// Output:
	// woman 01 (centre)      1628 mm  73 kg
	// woman 02 (-size)       1558 mm  51 kg
	// woman 03 (+size)       1700 mm 112 kg
	// woman 04 (-length)     1553 mm  85 kg
}

func BenchmarkBoundary(b *testing.B) {
	p := people.Population{Source: "civilian", Carrying: people.DefaultCarrying(), Age: 30, Women: 0.5}
	for b.Loop() {
		p.Boundary(0.05, 0.95)
	}
}
