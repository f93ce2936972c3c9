// Package words tells the data of the solver in sentences, with figures in the units
// of whoever reads them.
package words

import (
	"fmt"

	"armwright/solver/require"
	"armwright/specs"
)

// Phrase is a phrase with its figures.
func Phrase(p require.Phrase, u specs.Units) string {
	if len(p.Figures) == 0 {
		return p.Words
	}
	figures := make([]any, len(p.Figures))
	for i, f := range p.Figures {
		if f.Measured {
			figures[i] = u.Figure(f.Value, f.Unit)
		} else {
			figures[i] = u.Size(f.Value, f.Unit)
		}
	}
	return fmt.Sprintf(p.Words, figures...)
}

// against tells a value beside the limit that it misses, inside units.
func against(value, limit float64, unit require.Unit, u specs.Units) string {
	figure := func(x float64) string { return u.Figure(Outside(x, unit), Symbol(unit)) }
	return figure(value) + " against " + figure(limit)
}
