package values

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

// Own choices across the axis, mm; parts are made to those that have a name outside.
const (
	BarsApart   = 8.0  // between the faces of bars on one pin: a spacer there, the other pin's end here
	LeverApart  = 28.0 // between output bar and plate lever: no finger is caught (ISO 13854: 25)
	gripClear   = 10.0 // between the grip's clear length and the arm's tube
	hubOver     = 5.0  // of the hub beyond the arm's tube on both sides, for the weld
	fingerRoom  = 20.0 // hub to bearing ring, which turns with it; the still housing is more than 25 away (ISO 13854)
	crushRoom   = 25.0 // ISO 13854, finger
	CheekThick  = 10.0
	CheekApart  = 44.0 // between the cheeks' inner faces: a spanner on the bearings' nuts
	LayerClear  = 4.0  // between things that turn beside each other
	WeightBar   = 12.0 // flat bar that carries counterweight or eccentric weight
	WeightThick = 30.0 // thickness of counterweights and eccentric weights
	CollarLong  = 25.0 // collar that holds such a bar on the shaft, on its outer side
	CamHub      = 22.0 // hub flange on the cam's inner side
	PlateGap    = 6.0  // between plate lever and innermost plate
	SleeveLong  = 120.0
	guardRoomy  = 25.0 // from what turns to the guard
)

// Planes works them out.
func (v *Station) Planes() Planes {
	var p Planes
	h := &v.Handle
	p.GripMiddle = h.Middle
	p.GripIn, p.GripOut = h.Middle-h.Length/2, h.Middle+h.Length/2
	half := v.Arm.Width/2 + hubOver
	p.Arm = p.GripOut + gripClear + v.Arm.Width/2
	p.HubIn, p.HubOut = p.Arm-half, p.Arm+half
	p.RingIn = p.HubOut + fingerRoom
	p.InnerCheek = p.RingIn + v.Bearing.Ring + CheekThick/2
	p.OuterCheek = p.InnerCheek + CheekApart + CheekThick
	p.Bearings = (p.InnerCheek + p.OuterCheek) / 2
	p.RingOut = p.OuterCheek + CheekThick/2 + v.Bearing.Ring

	at := p.RingOut + LayerClear
	layer := func(thick float64) float64 {
		at += thick + LayerClear
		return at - LayerClear - thick/2
	}
	weight := func(mass, reach float64) float64 {
		if mass <= 0 {
			return 0
		}
		at = max(at, p.RingOut+crushRoom+WeightBar/2+reach*v.swing()) // past the index plate, which reaches as far as the ring
		bar := layer(WeightBar)
		at += WeightThick
		return bar
	}
	if v.Geared() {
		p.Wheel = layer(v.WheelWide)
	}
	if v.Drive == CamDrive && !v.Geared() {
		at += CamHub
		p.Cam = layer(v.CamWide)
	}
	p.Counter = weight(v.Counter.Mass, v.Counter.Radius)
	p.Eccentric = weight(v.Eccentric.Mass, v.Eccentric.Radius)
	switch {
	case v.Geared():
		at += CamHub
		p.Cam = layer(v.CamWide)
	case v.Drive == LeverDrive:
		at += CollarLong
		p.Lever = layer(v.BarThick)
		p.Plates = p.Lever + v.BarThick/2 + PlateGap
		at = p.Plates + SleeveLong + LayerClear
	case v.Drive == LinkageDrive:
		at += CollarLong
		p.Input = layer(v.BarThick)
		p.Coupler = p.Input + v.BarThick + BarsApart
		p.Output = p.Coupler + v.BarThick + BarsApart
		p.PlateLever = p.Output + v.BarThick + LeverApart
		p.Plates = p.PlateLever + v.BarThick/2 + PlateGap
		at = p.Plates + SleeveLong + LayerClear
	}
	p.DriveEnd = at - LayerClear
	p.ShaftEnd = p.RingOut + LayerClear
	end := func(plane, half float64) {
		if plane > 0 {
			p.ShaftEnd = max(p.ShaftEnd, plane+half)
		}
	}
	end(p.Wheel, v.WheelWide/2)
	if !v.Geared() {
		end(p.Cam, v.CamWide/2)
	}
	end(p.Counter, WeightBar/2+CollarLong)
	end(p.Eccentric, WeightBar/2+CollarLong)
	end(p.Lever, v.BarThick/2)
	end(p.Input, v.BarThick/2)
	p.Guard = p.DriveEnd + guardRoomy
	return p
}

// swing is the greatest turn of an axis position from the middle one, rad.
func (v *Station) swing() float64 {
	most, middle := 0.0, v.inRestPlane(v.Axes[len(v.Axes)/2])
	for _, a := range v.Axes {
		most = max(most, math.Acos(min(1, r3.Dot(v.inRestPlane(a), middle))))
	}
	return most
}

// PostAside is how far from the midline the posts stand: under the middle of the
// bearings in the middle axis position.
func (v *Station) PostAside() float64 {
	return v.Spacing/2 - v.Planes().Bearings*v.inRestPlane(v.Axes[len(v.Axes)/2]).Y
}

// inRestPlane is the axis turned about the swivel line that is nearest to a.
func (v *Station) inRestPlane(a r3.Vec) r3.Vec {
	s, c := math.Sincos(v.Rest.Slope)
	up := r3.Vec{X: -c, Z: s}
	sn, cs := math.Sincos(math.Atan2(r3.Dot(a, up), -a.Y))
	return r3.Add(r3.Vec{Y: -cs}, r3.Scale(sn, up))
}
