package strength

import (
	"fmt"
	"math"
	"slices"

	"armwright/specs/angle"

	"gonum.org/v1/gonum/interp"
)

// Point is one measured strength of a table: at a flexion, rad, in any unit.
type Point struct{ Theta, Strength float64 }

// leastPoints is what a not-a-knot spline needs.
const leastPoints = 4

// leastPitch is how close two points of a table may lie, rad: nearer ones ask
// for a curvature that no cam follows and no measurement supports.
const leastPitch = 2 * angle.Degree

// Table returns the curve through points in order of rising flexion: the
// not-a-knot cubic spline, normalised to its own peak. It is valid between the
// first and the last point and keeps its end values beyond. The error is a
// *TableError: fewer than four points, flexions that do not rise by at least
// two degrees, a strength that is not above zero, or a curve that falls to zero
// or rises by half between its points.
func Table(name, title, source string, points []Point) (Curve, error) {
	bad := func(i int, why string) (Curve, error) { return Curve{}, &TableError{i, why} }
	if len(points) < leastPoints {
		return bad(0, fmt.Sprintf("%d points are too few; a curve needs at least %d", len(points), leastPoints))
	}
	angles, values := make([]float64, len(points)), make([]float64, len(points))
	most := 0.0
	for i, p := range points {
		switch {
		case !finite(p.Theta) || !finite(p.Strength) || !(p.Strength > 0):
			return bad(i+1, "its strength is not a number above zero")
		case p.Theta < least || p.Theta > greatest:
			return bad(i+1, fmt.Sprintf("its flexion is outside %.0f to %.0f degrees", least/angle.Degree, greatest/angle.Degree))
		case i > 0 && p.Theta-points[i-1].Theta < leastPitch-1e-9:
			return bad(i+1, "its flexion is not at least two degrees above that of the point before")
		}
		angles[i], values[i] = p.Theta, p.Strength
		most = math.Max(most, p.Strength)
	}
	var spline interp.NotAKnotCubic
	if err := spline.Fit(angles, values); err != nil {
		return bad(0, err.Error())
	}
	first, last := angles[0], angles[len(angles)-1]
	for i := range 1000 {
		theta := first + (last-first)*float64(i)/999
		if v := spline.Predict(theta); !(v > 0) || v > 1.5*most {
			k, _ := slices.BinarySearch(angles, theta)
			return bad(k, "the smooth curve through the points strays there; give more points or smoother ones")
		}
	}
	return Curve{
		Name: name, Title: title, Source: source, Mark: "own", Valid: [2]float64{first, last},
		shape: func(theta float64) float64 { return spline.Predict(math.Min(math.Max(theta, first), last)) },
	}.normalised(), nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// TableError says what is wrong with a table of strength. Point counts from 1;
// 0 concerns the whole.
type TableError struct {
	Point  int
	Reason string
}

func (e *TableError) Error() string {
	if e.Point == 0 {
		return "strength table: " + e.Reason
	}
	return fmt.Sprintf("strength table, point %d: %s", e.Point, e.Reason)
}

// Hint says what to change.
func (e *TableError) Hint() string {
	return "give at least four points in order of rising flexion, over all of the loaded range"
}
