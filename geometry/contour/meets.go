package contour

// Meets reports whether two paths cross or touch. One that lies inside the other
// does not meet it.
func (p Path) Meets(q Path) bool {
	for i := range p.Len() {
		a := p.Element(i)
		for j := range q.Len() {
			b := q.Element(j)
			for _, e := range [...]struct{ on, of Element }{{a, b}, {b, a}} {
				if e.on.Distance(e.of.Start) < coincident || e.on.Distance(e.of.End) < coincident {
					return true
				}
			}
			at, n := intersections(a, b)
			for _, x := range at[:n] {
				if a.holds(x) && b.holds(x) {
					return true
				}
			}
		}
	}
	return false
}
