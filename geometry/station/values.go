package station

import (
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
	Chest      ChestValues
	Lever      LeverValues
	Linkage    LinkageValues
	GuardThick float64 // of guards' sheet
}

func (v *Values) key(length float64) assembly.Key {
	return assembly.Key{Width: v.Key.Width, Height: v.Key.Height, Length: length}
}

// BaseValues are the base and what stands on it.
type BaseValues struct {
	Rear, Front float64 // x of the ends of the rails
	PadPost     float64 // x of the posts that carry pivots and pads
	SeatPost    float64 // x of the seat's post
	Tower       float64 // x of the tower, where there is one
}

// Geared tells whether the cam sits on a countershaft.
func (v *Values) Geared() bool { return v.Drive == CamDrive && v.Ratio != 1 }

// HasTower tells whether a tower with a stack stands on the base.
func (v *Values) HasTower() bool { return v.Drive == CamDrive }

// HasStack tells whether there is a weight stack.
func (v *Values) HasStack() bool { return v.Drive == CamDrive && v.Tower.Plates > 0 }

// HasBack tells whether there is a back pad.
func (v *Values) HasBack() bool { return v.Back.Length > 0 && v.Seat.Positions > 0 }

// HasGuard tells whether a guard stands outside the drive.
func (v *Values) HasGuard() bool { return v.Drive == CamDrive && v.GuardThick > 0 && v.Cam.Reach > 0 }
