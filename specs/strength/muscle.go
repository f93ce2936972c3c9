package strength

import "math"

// muscle holds the parameters of a Hill-type muscle with its tendon: greatest
// isometric force, N, and optimal fibre and tendon slack length, mm.
// Pennation of the elbow flexors is zero.
type muscle struct {
	force, optimal, slack float64
}

// Shape parameters of the force-length relations in the public 26-muscle arm
// model of Holzbaur, Murray & Delp 2005; the relations are Thelen 2003's.
const (
	activeWidth   = 0.5   // γ of the active Gaussian
	passiveShape  = 4     // exponent of the passive curve
	passiveStrain = 0.6   // fibre strain at which it reaches 1
	tendonStrain  = 0.033 // tendon strain at which it reaches 1
	toeForce      = 0.33  // tendon force where its toe ends
	toeShape      = 3     // exponent of the toe
)

// active returns the active force of a fibre of length l, as shares of the
// greatest isometric force and of the optimal length.
func active(l, width float64) float64 {
	return math.Exp(-(l - 1) * (l - 1) / width)
}

// passive returns the passive force of a fibre, in the same shares.
func passive(l float64) float64 {
	if l <= 1 {
		return 0
	}
	return math.Expm1(passiveShape*(l-1)/passiveStrain) / math.Expm1(passiveShape)
}

// tendon returns the force of a tendon at a strain, as a share of the muscle's
// greatest isometric force: an exponential toe, then a straight line.
func tendon(strain float64) float64 {
	if strain <= 0 {
		return 0
	}
	e3 := math.Exp(3)
	toe := 99 * tendonStrain * e3 / (166*e3 - 67)
	if strain > toe {
		return toeForce + 0.67/(tendonStrain-toe)*(strain-toe)
	}
	return toeForce * math.Expm1(toeShape*strain/toe) / math.Expm1(toeShape)
}

// isometric returns the force, N, of the fully active muscle stretched to
// length (fibre and tendon, mm): where tendon and fibre pull alike.
func (m muscle) isometric(length float64) float64 {
	// The tendon pulls less the longer the fibre: bisect between a fibre of
	// no length and one that leaves the tendon slack.
	lo, hi := 0.0, math.Max(length-m.slack, 0)
	for range 60 { // halves 0.4 m to far below a rounding error
		fibre := (lo + hi) / 2
		l := fibre / m.optimal
		if tendon((length-fibre-m.slack)/m.slack) > active(l, activeWidth)+passive(l) {
			lo = fibre
		} else {
			hi = fibre
		}
	}
	return m.force * tendon((length-lo-m.slack)/m.slack)
}

// rigid returns the active force, N, of the fully active muscle with the
// given fibre length, mm.
func (m muscle) rigid(fibre float64) float64 {
	return m.force * active(fibre/m.optimal, activeWidth)
}
