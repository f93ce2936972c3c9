// Package hidden projects solids with what hides them taken away: visible and hidden
// edges, contours of round faces, and places that can be seen. Frames are right-handed,
// lengths mm.
//
// docs/drawings.md describes the method.
package hidden
