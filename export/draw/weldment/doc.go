// Package weldment draws sheets 1xx: one for each weldment, the parts of an assembly
// that welds join. What stands on the base is a weldment of its own, so that each is
// made on a bench and the frame is welded of them.
//
// A weldment has its own frame: axes along most of its members, as near to the
// machine's as may be, and an origin where three faces of its datum member meet, or on
// that member's axis where it is round. Every member is placed from there.
//
// Symbols of welds are those of ISO 2553:2013, system A, or of AWS A2.4 in inches;
// general tolerances are those of ISO 13920.
package weldment
