package page

import (
	"cmp"
	"slices"

	"armwright/export/report"
	"armwright/solver/judge"
)

// column is those of the persons judged for coverage who are of one sex and in one band of
// stature.
type column struct {
	Woman bool    `json:"woman"`
	From  float64 `json:"from"` // stature, in units of the reader
	To    float64 `json:"to"`
	N     int     `json:"n"`
	Fits  int     `json:"fits"`
	Away  []away  `json:"away"` // the others, by what turns away most, most first
}

type away struct {
	ID string `json:"id"`
	N  int    `json:"n"`
}

// columns are the crowd of a report by sex and stature; none where it was not counted.
func columns(r *report.Report) []column {
	var out []column
	for _, c := range r.People.Explorer {
		woman, from, to := c.Sex == "woman", rounded(r.Units.In(c.Stature, "mm")), rounded(r.Units.In(c.Stature+judge.CellStature, "mm"))
		i := slices.IndexFunc(out, func(q column) bool { return q.Woman == woman && q.From == from })
		if i < 0 {
			i = len(out)
			out = append(out, column{Woman: woman, From: from, To: to, Away: []away{}})
		}
		col := &out[i]
		col.N += c.Persons
		col.Fits += c.Fit
		for _, m := range c.Away {
			k := slices.IndexFunc(col.Away, func(q away) bool { return q.ID == m.ID })
			if k < 0 {
				k = len(col.Away)
				col.Away = append(col.Away, away{ID: m.ID})
			}
			col.Away[k].N += m.Count
		}
	}
	for i := range out {
		slices.SortStableFunc(out[i].Away, func(a, b away) int { return cmp.Compare(b.N, a.N) })
	}
	return out
}
