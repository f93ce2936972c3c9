package assembly

import "armwright/geometry/solid"

// Welded returns the parts of which count is true as sets that welds between them make one
// piece, a part that is welded to none by itself; the parts of a set in their order, the
// sets in that of their first parts.
func (a *Assembly) Welded(count func(part int) bool) [][]int {
	root := make([]int, len(a.Parts))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		if j.Kind == Weld && count(j.A) && count(j.B) {
			p, q := find(j.A), find(j.B)
			root[max(p, q)] = min(p, q)
		}
	}
	var out [][]int
	of := make([]int, len(a.Parts)) // set of each part that is a root
	for i := range a.Parts {
		if !count(i) {
			continue
		}
		r := find(i) // never after i
		if r == i {
			of[i] = len(out)
			out = append(out, nil)
		}
		out[of[r]] = append(out[of[r]], i)
	}
	return out
}

// Round reports whether the part looks alike from all sides of its own z.
func (p *Part) Round() bool {
	s, ok := p.Solid.(solid.Prism)
	if !ok {
		return true
	}
	_, _, round := s.Profile.Outer().Round()
	return round
}
