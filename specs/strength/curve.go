// Package strength holds curves of elbow-flexion strength against the angle of
// flexion: shapes for a resistance to follow, each with its source.
//
// Measured and model curves disagree about the place of the peak by some 30
// degrees; Band tells the spread, and the brief chooses. See docs/strength.md.
package strength

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"armwright/specs/angle"

	"gonum.org/v1/gonum/interp"
)

// Curve is strength against elbow flexion (rad, 0 straight, increasing with
// bending), as a share of its own peak.
type Curve struct {
	Name   string
	Title  string
	Source string
	// Mark tells how far the source was checked: S seen in its text, M from
	// memory of it, D derived here from such values, own for a plain shape
	// that claims no source.
	Mark string
	// Valid is the range the source covers, rad. At continues the same
	// formula beyond it.
	Valid [2]float64
	// Peak is the angle of the largest value within Valid, rad.
	Peak float64

	shape func(theta float64) float64
}

// The curves are defined between these angles, which hold every range a brief
// may ask for; outside them At keeps the end value.
const (
	least    = -10 * angle.Degree
	greatest = 150 * angle.Degree
)

// At returns the strength at elbow flexion theta, rad, as a share of the peak
// within Valid: positive, with continuous second derivative between -10 and
// 150 degrees and constant outside. Beyond Valid it is an extrapolation and
// may exceed 1.
func (c Curve) At(theta float64) float64 {
	return c.shape(math.Min(math.Max(theta, least), greatest))
}

// normalised returns the curve with shape divided by its peak within Valid,
// found on a grid of a tenth of a degree and refined by the parabola through
// the three points around it.
func (c Curve) normalised() Curve {
	const pitch = 0.1 * angle.Degree
	steps := int(math.Round((c.Valid[1] - c.Valid[0]) / pitch))
	at := func(k int) float64 { return c.shape(c.Valid[0] + float64(k)*pitch) }
	best := 0
	for k := range steps + 1 {
		if at(k) > at(best) {
			best = k
		}
	}
	peak := at(best)
	c.Peak = c.Valid[0] + float64(best)*pitch
	if best > 0 && best < steps {
		before, after := at(best-1), at(best+1)
		if bend := before - 2*peak + after; bend < 0 {
			shift := (before - after) / (2 * bend)
			c.Peak += shift * pitch
			peak = math.Max(peak, c.shape(c.Peak))
		}
	}
	raw := c.shape
	c.shape = func(theta float64) float64 { return raw(theta) / peak }
	return c
}

// catalogue returns the curves in the order they are listed. They never
// change, so they are computed once.
var catalogue = sync.OnceValue(func() []Curve {
	curves := append(modelCurves(0), measuredCurves()...)
	curves = append(curves, plainCurves()...)
	for i := range curves {
		curves[i] = curves[i].normalised()
	}
	return curves
})

// Names returns the names of the curves.
func Names() []string {
	var names []string
	for _, c := range catalogue() {
		names = append(names, c.Name)
	}
	return names
}

// ByName returns a curve, or an *UnknownCurveError.
func ByName(name string) (Curve, error) {
	for _, c := range catalogue() {
		if c.Name == name {
			return c, nil
		}
	}
	return Curve{}, &UnknownCurveError{Name: name}
}

// ByNameAt returns a curve at a shoulder flexion, rad, 0 to 90 degrees: the arm
// at the side is 0. It shapes the muscle models, which are computed anew; the
// other curves do not know the shoulder and stay as they are. The error is an
// *UnknownCurveError.
func ByNameAt(name string, shoulder float64) (Curve, error) {
	if shoulder != 0 {
		for _, c := range modelCurves(shoulder) {
			if c.Name == name {
				c.Source += fmt.Sprintf("; shoulder flexed %.4g degrees", shoulder/angle.Degree)
				return c.normalised(), nil
			}
		}
	}
	return ByName(name)
}

// KnowsShoulder reports whether [ByNameAt] shapes a curve by the shoulder's flexion.
func KnowsShoulder(name string) bool {
	_, err := ByName(name)
	return err == nil && strings.HasPrefix(name, "model-")
}

// Band returns the least and the greatest value at theta over the measured and
// the model curves, each as a share of its own peak: how far the literature
// agrees.
func Band(theta float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range catalogue() {
		if strings.HasPrefix(c.Name, "model-") || strings.HasSuffix(c.Name, "-measured") {
			low = math.Min(low, c.At(theta))
			high = math.Max(high, c.At(theta))
		}
	}
	return low, high
}

// UnknownCurveError reports a strength curve that is not known.
type UnknownCurveError struct{ Name string }

func (e *UnknownCurveError) Error() string {
	return fmt.Sprintf("no strength curve %q; known are %s", e.Name, strings.Join(Names(), ", "))
}

// tabulated returns f as a spline with continuous second derivative through
// its values every 10 degrees, which is quick to evaluate. The pitch is coarse
// on purpose: f has a corner where a muscle leaves the bone it wraps, an
// idealisation whose curvature no cam could follow. Rounding it off costs at
// most 0.8 % of the peak, at 44 degrees.
func tabulated(f func(theta float64) float64) func(theta float64) float64 {
	const pitch = 10 * angle.Degree
	n := int(math.Round((greatest-least)/pitch)) + 1
	angles, values := make([]float64, n), make([]float64, n)
	for i := range angles {
		angles[i] = least + float64(i)*(greatest-least)/float64(n-1)
		values[i] = f(angles[i])
	}
	var spline interp.NotAKnotCubic
	if err := spline.Fit(angles, values); err != nil {
		panic(err) // the grid above is increasing
	}
	return spline.Predict
}
