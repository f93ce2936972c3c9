package sheet

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// DimKind is the kind of a dimension.
type DimKind int

// The kinds of dimension and the points they use.
const (
	Horizontal DimKind = iota // x distance of A and B
	Vertical                  // y distance of A and B
	Aligned                   // distance of A and B along their line
	Angular                   // angle at Vertex, counter-clockwise from A to B
	Radius                    // A the centre, B a point on the arc
	Diameter                  // A the centre, B a point on the circle
	OrdinateX                 // x of B from the datum A
	OrdinateY                 // y of B from the datum A
)

// Side is the edge of a view at which a dimension stands.
type Side int

// The sides of a view. Auto takes Below for horizontal distances, Leftward
// for vertical ones.
const (
	Auto Side = iota
	Below
	Above
	Leftward
	Rightward
)

// Tolerance gives the limits of a dimension as deviations from its value:
// Plus upper, Minus lower, both in mm (rad for an angle) and both as positive
// amounts. The zero value is no tolerance of its own: the sheet's general
// tolerance holds.
type Tolerance struct{ Plus, Minus float64 }

// Dimension is a size measured from the geometry: its value is computed from
// its points, never typed.
type Dimension struct {
	Kind         DimKind
	A, B, Vertex r2.Vec
	Side         Side    // Horizontal, Vertical, OrdinateX, OrdinateY
	Offset       float64 // paper mm, 0 chooses. Horizontal, Vertical: dimension line from the outline. Aligned: from A-B, left of A to B positive. Angular: radius of the dimension arc.
	Prefix       string  // before the value, such as "4x "
	Suffix       string  // after the value, such as " H7"
	Tolerance    Tolerance
	Reference    bool // reference dimension, in brackets
	Decimals     int  // most decimals of a value in mm or degrees; 0 takes 1
}

// Value is the measured size: mm, or rad in [0, 2π) for an angular dimension.
// Lengths are never negative except ordinates, which carry their sign.
func (d Dimension) Value() float64 {
	ab := r2.Sub(d.B, d.A)
	switch d.Kind {
	case Horizontal:
		return math.Abs(ab.X)
	case Vertical:
		return math.Abs(ab.Y)
	case Aligned, Radius:
		return r2.Norm(ab)
	case Diameter:
		return 2 * r2.Norm(ab)
	case OrdinateX:
		return ab.X
	case OrdinateY:
		return ab.Y
	case Angular:
		a, b := r2.Sub(d.A, d.Vertex), r2.Sub(d.B, d.Vertex)
		v := math.Atan2(r2.Cross(a, b), r2.Dot(a, b))
		if v < 0 {
			v += 2 * math.Pi
		}
		return v
	}
	panic("sheet: unknown kind of dimension")
}
