package stock

import "math"

// PlateThicknesses returns common thicknesses of steel plate, mm (own choice).
func PlateThicknesses() []float64 { return []float64{3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40} }

// ShaftDiameters returns common diameters of bright round bar, mm (own choice).
func ShaftDiameters() []float64 { return []float64{12, 15, 16, 20, 25, 30, 35, 40, 45, 50, 60} }

// WeightPlate is one plate of a weight stack: a steel bar with two holes for
// guide rods and one for the selector rod, all right through.
type WeightPlate struct {
	Mass          float64 // kg
	Length, Width float64 // mm
	Thickness     float64 // mm
	GuideHole     float64 // diameter, mm
	SelectorHole  float64 // diameter, mm
}

// StackPlate returns the plate stacks are built of: 5 kg, 300 by 100 mm, holes
// of 22 and 26 mm, its thickness from the density of steel. Own choice.
func StackPlate() WeightPlate {
	p := WeightPlate{Mass: 5, Length: 300, Width: 100, GuideHole: 22, SelectorHole: 26}
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
