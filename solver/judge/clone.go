package judge

import "armwright/specs"

// Clone is a geometry that shares nothing with g that may be varied.
func Clone(g *specs.Geometry) *specs.Geometry {
	c := *g
	c.Pivots.Axes = append([]specs.Axis(nil), g.Pivots.Axes...)
	c.Pivots.Swivels = append([]float64(nil), g.Pivots.Swivels...)
	c.Pad, c.Seat, c.Back, c.Base = copied(g.Pad), copied(g.Seat), copied(g.Back), copied(g.Base)
	c.FootPlate, c.ChestPad = copied(g.FootPlate), copied(g.ChestPad)
	c.Cam, c.Lever, c.Linkage = copied(g.Cam), copied(g.Lever), copied(g.Linkage)
	c.Counterweight, c.Eccentric = copied(g.Counterweight), copied(g.Eccentric)
	return &c
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}
