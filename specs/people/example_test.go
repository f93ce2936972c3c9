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
		fmt.Printf("%-27s %4.0f mm %3.0f kg\n", person.Label, person.Stature, person.Mass)
	}
	// Output:
	// woman 01 (middling in all)  1628 mm  73 kg
	// woman 02 (small)            1558 mm  51 kg
	// woman 03 (large)            1700 mm 112 kg
	// woman 04 (short-legged)     1553 mm  85 kg
}

func BenchmarkBoundary(b *testing.B) {
	p := people.Population{Source: "civilian", Carrying: people.DefaultCarrying(), Age: 30, Women: 0.5}
	for b.Loop() {
		p.Boundary(0.05, 0.95)
	}
}
