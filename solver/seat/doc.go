// Package seat places one person on a geometry: the positions of seat, axis, handle
// and foot plate that suit the person best, the pose that follows, and the rows of
// requirements that are the person's own.
package seat
