// Package person puts the bodies of one seated person round a pose: head, neck,
// trunk and limbs as convex bodies, in the machine frame (origin on the floor
// midway between the pivots, +x the way the user faces, +y to the user's left, +z
// up); mm and rad. It tells the gaps between them and the parts of a station.
//
// The bodies are what a check for collisions takes: close to the measured sizes
// where a station comes near a person (hips, thighs, knees, shanks, feet, arms),
// coarse at face and fingers.
package person
