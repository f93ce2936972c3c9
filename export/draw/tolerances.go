package draw

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/specs/stock"
)

// toleranceTable gives the tolerance of each kind of feature, with the largest
// size it occurs at where it depends on the size.
func (d *drafter) toleranceTable() sheet.Table {
	t := sheet.Table{Title: "Tolerances by feature", Columns: columns("<Feature", ">Up to "+d.unit(), "<Tolerance", "<By")}
	row := func(feature string, size float64, tolerance, by string) {
		upTo := ""
		if size > 0 {
			upTo = d.length(size)
		}
		t.Rows = append(t.Rows, []string{feature, upTo, tolerance, by})
	}
	plus := func(mm float64) string {
		if d.units != sheet.Millimetres {
			return "±" + strconv.FormatFloat(mm/25.4, 'f', 3, 64) + " in"
		}
		return "±" + sheet.Millimetres.Length(mm, 2) + " mm"
	}
	class := d.r.Frame.Drawing.Tolerance
	longest := 0.0
	for _, p := range d.r.Parts {
		if sawn(p) {
			longest = math.Max(longest, p.Length)
		}
	}
	if v, err := stock.LinearTolerance(class, longest); err == nil {
		row("Cut lengths of tubes and bars", longest, plus(v), "ISO 2768-"+class)
	}
	side := d.layout.Side
	if v, err := stock.AngularTolerance(class, side); err == nil {
		row("Mitres, by the side of the tube", side, "±"+degrees(v, 2)+"°", "ISO 2768-"+class)
	}
	if b := d.geo.Base; b != nil {
		size := math.Max(b.Front-b.Rear, b.Width)
		if v, err := stock.WeldedTolerance("B", size); err == nil {
			row("Base as welded", size, plus(v), "ISO 13920-B")
		}
	}
	spacing := d.geo.Pivots.Spacing
	row("Pivots: height, spacing", math.Max(spacing, d.geo.Pivots.Height), plus(1), "own choice")
	row("Pivot axes: toe, cant", 0, "±0.25°", "own choice")
	row("Seat and handle positions, pitch", 0, plus(0.5), "own choice")
	if d.cam != nil {
		row("Cam profile", 0, plus(0.1), "own choice")
		row("Bore of cam and hub", 0, "H7", "ISO 286")
		row("Hole places of the cam", 0, plus(0.1), "own choice")
	}
	row("Edges users touch, rounded", 0, d.measure(2.5)+" at least", "own choice")
	return t
}
