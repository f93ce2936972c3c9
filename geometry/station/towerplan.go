package station

import (
	"math"

	"armwright/geometry/station/values"
)

// Sizes of the tower, mm (own choices).
const (
	stackFoot    = 8.0  // plate under buffers and guide rods
	bufferTall   = 40.0 // rubber buffer under the stack
	bufferAcross = 40.0
	bufferAside  = 55.0 // from the middle of the stack
	bufferClear  = 5.0  // between a buffer and a guide rod
	rodInset     = 50.0 // from the end of a plate to the middle of a guide rod
	stackRoom    = 20.0 // from the raised stack to the rod bar
	stackSide    = 15.0 // from a stack to the upright
	stackApart   = 30.0 // between the two stacks of a pair
	rodBarThick  = 10.0
	rodBarWeb    = 45.0 // of the rod bar behind its notches
	notchClear   = 5.0  // in those notches
	rodEnd       = 8.0  // of a guide rod above the rod bar
	sheaveGap    = 10.0 // between sheaves, and from a sheave to what stands still
	topStem      = 25.0 // least length of a stem under the tower's top: the cable passes the uprights below their cap plates
	cableHole    = 20.0 // in the uprights for the cable on its way inward
	capPlate     = 12.0 // on an upright, tapped for the top's bolts
	capBolt      = 10.0 // M10
	capPitch     = 30.0 // between two of them
	eyeTall      = 45.0 // of the eye on a stack of its own, to the middle of its hole
	eyeWide      = 40.0
	eyeThick     = 10.0
	eyeHole      = 14.0
	cableEye     = 80.0 // of a cable's eye with its sleeve, above that hole
	barBelow     = 10.0 // of the selector bar below the stack: metal under its lowest hole
)

// Tower holds the levels and places of a tower, mm; y is a distance from the midline.
type Tower struct {
	Low      float64 // underside of the stack at rest
	StackTop float64 // top of its top plate at rest
	RodBar   float64 // underside of the bar that holds the guide rods' upper ends
	Over     float64 // the cable's centre on its way inward over the tower
	Tall     float64 // top
	Middle   float64 // y of the middle of the right stack, 0 of one that serves both arms
	Down     float64 // y at which the cable comes down on it
	Rods     float64 // from the middle of the stack to its guide rods
	Buffers  float64 // and to its buffers
	Upright  float64 // y of the middle of the uprights
	Rest     float64 // height of the floating sheave's centre, or of the cable's end, at rest
}

// NewTower sums up a tower's heights over the top of the base tubes, of which side is
// the height: the stack rises by its full lift with 20 mm left under the rod bar, and
// the sheaves over it are clear of the rods and of what it carries up. set is by how
// much setting the axis lifts the stack before that (see Route.Slack).
func NewTower(v *values.Tower, base, side, set float64) Tower {
	lift := v.Lift + set
	c := &v.Cable
	t := Tower{Rods: v.PlateLength/2 - rodInset, Low: base + stackFoot + bufferTall}
	t.Buffers = min(bufferAside, t.Rods-(v.Rod+bufferAcross)/2-bufferClear)
	t.StackTop = t.Low + float64(v.Plates)*v.PlateThick
	t.RodBar = t.StackTop + lift + stackRoom
	rim := sheaveRim(c)
	centre := t.RodBar + rodBarThick + rodEnd + sheaveGap + rim // of the inner sheave over the tower
	if v.Pair {
		t.Middle = (v.PlateLength + stackApart) / 2
		t.Down, t.Rest = t.Middle, t.StackTop+eyeTall
		centre = max(centre, t.Rest+lift+cableEye+sheaveGap)
	} else {
		t.Down, t.Rest = c.Radius, t.StackTop+forkReach(c)
		apart, across := 2*rim+sheaveGap, 2*c.Radius // of inner and floating sheave
		centre = max(centre, t.Rest+lift+math.Sqrt(max(0, apart*apart-across*across)))
	}
	t.Upright = max(t.Middle+v.PlateLength/2+stackSide, t.Down+c.Radius+rim+sheaveGap/2) + side/2
	t.Tall = max(v.Tall, centre+forkReach(c)+topStem+side)
	t.Over = centre + c.Radius
	return t
}

// notchDeep is how far behind the stack's middle the rod bar's notches reach.
func notchDeep(v *values.Station) float64 {
	if v.Tower.Pair {
		return eyeWide/2 + notchClear
	}
	return forkSide(&v.Tower.Cable) + notchClear
}

// towerDeep is how far the tower reaches before and behind its middle.
func towerDeep(v *values.Station) float64 {
	return max(v.Tower.PlateWidth/2, v.Member.Height/2, notchDeep(v)+rodBarWeb)
}
