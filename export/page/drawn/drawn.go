// Package drawn draws a station's views in lines for the page. It stands apart from the
// page, so that a browser need not load what draws before it is asked for.
package drawn

import (
	"bytes"

	"armwright/export/draw"
	"armwright/export/page"
	"armwright/export/svg"
	"armwright/solver"
)

// Views are the views that [draw.Pictures] draws, as SVG.
func Views(r *solver.Result) ([]page.Picture, error) {
	all, err := draw.Pictures(r)
	if err != nil {
		return nil, err
	}
	var out []page.Picture
	for _, q := range all {
		var b bytes.Buffer
		if err := (svg.Renderer{}).Render(&b, q.Drawing); err != nil {
			return nil, err
		}
		out = append(out, page.Picture{Name: q.Name, Title: q.Drawing.Title, SVG: b.String()})
	}
	return out, nil
}
