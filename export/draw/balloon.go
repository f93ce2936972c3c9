package draw

import (
	"armwright/export/hidden"
	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// shown is a scene in a view.
type shown struct {
	*hidden.Scene
	view *sheet.View
}

// show is a view of bodies.
func show(title string, position sheet.Position, bodies []hidden.Body, c hidden.Camera) (sheet.View, shown) {
	s := hidden.NewScene(bodies, c)
	v := sheet.View{Title: title, Position: position, Entities: s.Lines()}
	return v, shown{Scene: s}
}

// pictorial shows what a sheet is about as it looks, where the sheet has room for it.
func pictorial(bodies []hidden.Body) sheet.View {
	return sheet.View{Title: "Axonometric view", Spare: true, Entities: hidden.NewScene(bodies, hidden.Axonometric()).Lines()}
}

// balloons points at one body of each item, in the view where most of it can be seen.
// Items that have one on another sheet are left out.
func (d *drafter) balloons(views ...shown) {
	const apart = 6.0 // mm of paper at 1:1, between dots
	var dots [][]r2.Vec = make([][]r2.Vec, len(views))
	done := map[string]bool{"": true}
	for i := range views[0].Bodies {
		item := views[0].Bodies[i].Item
		if done[item] || d.ballooned[item] {
			continue
		}
		view, most := -1, 0
		var spot r2.Vec
		for k := range views {
			spots := views[k].Spots(i)
			if len(spots) <= most {
				continue
			}
			for _, q := range spots {
				near := false
				for _, o := range dots[k] {
					near = near || r2.Norm(r2.Sub(q, o)) < apart
				}
				if !near {
					view, most, spot = k, len(spots), q
					break
				}
			}
		}
		if view < 0 {
			continue
		}
		done[item], d.ballooned[item] = true, true
		dots[view] = append(dots[view], spot)
		views[view].view.Entities = append(views[view].view.Entities, sheet.Balloon{At: spot, Item: item})
	}
}

// itemOf is the number of an item in the parts list, "" without one.
func (d *drafter) itemOf(id string) string {
	for i := range d.list {
		if d.list[i].ID == id && len(d.list[i].Parts) > 0 {
			return d.item[d.list[i].Parts[0]]
		}
	}
	return ""
}
