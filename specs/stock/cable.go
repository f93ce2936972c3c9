package stock

import (
	"fmt"
	"strconv"
)

// CableType is a bare wire rope.
type CableType struct {
	Name         string
	Construction string  // strands x wires
	Diameter     float64 // bare, mm
	Breaking     float64 // minimum breaking load, N
	Mass         float64 // kg/m; 0 where no figure is at hand
	// CriticalRatio and DesirableRatio are tread diameter over rope diameter,
	// below which a sheave or cam must not go and should not go.
	CriticalRatio, DesirableRatio float64
	Source                        string
	Mark                          string
}

func (c CableType) name() string { return c.Name }

// LeastRadius returns the least radius of curvature of the rope's centre line,
// mm, on a sheave or cam that keeps the tread ratio: the tread is the groove's root,
// half a rope inside the centre line.
func (c CableType) LeastRadius(ratio float64) float64 { return (ratio + 1) * c.Diameter / 2 }

// TreadRatio returns the tread ratio D/d of a sheave or cam that bends the rope's centre
// line to a radius, mm: its tread diameter, at the groove's root, over the rope's.
func (c CableType) TreadRatio(radius float64) float64 { return 2*radius/c.Diameter - 1 }

// GrooveRadius returns least and greatest radius of a groove's bottom, mm:
// 0.53 and 0.55 diameters (rope makers' handbooks, S).
func (c CableType) GrooveRadius() (least, greatest float64) {
	return 0.53 * c.Diameter, 0.55 * c.Diameter
}

// GrooveDepth returns the depth of a groove, mm: 1.5 diameters (S).
func (c CableType) GrooveDepth() float64 { return 1.5 * c.Diameter }

// Cable returns the cable with a name of CableNames, as "7x19-4" (mm)
// or "7x19-1/8in", or an *UnknownError.
func Cable(name string) (CableType, error) { return find("cable", name, cables()) }

// CableNames returns the names of the cables, by construction and diameter.
func CableNames() []string { return names(cables()) }

func cables() []CableType {
	var list []CableType
	for _, c := range []struct{ diameter, breaking, mass float64 }{
		{3, 7.8, 3.68}, {3.2, 8.9, 4.2}, {4, 11.2, 6.1}, {5, 17.4, 9.5}, {6, 25.0, 13.7}, {8, 43.9, 24.4},
	} {
		list = append(list, rope("7x19", number(c.diameter), c.diameter, c.breaking*kilonewton, c.mass/100,
			"AS 3569 table, galvanised, grade 2070", "S"))
	}
	for _, c := range []struct {
		size     string
		diameter float64 // in
		breaking float64 // lbf
		mark     string
	}{
		{"3/32", 3.0 / 32, 1000, "M"}, {"1/8", 1.0 / 8, 2000, "S"}, {"5/32", 5.0 / 32, 2800, "M"},
		{"3/16", 3.0 / 16, 4200, "M"}, {"7/32", 7.0 / 32, 5600, "M"}, {"1/4", 1.0 / 4, 7000, "M"},
	} {
		list = append(list, rope("7x19", c.size+"in", c.diameter*inch, c.breaking*pound, 0,
			"MIL-DTL-83420, galvanised", c.mark))
	}
	for _, d := range []float64{2, 2.5, 3, 4, 5, 6} {
		list = append(list, rope("7x7", number(d), d, RopeStrength(steelCore, d, 1770), 0,
			"EN 12385-4 formula, wire-strand core, grade 1770", "M"))
	}
	return list
}

// steelCore is the factor K of a rope of seven-wire strands with wire-strand
// core, EN 12385-4 (M).
const steelCore = 0.359

// RopeStrength returns the minimum breaking load, N, of a rope of diameter d,
// mm, and rope grade, N/mm², with factor k of its construction: EN 12385-4,
// F = k d² R; k is 0.332 for 6x7 with fibre core, 0.359 with steel core, 0.330
// and 0.356 for 6x19 (M).
func RopeStrength(k, d, grade float64) float64 { return k * d * d * grade }

// rope completes a cable by the tread ratios of its construction: strand
// makers' tables (S), 28 and 42 for 7x7, 18 and 24 for 7x19.
func rope(construction, size string, diameter, breaking, mass float64, source, mark string) CableType {
	critical, desirable := 18.0, 24.0
	if construction == "7x7" {
		critical, desirable = 28, 42
	}
	return CableType{
		Name: fmt.Sprintf("%s-%s", construction, size), Construction: construction,
		Diameter: diameter, Breaking: breaking, Mass: mass,
		CriticalRatio: critical, DesirableRatio: desirable, Source: source, Mark: mark,
	}
}

// number writes a size without needless zeros.
func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// BendStrength returns the share of the breaking load left over a bend of the
// given tread ratio D/d, interpolated between ratios 1 and 40 in rope makers'
// tables (S); constant above, falling straight to 0 below.
func BendStrength(ratio float64) float64 {
	return interpolate(ratio, [][2]float64{
		{0, 0}, {1, .50}, {2, .65}, {4, .75}, {6, .79}, {8, .83}, {10, .86}, {15, .89}, {20, .91}, {30, .93}, {40, .95},
	})
}

// interpolate reads a table of increasing x linearly, keeping its end values.
func interpolate(x float64, table [][2]float64) float64 {
	if !(x > table[0][0]) {
		return table[0][1]
	}
	for i := 1; i < len(table); i++ {
		a, b := table[i-1], table[i]
		if x <= b[0] {
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	return table[len(table)-1][1]
}
