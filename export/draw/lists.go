package draw

import (
	"armwright/export/draw/schedule"
	"armwright/export/sheet"
)

// lists are the tables of sheets 09 and 10.
func (d *drafter) lists() *schedule.Lists {
	out := &schedule.Lists{Result: d.r, List: d.list, DrawnOn: d.drawnOn, Holds: d.holds, Units: d.units}
	if d.a != nil {
		base := d.base()
		out.Base = &base
	}
	return out
}

// partsSheet is sheet 09: the parts list with cut lengths and mitres.
func (d *drafter) partsSheet() sheet.Sheet {
	s := d.sheet(medium, "Parts list", "Parts list")
	s.Tables = []sheet.Table{d.lists().Parts()}
	s.Notes = []string{
		"Lengths of tubes and rounds are from long point to long point. Masses are of one piece; those of screws, nuts, washers and keys, reckoned from the sizes of their standards, are no part of the balance.",
	}
	return s
}

// cuttingSheet is sheet 10: what is cut from which bar and plate, and how closely all is
// to be held.
func (d *drafter) cuttingSheet() sheet.Sheet {
	l := d.lists()
	s := d.sheet(medium, "Cutting and tolerances", "Cutting plan")
	s.Tables = []sheet.Table{l.Cutting(), l.Plates(), l.Tolerances()}
	s.Notes = []string{
		"The cutting plan takes the longest piece first and puts each into the first bar with room for it and a kerf (first fit decreasing). Of two pieces with the same mitre one is turned end for end, and one oblique cut parts them. Plates and boards are laid in rows by the boxes round their pieces; a nesting program saves more.",
		"Tolerances hold for finished parts; where none is given, the general one in the title block does.",
	}
	return s
}
