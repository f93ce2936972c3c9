package elbow

import "math"

// TorqueRatio returns elbow torque over machine torque when the elbow axis
// lies offset ahead of the machine axis along the lever, towards the hand, and
// the load at the distance radius from the machine axis is normal to the
// lever. An offset across the lever does not change the torque. The radius
// must be positive.
//
//	tau_elbow/tau_machine = 1 - offset/radius
func TorqueRatio(offset, radius float64) float64 {
	return 1 - offset/radius
}

// HandSlide returns how far the hand slides along the lever, outward positive,
// when the elbow axis is displaced from the machine axis by along (towards the
// hand) and across the lever, and the handle is at the distance radius from
// the machine axis: the distance from elbow to handle less the radius.
func HandSlide(along, across, radius float64) float64 {
	return math.Hypot(radius-along, across) - radius
}

// TiltDrift returns how far the handle moves sideways against the hand between
// a straight elbow and flexion theta when the machine axis is tilted in the
// frontal plane by tilt against the elbow axis, with the hand at the distance
// length from the elbow.
//
//	length sin(tilt) (1 - cos(theta))
func TiltDrift(length, tilt, theta float64) float64 {
	s := math.Sin(theta / 2)
	return length * math.Sin(tilt) * 2 * s * s
}
