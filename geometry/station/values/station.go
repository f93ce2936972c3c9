// Package values holds the numbers that a station is built from, and the planes along
// its pivot axis that follow from them.
package values

import (
	"armwright/geometry/posture"

	"gonum.org/v1/gonum/spatial/r3"
)

// Station is what a station is built from: a frame and its stock with
// no more than geometry in them. Lengths mm, angles rad, masses kg; right side.
type Station struct {
	Height, Spacing float64      // pivots above the floor and apart
	Axes            []r3.Vec     // outward unit vector of the right pivot axis for every axis position, in order
	First, Last     float64      // flexion at the ends of the loaded range
	Rest            posture.Rest // arm pad, or the stop pad behind the upper arm of a reclined station
	Reclined        bool         // the posts stand behind the pivots

	Member Section // base, posts, seat, tower
	Arm    Section // arms and small brackets
	Slide  Section // slides on Arm with little play

	Cores   Cores
	Shaft   float64 // diameter of pivot shafts
	Key     Key     // of that shaft
	Bearing FlangeUnit

	Handle  Handle
	Base    Base
	Counter Counter // no mass: none

	Drive      Drive
	Ratio      float64 // cam turn per arm turn, or 1
	WheelWide  float64 // face of the wheels between arm shaft and countershaft; 0 at ratio 1
	CamWide    float64 // cam core with both cheeks
	BarThick   float64 // plate of cam cores, levers and bars
	Second     *SecondShaft
	Eccentric  Eccentric // no mass: none
	Cam        Cam
	Tower      Tower
	Seat       Seat
	Back       Back
	FootPlate  FootPlate
	Chest      Chest
	Lever      Lever
	Linkage    Linkage
	GuardThick float64 // of guards' sheet
}

// Base are the base and what stands on it.
type Base struct {
	Rear, Front float64 // x of the ends of the rails
	PadPost     float64 // x of the posts that carry pivots and pads
	SeatPost    float64 // x of the seat's post
	Tower       float64 // x of the tower, where there is one
}

// Pivot is the right pivot's place; the left one is its mirror image.
func (v *Station) Pivot() r3.Vec { return r3.Vec{Y: -v.Spacing / 2, Z: v.Height} }

// Geared reports whether the cam sits on a countershaft.
func (v *Station) Geared() bool { return v.Drive == CamDrive && v.Ratio != 1 }

// HasTower reports whether a tower with a stack stands on the base.
func (v *Station) HasTower() bool { return v.Drive == CamDrive }

// HasStack reports whether there is a weight stack.
func (v *Station) HasStack() bool { return v.Drive == CamDrive && v.Tower.Plates > 0 }

// HasBack reports whether there is a back pad.
func (v *Station) HasBack() bool { return v.Back.Length > 0 && v.Seat.Positions > 0 }

// HasGuard reports whether a guard stands outside the drive.
func (v *Station) HasGuard() bool { return v.Drive == CamDrive && v.GuardThick > 0 && v.Cam.Reach > 0 }
