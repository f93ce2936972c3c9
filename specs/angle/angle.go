// Package angle holds the degree, which brief and frame files are written in.
package angle

import "math"

// Degree in radians: 30 * Degree is an angle, rad, and a / Degree one in degrees.
const Degree = math.Pi / 180
