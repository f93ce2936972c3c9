package linkage

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Train is a four-bar linkage as it drives a plate lever from an arm, in the
// plane across the arm's axis: x forward, y up, the arm's axis at the origin,
// angles counter-clockwise, which is the way of flexion. The input bar turns
// with the arm; output bar and plate lever turn together about the output shaft.
type Train struct {
	Bars       FourBar
	Direction  float64 // of the output shaft from the arm's axis, above forward
	InputPhase float64 // input bar above the line of the axes at flexion 0
	Radius     float64 // plates from the output shaft, mm
	Phase      float64 // plates above forward when the output bar lies on the line of the axes
}

// Pose is a train at one flexion. Places are from the arm's axis, mm.
type Pose struct {
	Position
	Pin    r2.Vec  // of input bar and coupler
	Joint  r2.Vec  // of coupler and output bar
	Shaft  r2.Vec  // the output shaft
	Plates r2.Vec  // centre of the plates
	Lever  float64 // plates above forward

	// Moves of those places per turn of the arm, mm/rad.
	PinMove, JointMove, PlatesMove r2.Vec
}

// At returns the train at a flexion. The error is that of FourBar.At.
func (t Train) At(flexion float64) (Pose, error) {
	p, err := t.Bars.At(flexion + t.InputPhase)
	if err != nil {
		return Pose{}, err
	}
	turned := func(q r2.Vec) r2.Vec { return r2.Rotate(q, t.Direction, r2.Vec{}) }
	out := Pose{Position: p, Pin: turned(p.InputPin), Joint: turned(p.Joint), Shaft: t.Shaft(), Lever: p.Output + t.Phase}
	s, c := math.Sincos(out.Lever)
	arm := r2.Vec{X: t.Radius * c, Y: t.Radius * s}
	out.Plates = r2.Add(out.Shaft, arm)
	out.PinMove = across(out.Pin)
	out.JointMove = r2.Scale(p.Ratio, across(r2.Sub(out.Joint, out.Shaft)))
	out.PlatesMove = r2.Scale(p.Ratio, across(arm))
	return out, nil
}

// Shaft is the place of the output shaft.
func (t Train) Shaft() r2.Vec {
	s, c := math.Sincos(t.Direction)
	return r2.Vec{X: t.Bars.Ground * c, Y: t.Bars.Ground * s}
}

// Clear is FourBar.Clear over a range of flexion.
func (t Train) Clear(from, to float64) error {
	return t.Bars.Clear(from+t.InputPhase, to+t.InputPhase)
}

// across is the vector turned by a quarter turn, counter-clockwise.
func across(v r2.Vec) r2.Vec { return r2.Vec{X: -v.Y, Y: v.X} }

// Weights are masses at the moving joints of a train, kg, to which its bars and
// plates reduce: a bar's mass is shared between its eyes so that its centre stays.
type Weights struct{ Pin, Joint, Plates float64 }

// Resistance returns the torque about the arm's axis, N·mm, with which gravity
// on the weights resists flexion, by virtual work: weight times rise per turn of
// the arm. up is the vertical's components along the plane's x and y; it is
// (0, 1) for a level axis.
func (p Pose) Resistance(w Weights, up r2.Vec) float64 {
	return G * (w.Pin*r2.Dot(p.PinMove, up) + w.Joint*r2.Dot(p.JointMove, up) + w.Plates*r2.Dot(p.PlatesMove, up))
}

// Inertia returns the moment of inertia of the weights as felt at the arm's
// axis, kg·mm²: twice their kinetic energy at unit speed of the arm.
func (p Pose) Inertia(w Weights) float64 {
	return w.Pin*r2.Norm2(p.PinMove) + w.Joint*r2.Norm2(p.JointMove) + w.Plates*r2.Norm2(p.PlatesMove)
}
