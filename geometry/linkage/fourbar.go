package linkage

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Kind says why a linkage cannot be.
type Kind string

// The reasons.
const (
	Input Kind = "input" // a number that makes no sense
	Open  Kind = "open"  // the bars do not reach each other
	Dead  Kind = "dead"  // two bars are in line and pass no motion on
)

// Error reports a linkage that cannot be. Angle is the input angle concerned,
// rad, 0 if none; What names the quantity, Value is what was found, Limit what
// is asked.
type Error struct {
	Kind         Kind
	Angle        float64
	What         string
	Value, Limit float64
	Hint         string
}

func (e *Error) Error() string {
	s := fmt.Sprintf("linkage: %s is %.4g, limit %.4g", e.What, e.Value, e.Limit)
	if e.Angle != 0 {
		s += fmt.Sprintf(", at an input angle of %.1f degrees", e.Angle*180/math.Pi)
	}
	return s + ": " + e.Hint
}

// FourBar is a planar four-bar linkage. The input pivot is at the origin, the
// output pivot at (Ground, 0); all angles count counter-clockwise from the
// line between them. Crossed is the second way of assembling the same bars.
type FourBar struct {
	Ground, Input, Coupler, Output float64 // lengths, mm
	Crossed                        bool
}

// Position is a four-bar linkage at one input angle.
type Position struct {
	Input, Coupler, Output float64 // angles of the bars
	// Ratio is the turn of the output per turn of the input. By virtual work a
	// torque T on the output asks for Ratio T on the input.
	Ratio float64
	// Transmission is the angle between coupler and output, 0 to pi/2. Below
	// about 40 degrees motion is passed on poorly.
	Transmission    float64
	InputPin, Joint r2.Vec // the coupler's ends, on the input and on the output
}

// inLine is the sine below which two bars count as in line.
const inLine = 1e-9

// At returns the linkage at an input angle. The error is an *Error: Input,
// Open where the bars do not reach each other, Dead where coupler and output
// are in line and the ratio is without bound.
func (f FourBar) At(angle float64) (Position, error) {
	if err := f.check(); err != nil {
		return Position{}, err
	}
	if math.IsNaN(angle) || math.IsInf(angle, 0) {
		return Position{}, &Error{Kind: Input, What: "input angle (rad)", Value: angle, Hint: "it must be finite"}
	}
	s, c := math.Sincos(angle)
	pin := r2.Vec{X: f.Input * c, Y: f.Input * s}
	toPin := r2.Sub(pin, r2.Vec{X: f.Ground})
	e := r2.Norm(toPin)
	hint := "keep the input within its limits or lengthen the coupler"
	if far := f.Coupler + f.Output; e > far {
		return Position{}, &Error{Kind: Open, Angle: angle, What: "distance to bridge (mm)", Value: e, Limit: far, Hint: hint}
	}
	if close := math.Abs(f.Coupler - f.Output); e < close || e == 0 {
		return Position{}, &Error{Kind: Open, Angle: angle, What: "distance to bridge (mm)", Value: e, Limit: close, Hint: hint}
	}
	corner := math.Acos(clamp((e*e + f.Output*f.Output - f.Coupler*f.Coupler) / (2 * e * f.Output)))
	if f.Crossed {
		corner = -corner
	}
	out := wrap(math.Atan2(toPin.Y, toPin.X) - corner)
	so, co := math.Sincos(out)
	joint := r2.Vec{X: f.Ground + f.Output*co, Y: f.Output * so}
	bar := r2.Sub(joint, pin)
	coupler := math.Atan2(bar.Y, bar.X)

	pass := math.Sin(out - coupler)
	if math.Abs(pass) < inLine {
		return Position{}, &Error{Kind: Dead, Angle: angle, What: "sine between coupler and output", Value: math.Abs(pass), Limit: inLine, Hint: "keep the input off its limits"}
	}
	return Position{
		Input: angle, Coupler: coupler, Output: out,
		Ratio:        f.Input * math.Sin(angle-coupler) / (f.Output * pass),
		Transmission: math.Asin(math.Min(1, math.Abs(pass))),
		InputPin:     pin, Joint: joint,
	}, nil
}

func (f FourBar) check() error {
	for _, l := range [...]struct {
		name   string
		length float64
	}{{"ground", f.Ground}, {"input", f.Input}, {"coupler", f.Coupler}, {"output", f.Output}} {
		if !(l.length > 0) || math.IsInf(l.length, 0) {
			return &Error{Kind: Input, What: "length of the " + l.name + " (mm)", Value: l.length, Hint: "every bar must have a length above zero"}
		}
	}
	return nil
}

// DeadPoints returns the input angles in (-pi, pi], rising, at which the
// linkage passes no motion on: coupler and output in line, where the input can
// go no farther, and input and coupler in line, where the output turns back
// and no torque on it can be felt. There may be none.
func (f FourBar) DeadPoints() ([]float64, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	var angles []float64
	add := func(a float64) {
		a = wrap(a)
		if !slices.ContainsFunc(angles, func(b float64) bool { return math.Abs(wrap(a-b)) < inLine }) {
			angles = append(angles, a)
		}
	}
	// Coupler and output in line bridge their sum or their difference.
	for _, bridge := range [...]float64{f.Coupler + f.Output, math.Abs(f.Coupler - f.Output)} {
		if a, ok := triangle(f.Ground, f.Input, bridge); ok {
			add(a)
			add(-a)
		}
	}
	// Input and coupler in line put the joint at their sum or difference, the
	// latter behind the input pivot if the coupler is longer. Of the two
	// mirror images one belongs to this assembly.
	for _, reach := range [...]float64{f.Input + f.Coupler, f.Input - f.Coupler} {
		a, ok := triangle(f.Ground, math.Abs(reach), f.Output)
		if !ok {
			continue
		}
		if reach < 0 {
			a += math.Pi
		}
		for _, side := range [...]float64{a, -a} {
			if p, err := f.At(side); err == nil && math.Abs(math.Sin(side-p.Coupler)) < 1e-6 {
				add(side)
			}
		}
	}
	slices.SortFunc(angles, cmp.Compare[float64])
	return angles, nil
}

// Clear reports, as an *Error of kind Dead or Open, the first angle from one
// input angle to another at which the linkage has a dead point or does not
// close; nil if it passes motion on throughout.
func (f FourBar) Clear(from, to float64) error {
	lo, hi := min(from, to), max(from, to)
	dead, err := f.DeadPoints()
	if err != nil {
		return err
	}
	if _, err := f.At(lo); err != nil {
		return err
	}
	for _, d := range dead {
		// Bring the angle to its first place at or above lo.
		a := lo + math.Mod(math.Mod(d-lo, 2*math.Pi)+2*math.Pi, 2*math.Pi)
		if a <= hi {
			return &Error{Kind: Dead, Angle: a, What: "dead point (rad)", Value: a, Limit: hi, Hint: "change the bars so that the dead point lies outside the motion"}
		}
	}
	return nil
}

// triangle returns the angle between the sides a and b of the triangle whose
// third side is c, or false if there is none.
func triangle(a, b, c float64) (float64, bool) {
	if b == 0 || c > a+b || c < math.Abs(a-b) {
		return 0, false
	}
	return math.Acos(clamp((a*a + b*b - c*c) / (2 * a * b))), true
}

func clamp(x float64) float64 { return math.Max(-1, math.Min(1, x)) }

// wrap returns the angle in (-pi, pi].
func wrap(a float64) float64 {
	a = math.Remainder(a, 2*math.Pi)
	if a <= -math.Pi {
		a += 2 * math.Pi
	}
	return a
}
