package strength

import (
	"math"

	"armwright/specs/angle"
)

// measuredCurves returns the curves that rest on measured strength.
func measuredCurves() []Curve {
	const tsunoda = "Tsunoda, O'Hagan, Sale & MacDougall 1993, Eur J Appl Physiol 66:235, isometric at 15..105 degrees: "
	return []Curve{
		{
			Name: "men-measured", Title: "Measured, men",
			Source: tsunoda + "18 men, peak at 60 degrees, 20 % less at 105; " +
				"parabola through these two, all else interpolation", Mark: "S",
			Valid: [2]float64{15 * angle.Degree, 105 * angle.Degree},
			shape: func(theta float64) float64 { return hump(theta, 60*angle.Degree, manly, manly) },
		},
		{
			Name: "women-measured", Title: "Measured, women",
			Source: tsunoda + "15 women, peak at 90 degrees, no difference between 60 and 105; " +
				"two parabolas with the men's value at 15 degrees, which is an assumption, all else interpolation", Mark: "S",
			Valid: [2]float64{15 * angle.Degree, 105 * angle.Degree},
			// The left parabola falls to the men's 0.80 over 75 degrees;
			// the right one reaches in 15 degrees what the left does in 30.
			shape: func(theta float64) float64 { return hump(theta, 90*angle.Degree, manly*9/25, manly*36/25) },
		},
		{
			Name: "regression", Title: "Occupational regression",
			Source: "336.29 + 1.544 a - 0.0085 a², a included angle in degrees, arm at the side; textbook of " +
				"occupational biomechanics (Chaffin & Andersson), not confirmed, and flatter than any measured curve", Mark: "M",
			Valid: [2]float64{0, 140 * angle.Degree},
			shape: func(theta float64) float64 { return regression(180-theta/angle.Degree, 0) },
		},
	}
}

// manly is how fast measured strength of men falls beside its peak: by 0.2 at
// 45 degrees from it, as a parabola, rad⁻².
const manly = 0.2 / (45 * angle.Degree * 45 * angle.Degree)

// hump is a parabola of height 1 about peak, with bend left below and right
// above it, rad⁻². The bend changes over about 10 degrees on either side of
// the peak, so that the second derivative has no step. A parabola is the shape
// that Haering et al. 2019 found to fit measured elbow torque best.
func hump(theta, peak, left, right float64) float64 {
	x := theta - peak
	bend := (left+right)/2 + (right-left)/2*math.Tanh(x/(10*angle.Degree))
	return 1 - bend*x*x
}

// regression returns the occupational strength regression without its factor
// of sex, for the included elbow angle and the angle of the upper arm from the
// trunk, degrees.
func regression(included, shoulder float64) float64 {
	return 336.29 + 1.544*included - 0.0085*included*included - 0.5*shoulder
}

// plainCurves returns shapes that claim no source: targets to compare with.
func plainCurves() []Curve {
	const end = 140 * angle.Degree
	plain := func(name, title, source string, shape func(theta float64) float64) Curve {
		return Curve{Name: name, Title: title, Source: source, Mark: "own", Valid: [2]float64{0, end}, shape: shape}
	}
	return []Curve{
		plain("constant", "Constant", "1 at every angle",
			func(float64) float64 { return 1 }),
		plain("rising", "Rising", "straight from 0.6 at 0 to 1 at 140 degrees",
			func(theta float64) float64 { return 0.6 + 0.4*theta/end }),
		plain("falling", "Falling", "straight from 1 at 0 to 0.6 at 140 degrees",
			func(theta float64) float64 { return 1 - 0.4*theta/end }),
		plain("bell", "Bell", "cosine of three quarters of the angle from 75 degrees",
			func(theta float64) float64 { return math.Cos(0.75 * (theta - 75*angle.Degree)) }),
	}
}
