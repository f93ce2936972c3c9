package balance

import "math"

// Seated is the equilibrium of a person in the arm-pad posture while lifting:
// the arm pad is the fulcrum, body weight the holding force. The machine frame's
// side view; lengths mm, forces N, angles rad.
//
// The upper arm is a beam from the shoulder to the elbow on the pad, with no
// moment at the shoulder. The load pulls the hand against its motion with
// Load = T/R; the flexors that hold it press the upper arm into the pad:
//
//	N = (U·F·cosθ + T) / a
//
// U upper arm, a shoulder to the middle of the pad, T = F·R. What the pad
// carries upward is missing on the seat. No feet; the horizontal remainder is
// left to the friction of the seat and returned for inspection.
type Seated struct {
	Weight   float64 // of the person, N
	CentreX  float64 // of the person, from the pivot, forward
	Slope    float64 // upper arm below horizontal
	UpperArm float64
	Support  float64 // pivot to the middle of the pad, along the upper arm
	Reach    float64 // elbow to grip
	Load     float64 // on both hands together, tangential, N
	SeatTop  float64 // below the pivot, mm (positive)
}

// Reaction is what seat and pad carry.
type Reaction struct {
	Pad      float64 // both pads, normal to the pad, N
	Back     float64 // of the back pad, normal to it, N; 0 without one
	Seat     float64 // upward, N; negative means the load lifts the person
	SeatX    float64 // where it acts, from the pivot, forward, mm; 0 with no seat load
	Friction float64 // horizontal force the seat must hold, forward on the person positive, N
}

// PadForce returns what both pads carry, normal to them, N, at the flexion with
// the given cosine.
func (s *Seated) PadForce(cos float64) float64 {
	return s.Load * (s.UpperArm*cos + s.Reach) / (s.UpperArm - s.Support)
}

// At returns the reactions at flexion theta.
func (s Seated) At(theta float64) Reaction {
	sin, cos := math.Sincos(theta)
	sd, cd := math.Sincos(s.Slope)
	return s.AtFlexion(sin, cos, sd, cd)
}

// SeatForce is At's Seat alone, for sines and cosines as AtFlexion takes them.
func (s *Seated) SeatForce(sinTheta, cosTheta, sd, cd float64) float64 {
	return s.Weight - s.PadForce(cosTheta)*cd + s.Load*(cosTheta*cd+sinTheta*sd)
}

// AtFlexion is At for sine and cosine of flexion and slope already known.
func (s *Seated) AtFlexion(sinTheta, cosTheta, sd, cd float64) Reaction {
	pad := s.PadForce(cosTheta)
	// Hand force: against flexion, tangential to the forearm's circle.
	sin, cos := sinTheta*cd-cosTheta*sd, cosTheta*cd+sinTheta*sd
	hx, hz := s.Load*sin, -s.Load*cos
	px, pz := pad*sd, pad*cd
	r := Reaction{Pad: pad, Seat: s.Weight - pz - hz, Friction: -(hx + px)}
	if r.Seat == 0 {
		return r
	}
	// Moments about the pivot (counter-clockwise positive in the side view):
	// x·Fz − z·Fx of hand, pad, weight, seat and seat friction sum to zero.
	hand := s.Reach * (cos*hz - sin*hx)
	padM := -s.Support*cd*pz - s.Support*sd*px
	r.SeatX = -(hand + padM - s.CentreX*s.Weight + s.SeatTop*r.Friction) / r.Seat
	return r
}
