package schedule

import (
	"strconv"

	"armwright/export/sheet"
)

// Parts is the parts list.
func (l *Lists) Parts() sheet.Table {
	u := l.reads()
	weigh := func(kg float64, decimals int) string { return strconv.FormatFloat(u.In(kg, "kg"), 'f', decimals, 64) }
	t := sheet.Table{Title: "Parts", Columns: sheet.Columns("Item", "Qty", "<Part", "<Stock", ">Length "+l.unit(),
		">Mass "+u.Symbol("kg"), ">Total "+u.Symbol("kg"), "<Ends", "Drawn on")}
	total, beside := 0.0, 0.0
	for _, p := range l.List {
		length, mass, sum := "", "", ""
		if p.Length > 0 {
			length = l.Units.Figure(p.Length)
		}
		if p.Mass > 0 {
			mass = weigh(p.Mass, 2)
			sum = weigh(p.Mass*float64(p.Count), 1)
			total += p.Mass * float64(p.Count)
		}
		if f := p.Fastener; f != nil && f.Mass > 0 {
			mass, sum = weigh(f.Mass, 3), weigh(f.Mass*float64(p.Count), 2)
			beside += f.Mass * float64(p.Count)
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(p.Item), strconv.Itoa(p.Count), p.Title, p.Stock, length, mass, sum, p.Ends, l.DrawnOn[p.Item]})
	}
	t.Rows = append(t.Rows, []string{"", "", "Parts together, as balanced", "", "", "", weigh(total, 1), ""},
		[]string{"", "", "Screws, nuts, washers and keys beside", "", "", "", weigh(beside, 1), ""})
	return t
}
