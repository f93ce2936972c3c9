package specs_test

import (
	"fmt"

	"armwright/specs"
)

func ExampleParseBrief() {
	_, err := specs.ParseBrief("hall.yaml", []byte(`armwright: brief/1
name: Hall station
kind: arm-pad
people:
  shoe: 25
resistance:
  load: {light: 10 kg, middle: 40 kg, heavy: 400 N}
spcae:
  width: 1100 mm
`))
	fmt.Println(err)
	// Output:
	// hall.yaml:5:9: people.shoe: 25 has no unit
	//   hint: write 25 mm or 25 in
	// hall.yaml:7:46: resistance.load.heavy: "400 N" is a force where a mass is due
	//   hint: units of mass: kg, g, lb
	// hall.yaml:8:1: unknown key "spcae"
	//   hint: did you mean space?
}

func ExampleParseQuantity() {
	for _, text := range []string{"25 mm", "1 1/2 in", "0.3 m"} {
		mm, err := specs.ParseQuantity(text, specs.Length)
		fmt.Println(specs.FormatQuantity(mm, specs.Length, 4), err)
	}
	// Output:
	// 25 mm <nil>
	// 38.1 mm <nil>
	// 300 mm <nil>
}

func ExampleBrief_Span() {
	brief, err := specs.ParseBrief("starter", specs.Starter("arm-pad"))
	if err != nil {
		fmt.Println(err)
		return
	}
	limit, _ := brief.Span("limits.fleet_angle")
	fmt.Println(limit.Format(limit.Value))
	// Output: 1.5 deg
}

func ExampleBrief_Validate() {
	brief, err := specs.ParseBrief("starter", specs.Starter("cam-study"))
	if err != nil {
		fmt.Println(err)
		return
	}
	brief.Resistance.LeastArm = 250
	if err := brief.Validate(); err != nil {
		fmt.Println(err)
	}
	// Output:
	// resistance.least_arm: 250 mm is above 200 mm
	//   hint: 10 mm to 200 mm are allowed
}
