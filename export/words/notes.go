package words

import (
	"fmt"
	"math"

	"armwright/solver"
	"armwright/specs"
)

// Notes are what a result has to say beside its figures: where the drive falls short,
// what the workshop must see to, and how far a conflict was looked into.
func Notes(r *solver.Result) []string {
	u := r.Frame.Drawing.Reads()
	var list []string
	if r.NoStation == nil {
		list = made(r, u)
	}
	switch {
	case r.Starts == 0:
	case len(r.Proofs) > 0:
		list = append(list, "proved infeasible: "+Bound(r.Proofs[0].Bound))
	default:
		list = append(list, fmt.Sprintf("locally infeasible from %d of %d starts", r.Starts, r.Starts))
	}
	if r.Spent > 0 {
		list = append(list, fmt.Sprintf("the conflict was looked into with %d searches; it may be smaller, and other changes may mend it", r.Spent))
	}
	if r.Stopped {
		list = append(list, "the search was stopped before the conflict was looked into")
	}
	return append(list, r.Notes...)
}

// made tells of drive and anchors.
func made(r *solver.Result, u specs.Units) []string {
	var list []string
	asked, d := &r.Frame.Asked.Resistance, &r.Resistance
	if c := r.Frame.Geometry.Cam; c != nil {
		list = append(list, departures(d.Departures, c.Ratio, u)...)
		list = append(list, sheaves(d.Route, asked.Sheaves)...)
		list = append(list, transmission(d.Transmission, u)...)
		list = append(list, hub(&d.Hub, u)...)
	}
	if asked.CurveTable != "" && asked.Curve != specs.CurveTable {
		list = append(list, fmt.Sprintf("resistance.curve_table is not used: resistance.curve is %s; write %s there to follow the table.", asked.Curve, specs.CurveTable))
	}
	if b := &r.Balance; b.Anchored {
		list = append(list, fmt.Sprintf("the station must be anchored to the floor: four anchors, at least %s of pull each by the tilt, and what their maker asks on top", u.Size(math.Ceil(b.AnchorPull), "N")))
	}
	return list
}
