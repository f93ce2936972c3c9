package draw

import (
	"slices"
	"sync"

	"armwright/export/draw/platework"
	"armwright/export/sheet"
	"armwright/solver"
	"armwright/solver/tolerance"
)

// sheets lays out the sheets of a station: those that its kind and drive have
// something to show on, in the order of their numbers. The error is that of
// [platework.CamOf] for a cam that cannot be cut. Holds are the dimensions that are to be held
// closer than general tolerances, see [tolerance.HoldsOf]; none are told where it is nil.
func sheets(r *solver.Result, holds []tolerance.Holding) ([]named, error) {
	d := &drafter{machine: newMachine(r), units: sheet.Millimetres, holds: holds, ballooned: map[string]bool{}}
	switch r.Frame.Drawing.Units {
	case "in":
		d.units = sheet.Inches
	case "in-mm":
		d.units = sheet.InchesDual
	}
	if r.Frame.Geometry.Cam != nil {
		c, err := platework.CamOf(r)
		if err != nil {
			return nil, err
		}
		d.cam = &c
	}
	station := d.a != nil
	// Nothing on these sheets rests on the others, nor the others on them.
	var apart sync.WaitGroup
	defer apart.Wait()
	var weldments, steps []named
	if station {
		apart.Go(func() { weldments, steps = d.weldments(), d.erectionSheets() })
	}
	var set []named
	add := func(number int, slug string, s sheet.Sheet) { set = append(set, named{number, slug, s}) }
	if station {
		add(2, "pivots", d.pivots())
	}
	if d.cam != nil {
		add(3, "cam", d.camSheet())
	}
	if r.Frame.Geometry.Linkage != nil {
		add(3, "linkage", d.linkageSheet())
	}
	if station {
		add(4, "arm", d.armSheet())
		add(5, "pads-and-seat", d.padSheet())
		add(6, "base", d.baseSheet())
	}
	add(7, "torque", d.torqueSheet())
	if station && len(r.People.Boundary) > 0 {
		add(8, "people", d.peopleSheet())
	}
	if station {
		makes, err := d.madeSheets()
		if err != nil {
			return nil, err
		}
		add(9, "parts", d.partsSheet())
		add(10, "cutting", d.cuttingSheet())
		// What has no balloon on a sheet of its own has one here.
		set = slices.Insert(set, 0, named{1, "general-arrangement", d.arrangement()})
		apart.Wait()
		set = slices.Concat(set, weldments, makes, steps)
	}
	for i := range set {
		set[i].sheet.TitleBlock.Sheet, set[i].sheet.TitleBlock.Sheets = i+1, len(set)
	}
	return set, nil
}
