package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
)

// Scale is the ratio of drawing to reality, Drawing:Real; 1:5 is {1, 5}.
// The zero value means that the layout chooses.
type Scale struct{ Drawing, Real int }

// Factor is paper mm per model mm.
func (s Scale) Factor() float64 { return float64(s.Drawing) / float64(s.Real) }

// String writes the scale as ISO 5455 does: "1:5".
func (s Scale) String() string { return fmt.Sprintf("%d:%d", s.Drawing, s.Real) }

// Scales lists the recommended scales of ISO 5455:1979, 5.1, from the largest
// down.
func Scales() []Scale {
	return []Scale{
		{50, 1}, {20, 1}, {10, 1}, {5, 1}, {2, 1}, {1, 1}, {1, 2}, {1, 5}, {1, 10}, {1, 20}, {1, 50},
		{1, 100}, {1, 200}, {1, 500}, {1, 1000}, {1, 2000}, {1, 5000}, {1, 10000},
	}
}

// intermediate lists scales between the recommended ones, from the largest down, which ISO
// 5455 allows where these do not serve (M).
func intermediate() []Scale { return []Scale{{1, 3}, {1, 4}, {1, 6}, {1, 8}, {1, 15}} }

// Fitting is the largest recommended scale, at most a given one, at which something of a
// size, mm, has room on paper; the smallest where it has none at any.
func Fitting(size, room r2.Vec, most Scale) Scale {
	all := Scales()
	for _, s := range all {
		f := s.Factor()
		if f <= most.Factor() && size.X*f <= room.X && size.Y*f <= room.Y {
			return s
		}
	}
	return all[len(all)-1]
}
