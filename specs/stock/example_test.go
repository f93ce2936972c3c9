package stock_test

import (
	"fmt"

	"armwright/specs/stock"
)

func ExampleMember() {
	tube, err := stock.Member("60x40x3")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f kg/m, Ix %.1f cm4, Iy %.1f cm4\n", tube.Mass, tube.Ix/1e4, tube.Iy/1e4)
	_, err = stock.Member("60x40x7")
	fmt.Println(err)
	// Output:
	// 4.25 kg/m, Ix 25.4 cm4, Iy 13.4 cm4
	// no tube "60x40x7" in stock; known are 60x40x2, 60x40x2.5, 60x40x3, 60x40x4, 60x40x5
}

func ExampleTransmission_Ratios() {
	belt, err := stock.TransmissionOf("belt")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, drive := range belt.Ratios(1.45, 1.55) {
		fmt.Printf("%.3f = %d:%d\n", drive.Ratio, drive.ArmTeeth, drive.DrivenTeeth)
	}
	// Output:
	// 1.455 = 32:22
	// 1.462 = 38:26
	// 1.467 = 44:30
	// 1.474 = 56:38
	// 1.500 = 36:24
	// 1.538 = 40:26
	// 1.545 = 34:22
}
