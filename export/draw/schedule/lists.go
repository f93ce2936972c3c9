// Package schedule makes the tables of sheets 09 and 10: the parts list, what is cut from
// which bar and plate, and how closely all is to be held.
package schedule

import (
	"armwright/export/partlist"
	"armwright/export/sheet"
	"armwright/solver"
	"armwright/solver/tolerance"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Lists is what the tables are made from.
type Lists struct {
	Result  *solver.Result
	List    []partlist.Line
	DrawnOn map[int]string      // number of the sheet on which an item is drawn to be made
	Holds   []tolerance.Holding // held closer than general tolerances; nil on a bench
	Base    *r2.Box             // round the base in the plan, mm; nil on a bench
	Units   sheet.Units
}

func (l *Lists) reads() specs.Units { return l.Result.Frame.Drawing.Reads() }

func (l *Lists) unit() string { return l.Units.Symbol() }

// measure is a length with its unit.
func (l *Lists) measure(mm float64) string { return l.Units.Figure(mm) + " " + l.unit() }
