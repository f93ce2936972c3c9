package schedule

import (
	"math"
	"slices"
	"strings"

	"armwright/export/sheet"
	"armwright/solver/tolerance"
	"armwright/specs/stock"
)

// closeness is how closely the dimensions of one feature are to be held.
type closeness struct {
	tolerance.Holding
	title, by string
}

// held sums tolerances to hold up by feature, in their order: the closest that is
// to be held, or else the general one of the largest size.
func held(holds []tolerance.Holding) []closeness {
	var list []closeness
	for _, h := range holds {
		if h.Feature == "" {
			continue
		}
		c := closeness{h, featureTitle(h.Dimension), strings.TrimSuffix(h.By, " (M)")}
		if !h.General {
			c.by = "held for " + h.For
		}
		i := slices.IndexFunc(list, func(o closeness) bool { return o.title == c.title })
		switch {
		case i < 0:
			list = append(list, c)
		case c.General && list[i].General && c.Size > list[i].Size, !c.General && (list[i].General || c.To < list[i].To):
			list[i] = c
		}
	}
	return list
}

// featureTitle is the row of the table a dimension belongs to.
func featureTitle(d tolerance.Dimension) string {
	angle := d.Unit == tolerance.Radian
	switch d.Feature {
	case "pivots":
		return "Pivots: height, spacing"
	case "axes":
		return "Pivot axes: toe, cant"
	case "base":
		return "Feet, posts and tower, places"
	case "seat":
		return "Seat: height, fore and aft"
	case "handle":
		return "Handle: from and along the axis"
	case "cam phase":
		return "Cam on its shaft"
	case "guide sheave":
		return "Guide sheave, place"
	case "cam holes":
		return "Hole places of the cam"
	case "back", "pads", "lever":
		name := map[string]string{"back": "Back pad", "pads": "Pads", "lever": "Plate levers"}[d.Feature]
		switch {
		case angle:
			return name + ": angle"
		case d.Feature == "pads":
			return name + ": offset, loaded"
		}
		return name + ": place"
	}
	return strings.ToUpper(d.Feature[:1]) + d.Feature[1:]
}

// Tolerances gives the tolerance of each kind of feature, with the largest
// size it occurs at where it depends on the size.
func (l *Lists) Tolerances() sheet.Table {
	t := sheet.Table{Title: "Tolerances by feature", Columns: sheet.Columns("<Feature", ">Up to "+l.unit(), "<Tolerance", "<By")}
	row := func(feature string, size float64, within, by string) {
		upTo := ""
		if size > 0 {
			upTo = l.Units.Figure(size)
		}
		t.Rows = append(t.Rows, []string{feature, upTo, within, by})
	}
	plus := func(mm float64) string {
		if l.Units != sheet.Millimetres {
			return "±" + l.Units.Figure(mm) + " in"
		}
		return "±" + sheet.Millimetres.Length(mm, 2) + " mm"
	}
	class := l.Result.Frame.Drawing.Tolerance
	longest := 0.0
	for _, p := range l.List {
		if p.Bar != "" {
			longest = math.Max(longest, p.Length)
		}
	}
	if v, err := stock.LinearTolerance(class, longest); err == nil {
		row("Cut lengths of tubes and bars", longest, plus(v), "ISO 2768-"+class)
	}
	side := l.Result.Station.Values.Member.Height
	if v, err := stock.AngularTolerance(class, side); err == nil {
		row("Mitres, by the side of the tube", side, "±"+sheet.Degrees(v, 2)+"°", "ISO 2768-"+class)
	}
	if l.Base != nil {
		b := l.Base
		size := math.Max(b.Max.X-b.Min.X, b.Max.Y-b.Min.Y)
		if v, err := stock.WeldedTolerance(tolerance.WeldedOnSheets, size); err == nil {
			row("Base as welded", size, plus(v), "ISO 13920-"+tolerance.WeldedOnSheets)
		}
	}
	for _, f := range held(l.Holds) {
		within := plus(f.To)
		switch f.Unit {
		case tolerance.Radian:
			within = "±" + sheet.Degrees(f.To, 2) + "°"
		case tolerance.Kilogram:
			continue // weighed, not measured
		}
		by := f.by
		if !Weldable(f.Holding) {
			by += "; set or machine after welding"
		}
		row(f.title, f.Size, within, by)
	}
	row("Seat and handle positions, pitch", 0, plus(0.5), "own choice")
	if l.Result.Frame.Geometry.Cam != nil {
		row("Bore of cam and hub", 0, "H7", "ISO 286")
	}
	row("Edges users touch, rounded", 0, l.measure(2.5)+" at least", "own choice")
	return t
}

// Weldable reports whether welding alone holds what is asked: whether a welded feature may
// be as far off as the finest class of ISO 13920 lets it, or the feature is not welded.
func Weldable(h tolerance.Holding) bool {
	const finest = "A"
	if !strings.HasPrefix(h.By, "ISO 13920") {
		return true
	}
	switch h.Unit {
	case tolerance.Radian:
		const leg = 400 // mm: the length up to which an angle is given
		v, err := stock.WeldedAngle(finest, leg)
		return err != nil || h.To >= v
	case tolerance.Millimetre:
		v, err := stock.WeldedTolerance(finest, math.Max(h.Size, 30))
		return err != nil || h.To >= v
	}
	return true
}
