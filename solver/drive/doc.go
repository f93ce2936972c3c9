// Package drive designs and evaluates the resistance of one geometry: the closest
// cam that a cable can follow, plates on a lever, a four-bar linkage, and the
// counterweight; with the torque that follows at each load, at rest, with friction
// and in motion. It knows the loaded range, the strength curve and what the drive is
// built from, and nothing of where people sit.
package drive
