package stock

import "math"

// What belts and chains carry. No catalogue is followed: the chain's figure is that
// of the standard as a chain maker prints it, the belt's is scaled from a belt
// maker's sheet of the next smaller pitch, and errs on the safe side.
const (
	// chainBreaking is the breaking load of roller chain 08B-1, N (maker's table, S;
	// ISO 606 asks for 17 800, M), chainFactor the factor on it that handbooks ask
	// of slow drives (M).
	chainBreaking = 18000.0
	chainFactor   = 7.0
	// beltTooth is the force, N, that one tooth of a toothed belt of 8 mm pitch
	// carries at standstill for each mm of width: 3.68 of a polyurethane belt of 5 mm
	// pitch with steel cords (maker's sheet, S) times 8/5 (D). The same maker's 3 mm
	// pitch carries 8.4 N to the mm of pitch and cm of width, the 5 mm pitch 7.4,
	// another's 20 mm pitch 9.7: the least of the three is taken.
	beltTooth = 3.68 * 8 / 5
	// beltCord is the pull, N, that its cords may carry for each mm of width: 88 of
	// the 5 mm pitch (S), whose cords are no thicker than those of 8 mm.
	beltCord = 88.0
	// mostMeshing is the most teeth that count as carrying (the same sheets, S).
	mostMeshing = 12
	// beltFactor is what is left for shocks and pre-tension (judgement).
	beltFactor = 1.5
)

// BeltWidths returns the widths of belts of 8 mm pitch, mm: ISO 13050 as a public
// page prints them (S, second hand).
func BeltWidths() []float64 { return []float64{20, 30, 50, 85} }

// DriveStrength is the screening of a belt or chain.
type DriveStrength struct {
	Pull    float64 // greatest force in it, N
	Width   float64 // of the belt: the narrowest that keeps Wanted, or the widest; 0 for a chain
	Meshing int     // teeth of the smaller wheel in mesh
	Factor  float64 // what it carries over Pull
	Wanted  float64 // factor to ask for
	Basis   string  // what the factor counts
}

// Meshing returns how many teeth of the smaller of two wheels are in mesh: its
// share of the full turn that the loop wraps.
func (t Transmission) Meshing(teeth1, teeth2 int, centre float64) int {
	if teeth1 < teeth2 {
		teeth1, teeth2 = teeth2, teeth1
	}
	alpha := math.Asin((t.WheelDiameter(teeth1) - t.WheelDiameter(teeth2)) / (2 * centre))
	return int(float64(teeth2) * (0.5 - alpha/math.Pi))
}

// Strength screens belt or chain under a pull, N.
func (t Transmission) Strength(pull float64, meshing int) DriveStrength {
	out := DriveStrength{Pull: pull, Meshing: meshing}
	if t.Even {
		out.Factor, out.Wanted, out.Basis = t.Breaking/pull, chainFactor, t.Breaks
		return out
	}
	out.Wanted = beltFactor
	for _, out.Width = range BeltWidths() {
		tooth, cord := beltTooth*out.Width*float64(min(meshing, mostMeshing)), beltCord*out.Width
		out.Factor, out.Basis = tooth/pull, "teeth in mesh"
		if cord < tooth {
			out.Factor, out.Basis = cord/pull, "cords"
		}
		if out.Factor >= out.Wanted {
			break
		}
	}
	return out
}
