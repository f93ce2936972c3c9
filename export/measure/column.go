package measure

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"armwright/export/dxf"
)

// column reads the figures under a heading of a sheet's table, from the top down,
// in as many parts as the table is broken into, from the left. What is no figure is
// NaN. A column is what stands between the two rules beside its heading, so that
// figures which are swapped with those of another column are those of the other.
func column(d *dxf.Document, heading string) []float64 {
	var figures []float64
	for _, row := range tableRows(d, heading) {
		figures = append(figures, figure(row[0], 1))
	}
	return figures
}

// figure is a number of so many units, NaN of what is none.
func figure(s string, unit float64) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return x * unit
}

// tableRows reads the cells under some headings of a table, row by row, the parts of a
// broken table from the left. What stands under none is empty.
func tableRows(d *dxf.Document, headings ...string) [][]string {
	var texts []dxf.Text
	var rules []dxf.Line
	for _, e := range d.Entities {
		switch e := e.(type) {
		case dxf.Text:
			texts = append(texts, e)
		case dxf.Line:
			if math.Abs(e.A.X-e.B.X) < 2*step {
				rules = append(rules, e)
			}
		}
	}
	var heads []dxf.Text
	for _, t := range texts {
		if t.Value == headings[0] {
			heads = append(heads, t)
		}
	}
	slices.SortFunc(heads, func(a, b dxf.Text) int { return cmp.Compare(a.At.X, b.At.X) })
	var out [][]string
	for _, head := range heads {
		type column struct{ left, right float64 }
		columns := make([]column, len(headings))
		foot := math.Inf(1)
		for i, name := range headings {
			// The nearest of this name to the right in the same row.
			at := math.Inf(1)
			for _, t := range texts {
				if t.Value == name && math.Abs(t.At.Y-head.At.Y) < 2*step && t.At.X >= head.At.X && t.At.X < at {
					at = t.At.X
				}
			}
			c := column{math.Inf(-1), math.Inf(1)}
			for _, r := range rules {
				low, high := min(r.A.Y, r.B.Y), max(r.A.Y, r.B.Y)
				switch {
				case head.At.Y < low || head.At.Y > high:
				case r.A.X < at && r.A.X > c.left:
					c.left, foot = r.A.X, low
				case r.A.X > at && r.A.X < c.right:
					c.right = r.A.X
				}
			}
			columns[i] = c
		}
		under := func(c column, t dxf.Text) bool {
			return c.left < t.At.X && t.At.X < c.right && foot < t.At.Y && t.At.Y < head.At.Y
		}
		var first []dxf.Text
		for _, t := range texts {
			if under(columns[0], t) {
				first = append(first, t)
			}
		}
		slices.SortFunc(first, func(a, b dxf.Text) int { return cmp.Compare(b.At.Y, a.At.Y) })
		for _, f := range first {
			row := make([]string, len(headings))
			for i := range headings {
				for _, t := range texts {
					if math.Abs(t.At.Y-f.At.Y) < 2*step && under(columns[i], t) {
						row[i] = t.Value
					}
				}
			}
			out = append(out, row)
		}
	}
	return out
}
