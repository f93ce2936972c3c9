package strength_test

import (
	"fmt"
	"math"

	"armwright/specs/strength"
)

func ExampleByName() {
	curve, err := strength.ByName("model-three")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, degrees := range []float64{30, 60, 90, 120} {
		theta := degrees * math.Pi / 180
		low, high := strength.Band(theta)
		fmt.Printf("%3.0f°: %.2f (%.2f to %.2f)\n", degrees, curve.At(theta), low, high)
	}
	// Output:
	//  30°: 0.61 (0.50 to 0.91)
	//  60°: 0.88 (0.77 to 1.00)
	//  90°: 0.99 (0.91 to 1.00)
	// 120°: 0.76 (0.64 to 0.87)
}
