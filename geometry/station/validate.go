package station

import (
	"math"

	"armwright/geometry/station/values"
)

// hugest is a length, mm, and much more than an angle or a mass, that no station
// has.
const hugest = 1e5

// flattest is the least angle, rad, at which a tube is cut along: its cut is eleven
// times as long as it is thick.
const flattest = 5 * math.Pi / 180

// validate finds values that have no shape at all. Whether a shape makes sense is
// told by needs.
func validate(v *values.Station) error {
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
	case h.Positions > 1 && (h.Positions > 100 || !(h.Pitch >= 1)):
		return &ValueError{"handle.pitch", "give 100 positions at most, a millimetre apart at least"}
	case !(v.Shaft > 0 && v.Member.Height > 0 && v.Member.Width > 0 && v.Arm.Height > 0 && v.Arm.Width > 0 && v.Slide.Height > 0):
		return &ValueError{"stock", "sections and shaft have sizes above zero"}
	case !(r.Far-r.Near > 2*(plateIn+padRound) && r.Width > 2*(plateIn+padRound)):
		return &ValueError{"pad", "the pad is longer and wider than the round corners of its plate"}
	case !(b.Front-b.Rear > 4*footIn):
		return &ValueError{"base", "the rails are long enough for a foot at either end"}
	case !(h.Length > plugLong && h.Diameter > 2*(rubberThick+gripWall)):
		return &ValueError{"handle", "the grip has a length, and a diameter above that of its rubber and tube"}
	case !(h.Greatest() > v.Shaft/2+hubWall):
		return &ValueError{"handle.least", "the grip is farther from the axis than the hub reaches"}
	case v.Counter.Mass > 0 && !(v.Counter.Radius > v.Shaft):
		return &ValueError{"counterweight.radius", "a counterweight is beside its axis"}
	case v.Second != nil && !(math.Hypot(v.Second.X, v.Second.Y) > v.Shaft):
		return &ValueError{"second shaft", "the shafts stand apart"}
	}
	if err := validateBars(v); err != nil {
		return err
	}
	return validateStack(v)
}

// validateBars does the same for what turns on the shafts: lever, linkage, eccentric
// weight and plates.
func validateBars(v *values.Station) error {
	e := &v.Eccentric
	if e.Mass != 0 && !(between(0, hugest, e.Mass) && between(v.Shaft, hugest, e.Radius) && between(-hugest, hugest, e.Phase)) {
		return &ValueError{"eccentric.radius", "an eccentric weight has a mass and is beside its axis"}
	}
	plates := &v.Lever.Plates
	switch v.Drive {
	case values.LeverDrive:
		if !between(1, hugest, v.Lever.Radius) || !between(-hugest, hugest, v.Lever.Phase) {
			return &ValueError{"lever.radius", "tell where the plates hang"}
		}
	case values.LinkageDrive:
		plates = &v.Linkage.Plates
		t := &v.Linkage.Train
		switch {
		case !between(1, hugest, t.Bars.Ground, t.Bars.Input, t.Bars.Coupler, t.Bars.Output, t.Radius) ||
			!between(-hugest, hugest, t.Direction, t.InputPhase, t.Phase):
			return &ValueError{"linkage", "every bar has a length"}
		case !secondIsOutput(v):
			return &ValueError{"second shaft", "a linkage's second shaft stands where its train has the output shaft"}
		}
	default:
		return nil
	}
	switch {
	case !between(1, hugest, v.BarThick):
		return &ValueError{"bar thickness", "bars are cut from plate"}
	case !between(0, hugest, plates.Mass) || plates.Mass > 0 && !between(sleeveRing, hugest, plates.Across):
		return &ValueError{"plates.across", "plates are larger than the ring that they lie on"}
	}
	return nil
}

// between reports whether all of some numbers are within bounds; what is not a number is
// not.
func between(low, high float64, xs ...float64) bool {
	for _, x := range xs {
		if !(x >= low && x <= high) {
			return false
		}
	}
	return true
}

// Bounds of counts: far beyond what is built, and small enough to build.
const (
	mostPlates    = 100
	mostPositions = 100
	leastPitch    = 1.0 // mm
)

