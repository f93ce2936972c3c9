package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
)

// valid rejects what cannot be drawn.
func (s *Sheet) valid() error {
	seen := map[Position]bool{}
	for _, v := range s.Views {
		if v.Position != Free && seen[v.Position] {
			return s.fail(fmt.Sprintf("two views in one position (%q is the second)", v.Title), "make one of them Free")
		}
		seen[v.Position] = true
		if v.Scale.Drawing < 0 || v.Scale.Real < 0 || (v.Scale.Drawing == 0) != (v.Scale.Real == 0) {
			return s.fail(fmt.Sprintf("view %q has scale %s", v.Title, v.Scale), "both numbers of a scale are positive")
		}
		for _, e := range v.Entities {
			if !finite(e) {
				return s.fail(fmt.Sprintf("view %q has a %T whose coordinates are not finite", v.Title, e), "check the geometry it is made of")
			}
			if reason, hint := degenerate(e); reason != "" {
				return s.fail(fmt.Sprintf("view %q has %s", v.Title, reason), hint)
			}
		}
	}
	for p := range seen {
		if p != Free && !seen[Front] {
			return s.fail("aligned views without a front view", "give one view the position Front")
		}
	}
	return nil
}

func (s *Sheet) fail(reason, hint string) error {
	return &Error{Sheet: s.TitleBlock.Title, Reason: reason, Hint: hint}
}

// degenerate says what cannot be drawn about an entity, or nothing.
func degenerate(e Entity) (reason, hint string) {
	switch e := e.(type) {
	case Circle:
		if e.Radius <= 0 {
			return "a circle without a radius", "the radius is positive"
		}
	case Arc:
		if e.Radius <= 0 {
			return "an arc without a radius", "the radius is positive"
		}
	case Polyline:
		if len(e.Vertices) < 2 {
			return "a polyline of fewer than two vertices", "leave it out, or give it its end"
		}
	case Hatch:
		if e.Spacing < 0 || (e.Spacing > 0 && e.Spacing < lineGap) {
			return fmt.Sprintf("hatching %g mm apart", e.Spacing), fmt.Sprintf("lines are at least %g mm apart", lineGap)
		}
	case Dimension:
		if (e.Kind == Radius || e.Kind == Diameter) && e.Value() == 0 {
			return "a dimension of a radius of nothing", "B is a point on the arc, A its centre"
		}
	}
	return "", ""
}

// finite reports whether the numbers of an entity are all finite.
func finite(e Entity) bool {
	sum := 0.0
	vec := func(vs ...r2.Vec) {
		for _, v := range vs {
			sum += v.X*0 + v.Y*0
		}
	}
	path := func(vs []Vertex) {
		for _, v := range vs {
			vec(v.Vec)
			sum += v.Bulge * 0
		}
	}
	switch e := e.(type) {
	case Line:
		vec(e.A, e.B)
	case Arc:
		vec(e.Centre, r2.Vec{X: e.Start, Y: e.End})
		sum += e.Radius * 0
	case Circle:
		vec(e.Centre)
		sum += e.Radius * 0
	case Polyline:
		path(e.Vertices)
	case Text:
		vec(e.At, r2.Vec{X: e.Height, Y: e.Rotation})
	case Hatch:
		for _, loop := range e.Loops {
			path(loop)
		}
		vec(r2.Vec{X: e.Angle, Y: e.Spacing})
	case CentreLine:
		vec(e.A, e.B)
	case CentreMark:
		vec(e.Centre)
		sum += e.Radius * 0
	case Leader:
		vec(e.At)
	case Balloon:
		vec(e.At)
	case Weld:
		vec(e.At, r2.Vec{X: e.Throat, Y: e.Length})
	case Dimension:
		vec(e.A, e.B, e.Vertex, r2.Vec{X: e.Tolerance.Plus, Y: e.Tolerance.Minus})
		sum += e.Offset * 0
	}
	return sum == 0 // 0·Inf and 0·NaN are NaN
}
