package balance

import "math"

// Reclined is the equilibrium of a person who leans back on a pad while
// lifting. Side view of the machine frame, lengths mm from the pivot, forces N,
// angles rad.
//
// Arm, stop pad and handle are those of Seated. The trunk, with head and arms,
// turns about a passive hip and is held by the back pad, frictionless, at one
// place: moments about the hip give its force, the rest of the weight is the
// seat's.
type Reclined struct {
	Seated
	Back        float64 // back pad from vertical, leaning back
	HipX, HipZ  float64
	BackArm     float64 // hip to where the back pad's force acts, along the trunk
	UpperWeight float64 // of trunk, head and arms, N
	UpperX      float64 // where it acts, forward
}

// At returns the reactions at flexion theta. Friction is what the seat must
// hold: a person who slides forward needs it, or a seat that slopes.
func (s Reclined) At(theta float64) Reaction {
	sin, cos := math.Sincos(theta)
	sd, cd := math.Sincos(s.Slope)
	sb, cb := math.Sincos(s.Back)
	return s.AtFlexion(sin, cos, sd, cd, sb, cb)
}

// AtFlexion is At for sine and cosine of flexion, slope and back pad already known.
func (s *Reclined) AtFlexion(sinTheta, cosTheta, sd, cd, sb, cb float64) Reaction {
	pad := s.PadForce(cosTheta)
	sin, cos := sinTheta*cd-cosTheta*sd, cosTheta*cd+sinTheta*sd
	hx, hz := s.Load*sin, -s.Load*cos
	px, pz := pad*sd, pad*cd

	// Moments about the hip, counter-clockwise positive: x·Fz − z·Fx.
	about := func(x, z, fx, fz float64) float64 { return (x-s.HipX)*fz - (z-s.HipZ)*fx }
	m := about(s.Reach*cos, s.Reach*sin, hx, hz) +
		about(-s.Support*cd, s.Support*sd, px, pz) +
		about(s.UpperX, s.HipZ, 0, -s.UpperWeight)
	// The back pad pushes forward and up on a trunk that leans back from the
	// hip: its moment about the hip is −BackArm times its force.
	back := m / s.BackArm
	r := Reaction{Pad: pad, Back: back, Seat: s.Weight - pz - hz - back*sb, Friction: -(hx + px + back*cb)}
	if r.Seat == 0 {
		return r
	}
	// Moments of everything about the pivot give the seat's place.
	bx, bz := s.HipX-s.BackArm*sb, s.HipZ+s.BackArm*cb
	all := s.Reach*(cos*hz-sin*hx) - s.Support*cd*pz - s.Support*sd*px +
		bx*back*sb - bz*back*cb - s.CentreX*s.Weight
	r.SeatX = -(all + s.SeatTop*r.Friction) / r.Seat
	return r
}
