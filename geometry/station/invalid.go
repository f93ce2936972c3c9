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

// validate finds values that have no shape at all. Whether a shape makes sense is
// told by needs.
func (v *Values) validate() error {
	finite := func(xs ...float64) bool {
		for _, x := range xs {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return false
			}
		}
		return true
	}
	h, b, r := &v.Handle, &v.Base, &v.Rest
	switch {
	case !finite(v.Height, v.Spacing, v.First, v.Last, r.Slope, r.Offset, r.Near, r.Far, r.Width,
		h.Least, h.Pitch, h.Middle, h.Length, h.Diameter, b.Rear, b.Front, b.PadPost, b.SeatPost, b.Tower):
		return &ValueError{"a number", "check the calculation that gave an infinite or undefined value"}
	case len(v.Axes) == 0:
		return &ValueError{"axes", "give one axis position at least"}
	case !(r.Slope > 0 && r.Slope < math.Pi/2):
		return &ValueError{"pad.slope", "a rest slopes between level and upright"}
	case h.Positions < 1:
		return &ValueError{"handle.positions", "give one position at least"}
	case !(v.Shaft > 0 && v.Member.Height > 0 && v.Member.Width > 0 && v.Arm.Height > 0 && v.Arm.Width > 0 && v.Slide.Height > 0):
		return &ValueError{"stock", "sections and shaft have sizes above zero"}
	case v.Drive == LinkageDrive && !v.secondIsOutput():
		return &ValueError{"second shaft", "a linkage's second shaft stands where its train has the output shaft"}
	case !(r.Far > r.Near && r.Width > 0):
		return &ValueError{"pad", "the pad has a length and a width"}
	}
	return nil
}

// secondIsOutput tells whether the second shaft is the linkage's output shaft.
func (v *Values) secondIsOutput() bool {
	const same = 1e-6 // mm
	at := v.Linkage.Train.Shaft()
	return v.Second != nil && math.Hypot(v.Second.X-at.X, v.Second.Y-at.Y) < same
}
