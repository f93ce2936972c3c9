package stock

import (
	"fmt"
	"math"

	"armwright/specs/angle"
)

// LinearTolerance returns the general tolerance ± of a length, mm, in a class
// f, m, c or v of ISO 2768-1 table 1 (S). Errors: *ToleranceError where the
// class is unknown or has no value for the size.
func LinearTolerance(class string, size float64) (float64, error) {
	return tolerance(class, size, []float64{0.5, 3, 6, 30, 120, 400, 1000, 2000, 4000}, map[string][]float64{
		"f": {.05, .05, .1, .15, .2, .3, .5, 0},
		"m": {.1, .1, .2, .3, .5, .8, 1.2, 2},
		"c": {.2, .3, .5, .8, 1.2, 2, 3, 4},
		"v": {0, .5, 1, 1.5, 2.5, 4, 6, 8},
	})
}

// AngularTolerance returns the general tolerance ± of an angle, rad, by the
// length of its shorter leg, mm, of ISO 2768-1 table 3 (S). Errors as
// LinearTolerance.
func AngularTolerance(class string, leg float64) (float64, error) {
	fine := []float64{60, 30, 20, 10, 5} // minutes
	minutes, err := tolerance(class, leg, []float64{0, 10, 50, 120, 400, math.Inf(1)}, map[string][]float64{
		"f": fine, "m": fine,
		"c": {90, 60, 30, 15, 10},
		"v": {180, 120, 60, 30, 20},
	})
	return minutes / 60 * angle.Degree, err
}

// WeldedTolerance returns the general tolerance ± of a length of a welded
// structure, mm, in a class A, B, C or D of ISO 13920 table 1 (M). Errors as
// LinearTolerance.
func WeldedTolerance(class string, size float64) (float64, error) {
	return tolerance(class, size, []float64{2, 30, 120, 400, 1000, 2000, 4000, 8000}, map[string][]float64{
		"A": {1, 1, 1, 2, 3, 4, 5},
		"B": {1, 2, 2, 3, 4, 6, 8},
		"C": {1, 3, 4, 6, 8, 11, 14},
		"D": {1, 4, 7, 9, 12, 16, 21},
	})
}

// WeldedAngle returns the general tolerance ± of an angle of a welded
// structure, rad, by the length of its shorter leg, mm, in a class of ISO 13920
// table 2 (M). Errors as LinearTolerance.
func WeldedAngle(class string, leg float64) (float64, error) {
	minutes, err := tolerance(class, leg, []float64{0, 400, 1000, math.Inf(1)}, map[string][]float64{
		"A": {20, 15, 10}, "B": {45, 30, 20}, "C": {60, 45, 30}, "D": {90, 75, 60},
	})
	return minutes / 60 * angle.Degree, err
}

// tolerance reads a table: column k covers sizes above bounds[k], to
// bounds[k+1] inclusive, the first column its lower bound too; 0 is no value.
func tolerance(class string, size float64, bounds []float64, table map[string][]float64) (float64, error) {
	row, known := table[class]
	if known && size >= bounds[0] {
		for k, value := range row {
			if size <= bounds[k+1] && value > 0 {
				return value, nil
			}
			if size <= bounds[k+1] {
				break
			}
		}
	}
	return 0, &ToleranceError{Class: class, Size: size}
}

// ToleranceError reports a class and size for which the standard gives no
// tolerance.
type ToleranceError struct {
	Class string
	Size  float64 // mm
}

func (e *ToleranceError) Error() string {
	return fmt.Sprintf("no general tolerance of class %q for %g mm; classes are f, m, c, v, of welded structures A, B, C, D, "+
		"and a size without one needs its own on the drawing", e.Class, e.Size)
}
