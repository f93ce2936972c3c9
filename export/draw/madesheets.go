package draw

import (
	"strconv"

	"armwright/export/draw/made"
	"armwright/export/draw/platework"
	"armwright/export/sheet"
)

// firstMade is the number of the first sheet of made parts.
const firstMade = 201

// madeSheets are the sheets of what the shop makes, from 201 on.
func (d *drafter) madeSheets() ([]named, error) {
	files, err := platework.Paths(d.r)
	if err != nil {
		return nil, err
	}
	w := made.Shop{
		Units: d.units, Files: files,
		Blank: func(title string) sheet.Sheet { return d.sheet(medium, title, "Part drawing") },
	}
	var out []named
	d.drawnOn = map[int]string{}
	for i, s := range w.Sheets(made.Of(d.a, d.list, d.screws())) {
		for _, p := range s.Parts {
			d.drawnOn[p.Item] = strconv.Itoa(firstMade + i)
		}
		out = append(out, named{firstMade + i, s.Slug, s.Sheet})
	}
	return out, nil
}
