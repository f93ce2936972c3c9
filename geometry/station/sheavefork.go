package station

import (
	"math"

	"armwright/geometry/cable"
)

// Sizes of the sheaves and their forks, mm (own choices). A fork is a strip of flat
// bar bent to a U; its open end points away from what carries it.
const (
	sheaveLeast = 16.0 // width of a sheave
	sheavePlay  = 1.0  // between its side and the fork
	axle        = 12.0 // bolt M12
	axleFlats   = 18.0 // across the flats of its head and nut (ISO 4014)
	axleHead    = 7.5  // its thickness (ISO 4014)
	axleNut     = 10.8 // ISO 4032
	forkThick   = 6.0
	forkWide    = 40.0
	forkRim     = 5.0  // between the sheave's rim and the bridge
	stemAcross  = 20.0 // of the round stem
	sheaveFoot  = 12.0 // plate under a stem on a rail
	footStem    = 12.0 // stem between that plate and the fork
)

// sheaveRim is the outer radius of a sheave: its groove is 1.5 cables deep (see
// cam.NewGroove), half a cable below the cable's centre.
func sheaveRim(c *cable.Values) float64 { return c.Radius + c.Diameter }

// grooveHalf is half the width of a groove of 45 degrees at the rim.
func grooveHalf(cable float64) float64 { return (0.55 + 1.5*(math.Sqrt2-1)) * cable }

// sheaveAcross is the width of a sheave: its groove with walls of 2 mm.
func sheaveAcross(cable float64) float64 { return max(sheaveLeast, 2*(grooveHalf(cable)+2)) }

// forkGap is the width between a fork's cheeks.
func forkGap(c *cable.Values) float64 { return sheaveAcross(c.Diameter) + 2*sheavePlay }

// forkReach is from the axle to the outer face of the bridge.
func forkReach(c *cable.Values) float64 { return sheaveRim(c) + forkRim + forkThick }

// forkSide is half the width over a fork, the axle's nut counted.
func forkSide(c *cable.Values) float64 { return forkGap(c)/2 + forkThick + axleNut }
