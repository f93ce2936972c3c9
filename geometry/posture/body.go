// Package posture places a person's body on what it rests on: seat, arm pad or back
// pad, with the elbow at the pivot, and tells how near trunk, thigh and hand then
// come. It is pure geometry in the machine frame: origin on the floor midway between
// the pivots, +x the way the user faces, +y to the user's left, +z up; mm and rad.
// Everything is worked out for the right arm (y < 0); the left is its mirror image in
// the x-z plane.
package posture

import "armwright/geometry/elbow"

// Body is the part of a person's sizes that placing needs, mm and rad.
type Body struct {
	Trunk        float64     // hip joint centre to shoulder centre, along the trunk
	Hip          float64     // hip joint centre above the loaded seat
	Behind       float64     // hip joint centre to the rear plane of the buttocks
	ShoulderHalf float64     // midline to shoulder centre
	UpperArm     float64     // shoulder centre to elbow axis
	Forearm      float64     // elbow axis to grip centre
	ArmHalf      float64     // humerus to the underside of the upper arm
	ChestDepth   float64     // of the chest, front to back
	ChestBreadth float64     // of the chest, side to side
	BellyFront   float64     // hip joint centre to the front of the abdomen, across the trunk
	BellyHeight  float64     // of that point above the hip joint, along the trunk
	ThighDepth   float64     // thigh clearance: seat to top of thigh
	ThighHalf    float64     // midline to the thigh's own centreline
	Knee         float64     // hip joint centre to the front of the knee, along the thigh
	HandHalf     float64     // half the breadth of the hand
	Hinge        elbow.Hinge // tilt and valgus of the elbow
}

// Protraction is how far reaching forward brings the shoulder centre ahead of
// the chest's middle plane, mm. Judgement; no published value at hand.
const Protraction = 30.0

// HandDepth is half the thickness of a fist round a grip, mm: the 5th to 95th
// percentile hand circumference of the 2012 survey (173-230 mm) as a circle
// is 28-37 mm in radius; rounded up for the bar's end.
const HandDepth = 40.0
