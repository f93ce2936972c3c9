package station

import (
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r3"
)

func (b *builder) one(p assembly.Part) assembly.Both { return assembly.One(b.Add(p)) }

// adder adds a part in the middle, or a pair.
type adder func(assembly.Part) assembly.Both

// join joins parts of a pair, or in the middle, or one in the middle with both of a
// pair.
func (b *builder) join(kind assembly.JointKind, p, q assembly.Both, at r3.Vec, d assembly.Detail) {
	if p[0] == p[1] && q[0] == q[1] {
		b.Join(kind, p[0], q[0], at, d)
		return
	}
	b.JoinPair(kind, p, q, at, d)
}

// keyOf is the key of a hub on the pivot shaft.
func (b *builder) keyOf(long float64) assembly.Key {
	k := &b.v.Key
	return assembly.Key{Width: k.Width, Height: k.Height, Length: k.Cut(long)}
}

// tubeWeld is a fillet all round a tube's end.
func (b *builder) tubeWeld(s *values.Section) assembly.Detail {
	return assembly.Detail{Throat: s.Wall, Run: 2 * (s.Height + s.Width)}
}

// cap closes a pair of open tube ends with a plug; its own z runs away from, or
// into, the tube whose end it lies on.
func (b *builder) cap(id, item string, s *values.Section, at solid.Placement, tube assembly.Both, group int) {
	p := assembly.Part{
		ID: id, Item: item, Title: "End cap", Group: group,
		Stock:   assembly.Stock{Form: assembly.Bought, Name: s.Name, Grade: "polyethylene", Size: [3]float64{s.Height, s.Width, s.Wall}},
		Solid:   prism(b.rect(s.Width, s.Height, s.Corner), 0, capThick),
		Place:   at,
		Density: plugDensity,
	}
	touch := at.Point(r3.Vec{})
	if g := b.Parts[tube[0]].Centre; r3.Norm(r3.Sub(at.Point(r3.Vec{Z: capThick}), g)) < r3.Norm(r3.Sub(touch, g)) {
		touch = at.Point(r3.Vec{Z: capThick})
	}
	if tube[0] == tube[1] {
		b.Join(assembly.Fit, b.Add(p), tube[0], touch, assembly.Detail{})
		return
	}
	b.JoinPair(assembly.Fit, b.Pair(p), tube, touch, assembly.Detail{})
}
