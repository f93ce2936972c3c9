// Package build makes a station's geometry into matter: its layout, the fittings of
// its drive, the way of the cable, the bodies that move with an arm, and the list of
// its parts.
package build
