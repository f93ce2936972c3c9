package stock

import "math"

// PlateThicknesses returns common thicknesses of steel plate, mm (own choice).
func PlateThicknesses() []float64 { return []float64{3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40} }

// WeightPlate is one plate of a weight stack: a steel bar with two holes for
// guide rods and one for the selector rod, all right through.
type WeightPlate struct {
	Title         string  // what it weighs, as it is told
	Mass          float64 // kg
	Length, Width float64 // mm
	Thickness     float64 // mm
	GuideHole     float64 // diameter, mm
	SelectorHole  float64 // diameter, mm
}

// StackPlate returns the plate stacks are built of in a region: 5 kg, 300 by 100
// mm, holes of 22 and 26 mm, or in us 10 lb, 12 by 4 in, holes of 7/8 and 1 in;
// its thickness from the density of steel. Own choice.
func StackPlate(region string) WeightPlate {
	p := WeightPlate{Title: "5 kg", Mass: 5, Length: 300, Width: 100, GuideHole: 22, SelectorHole: 26}
	if region == "us" {
		p = WeightPlate{Title: "10 lb", Mass: 10 * poundMass, Length: 12 * inch, Width: 4 * inch, GuideHole: 0.875 * inch, SelectorHole: 1 * inch}
	}
	holes := math.Pi / 4 * (2*p.GuideHole*p.GuideHole + p.SelectorHole*p.SelectorHole)
	p.Thickness = p.Mass / (SteelDensity * (p.Length*p.Width - holes))
	return p
}

// Stack returns how many plates make at least the given mass, kg, and how high
// they stand, mm.
func (p WeightPlate) Stack(mass float64) (plates int, height float64) {
	const rounding = 1e-9
	plates = max(int(math.Ceil(mass/p.Mass-rounding)), 0)
	return plates, float64(plates) * p.Thickness
}
