package sheet

import (
	"fmt"
	"math"
	"slices"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// layouts are the pieces of a sheet, each drawn but once however often places are sought
// for them. View draws a view at a scale beside the main one; one without a scale stays out.
type layouts struct {
	view   func(view int, scale, main Scale) laidView
	bodies []r2.Box            // extents of the views' geometry, model mm
	tables map[[2]int]drawnBox // by table and number of parts; the notes by -1
}

// drawnBox is a table, or the notes, with the box round it.
type drawnBox struct {
	prims []Primitive
	box   r2.Box
}

func (s *Sheet) layouts(bodies []r2.Box) layouts {
	return layouts{view: s.views(), bodies: bodies, tables: map[[2]int]drawnBox{}}
}

// table draws a table in a number of parts.
func (l layouts) table(s *Sheet, i, parts int) drawnBox {
	return l.drawn([2]int{i, parts}, func() []Primitive { return s.Tables[i].draw(parts) })
}

func (l layouts) notes(s *Sheet) drawnBox {
	return l.drawn([2]int{-1}, func() []Primitive { return drawNotes(s.Notes) })
}

func (l layouts) drawn(key [2]int, draw func() []Primitive) drawnBox {
	d, ok := l.tables[key]
	if !ok {
		d.prims = draw()
		d.box = boxOf(d.prims)
		l.tables[key] = d
	}
	return d
}

func (s *Sheet) views() func(view int, scale, main Scale) laidView {
	type key struct {
		view    int
		scale   Scale
		caption string
	}
	cache := map[key]laidView{}
	return func(i int, scale, main Scale) laidView {
		if scale == (Scale{}) {
			return laidView{extent: boxes.Empty(), body: boxes.Empty()}
		}
		v := s.Views[i]
		caption := v.Title
		if !v.NotToScale && scale != main {
			if caption != "" {
				caption += " "
			}
			caption += "(" + scale.String() + ")"
		}
		k := key{i, scale, caption}
		laid, ok := cache[k]
		if !ok {
			laid = v.layOut(scale, s.Units, s.lettering(), caption)
			cache[k] = laid
		}
		return laid
	}
}

// at draws the views at given scales and packs them; nil where they do not fit.
func (s *Sheet) at(scales []Scale, lay layouts) *arrangement {
	main := s.mainScale(scales)
	views := make([]laidView, len(s.Views))
	for i := range views {
		views[i] = lay.view(i, scales[i], main)
	}
	return s.pack(views, scales, lay)
}

// bodies are the extents of the views' geometry, model mm.
func (s *Sheet) bodies() []r2.Box {
	out := make([]r2.Box, len(s.Views))
	for i, v := range s.Views {
		out[i] = v.body()
	}
	return out
}

// arrange finds scales and places. It tries the recommended scales from the
// largest down; free views may be up to two steps smaller than the main one
// before that gives way.
func (s *Sheet) arrange(lay layouts) (*arrangement, error) {
	all := Scales()
	bodies := lay.bodies
	tried := map[string]bool{}
	for m := range all {
		for step := 0; step <= 2; step++ {
			scales := s.scales(all[m], all[min(m+step, len(all)-1)])
			if id := fmt.Sprint(scales); tried[id] {
				continue
			} else {
				tried[id] = true
			}
			if s.hopeless(bodies, scales) {
				continue
			}
			if m > 0 && illegible(bodies, scales) {
				break
			}
			if a := s.at(scales, lay); a != nil {
				return a, nil
			}
		}
	}
	return nil, s.fail("the views, tables and notes do not fit on size "+s.Size.String(),
		"take a larger size, or move a view or a table to another sheet")
}

// scales gives each view its scale: its own, or main for the aligned views
// and for all if there are none, or free.
func (s *Sheet) scales(main, free Scale) []Scale {
	aligned := false
	own := Scale{}
	for _, v := range s.Views {
		if v.Position != Free {
			aligned = true
			if v.Scale != (Scale{}) {
				own = v.Scale
			}
		}
	}
	if own != (Scale{}) {
		main = own
	}
	out := make([]Scale, len(s.Views))
	for i, v := range s.Views {
		switch {
		case v.Spare:
		case v.NotToScale:
			out[i] = Scale{1, 1}
		case v.Position != Free:
			out[i] = main
		case v.Scale != (Scale{}):
			out[i] = v.Scale
		case aligned:
			out[i] = free
		default:
			out[i] = main
		}
	}
	return out
}

// hopeless tells at little expense that the bare geometry of a view is larger
// than the drawing space at its scale.
func (s *Sheet) hopeless(bodies []r2.Box, scales []Scale) bool {
	_, _, w, h := s.Size.Space()
	for i, body := range bodies {
		if scales[i] == (Scale{}) || boxes.IsEmpty(body) {
			continue
		}
		bw, bh := boxes.Size(body)
		if f := scales[i].Factor(); bw*f > w || bh*f > h {
			return true
		}
	}
	return false
}

// illegible tells that all geometry has shrunk to a spot.
func illegible(bodies []r2.Box, scales []Scale) bool {
	const spot = 8.0 // mm
	any := false
	for i, body := range bodies {
		if boxes.IsEmpty(body) || scales[i] == (Scale{}) {
			continue
		}
		any = true
		if w, h := boxes.Size(body); math.Max(w, h)*scales[i].Factor() >= spot {
			return false
		}
	}
	return any
}

// pack places everything at given scales, or returns nil if it does not fit.
func (s *Sheet) pack(views []laidView, scales []Scale, lay layouts) *arrangement {
	x, y, w, h := s.Size.Space()
	room := r2.Box{
		Min: r2.Vec{X: x + frameGap, Y: y + frameGap},
		Max: r2.Vec{X: x + w - frameGap, Y: y + h - frameGap},
	}
	title := r2.Box{
		Min: r2.Vec{X: x + w - TitleBlockWidth, Y: y},
		Max: r2.Vec{X: x + w, Y: y + stackHeight},
	}
	taken := append(s.Size.marks(), title)
	for _, corner := range [...][2]float64{{1, -1}, {-1, -1}, {1, 1}, {-1, 1}} {
		f := &boxes.Floor{Room: room, Taken: slices.Clone(taken)}
		a := &arrangement{views: views, scales: scales, at: make([]r2.Vec, len(views)), floor: f}
		if s.packTables(f, a, lay, f.Corner(corner[0], corner[1])) && s.packViews(f, a) {
			return a
		}
	}
	f := &boxes.Floor{Room: room, Taken: slices.Clone(taken)}
	a := &arrangement{views: views, scales: scales, at: make([]r2.Vec, len(views)), floor: f}
	if s.packViews(f, a) && s.packTables(f, a, lay, f.Corner(-1, -1)) {
		return a
	}
	return nil
}

func (s *Sheet) packViews(f *boxes.Floor, a *arrangement) bool {
	aligned := map[Position]laidView{}
	for i, v := range s.Views {
		if v.Position != Free {
			aligned[v.Position] = a.views[i]
		}
	}
	if len(aligned) > 0 {
		off := offsets(s.Projection, aligned)
		var c boxes.Cluster
		for i, v := range s.Views {
			if v.Position != Free {
				c.Boxes = append(c.Boxes, boxes.Shift(a.views[i].extent, off[v.Position]))
			}
		}
		by, ok := f.Put(c, blockGap, f.Airy)
		if !ok {
			return false
		}
		for i, v := range s.Views {
			if v.Position != Free {
				a.at[i] = r2.Add(by, off[v.Position])
			}
		}
	}
	for i, v := range s.Views {
		if v.Position != Free || boxes.IsEmpty(a.views[i].extent) {
			continue // one without a scale, too
		}
		cost, gap := f.Airy, blockGap
		if s.Dense {
			cost, gap = f.Corner(-1, 1), denseGap
		}
		by, ok := f.Put(boxes.Cluster{Boxes: []r2.Box{a.views[i].extent}}, gap, cost)
		if !ok {
			return false
		}
		a.at[i] = by
	}
	return true
}

// packTables places tables and notes, each in as few parts as fit.
func (s *Sheet) packTables(f *boxes.Floor, a *arrangement, lay layouts, cost func(r2.Box, float64) float64) bool {
	const mostParts = 8
	put := func(d drawnBox) bool {
		by, ok := f.Put(boxes.Cluster{Boxes: []r2.Box{d.box}}, blockGap, cost)
		if ok {
			a.tables = append(a.tables, placed{d.prims, by})
		}
		return ok
	}
	for i, t := range s.Tables {
		ok := false
		for parts := 1; parts <= mostParts && !ok && parts <= max(1, len(t.Rows)); parts++ {
			ok = put(lay.table(s, i, parts))
		}
		if !ok {
			return false
		}
	}
	return len(s.Notes) == 0 || put(lay.notes(s))
}
