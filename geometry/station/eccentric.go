package station

// EccentricValues are one arm's eccentric weight: its Mass at Radius from the
// axis, at Phase ahead of the arm.
type EccentricValues struct{ Mass, Radius, Phase float64 }

// eccentric adds it on its bar.
func (b *builder) eccentric() {}
