package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/posture"

	"gonum.org/v1/gonum/spatial/r3"
)

// Values are the numbers that a station is built from: a frame and its stock with
// no more than geometry in them. Lengths mm, angles rad, masses kg; right side.
type Values struct {
	Height, Spacing float64      // pivots above the floor and apart
	Axes            []r3.Vec     // outward unit vector of the right pivot axis for every axis position, in order
	First, Last     float64      // flexion at the ends of the loaded range
	Rest            posture.Rest // arm pad, or the stop pad behind the upper arm of a reclined station
	Reclined        bool         // the posts stand behind the pivots

	Member Section // base, posts, seat, tower
	Arm    Section // arms and small brackets
	Slide  Section // slides on Arm with little play

	Shaft   float64 // diameter of pivot shafts
	Key     KeySize // of that shaft
	Bearing FlangeUnit

	Handle  HandleValues
	Base    BaseValues
	Counter CounterValues // no mass: none

	Drive      DriveKind
	Ratio      float64 // cam turn per arm turn, or 1
	WheelWide  float64 // face of the wheels between arm shaft and countershaft; 0 at ratio 1
	CamWide    float64 // cam core with both cheeks
	BarThick   float64 // plate of cam cores, levers and bars
	Second     *SecondShaft
	Eccentric  EccentricValues // no mass: none
	Cam        CamValues
	Tower      TowerValues
	Seat       SeatValues
	Back       BackValues
	FootPlate  FootPlateValues
	Lever      LeverValues
	Linkage    LinkageValues
	GuardThick float64 // of guards' sheet
}

// Section is a rectangular hollow section as stock lists it.
type Section struct {
	Name, Grade   string
	Height, Width float64 // outside; a level tube stands Height up, an upright has Height along x
	Wall, Corner  float64 // wall, and outer corner radius
}

// FlangeUnit is a bearing insert in a two-bolt oval flange housing.
type FlangeUnit struct {
	Name         string
	Bore         float64 // of the shaft
	Long, Across float64 // of the oval
	Spacing      float64 // between its two bolts
	Hole, Thread float64 // for the bolts, and their thread
	Foot         float64 // thickness of the flange at the bolts
	Centre       float64 // mounting face to the middle of the balls
	Body         float64 // mounting face to the end of the housing
	Ring         float64 // mounting face to the end of the inner ring
	Outer        float64 // diameter of the insert's outer ring
	Inner        float64 // outer diameter of the inner ring
	Mass         float64
}

// KeySize is a parallel key.
type KeySize struct{ Width, Height float64 }

func (v *Values) key(length float64) assembly.Key {
	return assembly.Key{Width: v.Key.Width, Height: v.Key.Height, Length: length}
}

// HandleValues are the handle and its positions on the arm.
type HandleValues struct {
	Least, Pitch   float64 // distance of the first position from the axis, and between positions
	Positions      int
	Middle, Length float64 // axial place of the grip's middle, outward from the pivot, and its clear length
	Diameter       float64 // of the grip
}

// BaseValues are the base and what stands on it.
type BaseValues struct {
	Rear, Front float64 // x of the ends of the rails
	PadPost     float64 // x of the posts that carry pivots and pads
	SeatPost    float64 // x of the seat's post
	Tower       float64 // x of the tower, where there is one
}

// CounterValues are one arm's counterweight: its Mass at Radius from the axis, at
// Phase ahead of straight opposite the arm.
type CounterValues struct{ Mass, Radius, Phase float64 }

// PostAside is how far from the midline the posts stand: under the middle of the
// bearings in the middle axis position.
func (v *Values) PostAside() float64 {
	return v.Spacing/2 - v.Planes().Bearings*v.inRestPlane(v.Axes[len(v.Axes)/2]).Y
}

// inRestPlane is the axis turned about the swivel line that is nearest to a.
func (v *Values) inRestPlane(a r3.Vec) r3.Vec {
	s, c := math.Sincos(v.Rest.Slope)
	up := r3.Vec{X: -c, Z: s}
	sn, cs := math.Sincos(math.Atan2(r3.Dot(a, up), -a.Y))
	return r3.Add(r3.Vec{Y: -cs}, r3.Scale(sn, up))
}

// DriveKind is what resists the arm.
type DriveKind int8

// The drives. A cam with a ratio other than 1 sits on a countershaft.
const (
	NoDrive DriveKind = iota
	CamDrive
	LeverDrive
	LinkageDrive
)

// Geared tells whether the cam sits on a countershaft.
func (v *Values) Geared() bool { return v.Drive == CamDrive && v.Ratio != 1 }

// HasTower tells whether a tower with a stack stands on the base.
func (v *Values) HasTower() bool { return v.Drive == CamDrive }

// SecondShaft is a shaft that the bracket's cheeks carry beside the pivot's: the
// countershaft, or the output shaft of a linkage. X is forward and Y up in the
// plane across the middle axis position, from the pivot axis, seen from the right.
type SecondShaft struct{ X, Y float64 }

// materials, kg/mm³: steel EN 1993-1-1 3.2.6; board, foam, rubber and aluminium
// judgement from common figures.
const (
	steelDensity = 7.85e-6
	alloyDensity = 2.7e-6
	boardDensity = 650e-9 // plywood
	foamDensity  = 80e-9  // firm foam with its cover
	gumDensity   = 1.2e-6
	plugDensity  = 0.95e-6 // polyethylene
)
