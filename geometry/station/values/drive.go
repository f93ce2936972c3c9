package values

import (
	"armwright/geometry/cable"
	"armwright/geometry/linkage"
	"armwright/geometry/solid"
)

// Cam are the cam and what turns it. Its plates are drawn with the cam's axis at
// the origin in the position they hold at flexion 0, x forward and y up in the plane
// of the cam, seen from the user's right.
type Cam struct {
	Root, Blank  *solid.Profile // core and cheeks, bore and bolt holes with them
	Reach        float64        // greatest distance of the cheeks' rim from the axis
	Core, Cheek  float64        // thickness of the core and of each cheek
	Bolts        int            // that hold it to its hub; welded without
	Circle, Bolt float64        // their circle's diameter, and their thread
	Keyed        bool           // the hub's key reaches through core and cheeks
	Split        *solid.Profile // of a split hub in place of the turned one, slot and bolt holes with it; nil without
	SplitThick   float64        // its thickness
	Clamp, Ears  float64        // thread of the screw across its ears, and how far apart head and nut are
	ArmWheel     float64        // pitch diameter of the wheel on the arm's shaft, where geared
	DrivenWheel  float64        // and of that on the countershaft
	Face         float64        // width of the teeth
	Tip          float64        // of the teeth beyond the pitch circle
	Loop         string         // chain or belt, as it is ordered
	LoopPerMetre float64        // kg/m
}

// Eccentric are one arm's eccentric weight: its Mass at Radius from the axis,
// Phase above forward horizontal at flexion 0, seen from the right.
type Eccentric struct{ Mass, Radius, Phase float64 }

// Counter are one arm's counterweight: its Mass at Radius from the axis, at
// Phase ahead of straight opposite the arm.
type Counter struct{ Mass, Radius, Phase float64 }

// Lever are the plate-loaded lever of one arm: plates at Radius from the axis,
// the lever Phase above forward horizontal at flexion 0, seen from the right.
type Lever struct {
	Radius, Phase float64
	Plates        Plates
}

// Linkage are the four-bar linkage between arm and plate lever of one arm.
type Linkage struct {
	Train  linkage.Train
	Plates Plates
}

// Plates are the plates that one arm's lever carries at the heaviest load.
type Plates struct {
	Mass   float64 // kg; 0 hangs none
	Across float64 // diameter, mm
}

// SecondShaft is a shaft that the bracket's cheeks carry beside the pivot's: the
// countershaft, or the output shaft of a linkage. X is forward and Y up in the
// plane across the middle axis position, from the pivot axis, seen from the right.
type SecondShaft struct{ X, Y float64 }

// Drive is what resists the arm.
type Drive int8

// The drives. A cam with a ratio other than 1 sits on a countershaft.
const (
	NoDrive Drive = iota
	CamDrive
	LeverDrive
	LinkageDrive
)

// Tower are the weight stack, what guides it, and the cable to it. The tower
// stands at Base.Tower.
type Tower struct {
	Pair bool    // a stack for each arm, in place of one for both
	Lift float64 // of a stack at the end of the loaded range
	Tall float64 // top above the floor; the least that serves where this is less

	Plates                              int // in each stack, the top plate counted; 0 without a stack
	PlateLength, PlateWidth, PlateThick float64
	GuideHole, Rod                      float64 // diameters of the plates' holes for the guide rods, and of those
	SelectorHole, Selector              float64 // sides of the plates' square hole, and of the square bar in it
	PinHole                             float64 // diameter of the holes for the selector pin

	Cable cable.Values
}
