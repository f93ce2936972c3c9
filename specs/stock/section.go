package stock

import "math"

// Section is a rectangular hollow section. X is its strong axis, about which
// it bends upright: parallel to B.
type Section struct {
	Name     string
	B, H, T  float64 // outside width and height H >= B, wall, mm
	Full     float64 // wall as rolled, which T falls short of where strength is reckoned with less, mm
	Mass     float64 // kg/m
	Area     float64 // mm²
	Ix, Iy   float64 // second moments of area, mm⁴
	Wx, Wy   float64 // elastic section moduli, mm³
	Wpx, Wpy float64 // plastic section moduli, mm³
	It       float64 // torsion constant, mm⁴
	Source   string
	Mark     string
}

func (s Section) name() string { return s.Name }

// Square reports whether the section is as wide as it is high, so that it does not
// matter which way it lies.
func (s Section) Square() bool { return s.B == s.H }

// Corner returns the outer radius of the corners, mm: twice the wall (EN 10219-2
// 6.7 for walls to 6 mm, M).
func (s Section) Corner() float64 { return 2 * s.Full }

// hollow returns the properties of a rectangular hollow section with outer and
// inner corner radii, by the formulas of EN 10219-2 annex B (M; they reproduce
// printed tables to the last digit).
func hollow(b, h, t, outer, inner float64) Section {
	bi, hi := b-2*t, h-2*t
	area := 2*t*(b+h-2*t) - (4-math.Pi)*(outer*outer-inner*inner)
	s := Section{B: b, H: h, T: t, Full: t, Area: area, Mass: area * perMetre * steelMass}
	s.Ix = b*h*h*h/12 - bi*hi*hi*hi/12 - corners(outer, h) + corners(inner, hi)
	s.Iy = h*b*b*b/12 - hi*bi*bi*bi/12 - corners(outer, b) + corners(inner, bi)
	s.Wx, s.Wy = 2*s.Ix/h, 2*s.Iy/b
	s.Wpx = b*h*h/4 - bi*hi*hi/4 - cornersFirst(outer, h) + cornersFirst(inner, hi)
	s.Wpy = h*b*b/4 - hi*bi*bi/4 - cornersFirst(outer, b) + cornersFirst(inner, bi)

	middle := (outer + inner) / 2
	perimeter := 2*((b-t)+(h-t)) - 2*middle*(4-math.Pi)
	enclosed := (b-t)*(h-t) - middle*middle*(4-math.Pi)
	s.It = t*t*t*perimeter/3 + 4*enclosed*enclosed*t/perimeter
	return s
}

// spandrel returns area, distance of the centroid from the square corner and
// second moment about the centroid of what rounding a corner to radius r takes
// away.
func spandrel(r float64) (area, centroid, second float64) {
	area = (1 - math.Pi/4) * r * r
	centroid = r * (10 - 3*math.Pi) / (12 - 3*math.Pi)
	second = r * r * r * r * (1.0/3 - math.Pi/16 - 1/(3*(12-3*math.Pi)))
	return area, centroid, second
}

// corners returns the second moment of four rounded-off corners about the
// middle of a rectangle of the given height.
func corners(r, height float64) float64 {
	area, centroid, second := spandrel(r)
	d := height/2 - centroid
	return 4 * (second + area*d*d)
}

// cornersFirst returns their first moment, all counted positive.
func cornersFirst(r, height float64) float64 {
	area, centroid, _ := spandrel(r)
	return 4 * area * (height/2 - centroid)
}
