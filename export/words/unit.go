package words

import (
	"armwright/solver/require"
	"armwright/specs"
)

// Symbol is the unit that people read a requirement's values in, "" for a plain ratio.
func Symbol(u require.Unit) string {
	switch u {
	case require.Length:
		return "mm"
	case require.Angle:
		return "deg"
	case require.Share:
		return "%"
	}
	return ""
}

// Outside is an inside value in that unit.
func Outside(x float64, u require.Unit) float64 {
	switch u {
	case require.Angle:
		return x / specs.Degree
	case require.Share:
		return 100 * x
	}
	return x
}
