package balance

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Load is a force on the station from outside, N, and where it acts. What a
// seated user does to the station he sits on is not: those forces are inside.
type Load struct{ At, Force r3.Vec }

// Weight is the load of a mass, kg, at a place.
func Weight(mass float64, at r3.Vec) Load { return Load{At: at, Force: r3.Vec{Z: -mass * G}} }

// Overturn returns one Edge for each side of the support polygon, given
// counter-clockwise, of a body of the given mass (kg, above 0) and centre under
// loads from outside. Inside is the distance of the zero moment point, where
// the floor's resultant acts: the body tips where it leaves the polygon,
// exactly when the moments about the edge balance,
//
//	W d = Σ (P z − V e)
//
// for horizontal pushes P at heights z and vertical loads V at e inside. Tilt
// is atan(Inside/h) at the height h of the centre of all weights, Energy the
// work left. The vertical loads must not lift the whole.
func Overturn(feet []r2.Vec, mass float64, centre r3.Vec, loads ...Load) []Edge {
	down := mass * G
	var p r2.Vec
	high := down * centre.Z
	p.X, p.Y = down*centre.X, down*centre.Y
	for _, l := range loads {
		v := -l.Force.Z
		down += v
		high += v * l.At.Z
		p.X += v*l.At.X + l.Force.X*l.At.Z
		p.Y += v*l.At.Y + l.Force.Y*l.At.Z
	}
	return Edges(feet, down/G, r3.Vec{X: p.X / down, Y: p.Y / down, Z: high / down})
}

// AnchorPull returns the upward force, N, that floor anchors along the edge
// opposite to a tipping edge must hold so that a body stands when it is tilted
// by an angle whose tangent is slope; 0 when it stands by itself. Reach is the
// distance between tipping edge and anchors, mm.
func (e Edge) AnchorPull(mass, height, slope, reach float64) float64 {
	return max(0, mass*G*(height*slope-e.Inside)/reach)
}
