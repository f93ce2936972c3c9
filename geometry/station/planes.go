package station

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Planes are the places of everything along the right pivot axis, mm outward from
// the pivot, the middles unless told otherwise. What the station has not is 0.
//
// From inside: the grip, the arm's tube, a crush gap, the two bearings outward on
// the outer faces of two cheeks, then what the drive needs.
type Planes struct {
	GripIn, GripMiddle, GripOut float64 // ends and middle of the clear grip
	Arm                         float64 // arm tube, hub and slide
	HubIn, HubOut               float64 // faces of the hub: the arm shaft begins at HubIn
	RingIn                      float64 // inner end of the inner bearing's ring
	InnerCheek, OuterCheek      float64
	Bearings                    float64 // halfway between the cheeks; the post stands here
	RingOut                     float64 // outer end of the outer bearing's ring

	Wheel      float64 // of arm shaft and countershaft
	Counter    float64 // bar of the counterweight, the weight on its outer side
	Eccentric  float64 // bar of the eccentric weight, likewise
	Cam        float64
	Lever      float64
	Input      float64
	Coupler    float64
	Output     float64
	PlateLever float64
	Plates     float64 // inner face of the innermost plate
	DriveEnd   float64 // outer end of all that turns
	ShaftEnd   float64 // outer end of the arm's shaft, which begins at HubIn
	Guard      float64 // inner face of the guard outside
}

// WeightThick is the thickness of counterweights and eccentric weights, mm (own
// choice).
const WeightThick = 30.0

// Own choices across the axis, mm.
const (
	barsApart   = 8.0  // between the faces of bars on one pin: a spacer there, the other pin's end here
	leverApart  = 28.0 // between output bar and plate lever: no finger is caught (ISO 13854: 25)
	gripClear   = 10.0 // between the grip's clear length and the arm's tube
	hubOver     = 5.0  // of the hub beyond the arm's tube on both sides, for the weld
	fingerRoom  = 20.0 // hub to bearing ring, which turns with it; the still housing is more than 25 away (ISO 13854)
	crushRoom   = 25.0 // ISO 13854, finger
	cheekThick  = 10.0
	cheekApart  = 44.0 // between the cheeks' inner faces: a spanner on the bearings' nuts
	layerClear  = 4.0  // between things that turn beside each other
	weightBar   = 12.0 // flat bar that carries counterweight or eccentric weight
	weightThick = WeightThick
	collarLong  = 25.0 // collar that holds such a bar on the shaft, on its outer side
	camHub      = 22.0 // hub flange on the cam's inner side
	plateGap    = 6.0  // between plate lever and innermost plate
	sleeveLong  = 120.0
	guardRoomy  = 25.0 // from what turns to the guard
)

// Planes works them out.
func (v *Values) Planes() Planes {
	var p Planes
	h := &v.Handle
	p.GripMiddle = h.Middle
	p.GripIn, p.GripOut = h.Middle-h.Length/2, h.Middle+h.Length/2
	half := v.Arm.Width/2 + hubOver
	p.Arm = p.GripOut + gripClear + v.Arm.Width/2
	p.HubIn, p.HubOut = p.Arm-half, p.Arm+half
	p.RingIn = p.HubOut + fingerRoom
	p.InnerCheek = p.RingIn + v.Bearing.Ring + cheekThick/2
	p.OuterCheek = p.InnerCheek + cheekApart + cheekThick
	p.Bearings = (p.InnerCheek + p.OuterCheek) / 2
	p.RingOut = p.OuterCheek + cheekThick/2 + v.Bearing.Ring

	at := p.RingOut + layerClear
	layer := func(thick float64) float64 {
		at += thick + layerClear
		return at - layerClear - thick/2
	}
	weight := func(mass, reach float64) float64 {
		if mass <= 0 {
			return 0
		}
		at = max(at, p.RingOut+crushRoom+weightBar/2+reach*v.swing()) // past the index plate, which reaches as far as the ring
		bar := layer(weightBar)
		at += weightThick
		return bar
	}
	if v.Geared() {
		p.Wheel = layer(v.WheelWide)
	}
	if v.Drive == CamDrive && !v.Geared() {
		at += camHub
		p.Cam = layer(v.CamWide)
	}
	p.Counter = weight(v.Counter.Mass, v.Counter.Radius)
	p.Eccentric = weight(v.Eccentric.Mass, v.Eccentric.Radius)
	switch {
	case v.Geared():
		at += camHub
		p.Cam = layer(v.CamWide)
	case v.Drive == LeverDrive:
		at += collarLong
		p.Lever = layer(v.BarThick)
		p.Plates = p.Lever + v.BarThick/2 + plateGap
		at = p.Plates + sleeveLong + layerClear
	case v.Drive == LinkageDrive:
		at += collarLong
		p.Input = layer(v.BarThick)
		p.Coupler = p.Input + v.BarThick + barsApart
		p.Output = p.Coupler + v.BarThick + barsApart
		p.PlateLever = p.Output + v.BarThick + leverApart
		p.Plates = p.PlateLever + v.BarThick/2 + plateGap
		at = p.Plates + sleeveLong + layerClear
	}
	p.DriveEnd = at - layerClear
	p.ShaftEnd = p.RingOut + layerClear
	end := func(plane, half float64) {
		if plane > 0 {
			p.ShaftEnd = max(p.ShaftEnd, plane+half)
		}
	}
	end(p.Wheel, v.WheelWide/2)
	if !v.Geared() {
		end(p.Cam, v.CamWide/2)
	}
	end(p.Counter, weightBar/2+collarLong)
	end(p.Eccentric, weightBar/2+collarLong)
	end(p.Lever, v.BarThick/2)
	end(p.Input, v.BarThick/2)
	p.Guard = p.DriveEnd + guardRoomy
	return p
}

// swing is the greatest turn of an axis position from the middle one, rad.
func (v *Values) swing() float64 {
	most, middle := 0.0, v.inRestPlane(v.Axes[len(v.Axes)/2])
	for _, a := range v.Axes {
		most = max(most, math.Acos(min(1, r3.Dot(v.inRestPlane(a), middle))))
	}
	return most
}

// PostAside is how far from the midline the posts stand: under the middle of the
// bearings in the middle axis position.
func (v *Values) PostAside() float64 {
	return v.Spacing/2 - v.Planes().Bearings*v.inRestPlane(v.Axes[len(v.Axes)/2]).Y
}

// inRestPlane is the axis turned about the swivel line that is nearest to a.
func (v *Values) inRestPlane(a r3.Vec) r3.Vec {
	s, c := math.Sincos(v.Rest.Slope)
	up := r3.Vec{X: -c, Z: s}
	sn, cs := math.Sincos(math.Atan2(r3.Dot(a, up), -a.Y))
	return r3.Add(r3.Vec{Y: -cs}, r3.Scale(sn, up))
}

// weightReach is how far from the pivot the weights on the arm's shaft come, 0 without
// any.
func (v *Values) weightReach() float64 {
	reach := 0.0
	for _, w := range [2]struct{ mass, radius float64 }{{v.Counter.Mass, v.Counter.Radius}, {v.Eccentric.Mass, v.Eccentric.Radius}} {
		if w.mass > 0 {
			// A corner of the square block, which is no heavier than the weight.
			side := math.Sqrt(w.mass/(steelDensity*weightThick) + math.Pi/4*weightHole*weightHole)
			reach = max(reach, w.radius+side/math.Sqrt2)
		}
	}
	return reach
}
