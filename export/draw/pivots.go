package draw

import "armwright/export/sheet"

func (d *drafter) pivots() sheet.Sheet { return d.sheet(small, "Pivots and axes", "Detail drawing") }