// validateStack does the same for seat, back pad, foot plate, stack and cam.
func validateStack(v *values.Station) error {
	s, k, f, w := &v.Seat, &v.Back, &v.FootPlate, &v.Tower
	c := &w.Cable
	if s.Positions > 0 {
		switch {
		case s.Positions > mostPositions || !between(leastPitch, hugest, s.Pitch):
			return &ValueError{"seat.positions", "give 100 at most, a millimetre apart at least"}
		case !between(-hugest, hugest, s.Lowest, s.Front):
			return &ValueError{"seat.lowest", "give its height and front edge"}
		case !between(3*seatEdge+20, hugest, s.Depth, s.Width):
			return &ValueError{"seat.depth", "a seat is deeper and wider than its carriage plate"}
		case !between(1, hugest, s.Post.Width-2*s.Post.Wall, s.Post.Height-2*s.Post.Wall, s.Post.Wall):
			return &ValueError{"seat.post", "give the section of its post"}
		}
	}
	if v.HasBack() {
		switch {
		case !between(0, 80*math.Pi/180, k.Angle):
			return &ValueError{"back.angle", "a back pad leans back by 80 degrees at most"}
		case !between(3*backAlong, hugest, k.Length) || !between(2*seatEdge+60, hugest, k.Width) || !between(-hugest, hugest, k.Foot):
			return &ValueError{"back.length", "the pad is longer and wider than its bracket plates"}
		}
	}
	if f.Positions > 0 {
		switch {
		case f.Positions > mostPositions || !between(leastPitch, hugest, f.Pitch):
			return &ValueError{"foot_plate.positions", "give 100 at most, a millimetre apart at least"}
		case !between(-hugest, hugest, f.Lowest, f.X) || !between(2*treadCorner+1, hugest, f.Depth):
			return &ValueError{"foot_plate.depth", "give height, place and depth"}
		}
	}
	if c := &v.Chest; c.Positions > 0 {
		switch {
		case c.Positions > mostPositions || !between(leastPitch, hugest, c.Pitch):
			return &ValueError{"chest_pad.positions", "give 100 at most, a millimetre apart at least"}
		case !between(-hugest, hugest, c.Height, c.Rear) || !between(-mostChestLean, mostChestLean, c.Lean):
			return &ValueError{"chest_pad.height", "give height and place, and a lean within 45 degrees"}
		case !between(2*(plateIn+chestInset)+20, hugest, c.Long, c.Wide):
			return &ValueError{"chest_pad.length", "the pad is longer and wider than its plate's screws are apart"}
		}
	}
	cam := &v.Cam
	switch {
	case v.HasGuard() && !between(0, 1000, cam.Reach, v.GuardThick, v.Eccentric.Mass, v.Eccentric.Radius):
		return &ValueError{"cam.reach", "tell how far the cam reaches, and the thickness of the guard's sheet"}
	case (cam.Root == nil) != (cam.Blank == nil) || cam.Root != nil && !between(1, hugest, cam.Reach, cam.Core, cam.Cheek):
		return &ValueError{"cam", "give core and cheeks with their thicknesses, or neither"}
	case v.Geared() && (v.Second == nil || !between(v.Shaft+2*bossWall, hugest, cam.ArmWheel, cam.DrivenWheel) || !between(1, v.WheelWide-1, cam.Face) || !between(0, hugest, cam.Tip)):
		return &ValueError{"cam.wheels", "a geared cam has a second shaft and two wheels larger than their bosses"}
	}
	if !v.HasStack() {
		return nil
	}
	long := 2*rodInset + 2*w.Rod // a plate's least length
	switch {
	case w.Plates > mostPlates:
		return &ValueError{"stack", "give 100 plates at most"}
	case !between(1, hugest, w.PlateThick-w.PinHole, w.GuideHole-w.Rod+1, w.Rod, w.SelectorHole-w.Selector+1, w.Selector-w.PinHole, w.PinHole):
		return &ValueError{"stack.plate", "rods, bar and pin are thinner than the holes that they go through"}
	case !between(long, hugest, w.PlateLength) || !between(w.GuideHole+w.SelectorHole, hugest, w.PlateWidth):
		return &ValueError{"stack.plate", "a plate has room for its holes"}
	case !between(0, hugest, w.Lift) || !between(-hugest, hugest, w.Tall):
		return &ValueError{"stack.lift", "a stack rises by nothing or more"}
	case !between(0.5, 20, c.Diameter) || !between(axle, hugest, c.Radius-c.Diameter):
		return &ValueError{"cable.radius", "a sheave is larger than its axle, and its cable between 0.5 and 20 mm thick"}
	}
	for i := range c.Line {
		l := &c.Line[i]
		if !between(-hugest, hugest, l.Contact.X, l.Contact.Y, l.Leave.X, l.Leave.Y) {
			return &ValueError{"cable.line", "tell where it leaves cam and guide sheave"}
		}
	}
	return nil
}

// secondIsOutput reports whether the second shaft is the linkage's output shaft.
func secondIsOutput(v *values.Station) bool {
	const same = 1e-6 // mm
	at := v.Linkage.Train.Shaft()
	return v.Second != nil && math.Hypot(v.Second.X-at.X, v.Second.Y-at.Y) < same
}
