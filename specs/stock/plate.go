package stock

import "math"

// PlateThicknesses returns common thicknesses of steel plate, mm (own choice).
func PlateThicknesses() []float64 { return []float64{3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40} }

// WeightPlate is one plate of a weight stack: a steel bar with two holes for
// guide rods, a square one for the selector bar, all right through, and a hole
// across from one long edge to the bar for the selector pin.
type WeightPlate struct {
	Title         string  // what it weighs, as it is told
	Mass          float64 // kg
	Length, Width float64 // mm
	Thickness     float64 // mm
	GuideHole     float64 // diameter, mm
	GuideRod      float64 // diameter of the rods in them, mm
	SelectorHole  float64 // side, mm
	Selector      float64 // side of the square bar in it, mm
	PinHole       float64 // diameter, mm
}

// StackPlate returns the plate stacks are built of in a region: 5 kg, 300 by 100
// mm, or in us 10 lb, 12 by 4 in; its thickness from the density of steel. Own
// choice.
func StackPlate(region string) WeightPlate {
	p := WeightPlate{Title: "5 kg", Mass: 5, Length: 300, Width: 100, GuideHole: 22, GuideRod: 20, SelectorHole: 23, Selector: 20, PinHole: 10}
	if region == "us" {
		p = WeightPlate{Title: "10 lb", Mass: 10 * poundMass, Length: 12 * inch, Width: 4 * inch,
			GuideHole: 0.875 * inch, GuideRod: 0.75 * inch, SelectorHole: 0.875 * inch, Selector: 0.75 * inch, PinHole: 0.375 * inch}
	}
	section := p.Length*p.Width - math.Pi/2*p.GuideHole*p.GuideHole - p.SelectorHole*p.SelectorHole
	pin := math.Pi / 4 * p.PinHole * p.PinHole * (p.Width - p.SelectorHole) / 2
	p.Thickness = (p.Mass/SteelDensity + pin) / section
	return p
}

// Stack returns how many plates make at least the given mass, kg, and how high
// they stand, mm.
func (p WeightPlate) Stack(mass float64) (plates int, height float64) {
	const rounding = 1e-9
	plates = max(int(math.Ceil(mass/p.Mass-rounding)), 0)
	return plates, float64(plates) * p.Thickness
}
