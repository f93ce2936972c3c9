package station

import (
	"fmt"
	"math"
)

// ValueError tells a value from which no station can be built.
type ValueError struct {
	Value string // "handle.positions"
	Hint  string
}

func (e *ValueError) Error() string { return fmt.Sprintf("station: %s: %s", e.Value, e.Hint) }

// hugest is a length, mm, and much more than an angle or a mass, that no station
// has.
const hugest = 1e5

// flattest is the least angle, rad, at which a tube is cut along: its cut is eleven
// times as long as it is thick.
const flattest = 5 * math.Pi / 180

// validate finds values that have no shape at all. Whether a shape makes sense is
// told by needs.
func (v *Values) validate() error {
	sane := func(xs ...float64) bool {
		for _, x := range xs {
			if !(math.Abs(x) < hugest) {
				return false
			}
		}
		return true
	}
	h, b, r := &v.Handle, &v.Base, &v.Rest
	switch {
	case !sane(v.Height, v.Spacing, v.First, v.Last, r.Slope, r.Offset, r.Near, r.Far, r.Width,
		h.Least, h.Pitch, h.Middle, h.Length, h.Diameter, b.Rear, b.Front, b.PadPost, b.SeatPost, b.Tower, v.Counter.Mass, v.Counter.Radius, v.Counter.Phase):
		return &ValueError{"a number", "check the calculation that gave a value without bounds"}
	case len(v.Axes) == 0:
		return &ValueError{"axes", "give one axis position at least"}
	case !(r.Slope >= flattest && r.Slope <= math.Pi/2-flattest):
		return &ValueError{"pad.slope", "a rest slopes between level and upright, by 5 degrees at least from either: its plane cuts post or stub"}
	case h.Positions < 1:
		return &ValueError{"handle.positions", "give one position at least"}
	case !(v.Shaft > 0 && v.Member.Height > 0 && v.Member.Width > 0 && v.Arm.Height > 0 && v.Arm.Width > 0 && v.Slide.Height > 0):
		return &ValueError{"stock", "sections and shaft have sizes above zero"}
	case v.Drive == LinkageDrive && !v.secondIsOutput():
		return &ValueError{"second shaft", "a linkage's second shaft stands where its train has the output shaft"}
	case !(r.Far-r.Near > 2*(plateIn+padRound) && r.Width > 2*(plateIn+padRound)):
		return &ValueError{"pad", "the pad is longer and wider than the round corners of its plate"}
	case !(b.Front-b.Rear > 4*footIn):
		return &ValueError{"base", "the rails are long enough for a foot at either end"}
	case !(h.Length > plugLong && h.Diameter > 2*(rubberThick+gripWall)):
		return &ValueError{"handle", "the grip has a length, and a diameter above that of its rubber and tube"}
	case !(h.Least+float64(h.Positions-1)*h.Pitch > v.Shaft/2+hubWall):
		return &ValueError{"handle.least", "the grip is farther from the axis than the hub reaches"}
	case v.Counter.Mass > 0 && !(v.Counter.Radius > v.Shaft):
		return &ValueError{"counterweight.radius", "a counterweight is beside its axis"}
	case v.Second != nil && !(math.Hypot(v.Second.X, v.Second.Y) > v.Shaft):
		return &ValueError{"second shaft", "the shafts stand apart"}
	}
	return nil
}

// secondIsOutput tells whether the second shaft is the linkage's output shaft.
func (v *Values) secondIsOutput() bool {
	const same = 1e-6 // mm
	at := v.Linkage.Train.Shaft()
	return v.Second != nil && math.Hypot(v.Second.X-at.X, v.Second.Y-at.Y) < same
}
