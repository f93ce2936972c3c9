package tolerance

import (
	"math"

	"armwright/geometry/cam"
	"armwright/specs"
	"armwright/specs/stock"
)

// camError is one way in which a cam, or its guide sheave, is not where or what
// it should be. Lengths mm, angles rad.
type camError int

const (
	noCamError   camError = iota
	turned                // the cam on its shaft, counter-clockwise
	grown                 // its edge all round, outwards
	oval                  // its edge, outwards where the normal is at 0 and 180 degrees
	ovalAcross            // the same at 45 and 225 degrees
	offForward            // its outline to its bore, along the cam's own x
	offUp                 // along its own y
	guideForward          // the guide sheave to the cam axis
	guideUp
	guideGrown // radius of the guide sheave
)

func camDimensions(c *specs.Cam, class Classes, keep func(float64, error) float64) []Dimension {
	place := keep(stock.WeldedTolerance(class.Welded, math.Max(30, math.Hypot(c.GuideX, c.GuideY))))
	welded := "ISO 13920-" + class.Welded + " (M)"
	list := []Dimension{
		{Name: "cam turned on its shaft", Feature: "cam phase", Tolerance: phaseTurn, Unit: Radian, By: "hole places, derived", Arm: true, cam: turned},
		{Name: "cam edge, all round", Feature: "cam profile", Tolerance: camCut, By: "own choice", Arm: true, cam: grown},
		{Name: "cam edge, oval", Feature: "cam profile", Tolerance: camCut, By: "own choice", Arm: true, cam: oval},
		{Name: "cam edge, oval across", Feature: "cam profile", Tolerance: camCut, By: "own choice", Arm: true, cam: ovalAcross},
		{Name: "cam off its bore, forward", Feature: "cam holes", Tolerance: camCut, By: "own choice", Arm: true, cam: offForward},
		{Name: "cam off its bore, up", Feature: "cam holes", Tolerance: camCut, By: "own choice", Arm: true, cam: offUp},
		{Name: "guide sheave forward", Feature: "guide sheave", Size: math.Hypot(c.GuideX, c.GuideY), Tolerance: place, By: welded, Arm: true, cam: guideForward},
		{Name: "guide sheave up", Feature: "guide sheave", Size: math.Hypot(c.GuideX, c.GuideY), Tolerance: place, By: welded, Arm: true, cam: guideUp},
	}
	if c.GuideR > 0 { // not a place the cable is tied to
		list = append(list, Dimension{Name: "radius of the guide sheave", Feature: "guide sheave radius", Size: c.GuideR, Tolerance: keep(stock.LinearTolerance(class.Machined, math.Max(c.GuideR, leastRadius))), By: "ISO 2768-" + class.Machined, Arm: true, cam: guideGrown})
	}
	return list
}

// leastRadius is the least size for which every class has a tolerance, mm.
const leastRadius = 3.1

// armChange is the change of a cable's moment arm at a state of its cam for each
// unit of an error, to first order: mm per mm or per rad.
//
// The cable line n(psi)·p = h touches the cam, h = H(psi - a) with a the cam's
// turn, and passes the guide's centre Q at the distance s r, h = n(psi)·Q + s r.
// An error that turns the cam by da, moves its outline outwards by dH at the
// normal, the guide by dQ and widens it by dr changes both; with H' - Q·n'(psi)
// the free span,
//
//	dpsi = (H' da + n·dQ + s dr - dH) / span
//	dh   = H' (dpsi - da) + dH
func armChange(e camError, p cam.Profile, s cam.State) float64 {
	var da, dH, dQ float64 // dQ with the guide's radius: what widens the distance
	sin, cos := math.Sincos(s.Phi)
	switch e {
	case turned:
		da = 1
	case grown:
		dH = 1
	case oval:
		dH = math.Cos(2 * s.Phi)
	case ovalAcross:
		dH = math.Sin(2 * s.Phi)
	case offForward:
		dH = cos
	case offUp:
		dH = sin
	case guideForward:
		dQ = math.Cos(s.Psi)
	case guideUp:
		dQ = math.Sin(s.Psi)
	case guideGrown:
		dQ = float64(p.Guide.Side)
	}
	turn := (s.Support.H1*da + dQ - dH) / s.Span
	return s.Support.H1*(turn-da) + dH
}
