// Package fit turns a brief into the geometry of a station: the brief as a nonlinear
// program, its variables and where it begins, the axis positions and parts that are
// tried, and what every station must keep to that simple bounds show.
package fit
