package require

import "armwright/specs"

// Unit is how a requirement's value is measured inside.
type Unit int

const (
	Length Unit = iota // mm
	Angle              // rad
	Share              // fraction
	Number             // plain ratio
)

// Symbol is the unit that people read it in, "" for a plain ratio.
func (u Unit) Symbol() string {
	switch u {
	case Length:
		return "mm"
	case Angle:
		return "deg"
	case Share:
		return "%"
	}
	return ""
}

// Outside is an inside value in that unit.
func (u Unit) Outside(x float64) float64 {
	switch u {
	case Angle:
		return x / specs.Degree
	case Share:
		return 100 * x
	}
	return x
}

// Kind is one requirement of the contract: what it asks, in which sense, and
// how large one unit that matters is.
type Kind struct {
	ID      string
	Asks    string
	Unit    Unit
	AtLeast bool    // the value must be at least the limit; otherwise at most
	Scale   float64 // one unit that matters, inside units
	Source  string
}

// Meets says whether a margin, inside unit, counts as met.
func (k *Kind) Meets(margin float64) bool { return margin/k.Scale >= Meets }

// Meets is the margin, in units that matter, down to which a requirement
// counts as met: the rounding of a frame file moves values by less.
const Meets = -1e-6

// Kinds lists every requirement in the order of reports.
func Kinds() []Kind {
	return []Kind{
		{"axis-offset", "elbow axis on the machine axis", Length, false, 1, "judgement: adjust to 10 mm, warn above 15 mm; bone-fixed hinges 5 mm off cost about fourfold resistance (textbook, cadaver study)"},
		{"axis-tilt", "elbow axis along the machine axis", Angle, false, 1 * specs.Degree, "judgement: adjust to 3 deg, warn above 5 deg; an axis wanders 2.6-5.7 deg about its mean (seven cadaver elbows)"},
		{"hand-path", "hand and handle on one path", Length, false, 1, "derived: 2.33 mm for each degree of carrying angle at 325 mm"},
		{"abduction", "upper arm not spread sideways", Angle, false, 1 * specs.Degree, "judgement"},
		{"lean", "trunk near upright", Angle, false, 1 * specs.Degree, "judgement"},
		{"arm-slope", "upper arm hanging within its range", Angle, false, 1 * specs.Degree, "judgement"},
		{"seat-range", "a seat position that brings the shoulder to the pad", Length, true, 5, "placing of each person"},
		{"hip-on-seat", "hip inside the seat", Length, true, 5, "judgement"},
		{"belly-gap", "trunk clear of pad and post", Length, true, 5, "judgement"},
		{"knee-gap", "hand clear of thigh and knee", Length, true, 5, "judgement"},
		{"foot-gap", "foot on the floor or the foot plate", Length, false, 5, "judgement: half a foot plate's usual step more than lets the heel drop"},
		{"handle-reach", "a handle position at the grip", Length, false, 1, "half the handle pitch"},
		{"grip-rotation", "forearm turned no further than it goes", Angle, false, 1 * specs.Degree, "active supination 87 deg, n = 352 (Zwerus et al. 2019)"},
		{"torque-match", "torque follows the strength curve", Share, false, 0.01, "rms over the loaded range, share of the peak; no published threshold"},
		{"cam-bend", "cam no tighter than the cable bears", Length, true, 1, "tread ratio D/d of the cable's construction, cable makers' tables"},
		{"cable-factor", "cable strong enough", Number, true, 0.5, "factor 6 on the greatest tension (EN 957-1 5.3.5, from memory)"},
		{"stack-travel", "stack stays in its tower", Length, false, 10, "space"},
		{"fleet-angle", "cable straight into its sheaves", Angle, false, 0.25 * specs.Degree, "1.5 deg target, 4 deg hard limit (rope makers' tables)"},
		{"tilt-empty", "empty station does not tip", Angle, true, 1 * specs.Degree, "10 deg plane (ASTM F2571-15 7.1)"},
		{"tilt-occupied", "occupied station does not tip", Angle, true, 1 * specs.Degree, "10 deg plane with the heaviest user, at least 100 kg (ASTM F2571-15 7.1)"},
		{"tilt-entry", "station stands while somebody gets on or pushes", Angle, true, 1 * specs.Degree, "derived: moments about the edge; weight 60 mm inside the seat's edge with 20 N outward (EN 1022:2018)"},
		{"seat-load", "body weight stays on the seat", Share, true, 0.02, "judgement; equilibrium of the seated person"},
		{"crush-gap", "no crush gap between moving and fixed parts", Length, true, 5, "ISO 13854:2017, finger 25 mm, hand 100 mm"},
		{"entry-gap", "room for a hand or foot where one can enter", Share, true, 0.05, "ISO 13854:2017: hand 100 mm at the grip, foot 120 mm at the floor"},
		{"body-gap", "moving arm clear of trunk, head and thighs", Length, true, 5, "judgement; solids of the boundary persons"},
		{"member-stress", "tubes stay elastic under factored load", Share, false, 0.05, "2.5 times the load (EN 957-2 5.2, from memory); yield of EN 10219"},
		{"member-deflection", "tubes stay stiff", Share, false, 0.001, "judgement: 1/150 of the free length"},
		{"bearing-static", "pivot bearings strong enough", Number, true, 0.5, "static ratio 2 for oscillating pivots (ISO 76, from memory)"},
		{"footprint-length", "front to back within the space", Length, false, 10, "brief"},
		{"footprint-width", "side to side within the space", Length, false, 10, "brief"},
		{"height", "top within the space", Length, false, 10, "brief"},
	}
}
