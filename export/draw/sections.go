package draw

import (
	"armwright/export/draw/section"
	"armwright/export/hidden"
	"armwright/export/partlist"
	"armwright/export/sheet"
	mesh "armwright/export/solid"
	"armwright/geometry/assembly"
	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// cut is a section of parts in the reference pose, in the given order, with a balloon at
// each item that has none yet; a window without size shows all.
func (d *drafter) cut(title string, c hidden.Camera, window r2.Box, screws []section.Screw, ids ...string) (sheet.View, bool) {
	v := sheet.View{Title: title}
	var parts []section.Part
	var met []*assembly.Part
	for _, id := range ids {
		p := d.part(id)
		if p == nil {
			continue
		}
		body, ok := p.Solid.(mesh.Body)
		if !ok {
			continue
		}
		parts = append(parts, section.Part{Body: body, Place: p.Place, Whole: isShaft(p)})
		met = append(met, p)
	}
	faces, err := section.Cut(parts, c)
	if err != nil || len(faces) == 0 {
		return v, false // what cannot be divided cannot be written as a model either, and is told there
	}
	if window == (r2.Box{}) {
		window = section.Extent(faces)
	}
	v.Entities = section.Lines(parts, faces, window, screws...)
	for i := range faces {
		if q := faces[i].Inside(window); q != nil {
			d.balloonAt(&v, met[faces[i].Part], *q)
		}
	}
	return v, true
}

// isShaft tells what lies along a section's plane and is drawn uncut.
func isShaft(p *assembly.Part) bool {
	switch p.Item {
	case "arm-shaft", "countershaft":
		return true
	}
	return false
}

// trace is a section's plane through the origin of a view, along u, over all that an
// outline reaches that way: what stands at its ends lies clear of the outline.
func trace(letter string, outline contour.Path, u, sight r2.Vec) sheet.CuttingPlane {
	back, _ := outline.Support(r2.Scale(-1, u))
	ahead, _ := outline.Support(u)
	return sheet.CuttingPlane{A: r2.Scale(-back, u), B: r2.Scale(ahead, u), Sight: sight, Letter: letter}
}

// hubPlane is the direction in the plane of the cam, at flexion 0, in which the hub is
// cut: through two of its bolts.
func (d *drafter) hubPlane() r2.Vec {
	for _, h := range d.cam.Outline.Holes {
		if h.Name == "bolt" {
			return r2.Unit(h.Centre)
		}
	}
	return r2.Vec{Y: 1}
}

// hubSection cuts cam, hub and shaft along the axis: section A-A of the cam's sheet.
func (d *drafter) hubSection() []sheet.View {
	core, hub := d.part("cam-core-right"), d.part("cam-hub-right")
	if core == nil || hub == nil {
		return nil
	}
	u := d.hubPlane()
	up := core.Place.Vector(r3.Vec{X: u.X, Y: u.Y})
	c := hidden.Camera{Right: core.Place.Z, Up: up, Toward: r3.Cross(core.Place.Z, up), Origin: core.Place.Origin}
	from, to := span(hub, c.Origin, c.Right)
	out := d.cam.Core/2 + d.cam.Cheek
	high := max(d.cam.Plate.BoltCircle/2+14, d.r.Frame.Stock.Shaft/2+22) // from the axis
	const past = 12.0                                                    // of the shaft beyond hub and cam
	v, ok := d.cut("A-A: cam and hub on the shaft, bracket to the left", c, r2.Box{Min: at(from-past, -high), Max: at(out+past, high)}, d.hubScrews(out),
		"cam-core-right", "cam-cheek-inner-right", "cam-cheek-outer-right", "cam-hub-right", "countershaft-right", "arm-shaft-right")
	if !ok {
		return nil
	}
	v.Scale = sheet.Scale{Drawing: 1, Real: 1}
	add := func(e ...sheet.Entity) { v.Entities = append(v.Entities, e...) }
	r := d.cam.Plate.Bore / 2
	add(sheet.CentreLine{A: at(from-past, 0), B: at(out+past, 0)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(from-past, -r), B: at(from-past, r), Prefix: "Ø", Suffix: " H7/h6"},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(from, -high), B: at(to, -high)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(-out, high), B: at(out, high)})
	return []sheet.View{v}
}

