package partlist

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
)

// drop is by how much the long side of a prism with one mitred end is longer than the
// short one, and how far apart these sides are; 0 with two mitres or none.
func drop(p solid.Prism) (by, side float64) {
	tilt := p.From.Tilt
	if other := p.To.Tilt; math.Hypot(other.X, other.Y) > math.Hypot(tilt.X, tilt.Y) {
		tilt, other = other, tilt
		if math.Hypot(other.X, other.Y) > 1e-4 {
			return 0, 0
		}
	} else if math.Hypot(other.X, other.Y) > 1e-4 {
		return 0, 0
	}
	box := p.Profile.Outer().Bounds()
	x, y := math.Abs(tilt.X)*(box.Max.X-box.Min.X), math.Abs(tilt.Y)*(box.Max.Y-box.Min.Y)
	if x > 1e-6 && y > 1e-6 { // a compound mitre is not nested
		return 0, 0
	}
	if x > y {
		return x, box.Max.X - box.Min.X
	}
	return y, box.Max.Y - box.Min.Y
}

// cutFrom tells what a line is cut from and how large: of flat plate, sheet and board.
func cutFrom(p *assembly.Part) (box [2]float64, ok bool) {
	s := &p.Stock
	switch s.Form {
	case assembly.Plate, assembly.Sheet, assembly.Board, assembly.Foam:
	default:
		return box, false
	}
	return [2]float64{s.Size[0], s.Size[1]}, s.Size[0] > 0 && s.Size[1] > 0 && s.Length == 0
}
