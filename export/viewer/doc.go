// Package viewer shows a station in space: what is drawn and how it moves, as data,
// and the script that draws it in a browser, on a page of its own (station.html) and
// on the local page.
//
// A scene holds the assembly's bodies once each, where they stand in the reference
// pose, and the motions of its groups as numbers, so that every pose is worked out
// where it is looked at. Only the right side and the middle are told: the left is the
// mirror image in the x-z plane. Machine frame, mm, rad, as in geometry/assembly.
package viewer
