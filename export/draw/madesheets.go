package draw

import (
	"path"
	"strconv"
	"strings"

	"armwright/export/draw/made"
	"armwright/export/sheet"
)

// firstMade is the number of the first sheet of made parts.
const firstMade = 201

// madeSheets are the sheets of what the shop makes, from 201 on.
func (d *drafter) madeSheets() ([]named, error) {
	files, err := d.cutNames()
	if err != nil {
		return nil, err
	}
	w := made.Shop{
		Units: d.units, Files: files,
		Blank: func(title string) sheet.Sheet { return d.sheet(medium, title, "Part drawing") },
	}
	var out []named
	d.drawnOn = map[int]string{}
	for i, s := range w.Sheets(made.Of(d.a, d.list)) {
		for _, p := range s.Parts {
			d.drawnOn[p.Item] = strconv.Itoa(firstMade + i)
		}
		out = append(out, named{firstMade + i, s.Slug, s.Sheet})
	}
	return out, nil
}

// cutNames are the cut files of a station by the id of the item that they cut, the
// left one last.
func (d *drafter) cutNames() (map[string][]string, error) {
	drive, err := drivePlates(d.r)
	if err != nil {
		return nil, err
	}
	out := map[string][]string{}
	for _, p := range drive {
		id := strings.TrimSuffix(path.Base(p.path), ".dxf")
		if id == "cam" {
			id = "cam-core"
		}
		out[id] = append(out[id], p.path)
	}
	for _, f := range plateFiles(d.a) {
		out[f.item.ID] = append(out[f.item.ID], "cut/"+f.name+".dxf")
	}
	return out, nil
}
