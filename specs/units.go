package specs

import (
	"math"
	"strconv"
	"strings"

	"armwright/specs/stock"
)

// Units are those in which texts, tables and plots tell people the figures of a
// station. Files that programs read, frames among them, are metric always.
type Units string

// The units. Metric is millimetre, kilogram, newton and newton metre; InchPound
// is inch, pound, pound-force and pound-force foot.
const (
	Metric    Units = "metric"
	InchPound Units = "inch-pound"
)

// Reads returns the units of whoever reads the sheets: those of the sheets
// themselves, and the masses and forces that go with them.
func (d Drawing) Reads() Units {
	if d.Units == "mm" {
		return Metric
	}
	return InchPound
}

// Screws is the system of threads of a shop that works from the sheets.
func (d Drawing) Screws() stock.Screws {
	if d.Reads() == Metric {
		return stock.MetricCoarse
	}
	return stock.UnifiedCoarse
}

// customary is the inch-pound unit for a metric one, the metric size of it, and
// the decimals that come to about the precision of the metric figure.
type customary struct {
	symbol   string
	size     float64
	decimals int
}

// customaryOf knows the sizes of unitsOf; for other units it returns false.
func customaryOf(unit string) (customary, bool) {
	const inch, pound, force = 25.4, 0.45359237, 4.4482216152605
	switch unit {
	case "mm":
		return customary{"in", inch, 2}, true
	case "kg":
		return customary{"lb", pound, 1}, true
	case "N":
		return customary{"lbf", force, 1}, true
	case "N·m", "N m":
		return customary{"lbf·ft", force * 12 * inch / 1000, 1}, true
	case "J":
		return customary{"ft·lbf", force * 12 * inch / 1000, 1}, true
	case "kg/m":
		return customary{"lb/ft", pound / (12 * inch / 1000), 2}, true
	case "N/mm²":
		return customary{"ksi", 1000 * force / (inch * inch), 1}, true
	}
	return customary{}, false
}

// In turns a value in a metric unit, as mm, kg, N, N·m, J, kg/m or N/mm², into
// these units. Any other unit, as deg, % or none, stays as it is.
func (u Units) In(x float64, unit string) float64 {
	if c, ok := customaryOf(unit); ok && u == InchPound {
		return x / c.size
	}
	return x
}

// Symbol is the unit that In turns a metric unit into.
func (u Units) Symbol(unit string) string {
	if c, ok := customaryOf(unit); ok && u == InchPound {
		return c.symbol
	}
	return unit
}

// Figure writes a finite value in a metric unit for people: one decimal of
// millimetres and degrees, two of inches, and more where that would round a
// difference away.
func (u Units) Figure(x float64, unit string) string {
	return withUnit(u.Number(x, unit), u.Symbol(unit))
}

// Number is Figure without the unit, where a column's head names it.
func (u Units) Number(x float64, unit string) string {
	const most = 4
	n := u.decimals(unit)
	x = u.In(x, unit)
	for ; n < most && x != 0 && math.Abs(x) < 0.5*math.Pow10(-n); n++ {
	}
	return fixed(x, n)
}

// Size writes a size to buy or to set for people, without needless zeros: 60 mm,
// 1.875 in, 150 kg.
func (u Units) Size(x float64, unit string) string {
	return withUnit(u.Whole(x, unit), u.Symbol(unit))
}

// Whole is Size without the unit.
func (u Units) Whole(x float64, unit string) string {
	n := 0
	switch {
	case unit == "mm" && u == InchPound:
		n = 3
	case unit == "mm":
		n = 1
	}
	s := fixed(u.In(x, unit), n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func (u Units) decimals(unit string) int {
	if c, ok := customaryOf(unit); ok && u == InchPound {
		return c.decimals
	}
	if unit == "mm" || unit == "deg" {
		return 1
	}
	return 2
}

// fixed has n decimals and no negative zero.
func fixed(x float64, n int) string {
	p := math.Pow10(n)
	return strconv.FormatFloat(math.Round(x*p)/p+0, 'f', n, 64)
}

func withUnit(number, symbol string) string {
	if symbol == "" {
		return number
	}
	return number + " " + symbol
}