// hubScrews are those in the plane of the hub's section, from the outer cheek, so far from
// the cam's middle, through core and cheeks into the hub.
func (d *drafter) hubScrews(out float64) []section.Screw {
	plate := &d.cam.Plate
	hub, ok := d.a.Index("cam-hub-right")
	if !ok || plate.Bolts == 0 {
		return nil
	}
	var list []section.Screw
	for i := range d.a.Joints {
		if j := &d.a.Joints[i]; j.Kind != assembly.Bolts || j.A != hub && j.B != hub {
			continue
		}
		washer := false
		for _, f := range partlist.Fasteners(d.a, []int{i}, d.screws()) {
			washer = washer || f.Kind == "washer"
			nominal := d.a.Joints[i].Detail.Thread
			t, known := d.screws().Thread(nominal)
			if f.Kind != "screw" || !known {
				continue
			}
			for _, y := range [2]float64{-1, 1} {
				list = append(list, section.Screw{Seat: at(out, y*plate.BoltCircle/2), Along: r2.Vec{X: -1}, Thread: t, Core: d.screws().Core(nominal), Length: f.Length, Loose: 2 * out})
			}
		}
		for k := range list {
			list[k].Washer = washer
		}
		if len(list) > 0 {
			break
		}
	}
	return list
}

// bearingSection cuts the right bracket along the pivot axis: how the shaft runs in its
// bearings, and what holds these.
func (d *drafter) bearingSection() []sheet.View {
	cheek := d.part("inner-cheek-right")
	if cheek == nil {
		return nil
	}
	up := cheek.Place.Y // square to the pad: the bracket's sole lies below
	c := hidden.Camera{Right: d.axis, Up: up, Toward: r3.Cross(d.axis, up), Origin: d.pivot}
	low, _ := span(cheek, d.pivot, d.axis)
	_, high := span(d.part("outer-cheek-right"), d.pivot, d.axis)
	const past, reach = 40.0, 64.0
	v, ok := d.cut("B-B: shaft of the arm in its bearings", c, r2.Box{Min: at(low-past, -reach), Max: at(high+past, reach)}, nil,
		"inner-cheek-right", "outer-cheek-right", "pivot-inner-housing-right", "pivot-outer-housing-right", "pivot-inner-insert-right", "pivot-outer-insert-right", "arm-shaft-right")
	if !ok {
		return nil
	}
	v.Scale = sheet.Scale{Drawing: 1, Real: 1}
	r := d.r.Frame.Stock.Shaft / 2
	v.Entities = append(v.Entities, sheet.CentreLine{A: at(low-past, 0), B: at(high+past, 0)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Rightward, A: at(high+past, -r), B: at(high+past, r), Prefix: "Ø", Suffix: " h6"},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(low, -reach), B: at(high, -reach)})
	return []sheet.View{v}
}

// seatSection cuts the seat's post in its sleeve in the plane of symmetry.
func (d *drafter) seatSection() []sheet.View {
	sleeve, post := d.part("seat-sleeve"), d.part("seat-post")
	if sleeve == nil || post == nil {
		return nil
	}
	v, ok := d.cut("Section in the plane of symmetry: seat post in its sleeve", hidden.FromRight(), r2.Box{}, nil, "seat-sleeve", "seat-post", "seat-pin")
	if !ok {
		return nil
	}
	x0, x1 := span(sleeve, r3.Vec{}, r3.Vec{X: 1})
	p0, p1 := span(post, r3.Vec{}, r3.Vec{X: 1})
	z0, z1 := span(sleeve, r3.Vec{}, r3.Vec{Z: 1})
	_, top := span(post, r3.Vec{}, r3.Vec{Z: 1})
	const tall = 200.0 // on paper: half the height of the sheet
	v.Scale = sheet.Fitting(at(x1-x0, top-z0), at(tall, tall), sheet.Scale{Drawing: 1, Real: 2})
	v.Entities = append(v.Entities, sheet.CentreLine{A: at((x0+x1)/2, z0), B: at((x0+x1)/2, top)},
		sheet.Dimension{Kind: sheet.Horizontal, A: at(x0, z0), B: at(x1, z0)},
		sheet.Dimension{Kind: sheet.Horizontal, Side: sheet.Above, A: at(p0, top), B: at(p1, top)},
		sheet.Dimension{Kind: sheet.Vertical, Side: sheet.Leftward, A: at(x0, z0), B: at(x0, z1)})
	return []sheet.View{v}
}
