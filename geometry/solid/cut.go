package solid

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// cut returns the stretches that a bore takes out of the prism, in the order of
// its travel.
func (p Prism) cut(b Bore) []stretch {
	at := b.frame()
	var met []meeting
	if b.endways() {
		met = p.endsMet(at)
	} else {
		met = p.sidesMet(at)
	}
	out := make([]stretch, 0, len(met)/2)
	for i := 0; i+1 < len(met); i += 2 {
		s := stretch{at: at, radius: b.Diameter / 2, enter: met[i], out: met[i+1]}
		if b.Depth > 0 {
			end := met[0].along + b.Depth
			if s.enter.along >= end {
				break
			}
			if s.out.along > end {
				s.out = meeting{along: end, loop: atBottom, plane: Flat(end)}
			}
		}
		out = append(out, s)
	}
	return out
}

// endsMet returns where a bore along z meets the two ends.
func (p Prism) endsMet(at Placement) []meeting {
	c := r2.Vec{X: at.Origin.X, Y: at.Origin.Y}
	over := func(e End, loop int) meeting {
		// The end plane is -tilt·(x, y) + z = Z.
		plane := planeOver(at, r3.Vec{X: -e.Tilt.X, Y: -e.Tilt.Y, Z: 1}, e.over(c))
		return meeting{along: plane.Z, loop: loop, plane: plane}
	}
	from, to := over(p.From, atFrom), over(p.To, atTo)
	if from.along > to.along {
		from, to = to, from
	}
	return []meeting{from, to}
}

// sidesMet returns where a bore across z meets the sides, in order. An arc is
// taken for its tangent plane there; Validate refuses it.
func (p Prism) sidesMet(at Placement) []meeting {
	o, d := r2.Vec{X: at.Origin.X, Y: at.Origin.Y}, r2.Vec{X: at.Z.X, Y: at.Z.Y}
	met := make([]meeting, 0, 8)
	for loop := range 1 + len(p.Profile.holes) {
		path := p.Profile.loop(loop)
		for k := range path.Len() {
			e := path.Element(k)
			ts, n := crossings(o, d, e)
			for _, t := range ts[:n] {
				q := r2.Add(o, r2.Scale(t, d))
				normal := r2.Sub(q, e.Centre)
				if !e.IsArc() {
					normal = r2.Sub(e.End, e.Start)
					normal = r2.Vec{X: -normal.Y, Y: normal.X}
				}
				plane := planeOver(at, r3.Vec{X: normal.X, Y: normal.Y}, r3.Vec{X: q.X, Y: q.Y, Z: at.Origin.Z})
				met = append(met, meeting{along: t, loop: loop, element: k, plane: plane})
			}
		}
	}
	slices.SortStableFunc(met, func(a, b meeting) int { return cmp.Compare(a.along, b.along) })
	return met
}
