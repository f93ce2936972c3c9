package cam

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// sector is a piece of the closing curve: an arc that turns from one normal
// angle to the next.
type sector struct {
	from, to float64
	wanted   float64 // radius it would have if it were free
	radius   float64
}

// move is the displacement along the sector for radius 1.
func (s sector) move() r2.Vec { return r2.Sub(normal(s.to), normal(s.from)) }

// closeBy sets the radii of the sectors so that together they lead from one
// end of an open curve to the other, chord, none is smaller than least, and
// they differ from the wanted radii as little as possible in the mean square
// over the turning angle. It reports whether that can be done.
//
// This is the projection of the wanted radii on the polygon cut out by two
// equations and the lower bounds. Its dual is a smooth convex function of two
// multipliers lambda, radius = max(least, wanted + move·lambda/width), whose
// minimum Newton's method with a line search finds.
func closeBy(sectors []sector, chord r2.Vec, least float64) bool {
	var lambda r2.Vec
	value, gap := dual(sectors, chord, least, lambda)
	for range maxClosingSteps {
		if r2.Norm(gap) < closingGap {
			return true
		}
		step := newton(sectors, least, gap)
		// With gap the dual's gradient, step leads downhill; Armijo's rule.
		for t, slope := 1.0, r2.Dot(gap, step); ; t /= 2 {
			if t < 1e-10 {
				return false
			}
			trial := r2.Add(lambda, r2.Scale(t, step))
			v, g := dual(sectors, chord, least, trial)
			if v <= value+1e-4*t*slope || r2.Norm(g) < closingGap {
				lambda, value, gap = trial, v, g
				break
			}
		}
	}
	return false
}

const (
	// closingGap is the gap, mm, that counts as closed: far below the 1e-4 mm
	// to which coordinates are written.
	closingGap = 1e-8
	// maxClosingSteps is several times what a closing that exists takes; when
	// none exists the multipliers grow without end.
	maxClosingSteps = 80
)

// dual sets the radii for lambda and returns the dual function and its
// gradient, the gap that is left open.
func dual(sectors []sector, chord r2.Vec, least float64, lambda r2.Vec) (value float64, gap r2.Vec) {
	value = -r2.Dot(chord, lambda)
	gap = r2.Scale(-1, chord)
	for i := range sectors {
		s := &sectors[i]
		width, move := s.to-s.from, s.move()
		s.radius = s.wanted + r2.Dot(move, lambda)/width
		if s.radius > least {
			value += width * s.radius * s.radius / 2
		} else {
			value += width * (least*s.radius - least*least/2)
			s.radius = least
		}
		gap = r2.Add(gap, r2.Scale(s.radius, move))
	}
	return value, gap
}

// newton returns the Newton step of the dual. A trace of a unit matrix keeps
// it defined when fewer than two sectors are free.
func newton(sectors []sector, least float64, gap r2.Vec) r2.Vec {
	xx, xy, yy := 1e-9, 0.0, 1e-9
	for _, s := range sectors {
		if s.radius > least {
			m, w := s.move(), s.to-s.from
			xx += m.X * m.X / w
			xy += m.X * m.Y / w
			yy += m.Y * m.Y / w
		}
	}
	det := xx*yy - xy*xy
	return r2.Vec{X: -(yy*gap.X - xy*gap.Y) / det, Y: -(xx*gap.Y - xy*gap.X) / det}
}

// sectorsOver cuts a turning range into equal sectors no wider than width.
func sectorsOver(from, to, width, wanted float64) []sector {
	n := int(math.Ceil((to - from) / width))
	s := make([]sector, n)
	for i := range s {
		s[i] = sector{
			from:   from + (to-from)*float64(i)/float64(n),
			to:     from + (to-from)*float64(i+1)/float64(n),
			wanted: wanted,
		}
	}
	return s
}
