package draw

import "armwright/export/sheet"

func (d *drafter) camSheet() sheet.Sheet { return d.sheet(small, "Cam", "Detail drawing") }
