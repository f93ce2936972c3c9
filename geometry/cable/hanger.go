package cable

import "slices"

// Hanger is how the guide sheave hangs and is set to a height for every axis position: a
// hollow stem under its fork turns in a flanged bush in a tube, and the tip of a pull pin
// through the tube is in a groove that lets the stem turn. Lengths mm; heights of holes
// and grooves from the flange's face, downward.
type Hanger struct {
	Lowest float64 // rise of the lowest position, at which the fork lies on the flange: 0 or below
	Travel float64 // from there to the highest
	Tube   float64 // length of the swivel tube
	Stem   float64 // length of the stem under the fork
	// The pin's hole in the tube for each axis position, and the groove that meets it, in
	// the reference position: none where there is one height.
	Holes, Grooves []float64
}

// Sizes of a hanger, mm (own choices).
const (
	HangerFlange = 3.0  // of the bush
	HangerCollar = 12.0 // collar under the tube
	HangerEnd    = 1.0  // of the stem below the collar
	HangerRoot   = 24.0 // diameter of the stem in a groove
	HangerPin    = 6.0  // of the pin's tip
	HangerThread = 10.0 // M10x1, in the wall of the tube
	HangerGroove = HangerPin + 0.2

	hangerTube  = 60.0 // of the tube and its bush at least
	hangerApart = 16.0 // between the middles of two holes, and of two grooves at least
	hangerInset = 12.0 // of a hole's middle from the tube's end
)

// Hanger sets out tube, stem, holes and grooves. The holes go down as the positions go
// up, so that two grooves are never nearer to each other than two holes.
func (r *Route) Hanger() Hanger {
	h := Hanger{Lowest: slices.Min(r.Rise)}
	h.Travel = slices.Max(r.Rise) - h.Lowest
	n := len(r.Rise)
	h.Tube = max(hangerTube, float64(n-1)*hangerApart+2*hangerInset)
	h.Stem = h.Travel + HangerFlange + h.Tube + HangerCollar + HangerEnd
	if n == 1 {
		return h
	}
	h.Holes, h.Grooves = make([]float64, n), make([]float64, n)
	for i := range n {
		h.Holes[i] = HangerFlange + hangerInset + float64(r.Step(i))*hangerApart
		h.Grooves[i] = h.Holes[i] + r.Rise[i]
	}
	return h
}
