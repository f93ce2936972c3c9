package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// edge is the side a dimension stands on.
func (d Dimension) edge() Side {
	switch d.Kind {
	case Horizontal, OrdinateX:
		if d.Side == Above {
			return Above
		}
		return Below
	case Vertical, OrdinateY:
		if d.Side == Rightward {
			return Rightward
		}
		return Leftward
	}
	return Auto
}

// stacked is a linear dimension with the distance of its dimension line from
// the outline.
type stacked struct {
	d      Dimension
	side   Side
	offset float64
}

// pitch is the distance between parallel dimension lines.
func (l *viewLayout) pitch() float64 { return math.Max(leastPitch, 1.4*l.height+ExtensionPast+textGap) }

// stack gives the linear dimensions at one side their distances: the shortest
// nearest to the outline, each on the first line where it is free.
func (l *viewLayout) stack(all []Dimension, side Side, from float64) []stacked {
	type span struct{ lo, hi float64 }
	var own []Dimension
	var out []stacked
	measured := func(d Dimension) span {
		a, b := l.paper(d.A), l.paper(d.B)
		if d.Kind == Horizontal {
			return span{math.Min(a.X, b.X), math.Max(a.X, b.X)}
		}
		return span{math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)}
	}
	for _, d := range all {
		if (d.Kind != Horizontal && d.Kind != Vertical) || d.edge() != side {
			continue
		}
		if d.Offset != 0 {
			out = append(out, stacked{d, side, d.Offset})
			continue
		}
		own = append(own, d)
	}
	slices.SortStableFunc(own, func(a, b Dimension) int {
		sa, sb := measured(a), measured(b)
		switch la, lb := sa.hi-sa.lo, sb.hi-sb.lo; {
		case la < lb-1e-9:
			return -1
		case la > lb+1e-9:
			return 1
		case sa.lo < sb.lo-1e-9:
			return -1
		case sa.lo > sb.lo+1e-9:
			return 1
		}
		return 0
	})
	var levels [][]span
	for _, d := range own {
		s := measured(d)
		if w := TextWidth(d.Text(l.units), l.height); !fits(s.hi-s.lo, w) {
			s.lo, s.hi = s.lo-tailLength, s.hi+tailLength+w+2
		}
		at := 0
		for k, level := range levels {
			free := !slices.ContainsFunc(level, func(o span) bool { return s.lo < o.hi-0.01 && o.lo < s.hi-0.01 })
			if free {
				at = k
				break
			}
			at = k + 1
		}
		if at == len(levels) {
			levels = append(levels, nil)
		}
		levels[at] = append(levels[at], s)
		out = append(out, stacked{d, side, from + float64(at)*l.pitch()})
	}
	return out
}

// atEdge draws a stacked dimension.
func (l *viewLayout) atEdge(s stacked) exploded {
	body := l.out.body
	dir, at := r2.Vec{X: 1}, body.Min
	switch s.side {
	case Below:
		at.Y -= s.offset
	case Above:
		at.Y = body.Max.Y + s.offset
	case Leftward:
		dir = r2.Vec{Y: 1}
		at.X -= s.offset
	case Rightward:
		dir = r2.Vec{Y: 1}
		at.X = body.Max.X + s.offset
	}
	return linear(l.past(s, s.d.A), l.past(s, s.d.B), dir, at, s.d.Text(l.units), l.height)
}

// past is where the extension line of a dimension at an edge begins: at its point, or
// past the value of an ordinate that stands in the way.
func (l *viewLayout) past(s stacked, end r2.Vec) r2.Vec {
	p := l.paper(end)
	for _, v := range l.values {
		if v.side != s.side {
			continue
		}
		b := v.box
		upright := s.side == Below || s.side == Above
		if upright && (p.X < b.Min.X-sideGap || p.X > b.Max.X+sideGap) || !upright && (p.Y < b.Min.Y-sideGap || p.Y > b.Max.Y+sideGap) {
			continue
		}
		switch s.side {
		case Below:
			p.Y = min(p.Y, b.Min.Y)
		case Above:
			p.Y = max(p.Y, b.Max.Y)
		case Leftward:
			p.X = min(p.X, b.Min.X)
		case Rightward:
			p.X = max(p.X, b.Max.X)
		}
	}
	return p
}

// valueAt is the value of an ordinate at a side of the view.
type valueAt struct {
	side Side
	box  r2.Box
}

// ordinates draws the ordinate dimensions at one side, spread so that their
// values do not touch, and gives the distance from the outline at which linear
// dimensions may start.
func (l *viewLayout) ordinates(all []Dimension, side Side) float64 {
	var own []Dimension
	for _, d := range all {
		if (d.Kind == OrdinateX || d.Kind == OrdinateY) && d.edge() == side {
			own = append(own, d)
		}
	}
	if len(own) == 0 {
		return firstOffset
	}
	// Work with x running along the edge and y outward from the outline.
	out, run := r2.Vec{Y: -1}, r2.Vec{X: 1}
	edge := -l.out.body.Min.Y
	switch side {
	case Above:
		out, edge = r2.Vec{Y: 1}, l.out.body.Max.Y
	case Leftward:
		out, run, edge = r2.Vec{X: -1}, r2.Vec{Y: 1}, -l.out.body.Min.X
	case Rightward:
		out, run, edge = r2.Vec{X: 1}, r2.Vec{Y: 1}, l.out.body.Max.X
	}
	at := func(x, y float64) r2.Vec { return r2.Add(r2.Scale(x, run), r2.Scale(edge+y, out)) }
	position := func(d Dimension) float64 { return r2.Dot(l.paper(d.B), run) }
	slices.SortStableFunc(own, func(a, b Dimension) int {
		switch xa, xb := position(a), position(b); {
		case xa < xb:
			return -1
		case xa > xb:
			return 1
		}
		return 0
	})
	xs := make([]float64, len(own))
	for i, d := range own {
		xs[i] = position(d)
	}
	placed := spread(xs, 1.5*l.height)
	widest := 0.0
	for _, d := range own {
		widest = math.Max(widest, TextWidth(d.Text(l.units), l.height))
	}
	angle := readable(math.Atan2(out.Y, out.X))
	value := func(i int, offset float64) Label {
		text := own[i].Text(l.units)
		return centred(along(at(placed[i], offset), out, 1+TextWidth(text, l.height)/2), text, l.height, angle)
	}
	// The values stand in one row, as near as nothing runs through them.
	offset := firstOffset
	for ; offset < firstOffset+40; offset += 2 {
		hit := 0.0
		for i := range own {
			hit += l.drawn.onLines(value(i, offset).block())
		}
		if hit == 0 {
			break
		}
	}
	for i, d := range own {
		// Straight out of the outline, across to the spread place, and out.
		line := []r2.Vec{along(l.paper(d.B), out, ExtensionGap)}
		if math.Abs(placed[i]-xs[i]) > 1e-9 {
			line = append(line, at(xs[i], 3), at(placed[i], firstOffset-3))
		}
		end := at(placed[i], offset)
		prims := []Primitive{dimLine(append(line, end)...), value(i, offset)}
		l.place(d, PlacedDimension{Line: end, Direction: math.Atan2(run.Y, run.X)}, prims, nil)
		l.values = append(l.values, valueAt{side, value(i, offset).block().box()})
	}
	return offset + widest + 5
}
