package report

import (
	"math"

	"armwright/export/words"
	"armwright/solver/require"
	"armwright/specs"
)

// Decimals kept: 1e-4 mm, degrees and N·m lie far below what a workshop can
// hold, and below what differs between processors. Directions and shares have
// two more.
const (
	decimals = 4
	fine     = 6
)

const newtonMetre = 1000 // N·mm

// round quantises to a number of decimals, without negative zero. What is not
// finite stays so and is refused when the report is written.
func round(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(x*p)/p + 0
}

// Round quantises a figure in an outside unit to what files hold of it.
func Round(x float64) float64 { return round(x, decimals) }

func mm(x float64) float64     { return round(x, decimals) }
func kg(x float64) float64     { return round(x, decimals) }
func deg(x float64) float64    { return round(x/specs.Degree, decimals) }
func torque(x float64) float64 { return round(x/newtonMetre, decimals) }
func share(x float64) float64  { return round(x, fine) }

// some returns a place that holds x, or nil for what is not finite.
func some(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// each applies a quantisation to a list. The result is never nil, so that an
// empty list is written as one.
func each(list []float64, quantise func(float64) float64) []float64 {
	out := make([]float64, len(list))
	for i, x := range list {
		out[i] = quantise(x)
	}
	return out
}

// named returns nil for an empty text.
func named(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// outside turns a requirement's quantity into its outside unit.
func outside(x float64, u require.Unit) float64 { return round(words.Outside(x, u), decimals) }
