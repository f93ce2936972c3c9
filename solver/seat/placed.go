package seat

import (
	"armwright/geometry/posture"
	"armwright/specs/people"
)

// Person is one person's outcome on the station.
type Person struct {
	Person    people.Person
	Body      posture.Body
	Pose      posture.Pose
	Seat      int     // index of the seat position
	SeatTop   float64 // mm
	Axis      int     // index of the axis position
	Handle    int     // index of the handle position
	Axial     float64 // axial place of the hand's middle, mm outward from the pivot
	Left      Grasp   // where the left arm's settings are others
	Offset    float64 // mm
	Tilt      float64 // rad
	HandPath  float64 // largest, mm
	HandRMS   float64 // mm
	HandAngle float64 // rad, flexion at the largest
	Common    float64 // hand path on one straight common axis with fixed handles, mm
	Still     float64 // hand path if the upper arm does not turn while it lifts, mm
	Turning   float64 // hand path if it turns by the brief's, or by WanderingTurn where that is 0, mm
	Turn      float64 // rad, of the humerus
	Foot      int     // index of the foot plate's position, -1 on the floor
	FootGap   float64 // shoe sole above floor or foot plate, mm
	Chest     int     // index of the chest pad's position, -1 without one
	ChestGap  float64 // from the chest forward to the pad's face, mm
	SeatLoad  float64 // least share of body weight on the seat
	Fits      bool
	TurnedBy  []string // ids of requirements that turn the person away
}

// Grasp is one arm's settings and hand path.
type Grasp struct {
	Axis, Handle int
	HandPath     float64 // largest, mm
}
