package sheet

import (
	"cmp"
	"slices"

	"armwright/export/sheet/boxes"

	"gonum.org/v1/gonum/spatial/r2"
)

// leastSpare is how long on paper, mm, a view to look at is at least: smaller it tells
// nothing.
const leastSpare = 45.0

// grown gives the room that an arrangement leaves to its free views: the one that is
// smallest on paper takes the next larger scale as long as everything still fits, none
// beyond full size. Sheets of many views that have nothing to do with each other, and
// views with a scale of their own, stay as they are.
func (s *Sheet) grown(a *arrangement, lay layouts) *arrangement {
	all, bodies := Scales(), lay.bodies
	full := slices.Index(all, Scale{1, 1})
	var free []int
	for i, v := range s.Views {
		if v.Position == Free && v.Scale == (Scale{}) && !v.Spare && !v.NotToScale && !boxes.IsEmpty(bodies[i]) && !s.Dense {
			free = append(free, i)
		}
	}
	area := func(i int) float64 {
		w, h := boxes.Size(bodies[i])
		return w * h * a.scales[i].Factor() * a.scales[i].Factor()
	}
	for len(free) > 0 {
		i := slices.MinFunc(free, func(i, k int) int { return cmp.Compare(area(i), area(k)) })
		var larger *arrangement
		if k := slices.Index(all, a.scales[i]); k > full {
			scales := slices.Clone(a.scales)
			if scales[i] = all[k-1]; !s.hopeless(bodies, scales) {
				larger = s.at(scales, lay)
			}
		}
		if larger == nil {
			free = slices.DeleteFunc(free, func(k int) bool { return k == i })
			continue
		}
		a = larger
	}
	for i, v := range s.Views {
		if !v.Pictorial || v.Position != Free || v.Scale != (Scale{}) {
			continue
		}
		for _, scale := range intermediate() {
			if scale.Factor() <= a.scales[i].Factor() {
				break
			}
			scales := slices.Clone(a.scales)
			if scales[i] = scale; s.hopeless(bodies, scales) {
				continue
			}
			if larger := s.at(scales, lay); larger != nil {
				a = larger
				break
			}
		}
	}
	return a
}

// spare draws the views to look at where the others leave room, at the largest scale at
// which there is some.
func (s *Sheet) spare(a *arrangement, lay layouts) {
	all, main := Scales(), s.mainScale(a.scales)
	for i, v := range s.Views {
		if !v.Spare {
			continue
		}
		w, h := boxes.Size(lay.bodies[i])
		for k := max(slices.Index(all, Scale{1, 1}), slices.Index(all, main)); k < len(all) && max(w, h)*all[k].Factor() >= leastSpare; k++ {
			laid := lay.view(i, all[k], main)
			if by, ok := a.floor.Put(boxes.Cluster{Boxes: []r2.Box{laid.extent}}, blockGap, a.floor.Airy); ok {
				a.views[i], a.scales[i], a.at[i] = laid, all[k], by
				break
			}
		}
	}
}

// smallest returns the sheet, and what is on it, on the smallest of the sizes
// that it may have without any change of scale or lettering.
func (s *Sheet) smallest(a *arrangement, lay layouts) (*Sheet, *arrangement) {
	for _, size := range s.Smaller {
		t := *s
		t.Size = size
		if t.lettering() != s.lettering() {
			continue
		}
		if b := t.pack(a.views, a.scales, lay); b != nil {
			return &t, b
		}
	}
	return s, a
}
