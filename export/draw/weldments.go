package draw

import (
	"armwright/export/draw/weldment"
	"armwright/export/hidden"
	"armwright/export/sheet"
)

// weldments are sheets 1xx.
func (d *drafter) weldments() []named {
	w := &weldment.Drawer{
		Assembly: d.a, Item: d.item, Units: d.units,
		Body: func(part int) hidden.Body {
			return d.bodies([]int{part}, d.reference(), sheet.Visible, true)[0]
		},
		Blank: func(title, kind string) sheet.Sheet {
			return d.sheet(small, shortened(title, titleLength), kind)
		},
	}
	var out []named
	list := weldment.Find(d.a)
	for i := range list {
		out = append(out, named{list[i].Number, list[i].ID, w.Sheet(&list[i])})
	}
	return out
}
